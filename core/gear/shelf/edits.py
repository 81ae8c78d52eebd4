"""Changes to a shelf: each function takes one and gives a new one, checked throughout.

A part that a rig of the shelf uses stays; a part that gets another name keeps its place in
the rigs and among the alternatives of other parts.
"""

from collections.abc import Callable

from core.errors import BadValueError
from core.gear.parts import Part, family
from core.gear.shelf.shelf import Shelf, ShelfRig, near

__all__ = [
    "KINDS",
    "renamed",
    "row_of",
    "used_by",
    "with_part",
    "with_part_changed",
    "without_part",
    "without_rig",
]

#: The row of the shelf that holds a kind of part.
KINDS = {
    "telescope": "telescopes",
    "corrector": "correctors",
    "camera": "cameras",
    "mount": "mounts",
    "other": "others",
}
_FAMILIES = {
    "Telescope": "telescopes",
    "Corrector": "correctors",
    "Camera": "cameras",
    "Mount": "mounts",
    "OtherPart": "others",
}


def row_of(part: Part) -> str:
    """Give the row of the shelf that holds a part."""
    return _FAMILIES[family(part)]


def used_by(shelf: Shelf, row: str, name: str) -> tuple[str, ...]:
    """Name the rigs of the shelf that use a part."""
    return tuple(rig.name for rig in shelf.rigs if (row, name) in rig.names())


def with_part(shelf: Shelf, part: Part) -> Shelf:
    """Put a part on the shelf.

    Parameters
    ----------
    shelf : Shelf
    part : Part

    Returns
    -------
    Shelf
        The same one when it has exactly this part already.

    Raises
    ------
    BadValueError
        When there is another one by its name; `with_part_changed` replaces it.
    """
    row = row_of(part)
    there = next((one for one in getattr(shelf, row) if one.name == part.name), None)
    if there == part:
        return shelf
    if there is not None:
        rule = "is on the shelf with other figures; give it another name, or change that one"
        raise BadValueError(_one(row), part.name, rule)
    return shelf.but(**{row: (*getattr(shelf, row), part)})


def with_part_changed(shelf: Shelf, name: str, part: Part) -> Shelf:
    """Put a part in the place of one of its kind.

    Parameters
    ----------
    shelf : Shelf
    name : str
        What the part is called so far; rigs follow when the new one has another name.
    part : Part

    Raises
    ------
    BadValueError
        When there is no such part, the new name is taken, or a rig could not be any more.
    """
    row = row_of(part)
    _check_there(shelf, row, name)
    changes: dict[str, object] = {
        row: tuple(part if one.name == name else one for one in getattr(shelf, row))
    }
    if part.name != name:
        rigs = (renamed(rig, row, name, part.name) for rig in shelf.rigs)
        changes["rigs"] = tuple(rigs)
        changes[row] = _with_alternatives(changes[row], lambda n: part.name if n == name else n)
    return shelf.but(**changes)


def without_part(shelf: Shelf, kind: str, name: str) -> Shelf:
    """Take a part off the shelf, also out of the alternatives of others.

    Parameters
    ----------
    shelf : Shelf
    kind : str
        One of `KINDS`.
    name : str

    Raises
    ------
    BadValueError
        When there is none, or a rig of the shelf uses it; then it names the rigs.
    """
    if kind not in KINDS:
        raise BadValueError("kind of part", kind, f"must be one of {', '.join(KINDS)}")
    row = KINDS[kind]
    _check_there(shelf, row, name)
    users = used_by(shelf, row, name)
    if users:
        rigs = " and ".join(f'"{user}"' for user in users)
        noun = "the rigs" if len(users) > 1 else "the rig"
        rule = f"is used by {noun} {rigs} and stays on the shelf; change or remove {noun} first"
        raise BadValueError(_one(row), name, rule)
    left = tuple(part for part in getattr(shelf, row) if part.name != name)
    return shelf.but(**{row: _with_alternatives(left, lambda n: None if n == name else n)})


def without_rig(shelf: Shelf, name: str) -> Shelf:
    """Take a rig off the shelf; its parts stay. BadValueError when there is none."""
    names = [rig.name for rig in shelf.rigs]
    if name not in names:
        raise BadValueError("rig", name, f"is not on the shelf{near(name, names)}")
    return shelf.but(rigs=tuple(rig for rig in shelf.rigs if rig.name != name))


def _one(row: str) -> str:
    """Call one part of a row by its kind."""
    kind = next(kind for kind, held in KINDS.items() if held == row)
    return "other part" if kind == "other" else kind


def _check_there(shelf: Shelf, row: str, name: str) -> None:
    """Refuse a name that the row does not hold."""
    names = [part.name for part in getattr(shelf, row)]
    if name not in names:
        raise BadValueError(_one(row), name, f"is not on the shelf{near(name, names)}")


def renamed(rig: ShelfRig, row: str, old: str, new: str) -> ShelfRig:
    """Let a rig follow the new name of a part."""
    if (row, old) not in rig.names():
        return rig
    if row == "others":
        return rig.but(others=tuple(new if name == old else name for name in rig.others))
    return rig.but(**{row.removesuffix("s"): new})


def _with_alternatives(parts: object, follow: Callable[[str], str | None]) -> tuple[Part, ...]:
    """Let the alternatives of parts follow a new name, or lose one that is gone."""
    assert isinstance(parts, tuple)
    followed: list[Part] = []
    for part in parts:
        names = tuple(name for old in part.alternatives if (name := follow(old)) is not None)
        followed.append(part if names == part.alternatives else part.but(alternatives=names))
    return tuple(followed)
