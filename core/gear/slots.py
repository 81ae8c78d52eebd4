"""The places of a rig where a part can sit, what may sit there instead, and taking it out.

A slot is a field of the rig, with a 0-based number where the field holds several parts.
Parts are put in, taken out and moved by functions that take a rig and give a new one.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from core.errors import BadValueError
from core.gear.parts import Camera, Mount, Part, Telescope, family
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.record.validation import Record

__all__ = [
    "Slot",
    "alternatives",
    "fields_of",
    "inserted",
    "moved",
    "slots_of",
    "with_part",
    "with_parts",
    "without_part",
]

#: Slots that a rig has always filled, and the row of its other parts.
_NEEDED = ("telescope", "camera")
_ROW = "others"


@dataclass(frozen=True, order=True)
class Slot:
    """A field of a rig; `place` counts from 0 where the field holds several parts."""

    field: str
    place: int | None = None


def slots_of(rig: Rig) -> dict[Slot, Part]:
    """Give every part with the slot it sits in, in the order of the rig's fields."""
    return dict(_parts_in(rig))


def with_parts(rig: Rig, parts: Mapping[Slot, Part]) -> Rig:
    """Put parts into slots.

    Parameters
    ----------
    rig : Rig
    parts : mapping of Slot to Part
        The slots must be filled already; the part must be of the slot's class.

    Raises
    ------
    BadValueError
        When the rig has no such slot.
    InvalidRigError
        When a part does not belong there, or the rig cannot be.
    """
    filled = slots_of(rig)
    for slot in parts:
        if slot not in filled:
            raise BadValueError("slot", _words(slot), f'is empty in "{rig.name}"')
    return rig.but(**fields_of({**filled, **parts}))


def fields_of(filled: Mapping[Slot, Part]) -> dict[str, Any]:
    """Give the fields of the rig whose slots are filled so.

    Parameters
    ----------
    filled : mapping of Slot to Part
        Every filled slot of the rig, in the order of `slots_of`.

    Returns
    -------
    dict
        A part, or a tuple of them where the field holds several, by the field's name;
        without what the rig does not have.
    """
    fields: dict[str, Any] = {}
    for slot, part in filled.items():
        if slot.place is None:
            fields[slot.field] = part
        else:
            fields.setdefault(slot.field, []).append(part)
    return {name: tuple(one) if isinstance(one, list) else one for name, one in fields.items()}


def with_part(rig: Rig, slot: Slot, part: Part) -> Rig:
    """Put a part into one slot, filled or empty.

    Parameters
    ----------
    rig : Rig
    slot : Slot
        The corrector, the mount, and the place behind the last of the other parts may be
        empty.
    part : Part

    Raises
    ------
    BadValueError
        When the rig can have no such slot.
    InvalidRigError
        When the part does not belong there, or the rig cannot be.
    """
    if slot in (Slot("corrector"), Slot("mount")):
        return rig.but(**{slot.field: part})
    if slot == Slot(_ROW, len(rig.others)):
        return inserted(rig, len(rig.others), part)
    return with_parts(rig, {slot: part})


def without_part(rig: Rig, slot: Slot) -> Rig:
    """Take the part out of a slot.

    Parameters
    ----------
    rig : Rig
    slot : Slot

    Raises
    ------
    BadValueError
        When it is the telescope or the camera, which every rig has, or the slot is empty.
    """
    part = slots_of(rig).get(slot)
    if part is None:
        raise BadValueError("slot", _words(slot), f'is empty in "{rig.name}"')
    if slot.field in _NEEDED:
        rule = f"a rig has a {slot.field}; put another in its place instead"
        raise BadValueError(slot.field, part.name, rule)
    if slot.place is None:
        return rig.but(**{slot.field: None})
    return rig.but(others=(*rig.others[: slot.place], *rig.others[slot.place + 1 :]))


def inserted(rig: Rig, place: int, part: Part) -> Rig:
    """Put a part among the other parts, before the one at a place.

    Parameters
    ----------
    rig : Rig
    place : int
        0 to the number of other parts; beyond an end means at that end.
    part : Part

    Raises
    ------
    InvalidRigError
        When it is no part of that kind.
    """
    at = min(max(place, 0), len(rig.others))
    return rig.but(others=(*rig.others[:at], part, *rig.others[at:]))


def moved(rig: Rig, place: int, to: int) -> Rig:
    """Move one of the other parts, counted from the sky, to another place among them.

    Parameters
    ----------
    rig : Rig
    place : int
        Where it is.
    to : int
        Where it will be; beyond an end means at that end.

    Raises
    ------
    BadValueError
        When no part is there.
    """
    if not 0 <= place < len(rig.others):
        raise BadValueError("slot", _words(Slot(_ROW, place)), f'is empty in "{rig.name}"')
    rest = [*rig.others[:place], *rig.others[place + 1 :]]
    rest.insert(min(max(to, 0), len(rest)), rig.others[place])
    return rig.but(others=tuple(rest))


def alternatives(part: Part, shelf: Shelf) -> tuple[Part, ...]:
    """Give what may take a part's place.

    Parameters
    ----------
    part : Part
        The alternatives that it names, if it names any, are the only ones.
    shelf : Shelf

    Returns
    -------
    tuple of Part
        Without the part itself. If it names none: everything on the shelf that does the
        same work, which is any telescope or mount, a camera that sees colour as this one
        does, and of the rest what is of the same kind.

    Raises
    ------
    BadValueError
        When a name is not on the shelf.
    """
    same_class = [found for _, found in _parts_in(shelf) if family(found) == family(part)]
    named: tuple[str, ...] = getattr(part, "alternatives", ())
    if not named:
        return tuple(p for p in same_class if p.name != part.name and _same_work(p, part))
    by_name = {found.name: found for found in same_class}
    for name in named:
        if name not in by_name:
            raise BadValueError(f"alternative to {part.name}", name, "is not on the shelf")
    return tuple(by_name[name] for name in dict.fromkeys(named) if name != part.name)


def _parts_in(record: Record) -> list[tuple[Slot, Part]]:
    """Every part in the fields of a record."""
    found: list[tuple[Slot, Part]] = []
    for field in type(record).model_fields:
        value = getattr(record, field)
        if isinstance(value, Part):
            found.append((Slot(field), value))
        elif isinstance(value, tuple):
            row = enumerate(value)
            found += [(Slot(field, place), part) for place, part in row if isinstance(part, Part)]
    return found


def _same_work(one: Part, other: Part) -> bool:
    """Tell whether one part does the work of another of its class."""
    if isinstance(one, Telescope | Mount):
        return True
    if isinstance(one, Camera) and isinstance(other, Camera):
        return None in (one.sensor, other.sensor) or one.sensor == other.sensor
    return getattr(one, "kind", None) == getattr(other, "kind", None)


def _words(slot: Slot) -> str:
    """Say where a slot is."""
    field = slot.field.replace("_", " ")
    return field if slot.place is None else f"{field} {slot.place + 1}"
