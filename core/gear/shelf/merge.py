"""Puts what one shelf, or one rig, holds on another shelf, and tells what became of it.

What is on both with the same figures is there once. A part or rig of the same name with
other figures is never written over unseen: it comes in beside the other under a free name
("refractor 80/480 (2)"), or, when that is asked for, takes its place; either way it is told.
Both must be in one currency: no rate is known here.
"""

from dataclasses import dataclass
from typing import Any

from core.errors import BadValueError
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.shelf.edits import renamed, row_of
from core.gear.shelf.shelf import ROWS, Shelf, ShelfRig
from core.gear.slots import Slot, slots_of, with_parts
from core.record.validation import Record, words_of

__all__ = ["Difference", "Merge", "merged", "shelf_of_rig", "with_rig"]

_LONGEST_NAME = 120
#: So many differences are named in one sentence.
_NAMED = 3


@dataclass(frozen=True)
class Difference:
    """Something of one name on both sides with other figures.

    `fields` names the figures; `called` is what the newcomer is called on the shelf now:
    its own name when it took the other's place.
    """

    name: str
    fields: tuple[str, ...]
    called: str

    @property
    def words(self) -> str:
        """What differs and what was done about it, in one sentence."""
        what = f"{self.name} is there with other figures ({', '.join(self.fields)})"
        if self.called == self.name:
            return f"{what}: the newcomer took its place."
        return f'{what}: both stay, the newcomer as "{self.called}".'


@dataclass(frozen=True)
class Merge:
    """The shelf after a merge, and what became of everything that came in, by name."""

    shelf: Shelf
    new: tuple[str, ...]
    same: tuple[str, ...]
    differing: tuple[Difference, ...]

    @property
    def words(self) -> str:
        """What came of it, for a person, in one sentence; the differences by name."""
        counts = f"{len(self.new)} new, {len(self.same)} the same"
        if not self.differing:
            return f"{counts}."
        named = [difference.name for difference in self.differing[:_NAMED]]
        more = len(self.differing) - len(named)
        names = ", ".join(named) + (f" and {more} more" if more else "")
        beside = any(difference.called != difference.name for difference in self.differing)
        done = "both stay, the newcomer with a number" if beside else "the newcomer took the place"
        return f"{counts}, {len(self.differing)} with other figures: {done} ({names})."


def shelf_of_rig(rig: Rig, currency: str) -> Shelf:
    """Make a shelf of one rig and its parts.

    Parameters
    ----------
    rig : Rig
    currency : str
        That of its prices.

    Returns
    -------
    Shelf
        Where two parts of the rig share a name but not their figures, one gets a number.
    """
    rows: dict[str, dict[str, Part]] = {row: {} for row in ROWS.values()}
    parts: dict[Slot, Part] = {}
    for slot, part in slots_of(rig).items():
        held = rows[row_of(part)]
        name, number = part.name, 2
        while name in held and not _same_but_name(held[name], part):
            name, number = _numbered(part.name, number), number + 1
        parts[slot] = held.setdefault(name, part if name == part.name else part.but(name=name))
    fields: dict[str, Any] = {row: tuple(held.values()) for row, held in rows.items()}
    return Shelf(currency=currency, **fields, rigs=(ShelfRig.of(with_parts(rig, parts)),))


def with_rig(shelf: Shelf, rig: Rig, *, currency: str) -> Merge:
    """Put a rig on the shelf with those of its parts that are not there yet.

    Parameters
    ----------
    shelf : Shelf
    rig : Rig
    currency : str
        That of the rig's prices.

    Raises
    ------
    BadValueError
        When the currency is not that of the shelf.
    """
    return merged(shelf, shelf_of_rig(rig, currency))


def merged(shelf: Shelf, coming: Shelf, *, replace: bool = False) -> Merge:
    """Put everything of a shelf on another one.

    Parameters
    ----------
    shelf : Shelf
        What is there.
    coming : Shelf
        What comes in; it brings its rigs with it.
    replace : bool
        What differs takes the place of what is there, instead of standing beside it.

    Raises
    ------
    BadValueError
        When the currencies differ, or a rig of the shelf could not be any more.
    """
    if coming.currency != shelf.currency:
        rule = f"must be that of the shelf, {shelf.currency}; no rate is known here"
        raise BadValueError("currency of what comes in", coming.currency, rule)
    tally = _Tally(replace)
    followed: dict[tuple[str, str], str] = {}
    rows: dict[str, Any] = {}
    for row in ROWS.values():
        ours = {part.name: part for part in getattr(shelf, row)}
        there = dict(ours)
        names = tally.take_in(there, {part.name: part for part in getattr(coming, row)})
        followed |= {(row, name): called for name, called in names.items()}
        rows[row] = tuple(
            part if ours.get(part.name) is part else _with_alternatives(part, names)
            for part in there.values()
        )
    rigs = {rig.name: rig for rig in shelf.rigs}
    tally.take_in(rigs, {rig.name: _with_names(rig, followed) for rig in coming.rigs})
    whole = shelf.but(**rows, rigs=tuple(rigs.values()))
    return Merge(whole, tuple(tally.new), tuple(tally.same), tuple(tally.differing))


class _Tally:
    """Takes in one row after the other and keeps count."""

    def __init__(self, replace: bool) -> None:
        self._replace = replace
        self.new: list[str] = []
        self.same: list[str] = []
        self.differing: list[Difference] = []

    def take_in(self, there: dict[str, Any], given: dict[str, Any]) -> dict[str, str]:
        """Put what is given beside what is there; give the new names by the old."""
        names: dict[str, str] = {}
        for name, one in given.items():
            held = there.get(name)
            if held == one:
                self.same.append(name)
            elif held is None:
                self.new.append(name)
                there[name] = one
            elif self._replace:
                self.differing.append(Difference(name, _fields(held, one), name))
                there[name] = one
            else:
                names[name] = self._beside(there, given, one)
        return names

    def _beside(self, there: dict[str, Any], given: dict[str, Any], one: Any) -> str:
        """Put something under a free name, unless it is there under one already."""
        number = 2
        while True:
            name = _numbered(one.name, number)
            if name in there and _same_but_name(there[name], one):
                self.same.append(one.name)
                return name
            if name not in there and name not in given:
                self.differing.append(Difference(one.name, _fields(there[one.name], one), name))
                there[name] = one.but(name=name)
                return name
            number += 1


def _numbered(name: str, number: int) -> str:
    """Put a number behind a name, within the length of a name."""
    ending = f" ({number})"
    return name[: _LONGEST_NAME - len(ending)].rstrip() + ending


def _fields(one: Record, other: Record) -> tuple[str, ...]:
    """Name the figures in which two records differ."""
    fields = dict.fromkeys((*type(one).model_fields, *type(other).model_fields))
    differ = (f for f in fields if getattr(one, f, None) != getattr(other, f, None))
    return tuple(words_of((field,)) for field in differ)


def _same_but_name(one: Record, other: Record) -> bool:
    """Tell whether two are one but for the name, and the names of alternatives."""
    differ = set(_fields(one, other)) - {"name", "alternatives"}
    return type(one) is type(other) and not differ


def _with_alternatives(part: Part, names: dict[str, str]) -> Part:
    """Let what a part names as its alternatives follow the new names."""
    followed = tuple(names.get(name, name) for name in part.alternatives)
    return part if followed == part.alternatives else part.but(alternatives=followed)


def _with_names(rig: ShelfRig, followed: dict[tuple[str, str], str]) -> ShelfRig:
    """Let a rig follow the new names of its parts."""
    for (row, old), new in followed.items():
        rig = renamed(rig, row, old, new)
    return rig
