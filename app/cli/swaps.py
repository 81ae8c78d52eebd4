"""``skysill swaps``: what could take the place of a rig's parts, and what that saves."""

import sys
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Any

import typer

from app.cli.asked_rigs import SHELF_HELP, AskedRigs, asked_rigs, opened_shelf
from app.cli.output import print_json
from core.errors import CoreError
from core.gear.checks.differences import FindingChange, finding_changes
from core.gear.money.cheapest import Cheapest, cheapest
from core.gear.money.no_worse import can_join, no_worse_than
from core.gear.money.prices import money_words, rig_total
from core.gear.money.savings import AllSavings, all_savings, picture_slots
from core.gear.money.swaps import Swap, changes_between, swaps_for
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot, slots_of

__all__ = ["add_to"]

#: Where the output is no terminal a table may be this wide.
_WIDE = 140
Json = dict[str, Any]

Name = Annotated[str, typer.Argument(metavar="RIG", help="A rig of the plan, or of the shelf.")]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
ShelfFile = Annotated[
    Path | None,
    typer.Option("--shelf", metavar="FILE", help=f"Default: your own shelf. {SHELF_HELP}"),
]
Every = Annotated[bool, typer.Option("--all", help="List what makes a check worse, too.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the command."""
    commands.command("swaps")(_swaps)


def _swaps(
    name: Name,
    plan: PlanFile = None,
    shelf: ShelfFile = None,
    every: Every = False,
    as_json: AsJson = False,
) -> None:
    """Tell what could take the place of each part, and what that saves and changes.

    Then the largest savings together, and the cheapest rig that still passes its checks:
    once with telescope, corrector and camera as they are, once with any part swapped. To
    pass means: nothing stops it, no caution is new, nothing that was known is not known.
    """
    asked, held = asked_rigs([name], plan=plan, shelf=shelf), opened_shelf(shelf)
    (rig,), nights = asked.rigs, asked.plan.nights
    passes = no_worse_than(rig, nights)
    swaps = swaps_for(rig, held, currency=asked.currency, passes=passes, nights=nights)
    together = all_savings(rig, swaps, passes)
    found = {
        "same_picture": _cheapest(rig, held, passes, picture_slots(rig)),
        "any_part": _cheapest(rig, held, passes, ()),
    }
    if as_json:
        print_json(_as_json(asked, swaps, together, found))
    else:
        _print(asked, swaps if every else _passing(swaps), together, found)
        if not every and len(_passing(swaps)) < len(swaps):
            left_out = len(swaps) - len(_passing(swaps))
            why = "would bring what stops, a caution, or a figure not known"
            sys.stdout.write(f"{left_out} more {why}; --all lists them.\n")


def _cheapest(rig: Rig, shelf: Shelf, passes: Any, kept: tuple[Slot, ...]) -> Cheapest | None:
    """Search for the cheapest; None where the search was given up."""
    try:
        return cheapest(rig, shelf, passes, kept=kept, worth_making=can_join)
    except CoreError as error:
        if not str(error).startswith("none of the"):
            raise
        return None


def _passing(swaps: tuple[Swap, ...]) -> tuple[Swap, ...]:
    """Those with which the rig is no worse."""
    return tuple(swap for swap in swaps if swap.passes)


def _as_json(
    asked: AskedRigs,
    swaps: tuple[Swap, ...],
    together: AllSavings,
    found: dict[str, Cheapest | None],
) -> Json:
    """Put the answer into the fields that the command promises."""
    (rig,) = asked.rigs
    total = rig_total(rig, asked.currency)
    return {
        "rig": rig.name,
        "currency": asked.currency,
        "price": _number(total.amount),
        "slots": [
            {
                "slot": _slot(slot),
                "part": part.name,
                "price": part.price,
                "swaps": [_swap(swap) for swap in swaps if swap.slot == slot],
            }
            for slot, part in slots_of(rig).items()
        ],
        "all_savings": {
            "saving": _number(together.saving),
            "passes": together.passes,
            "swaps": [_brief(swap) for swap in together.swaps],
        },
        "cheapest": {key: _rig_found(asked, one) for key, one in found.items()},
    }


def _swap(swap: Swap) -> Json:
    """One swap with what it changes."""
    changes = swap.findings
    return {
        "part": swap.new.name,
        "price": swap.new.price,
        "saving": _number(swap.saving),
        "passes": swap.passes,
        "changes": {one.figure: {"from": one.before, "to": one.after} for one in swap.changes},
        "findings": {
            "better": [_finding(one) for one in (changes.better if changes else ())],
            "worse": [_finding(one) for one in (changes.worse if changes else ())],
        },
    }


def _finding(change: FindingChange) -> Json:
    """What becomes of one finding; null where its rule has nothing to say."""
    return {
        "rule": change.rule,
        "from": None if change.before is None else change.before.severity,
        "to": None if change.after is None else change.after.severity,
        "message": change.message,
    }


def _brief(swap: Swap) -> Json:
    """A swap by its names."""
    return {
        "slot": _slot(swap.slot),
        "from": swap.old.name,
        "to": swap.new.name,
        "saving": _number(swap.saving),
    }


def _rig_found(asked: AskedRigs, found: Cheapest | None) -> Json | None:
    """The cheapest rig; null where none passes, or the search was given up."""
    if found is None or found.rig is None:
        return None
    (rig,) = asked.rigs
    findings = finding_changes(rig, found.rig, asked.plan.nights)
    changes = changes_between(rig, found.rig)
    return {
        "saving": _number(found.saving),
        "price": _number(rig_total(found.rig, asked.currency).amount),
        "swaps": [_brief(swap) for swap in found.swaps],
        "changes": {one.figure: {"from": one.before, "to": one.after} for one in changes},
        "findings": {
            "better": [_finding(one) for one in findings.better],
            "worse": [_finding(one) for one in findings.worse],
        },
    }


def _slot(slot: Slot) -> str:
    """Name a slot: "camera", or "others 2", counted from 1."""
    return slot.field if slot.place is None else f"{slot.field} {slot.place + 1}"


def _number(amount: Decimal | None) -> float | None:
    return None if amount is None else float(amount)


def _print(
    asked: AskedRigs,
    swaps: tuple[Swap, ...],
    together: AllSavings,
    found: dict[str, Cheapest | None],
) -> None:
    """Print a table of the swaps, then the sums."""
    from rich.box import SIMPLE
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    from core.sheets.rig_sheet.swap_lists import money_of, swap_changes

    (rig,) = asked.rigs
    screen = sys.stdout.isatty()
    console = Console(width=None if screen else _WIDE, force_terminal=screen, highlight=False)
    console.print(f"{rig.name} · {rig_total(rig, asked.currency).words}", markup=False)
    table = Table("passes", "in place of", "take", "money", "what changes", box=SIMPLE)
    before = None
    for swap in swaps:
        old = "" if swap.slot == before else swap.old.name
        before = swap.slot
        words = ("✓" if swap.passes else "✕", old, swap.new.name, money_of(swap))
        table.add_row(*map(Text, words), Text("; ".join(swap_changes(rig, swap))))
    console.print(table)
    for line in _sums(asked, together, found):
        console.print(line, markup=False, soft_wrap=True)


def _sums(asked: AskedRigs, together: AllSavings, found: dict[str, Cheapest | None]) -> list[str]:
    """Say what all savings come to, and the cheapest rigs."""
    lines = []
    if together.swaps:
        money = money_words(together.saving, asked.currency)
        verdict = "passes" if together.passes else "does not pass"
        lines.append(f"largest savings together: {money}; the rig then {verdict} its checks")
    for key, words in (("same_picture", "the same picture"), ("any_part", "any part swapped")):
        lines.append(f"cheapest with {words}: {_cheapest_words(asked, found[key])}")
    return lines


def _cheapest_words(asked: AskedRigs, found: Cheapest | None) -> str:
    """Say what a search came to."""
    if found is None:
        return "not found, too many combinations fail"
    if found.rig is None:
        return "no rig of these parts passes the checks"
    if not found.swaps:
        return "as it is"
    money = money_words(abs(found.saving), asked.currency)
    word = "saves" if found.saving >= 0 else "costs more by"
    return f"{word} {money}: " + "; ".join(
        f"{swap.new.name} instead of {swap.old.name}" for swap in found.swaps
    )
