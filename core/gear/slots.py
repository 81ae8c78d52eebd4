"""The places of a rig where a part can sit, and what may sit there instead.

A slot is a field of the rig, with a 0-based number where the field holds several parts.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from core.errors import BadValueError
from core.gear.parts import Camera, Mount, Part, Telescope
from core.gear.prices import family
from core.gear.rig import Rig
from core.gear.shelf import Shelf
from core.gear.validation import Record

__all__ = ["Slot", "alternatives", "slots_of", "with_parts"]


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
    changes: dict[str, object] = {}
    for slot, part in parts.items():
        if slot not in filled:
            raise BadValueError("slot", _words(slot), f'is empty in "{rig.name}"')
        if slot.place is None:
            changes[slot.field] = part
        else:
            row = list(changes.get(slot.field, getattr(rig, slot.field)))  # type: ignore[call-overload]
            row[slot.place] = part
            changes[slot.field] = tuple(row)
    return rig.but(**changes)


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
