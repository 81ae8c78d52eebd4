"""Swaps of one part for another: what each saves, and what else it changes.

Savings are exact decimals in the currency of the plan, positive when the new part is
cheaper. A saving whose prices are not both known is not known.
"""

import contextlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from core.errors import BadValueError, InvalidRigError
from core.gear.checks import Conditions, findings
from core.gear.checks.differences import FindingChanges, changes_of
from core.gear.money.changes import Change, changes_between
from core.gear.money.prices import exact, money_words
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot, alternatives, slots_of, with_parts

__all__ = [
    "Change",
    "Swap",
    "changes_between",
    "check_currency",
    "saving_of",
    "swap_of",
    "swapped",
    "swaps_for",
]


@dataclass(frozen=True)
class Swap:
    """One part in place of another, by itself.

    `saving` is None when one of the two prices is not known; `changes` holds the figures
    that become others; `passes` tells whether the rig then passes its checks and `findings`
    which of them become better or worse, each None when nobody asked.
    """

    slot: Slot
    old: Part
    new: Part
    currency: str
    saving: Decimal | None
    changes: tuple[Change, ...] = ()
    passes: bool | None = None
    findings: FindingChanges | None = None

    @property
    def words(self) -> str:
        """What is swapped and what it saves, in one sentence."""
        return f"{self.new.name} instead of {self.old.name}{self._saving_words()}"

    def _saving_words(self) -> str:
        """Say what becomes of the money."""
        if self.saving is None:
            missing = [part.name for part in (self.old, self.new) if part.price is None]
            return f": saving not known, give the price of {' and '.join(missing)}"
        if not self.saving:
            return " costs the same"
        more = self.saving < 0
        money = money_words(abs(self.saving), self.currency)
        return f" costs {money} more" if more else f" saves {money}"


def swaps_for(
    rig: Rig,
    shelf: Shelf,
    *,
    currency: str,
    passes: Callable[[Rig], bool] | None = None,
    nights: Conditions | None = None,
) -> tuple[Swap, ...]:
    """List every swap of one part, slot by slot, the largest saving first.

    Parameters
    ----------
    rig : Rig
    shelf : Shelf
        Where the alternatives come from.
    currency : str
        That of the rig's prices.
    passes : callable, optional
        Tells whether a rig passes its checks.
    nights : Conditions, optional
        Given, each swap tells which findings become better or worse on such nights.

    Returns
    -------
    tuple of Swap
        Without those that make no rig; unknown savings stand last in their slot.

    Raises
    ------
    BadValueError
        When the shelf has another currency, or a part names an alternative that the shelf
        does not hold.
    """
    check_currency(shelf, currency)
    found: list[Swap] = []
    for slot in slots_of(rig):
        found += sorted(_offers(rig, slot, shelf, currency), key=_by_saving)
    if passes is not None:
        found = [replace(swap, passes=passes(swapped(rig, [swap]))) for swap in found]
    return tuple(found) if nights is None else _judged(rig, found, nights)


def swapped(rig: Rig, swaps: Iterable[Swap]) -> Rig:
    """Make several swaps; their order does not matter.

    Parameters
    ----------
    rig : Rig
    swaps : iterable of Swap

    Raises
    ------
    BadValueError
        When two of them are in one slot, or the slot holds another part by now.
    InvalidRigError
        When the rig cannot be.
    """
    filled, parts = slots_of(rig), dict[Slot, Part]()
    for swap in swaps:
        if swap.slot in parts:
            rule = f"is one of two swaps for {swap.old.name}; choose one"
            raise BadValueError("swap to", swap.new.name, rule)
        if filled.get(swap.slot) != swap.old:
            raise BadValueError("swap of", swap.old.name, f'is not for "{rig.name}" as it is')
        parts[swap.slot] = swap.new
    return with_parts(rig, parts)


def saving_of(swaps: Sequence[Swap]) -> Decimal | None:
    """Add up what swaps save together; None when one of the savings is not known."""
    savings = [swap.saving for swap in swaps]
    known = [saving for saving in savings if saving is not None]
    return sum(known, Decimal(0)) if len(known) == len(savings) else None


def check_currency(shelf: Shelf, currency: str) -> None:
    """Refuse a shelf whose prices are in another currency."""
    if shelf.currency != currency:
        rule = f"must be that of the plan, {currency}; no rate is known here"
        raise BadValueError("currency of the shelf", shelf.currency, rule)


def swap_of(rig: Rig, slot: Slot, new: Part, currency: str) -> Swap:
    """Describe one swap.

    Parameters
    ----------
    rig : Rig
    slot : Slot
        Must be filled.
    new : Part
    currency : str

    Raises
    ------
    InvalidRigError
        When it makes no rig.
    """
    old, after = slots_of(rig)[slot], with_parts(rig, {slot: new})
    saving = None
    if old.price is not None and new.price is not None:
        saving = exact(old.price) - exact(new.price)
    return Swap(slot, old, new, currency, saving, changes_between(rig, after))


def _offers(rig: Rig, slot: Slot, shelf: Shelf, currency: str) -> Iterator[Swap]:
    """Every swap in one slot that makes a rig."""
    for new in alternatives(slots_of(rig)[slot], shelf):
        with contextlib.suppress(InvalidRigError):
            yield swap_of(rig, slot, new, currency)


def _judged(rig: Rig, swaps: Sequence[Swap], nights: Conditions) -> tuple[Swap, ...]:
    """Let each swap tell which findings become better or worse."""
    before = findings(rig, nights)
    after = (findings(swapped(rig, [swap]), nights) for swap in swaps)
    rows = zip(swaps, after, strict=True)
    return tuple(replace(swap, findings=changes_of(before, found)) for swap, found in rows)


def _by_saving(swap: Swap) -> tuple[bool, Decimal, str]:
    """Order swaps: largest saving first, then by name, unknown last."""
    return swap.saving is None, -(swap.saving or Decimal(0)), swap.new.name
