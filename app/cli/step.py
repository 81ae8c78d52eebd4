"""``skysill step``: what it takes to come from one rig to the next."""

import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from app.cli.asked import number_from
from app.cli.asked_rigs import SHELF_HELP, asked_rigs
from app.cli.output import print_json
from app.words.step_words import fates, finding_lines, step_lines
from core.gear.checks.differences import FindingChange, FindingChanges, finding_changes
from core.gear.money.prices import Total, money_words
from core.gear.money.step_up import Step, step_up
from core.gear.parts import Part

__all__ = ["add_to"]

#: Where the output is no terminal a table may be this wide, so that nothing is cut.
_WIDE = 200
_UNKNOWN = "not known"
Json = dict[str, Any]

From = Annotated[str, typer.Argument(metavar="FROM", help="A rig of the plan, or of the shelf.")]
To = Annotated[str, typer.Argument(metavar="TO", help="Another rig.")]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
ShelfFile = Annotated[Path | None, typer.Option("--shelf", metavar="FILE", help=SHELF_HELP)]
Resale = Annotated[
    str | None,
    typer.Option(metavar="FRACTION", help="What a part brings of its price when sold, 0 to 1."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the command."""
    commands.command("step")(_step)


def _step(
    start: From,
    goal: To,
    plan: PlanFile = None,
    shelf: ShelfFile = None,
    resale: Resale = None,
    as_json: AsJson = False,
) -> None:
    """Tell what the step from one rig to the next takes.

    What is kept, what moves to another duty, what is bought and sold, and at what cost.
    Without --resale nothing is assumed of what a sale brings. Findings are for the
    nights of the plan.
    """
    fraction = None if resale is None else number_from("resale fraction", resale, "")
    asked = asked_rigs([start, goal], plan=plan, shelf=shelf)
    step = step_up(*asked.rigs, currency=asked.currency, resale_fraction=fraction)
    found = finding_changes(step.start, step.goal, asked.plan.nights)
    if as_json:
        print_json({**_as_json(step), "findings": _findings(found)})
    else:
        _print(step, found)


def _as_json(step: Step) -> Json:
    """Put a step into the fields that the command promises."""
    return {
        "from": step.start.name,
        "to": step.goal.name,
        "currency": step.currency,
        "kept": _parts(step.kept),
        "moved": _parts(step.moved),
        "bought": _parts(step.bought),
        "spared": _parts(step.spared),
        "sold": _parts(step.sold),
        "duties": [
            {
                "duty": duty.duty,
                "parts": [part.name for part in duty.parts],
                "suits": duty.suits,
                "why": duty.why,
            }
            for duty in step.duties
        ],
        "buying": _total(step.buying),
        "selling": _total(step.selling),
        "resale_fraction": step.resale_fraction,
        "proceeds": None if step.proceeds is None else float(step.proceeds),
        "cost": None if step.cost is None else float(step.cost),
        "changes": {
            change.figure: {"from": change.before, "to": change.after} for change in step.changes
        },
    }


def _findings(found: FindingChanges) -> Json:
    """List the findings that become better or worse."""
    return {
        "better": [_finding(c) for c in found.better],
        "worse": [_finding(c) for c in found.worse],
    }


def _finding(change: FindingChange) -> Json:
    """Give what a rule says of both rigs; null where it says nothing."""
    before, after = (one and one.severity for one in (change.before, change.after))
    return {"rule": change.rule, "from": before, "to": after, "message": change.message}


def _parts(parts: tuple[Part, ...]) -> list[Json]:
    """List parts with their prices."""
    return [{"name": part.name, "price": part.price} for part in parts]


def _total(total: Total) -> Json:
    """Give a total: the whole, or what of it is known and whose price is missing."""
    amount = None if total.amount is None else float(total.amount)
    return {"total": amount, "known": float(total.known), "unpriced": list(total.unpriced)}


def _print(step: Step, found: FindingChanges) -> None:
    """Print a table of the parts, then the cost, the duties, what changes, the findings."""
    from rich.box import SIMPLE
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    screen = sys.stdout.isatty()
    console = Console(width=None if screen else _WIDE, force_terminal=screen, highlight=False)
    console.print(f"{step.start.name} → {step.goal.name}", markup=False)
    table = Table("part", "becomes", box=SIMPLE)
    table.add_column("price", justify="right")
    for fate, part in fates(step):
        money = _UNKNOWN if part.price is None else money_words(part.price, step.currency)
        table.add_row(Text(part.name), fate, money)
    console.print(table)
    for line in [*step_lines(step), *finding_lines(found)]:
        console.print(line, markup=False, soft_wrap=True)
