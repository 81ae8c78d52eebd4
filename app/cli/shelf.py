"""``skysill shelf``: what is on the shelf, and what goes on it, off it, in and out."""

import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from app.cli import shelf_build
from app.cli.asked import asked_plan, rig_named
from app.cli.asked_rigs import keep_shelf, opened_shelf, rig_of_shelf
from app.cli.output import print_json
from core.errors import BadValueError, CoreError
from core.gear.money.prices import money_words
from core.gear.parts import Part
from core.gear.shelf.edits import KINDS, used_by, without_part, without_rig
from core.gear.shelf.files import load_gear, save_rig, save_shelf
from core.gear.shelf.merge import Merge, merged, with_rig
from core.gear.shelf.shelf import Shelf, near

__all__ = ["add_to"]

_WIDE = 160
_UNKNOWN = "–"
Json = dict[str, Any]

RigName = Annotated[str, typer.Argument(metavar="RIG", help="A rig of the plan.")]
Thing = Annotated[str, typer.Argument(metavar="NAME", help="A rig or a part of the shelf.")]
From = Annotated[Path, typer.Argument(metavar="FILE", help="The file of a shelf or of a rig.")]
To = Annotated[Path, typer.Argument(metavar="FILE", help="The file to be written.")]
OneRig = Annotated[
    str | None, typer.Option("--rig", metavar="RIG", help="Only this rig, with its parts.")
]
Kind = Annotated[
    str | None, typer.Option(metavar="KIND", help=f"rig, {', '.join(KINDS)}; for equal names.")
]
ShelfFile = Annotated[
    Path | None, typer.Option("--shelf", metavar="FILE", help="Default: your own shelf.")
]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
Replace = Annotated[bool, typer.Option("--replace", help="Write over what has the same name.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the commands."""
    shelf = typer.Typer(help="The shelf of parts and rigs.", rich_markup_mode=None)
    for name, command in (
        ("list", _list),
        ("add", _add),
        ("build", shelf_build.build),
        ("remove", _remove),
        ("import", _import),
        ("export", _export),
    ):
        shelf.command(name)(command)
    commands.add_typer(shelf, name="shelf")


def _list(shelf: ShelfFile = None, as_json: AsJson = False) -> None:
    """Tell what is on the shelf.

    Rigs first, then parts and how many rigs use each.
    """
    held = opened_shelf(shelf)
    if as_json:
        print_json(_as_json(held))
    else:
        _print(held)


def _add(name: RigName, plan: PlanFile = None, shelf: ShelfFile = None) -> None:
    """Put a rig of the plan on the shelf.

    Those of its parts that are not there yet come with it.
    """
    opened = asked_plan(plan)
    rig = opened.rig(rig_named(opened, name)).rig
    _take_in(with_rig(opened_shelf(shelf), rig, currency=opened.currency), shelf)


def _remove(name: Thing, kind: Kind = None, shelf: ShelfFile = None) -> None:
    """Take a rig or a part off the shelf.

    A part that a rig of the shelf uses stays.
    """
    held = opened_shelf(shelf)
    kind = kind or _kind_of(held, name)
    held = without_rig(held, name) if kind == "rig" else without_part(held, kind, name)
    keep_shelf(held, shelf)
    sys.stdout.write(f"{name} is off the shelf.\n")


def _import(file: From, replace: Replace = False, shelf: ShelfFile = None) -> None:
    """Take in the file of a shelf or of a rig.

    What has the same name and other figures comes in beside what is there, with a number
    behind its name, or takes its place where --replace is given. Both is told.
    """
    _take_in(merged(opened_shelf(shelf), load_gear(file), replace=replace), shelf)


def _export(
    file: To, rig: OneRig = None, replace: Replace = False, shelf: ShelfFile = None
) -> None:
    """Write the shelf to a file.

    With --rig one rig and its parts, to hand out. A file that is there stays, unless
    --replace is given.
    """
    held = opened_shelf(shelf)
    if file.exists() and not replace:
        raise BadValueError("file", file, "is there already; give another or --replace")
    if rig is None:
        save_shelf(held, file)
    else:
        built = rig_of_shelf(held, rig) or held.rig(rig)
        save_rig(built, file, currency=held.currency)
    sys.stdout.write(f"{file} is written.\n")


def _take_in(merge: Merge, file: Path | None) -> None:
    """Keep what came of taking in, and tell every difference."""
    keep_shelf(merge.shelf, file)
    for line in (merge.words, *(difference.words for difference in merge.differing)):
        sys.stdout.write(f"{line}\n")


def _kind_of(shelf: Shelf, name: str) -> str:
    """Tell what a name stands for; refuse one that stands for nothing or for two."""
    rows = {"rig": shelf.rigs, **{kind: getattr(shelf, row) for kind, row in KINDS.items()}}
    found = [kind for kind, row in rows.items() if any(held.name == name for held in row)]
    if not found:
        every = [held.name for row in rows.values() for held in row]
        raise BadValueError("name", name, f"is not on the shelf{near(name, every)}")
    if len(found) > 1:
        kinds = ", ".join(found)
        raise CoreError(f'"{name}" is the name of several things ({kinds}); say which by --kind')
    return found[0]


def _as_json(shelf: Shelf) -> Json:
    """Put a shelf into the fields that the command promises."""
    return {
        "currency": shelf.currency,
        "rigs": [
            {
                "name": rig.name,
                "aperture_mm": rig.aperture_mm,
                "focal_length_mm": rig.focal_length_mm,
                "focal_ratio": rig.focal_ratio,
                "scale_arcsec_px": rig.scale_arcsec_px,
                "mass_kg": rig.mass_kg,
                "price": rig.price,
                "parts": [part.name for part in rig.parts],
            }
            for rig in (shelf.rig(held.name) for held in shelf.rigs)
        ],
        "parts": [
            {
                "kind": kind,
                "name": part.name,
                "mass_kg": part.mass_kg,
                "price": part.price,
                "used_by": list(used_by(shelf, row, part.name)),
            }
            for kind, row, part in _parts(shelf)
        ],
    }


def _parts(shelf: Shelf) -> list[tuple[str, str, Part]]:
    """List every part with its kind and its row."""
    return [(kind, row, part) for kind, row in KINDS.items() for part in getattr(shelf, row)]


def _print(shelf: Shelf) -> None:
    """Print a table of the rigs and one of the parts."""
    from rich.box import SIMPLE
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    screen = sys.stdout.isatty()
    console = Console(width=None if screen else _WIDE, force_terminal=screen, highlight=False)
    rigs = Table("rig", "optics", "scale", box=SIMPLE)
    parts = Table("part", "kind", "rigs", box=SIMPLE)
    for table in (rigs, parts):
        table.add_column("mass", justify="right")
        table.add_column("price", justify="right")
    for rig in (shelf.rig(held.name) for held in shelf.rigs):
        optics = f"{rig.aperture_mm:.4g}/{rig.focal_length_mm:.5g} f/{rig.focal_ratio:.3g}"
        rigs.add_row(Text(rig.name), optics, f"{rig.scale_arcsec_px:.3g}″/px",
                     *_figures(rig.mass_kg, rig.price, shelf.currency))  # fmt: skip
    for kind, row, part in _parts(shelf):
        words = getattr(part, "kind", kind) if kind == "other" else kind
        users = str(len(used_by(shelf, row, part.name)) or _UNKNOWN)
        figures = _figures(part.mass_kg, part.price, shelf.currency)
        parts.add_row(Text(part.name), words, users, *figures)
    console.print(rigs)
    console.print(parts)


def _figures(mass_kg: float | None, price: float | None, currency: str) -> tuple[str, str]:
    """Write mass and price, a dash for what is not known."""
    mass = _UNKNOWN if mass_kg is None else f"{mass_kg:.3g} kg"
    return mass, _UNKNOWN if price is None else money_words(price, currency)
