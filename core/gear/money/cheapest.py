"""Finds the cheapest rig that can be made by swaps and still passes its checks.

The search is exact. It visits the combinations of alternatives in the order of their
price, so the first that passes is the cheapest, and no cheaper one has been left out.
Method: each slot's parts stand in the order of price; a combination is followed by those
in which one part, not before the last that was moved, is exchanged for its next; a heap
gives the cheapest that waits (k smallest sums; textbook, from memory).
"""

import heapq
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from core.errors import CoreError, InvalidRigError
from core.gear.money.prices import exact
from core.gear.money.swaps import Swap, saving_of, swap_of
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot, alternatives, slots_of, with_parts

__all__ = ["MOST_TRIED", "Cheapest", "cheapest"]

#: Combinations tried before the search is given up; some seconds of work.
MOST_TRIED = 50_000
#: The parts of one slot in the order of their price, each with its price.
Row = Sequence[tuple[Decimal, bool, Part]]


@dataclass(frozen=True)
class Cheapest:
    """The answer: the rig, and the swaps that lead to it; no rig when none passes.

    `tried` counts the combinations looked at. `unpriced` names the parts that could not
    take part because their price is not known: own ones stayed, others were left out.
    """

    rig: Rig | None
    swaps: tuple[Swap, ...]
    tried: int
    unpriced: tuple[str, ...]

    @property
    def saving(self) -> Decimal:
        """What all swaps together save; 0 when there are none."""
        return saving_of(self.swaps) or Decimal(0)


def cheapest(
    rig: Rig,
    shelf: Shelf,
    passes: Callable[[Rig], bool],
    *,
    kept: Collection[Slot] = (),
    most_tried: int = MOST_TRIED,
    worth_making: Callable[[Mapping[Slot, Part]], bool] = lambda _: True,
) -> Cheapest:
    """Find the cheapest rig over the allowed alternatives that passes its checks.

    Parameters
    ----------
    rig : Rig
        As it is; one of the candidates. Its prices are in the shelf's currency.
    shelf : Shelf
    passes : callable
        Tells whether a rig will do.
    kept : collection of Slot
        Where nothing is to be swapped.
    most_tried : int
        Combinations after which to give up.
    worth_making : callable
        Asked first, of the part in every slot; where it says no, no rig is made of them.

    Returns
    -------
    Cheapest
        Of several at one price the one with the fewest swaps.

    Raises
    ------
    BadValueError
        When a part names an alternative that is not on the shelf.
    CoreError
        When none of the `most_tried` cheapest combinations passes and more are left.
    """
    rows, unpriced = _rows(rig, shelf, kept)
    filled, tried = slots_of(rig), 0
    for tried, choice in enumerate(_by_price(list(rows.values())), 1):
        if tried > most_tried:
            words = f"none of the {most_tried} cheapest combinations passes the checks"
            raise CoreError(f"{words}; keep more of the parts as they are")
        parts = filled | dict(zip(rows, choice, strict=True))
        made = _made(rig, parts) if worth_making(parts) else None
        if made is not None and passes(made):
            return Cheapest(made, _swaps_to(rig, made, shelf.currency), tried, unpriced)
    return Cheapest(None, (), tried, unpriced)


def _rows(
    rig: Rig, shelf: Shelf, kept: Collection[Slot]
) -> tuple[dict[Slot, Row], tuple[str, ...]]:
    """Sort the candidates of every slot by price; name those without one."""
    rows: dict[Slot, Row] = {}
    unpriced: list[str] = []
    for slot, own in slots_of(rig).items():
        if own.price is None:
            unpriced.append(own.name)
        elif slot not in kept:
            offers = alternatives(own, shelf)
            priced = [(exact(new.price), True, new) for new in offers if new.price is not None]
            # Of equal price the own part stands first, so that fewer swaps come first.
            rows[slot] = sorted([(exact(own.price), False, own), *priced], key=_price_then_own)
            unpriced += [new.name for new in offers if new.price is None]
    return rows, tuple(unpriced)


def _price_then_own(candidate: tuple[Decimal, bool, Part]) -> tuple[Decimal, bool]:
    """Order the candidates of a slot."""
    return candidate[:2]


def _by_price(rows: list[Row]) -> Iterator[tuple[Part, ...]]:
    """Give every combination, the cheapest first, then the one with the fewest swaps."""
    price = sum((row[0][0] for row in rows), Decimal(0))
    swaps = sum(row[0][1] for row in rows)
    waiting = [(price, swaps, (0,) * len(rows), 0)]
    while waiting:
        price, swaps, places, last = heapq.heappop(waiting)
        yield tuple(row[place][2] for row, place in zip(rows, places, strict=True))
        for slot in range(last, len(rows)):
            row, place = rows[slot], places[slot]
            if place + 1 < len(row):
                (less, was_new, _), (more, is_new, _) = row[place], row[place + 1]
                then = (*places[:slot], place + 1, *places[slot + 1 :])
                cost = (price - less + more, swaps - was_new + is_new)
                heapq.heappush(waiting, (*cost, then, slot))


def _made(rig: Rig, parts: dict[Slot, Part]) -> Rig | None:
    """Put the parts together; None when they make no rig."""
    try:
        return with_parts(rig, parts)
    except InvalidRigError:
        return None


def _swaps_to(rig: Rig, made: Rig, currency: str) -> tuple[Swap, ...]:
    """Tell which swaps lead from one rig to another of the same slots."""
    before, after = slots_of(rig), slots_of(made)
    moved = [slot for slot in before if before[slot] != after[slot]]
    return tuple(swap_of(rig, slot, after[slot], currency) for slot in moved)
