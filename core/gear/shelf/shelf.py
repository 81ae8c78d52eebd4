"""The shelf: parts to build rigs from, and rigs of them, read from one JSON file.

A rig on the shelf names its parts, which keeps the file short and lets a figure be put
right in one place. The shelf that comes with the program holds classes of equipment, no
products, with invented prices in one currency.
"""

from pathlib import Path
from typing import Any, ClassVar, Literal, Self, TypeVar

from pydantic import model_validator

from core.errors import BadValueError, CoreError, InvalidRigError
from core.gear.accessories import AnyOther
from core.gear.currency import Currency
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Part, Telescope
from core.gear.rig import Rig
from core.paths import ASSETS
from core.record.record_file import read_record
from core.record.validation import Name, Record, words_of

__all__ = ["ROWS", "Currency", "Shelf", "ShelfRig", "near"]

#: The row of the shelf that fills a slot of a rig.
ROWS = {
    "telescope": "telescopes",
    "corrector": "correctors",
    "camera": "cameras",
    "mount": "mounts",
    "others": "others",
}
#: One part of each row, as it is called in a sentence.
_WORDS = {
    "telescopes": "telescope",
    "correctors": "corrector",
    "cameras": "camera",
    "mounts": "mount",
    "others": "other part",
}

Some = TypeVar("Some", bound=Part)


class ShelfRig(Record):
    """A rig by the names of its parts on the shelf; the rest is as in `Rig`."""

    refused_as: ClassVar[type[BadValueError]] = InvalidRigError

    name: Name
    """What the rig is called; once on a shelf."""
    telescope: Name
    """Name of a telescope of the shelf."""
    camera: Name
    """Name of a camera of the shelf."""
    corrector: Name | None = None
    """Name of a corrector of the shelf, if there is one."""
    mount: Name | None = None
    """Name of a mount of the shelf, if it is known."""
    others: tuple[Name, ...] = ()
    """Names of other parts of the shelf; what the light passes in its order."""
    counterweight: bool | None = None
    """Whether there is a counterweight; left out: on an equatorial mount, and on no other."""

    @classmethod
    def of(cls, rig: Rig) -> "ShelfRig":
        """Name the parts of a rig."""
        fields = {field: getattr(rig, field) for field in cls.model_fields}
        for slot in ROWS:
            fields[slot] = _names(fields[slot])
        return cls(**fields)

    def names(self) -> list[tuple[str, str]]:
        """Give every part's row on the shelf and its name, slot by slot."""
        found: list[tuple[str, str]] = []
        for slot, row in ROWS.items():
            named = getattr(self, slot)
            for name in (named,) if isinstance(named, str) else named or ():
                found.append((row, name))
        return found


