"""``skysill sheet``: rigs on a sheet to hand out, as PDF, HTML or a table."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from app.cli.asked import asked_plan, rig_named, with_asked_target
from app.cli.asked_rigs import SHELF_HELP, asked_rigs, opened_shelf
from app.cli.output import print_json
from core.errors import BadValueError, StorageError
from core.gear.money.prices import Total
from core.plan.document import Plan
from core.plan.edits import with_rig

if TYPE_CHECKING:
    from core.sheets.rig_sheet.content import RigSheet

__all__ = ["add_to"]

Json = dict[str, Any]

Names = Annotated[
    list[str] | None,
    typer.Argument(metavar="[RIG...]", help="Rigs of the plan, or of the shelf. Default: all."),
]
Output = Annotated[
    Path,
    typer.Option("-o", "--output", metavar="FILE", help="Ends in .pdf, .html or .csv."),
]
Target = Annotated[
    str | None,
    typer.Option("--target", metavar="NAME", help="What is framed. Default: the plan's target."),
]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
ShelfFile = Annotated[
    Path | None,
    typer.Option("--shelf", metavar="FILE", help=f"Default: your own shelf. {SHELF_HELP}"),
]
PaperName = Annotated[str, typer.Option("--paper", metavar="NAME", help="a4 or letter, for PDF.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the command."""
    commands.command("sheet")(_sheet)


def _sheet(  # noqa: PLR0913  (each parameter is an option of the command)
    output: Output,
    rigs: Names = None,
    target: Target = None,
    plan: PlanFile = None,
    shelf: ShelfFile = None,
    paper: PaperName = "a4",
    as_json: AsJson = False,
) -> None:
    """Write rigs on a sheet to hand out: parts, prices, findings, swaps, the frame.

    One page a rig; several rigs get a page for the set before them, with what sharing
    parts saves and the step from each to the next.
    """
    from core.sheets.paper import paper_named
    from core.sheets.rig_sheet.sheet import write_rig_sheet
    from core.sheets.suffixes import check_suffix

    on, _ = paper_named(paper), check_suffix(output)
    if not output.absolute().parent.is_dir():
        raise StorageError(f"cannot write {output}: there is no folder {output.parent}")
    opened, rig_ids = _asked(rigs or [], plan, shelf)
    if target is not None:
        opened = with_asked_target(opened, target)
    made = _made(opened, rig_ids, shelf)
    write_rig_sheet(made, output, paper=on)
    if as_json:
        print_json(_as_json(made, output))
    else:
        count = len(made.pages)
        sys.stdout.write(f"{output} is written: {count} rig{'s' if count > 1 else ''}.\n")


def _asked(names: list[str], plan: str | None, shelf: Path | None) -> tuple[Plan, list[str]]:
    """Give the plan with the rigs asked for in it, and their ids in that order."""
    if not names:
        opened = asked_plan(plan)
        if not opened.rigs:
            raise BadValueError("plan", opened.title, "has no rigs to put on a sheet")
        names = [planned.id for planned in opened.rigs]
    asked = asked_rigs(names, plan=plan, shelf=shelf)
    opened, ids = asked.plan.but(currency=asked.currency), list[str]()
    for name, rig in zip(names, asked.rigs, strict=True):
        try:
            rig_id = rig_named(asked.plan, name)
        except BadValueError:
            opened = with_rig(opened, rig)
            rig_id = opened.rigs[-1].id
        else:
            figures = (one.but(rig=rig) if one.id == rig_id else one for one in opened.rigs)
            opened = opened.but(rigs=tuple(figures))
        ids.append(rig_id)
    return opened, ids


def _made(plan: Plan, rig_ids: list[str], shelf: Path | None) -> "RigSheet":
    """Put the sheet together."""
    from core.catalogue.stars import StarCatalogue
    from core.catalogue.targets import TargetTable
    from core.sheets.rig_sheet.build import SheetJob, rig_sheet

    job = SheetJob(StarCatalogue.open(), TargetTable.load(), opened_shelf(shelf))
    return rig_sheet(plan, rig_ids, job)


def _as_json(sheet: "RigSheet", output: Path) -> Json:
    """Tell what is on the sheet."""
    together = sheet.set_page
    return {
        "file": str(output),
        "currency": sheet.currency,
        "rigs": [
            {
                "name": page.name,
                "price": _amount(page.total),
                "worst_finding": page.verdict.severity,
                "parts": len(page.parts),
            }
            for page in sheet.pages
        ],
        "set_price": None if together is None else _amount(together.total),
    }


def _amount(total: Total | None) -> float | None:
    """Give a sum as a number; null where it is not known."""
    return None if total is None or total.amount is None else float(total.amount)
