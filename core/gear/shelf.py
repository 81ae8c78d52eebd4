"""The shelf: parts to build rigs from, read from one JSON file.

The shelf that comes with the program holds classes of equipment, no products, with
invented prices in one currency.
"""

from pathlib import Path
from typing import Annotated, Literal, Self, TypeVar

from pydantic import AfterValidator, model_validator

from core.errors import BadValueError, CoreError
from core.gear.accessories import AnyOther
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Part, Telescope
from core.gear.record_file import read_record
from core.gear.validation import Record
from core.paths import ASSETS

__all__ = ["Currency", "Shelf"]


def _currency(letters: str) -> str:
    """Hold a currency against the form of its code."""
    if not (len(letters) == 3 and letters.isascii() and letters.isalpha() and letters.isupper()):
        raise BadValueError("currency", letters, "must be three capital letters (ISO 4217)")
    return letters


#: A currency by its three letters (ISO 4217).
Currency = Annotated[str, AfterValidator(_currency)]

Some = TypeVar("Some", bound=Part)


class Shelf(Record):
    """Parts by kind, each name once within its kind."""

    format: Literal["skysill-shelf"] = "skysill-shelf"
    version: Literal[1] = 1
    currency: Currency
    telescopes: tuple[Telescope, ...] = ()
    correctors: tuple[Corrector, ...] = ()
    cameras: tuple[Camera, ...] = ()
    mounts: tuple[Mount, ...] = ()
    others: tuple[AnyOther, ...] = ()

    @model_validator(mode="after")
    def _names_differ(self) -> Self:
        """Refuse two parts of one kind by one name."""
        for kind in ("telescopes", "correctors", "cameras", "mounts", "others"):
            seen: set[str] = set()
            for part in getattr(self, kind):
                if part.name in seen:
                    raise BadValueError(f"{kind}, name", part.name, "must be there only once")
                seen.add(part.name)
        return self

    @classmethod
    def load(cls, path: Path = ASSETS / "shelf" / "shelf.json") -> "Shelf":
        """Read a shelf.

        Parameters
        ----------
        path : Path
            The file; by default the shelf that comes with the program.

        Raises
        ------
        CoreError
            When it is not a shelf; names the file, the place, the value and the rule.
        StorageError
            When it cannot be read.
        """
        return read_record(path, cls, refused_as=CoreError)

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


def _named(parts: tuple[Some, ...], kind: str, name: str) -> Some:
    """Find a part by its name."""
    for part in parts:
        if part.name == name:
            return part
    raise BadValueError(kind, name, "is not on the shelf")