class Shelf(Record):
    """Parts by kind, each name once within its kind, and rigs of these parts."""

    format: Literal["skysill-shelf"] = "skysill-shelf"
    """Tells a shelf from other files."""
    version: Literal[1] = 1
    """Version of the format."""
    currency: Currency
    """Currency of every price, three letters of ISO 4217."""
    telescopes: tuple[Telescope, ...] = ()
    """Telescopes and lenses."""
    correctors: tuple[Corrector, ...] = ()
    """Reducers, flatteners, coma correctors, extenders."""
    cameras: tuple[Camera, ...] = ()
    """Cameras that take the picture."""
    mounts: tuple[Mount, ...] = ()
    """Mounts and trackers."""
    others: tuple[AnyOther, ...] = ()
    """Everything else that a rig needs."""
    rigs: tuple[ShelfRig, ...] = ()
    """Rigs of these parts, by their names."""

    @model_validator(mode="after")
    def _names_differ(self) -> Self:
        """Refuse two parts of one kind, or two rigs, by one name."""
        for kind in (*ROWS.values(), "rigs"):
            seen: set[str] = set()
            for part in getattr(self, kind):
                if part.name in seen:
                    place = f"{words_of((kind,))}, name"
                    raise BadValueError(place, part.name, "must be there only once")
                seen.add(part.name)
        return self

    @model_validator(mode="after")
    def _rigs_can_be(self) -> Self:
        """Refuse a rig that names what is not there, or whose parts make no rig."""
        parts = {row: {part.name: part for part in getattr(self, row)} for row in ROWS.values()}
        for number, rig in enumerate(self.rigs, 1):
            _built(rig, parts, f"rig {number}")
        return self

    @classmethod
    def load(cls, path: Path | None = None) -> "Shelf":
        """Read a shelf.

        Parameters
        ----------
        path : Path, optional
            The file; by default the shelf that comes with the program.

        Raises
        ------
        CoreError
            When it is not a shelf; names the file, the place, the value and the rule.
        StorageError
            When it cannot be read.
        """
        return read_record(path or ASSETS / "shelf" / "shelf.json", cls, refused_as=CoreError)

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every part, row by row."""
        return tuple(part for row in ROWS.values() for part in getattr(self, row))

    def telescope(self, name: str) -> Telescope:
        """Find a telescope or lens by name; BadValueError when there is none."""
        return _named(self.telescopes, "telescope", name)

    def corrector(self, name: str) -> Corrector:
        """Find a corrector by name; BadValueError when there is none."""
        return _named(self.correctors, "corrector", name)

    def camera(self, name: str) -> Camera:
        """Find a camera by name; BadValueError when there is none."""
        return _named(self.cameras, "camera", name)

    def mount(self, name: str) -> Mount:
        """Find a mount by name; BadValueError when there is none."""
        return _named(self.mounts, "mount", name)

    def other(self, name: str) -> OtherPart:
        """Find any other part by name; BadValueError when there is none."""
        return _named(self.others, "other part", name)

    def rig(self, name: str) -> Rig:
        """Build the rig of that name from the parts; BadValueError when there is none."""
        wanted = next((rig for rig in self.rigs if rig.name == name), None)
        if wanted is None:
            hint = near(name, [rig.name for rig in self.rigs])
            raise BadValueError("rig", name, f"is not on the shelf{hint}")
        parts = {row: {part.name: part for part in getattr(self, row)} for row in ROWS.values()}
        return _built(wanted, parts, "rig")


def near(name: str, known: list[str]) -> str:
    """Give what a name may have been meant for, to be put behind a refusal.

    Examples
    --------
    >>> near("refractor 80/408", ["lens 24 f/2.8", "refractor 80/480"])
    '; did you mean "refractor 80/480"?'
    """
    from difflib import get_close_matches

    folded = {one.casefold(): one for one in known}
    close = [folded[one] for one in get_close_matches(name.casefold(), list(folded), n=2)]
    return f"; did you mean {' or '.join(map(_quoted, close))}?" if close else ""


def _quoted(name: str) -> str:
    """Put a name into quotation marks."""
    return f'"{name}"'


def _names(held: Any) -> Any:
    """Put names in the place of parts."""
    if isinstance(held, tuple):
        return tuple(part.name for part in held)
    return held.name if isinstance(held, Part) else held


def _built(rig: ShelfRig, parts: dict[str, dict[str, Any]], place: str) -> Rig:
    """Put a rig together from the parts of a shelf, by their rows and names."""
    fields = dict(rig)
    for row, name in rig.names():
        if name not in parts[row]:
            rule = f'the rig "{rig.name}" names it, but it is not on the shelf'
            raise BadValueError(f"{place}, {_WORDS[row]}", name, rule + near(name, [*parts[row]]))
    for slot, row in ROWS.items():
        named = fields[slot]
        if isinstance(named, tuple):
            fields[slot] = tuple(parts[row][name] for name in named)
        elif named is not None:
            fields[slot] = parts[row][named]
    try:
        return Rig(**fields)
    except BadValueError as error:
        named_place = f"{place}, {error.field}"
        raise BadValueError(named_place, error.value, f'{error.rule} ("{rig.name}")') from None


def _named(parts: tuple[Some, ...], kind: str, name: str) -> Some:
    """Find a part by its name."""
    for part in parts:
        if part.name == name:
            return part
    raise BadValueError(kind, name, "is not on the shelf" + near(name, [p.name for p in parts]))
