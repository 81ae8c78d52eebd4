"""Swaps for a rig sheet: what each saves, what else it changes, whether the rig stays good.

Savings are exact decimals in the currency of the plan, positive when it gets cheaper.
"""

from collections.abc import Callable

from core.errors import CoreError
from core.gear.checks import Conditions
from core.gear.checks.differences import FindingChange, FindingChanges, finding_changes
from core.gear.money.cheapest import Cheapest, cheapest
from core.gear.money.no_worse import can_join, no_worse_than
from core.gear.money.prices import money_words
from core.gear.money.savings import picture_slots
from core.gear.money.swaps import Swap, swapped, swaps_for
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot, slots_of
from core.sheets.rig_sheet.content import CheaperRig, SlotSwaps, SwapLine
from core.sheets.rig_sheet.figures import field_words, load_words, scale_words, slot_words

__all__ = [
    "cheaper_rigs",
    "finding_words",
    "money_of",
    "slot_swaps",
    "swap_changes",
    "view_changes",
]

#: Combinations tried for one sheet; a second or a few.
_MOST_TRIED = 20_000


def slot_swaps(
    rig: Rig, shelf: Shelf, *, currency: str, nights: Conditions
) -> tuple[SlotSwaps, ...]:
    """List what could take the place of each part.

    Parameters
    ----------
    rig : Rig
    shelf : Shelf
    currency : str
        Of the rig's prices.
    nights : Conditions

    Returns
    -------
    tuple of SlotSwaps
        Only slots with something to swap for.

    Raises
    ------
    BadValueError
        As `swaps_for`.
    """
    every = swaps_for(
        rig, shelf, currency=currency, passes=no_worse_than(rig, nights), nights=nights
    )
    found = []
    for slot, part in slots_of(rig).items():
        lines = [_line(rig, swap) for swap in every if swap.slot == slot]
        if lines:
            lines.sort(key=lambda line: not line.passes)
            words = slot_words(slot.field, getattr(part, "kind", ""))
            found.append(SlotSwaps(words, part.name, tuple(lines)))
    return tuple(found)


def swap_changes(rig: Rig, swap: Swap) -> tuple[str, ...]:
    """Say what a swap changes: field, scale, load, findings as far as they were asked for."""
    return view_changes(rig, swapped(rig, [swap])) + finding_words(
        swap.findings or FindingChanges()
    )


def money_of(swap: Swap) -> str:
    """Say what becomes of the money, without the names."""
    if swap.saving is None:
        return "saving not known"
    if not swap.saving:
        return "costs the same"
    money = money_words(abs(swap.saving), swap.currency)
    return f"costs {money} more" if swap.saving < 0 else f"saves {money}"


def finding_words(changes: FindingChanges) -> tuple[str, ...]:
    """Say which findings become others, the worse first: "load: good → caution"."""
    return tuple(_change_words(change) for change in (*changes.worse, *changes.better))


def view_changes(before: Rig, after: Rig) -> tuple[str, ...]:
    """Tell what becomes of field, scale and load, the ones that changed."""
    pairs = (
        ("field", field_words(before), field_words(after)),
        ("scale", scale_words(before), scale_words(after)),
        ("load", load_words(before), load_words(after)),
    )
    return tuple(f"{words} {old} → {new}" for words, old, new in pairs if old != new)


def cheaper_rigs(
    rig: Rig,
    shelf: Shelf,
    *,
    nights: Conditions,
    cancelled: Callable[[], None] = lambda: None,
) -> tuple[CheaperRig, ...]:
    """Find the cheapest rig with the same picture, and the cheapest of all.

    Parameters
    ----------
    rig : Rig
        Its prices are in the shelf's currency.
    shelf : Shelf
    nights : Conditions
    cancelled : callable
        Asked before every rig that is tried; raises to give the search up.

    Returns
    -------
    tuple of CheaperRig
        Only the latter where both are the same.

    Raises
    ------
    BadValueError
        When a part names an alternative that is not on the shelf.
    """
    asked = no_worse_than(rig, nights)

    def passes(other: Rig) -> bool:
        cancelled()
        return asked(other)

    found = [
        _cheaper("With the same picture", rig, shelf, (passes, picture_slots(rig), nights)),
        _cheaper("With any part swapped", rig, shelf, (passes, (), nights)),
    ]
    return tuple(found[1:] if found[0].swaps == found[1].swaps else found)


def _change_words(change: FindingChange) -> str:
    """Say what becomes of one finding."""
    rule = change.rule.replace("-", " ")
    if change.before is None or change.after is None:
        now = change.after.severity if change.after else ""
        return f"{rule}: new {now}" if now else f"{rule}: no longer in question"
    return f"{rule}: {change.before.severity} → {change.after.severity}"


def _cheaper(
    condition: str,
    rig: Rig,
    shelf: Shelf,
    how: tuple[Callable[[Rig], bool], tuple[Slot, ...], Conditions],
) -> CheaperRig:
    """Search once, and say what came of it."""
    passes, kept, nights = how
    try:
        found = cheapest(
            rig, shelf, passes, kept=kept, most_tried=_MOST_TRIED, worth_making=can_join
        )
    except CoreError as error:
        if not str(error).startswith("none of the"):
            raise
        return CheaperRig(condition, f"none of the {_MOST_TRIED} cheapest ways passes the checks.")
    if found.rig is None:
        return CheaperRig(condition, "no rig of this shelf's parts passes the checks.")
    if not found.swaps:
        return CheaperRig(condition, "nothing on the shelf is cheaper and still passes.")
    changed = view_changes(rig, found.rig)
    changed += finding_words(finding_changes(rig, found.rig, nights))
    swaps = tuple(swap.words for swap in found.swaps)
    return CheaperRig(condition, _saving(found, shelf.currency), swaps, changed, found.saving)


def _saving(found: Cheapest, currency: str) -> str:
    """Say what the cheapest rig comes to."""
    swaps = "one swap" if len(found.swaps) == 1 else f"{len(found.swaps)} swaps"
    money = money_words(abs(found.saving), currency)
    if found.saving < 0:
        return f"{swaps} for {money} more make a rig that passes the checks."
    return f"{swaps} save {money}, and the rig still passes its checks.".replace(
        "one swap save", "one swap saves"
    )


def _line(rig: Rig, swap: Swap) -> SwapLine:
    """Describe one swap."""
    changes = swap_changes(rig, swap)
    return SwapLine(swap.new.name, swap.saving, money_of(swap), changes, bool(swap.passes))
