"""What swaps offer: what they save, what becomes of the rig and of what its checks find.

Savings are exact decimals in the currency of the plan, positive when the rig gets cheaper;
what is not known stays None. A rig passes when it is no worse than the one before
(`core.gear.money.no_worse`).
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from core.errors import InvalidRigError
from core.gear.checks import Conditions, Finding, findings
from core.gear.checks.differences import FindingChanges, changes_of
from core.gear.money.changes import Change, changes_between
from core.gear.money.cheapest import cheapest
from core.gear.money.no_worse import can_join, no_worse_than, none_worse
from core.gear.money.savings import largest_savings
from core.gear.money.swaps import Swap, check_currency, saving_of, swapped, swaps_for
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot

__all__ = ["Offer", "Question", "all_savings", "cheapest_offer", "single_offers"]


@dataclass(frozen=True)
class Question:
    """For which rig swaps are sought, where, and for which nights.

    `currency` is that of the rig's prices.
    """

    rig: Rig
    shelf: Shelf
    currency: str
    nights: Conditions


@dataclass(frozen=True)
class Offer:
    """Some swaps, and the rig that they make of `before`.

    `found` are the findings about the rig, the worst first; `differences` those that became
    better or worse; `passes` tells whether nothing is worse.
    """

    before: Rig
    rig: Rig
    swaps: tuple[Swap, ...]
    found: tuple[Finding, ...]
    differences: FindingChanges
    passes: bool

    @property
    def saving(self) -> Decimal | None:
        """What the swaps save together; None when a price is not known."""
        return saving_of(self.swaps)

    @property
    def changes(self) -> tuple[Change, ...]:
        """The figures that become others."""
        return changes_between(self.before, self.rig)


def single_offers(asked: Question) -> Iterator[Offer]:
    """Give every swap of one part, slot by slot, the largest saving first.

    Parameters
    ----------
    asked : Question

    Yields
    ------
    Offer

    Raises
    ------
    BadValueError
        When the shelf has another currency, or a part names an alternative that the shelf
        does not hold.
    """
    before = findings(asked.rig, asked.nights)
    for swap in swaps_for(asked.rig, asked.shelf, currency=asked.currency):
        yield _offer(asked, (swap,), swapped(asked.rig, (swap,)), before)


def all_savings(asked: Question, offers: Sequence[Offer]) -> Offer | None:
    """Make the largest saving of every slot at once (`core.gear.money.savings`).

    Parameters
    ----------
    asked : Question
    offers : sequence of Offer
        Single swaps for the rig; those that do not pass are left out.

    Returns
    -------
    Offer or None
        None when nothing saves, or when the parts make no rig together.
    """
    swaps = [replace(swap, passes=offer.passes) for offer in offers for swap in offer.swaps]
    chosen = largest_savings(swaps)
    if not chosen:
        return None
    try:
        made = swapped(asked.rig, chosen)
    except InvalidRigError:
        return None
    return _offer(asked, chosen, made, findings(asked.rig, asked.nights))


def cheapest_offer(asked: Question, *, tried: Callable[[int], None] = lambda _: None) -> Offer:
    """Find the cheapest rig that still passes and is no worse (`core.gear.money.no_worse`).

    Parameters
    ----------
    asked : Question
    tried : callable
        Told how many rigs were looked at, before each; an error that it raises ends the
        search.

    Returns
    -------
    Offer
        Without swaps when nothing cheaper passes; its rig is then the rig as it is.

    Raises
    ------
    BadValueError
        As `single_offers`.
    CoreError
        When the search was given up (`core.gear.money.cheapest.MOST_TRIED`).
    """
    check_currency(asked.shelf, asked.currency)
    passes, count = no_worse_than(asked.rig, asked.nights), 0

    def counted(parts: Mapping[Slot, Part]) -> bool:
        nonlocal count
        tried(count)
        count += 1
        return can_join(parts)

    found = cheapest(asked.rig, asked.shelf, passes, worth_making=counted)
    before = findings(asked.rig, asked.nights)
    return _offer(asked, found.swaps, found.rig or asked.rig, before)


def _offer(
    asked: Question, swaps: tuple[Swap, ...], made: Rig, before: tuple[Finding, ...]
) -> Offer:
    """Look at the rig that swaps make."""
    found = findings(made, asked.nights)
    passes = none_worse(before, found)
    return Offer(asked.rig, made, swaps, found, changes_of(before, found), passes)
