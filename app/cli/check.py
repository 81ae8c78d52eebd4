"""``skysill check``: whether the parts of a rig work together."""

import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from app.cli.asked_rigs import SHELF_HELP, asked_rigs
from app.cli.nights import Exposure, Guiding, Latitude, PolarError, Seeing, asked_nights
from app.cli.output import print_json
from app.words.finding_verdict import verdict_of
from core.gear.checks import Finding, findings
from core.gear.checks.illumination import circle_fraction
from core.gear.optics.light_path import back_focus
from core.gear.rig import Rig

__all__ = ["add_to"]

#: Where the output is no terminal the table may be this wide.
_WIDE = 120
_UNKNOWN = "–"
#: A mark beside the word, for a glance down the column.
_MARKS = {"stop": "✕", "caution": "▲", "unknown": "?", "note": "·", "good": "✓"}
Json = dict[str, Any]

Name = Annotated[str, typer.Argument(metavar="RIG", help="A rig of the plan, or of the shelf.")]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
ShelfFile = Annotated[
    Path | None,
    typer.Option("--shelf", metavar="FILE", help=SHELF_HELP),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the command."""
    commands.command("check")(_check)


def _check(  # noqa: PLR0913  (each parameter is an option of the command)
    name: Name,
    plan: PlanFile = None,
    shelf: ShelfFile = None,
    seeing: Seeing = None,
    guiding: Guiding = None,
    exposure: Exposure = None,
    latitude: Latitude = None,
    polar_error: PolarError = None,
    as_json: AsJson = False,
) -> None:
    """Tell whether the parts of a rig work together, the worst first.

    What a rule cannot know is asked for. The exit status does not tell what was found.
    Seeing, guiding, exposure, latitude and polar error are those of the plan's nights
    where they are not given.
    """
    asked = asked_rigs([name], plan=plan, shelf=shelf)
    nights = asked_nights(
        asked.plan.nights,
        {
            "seeing_arcsec": seeing,
            "guide_rms_arcsec": guiding,
            "exposure_s": exposure,
            "latitude_deg": latitude,
            "polar_error_arcmin": polar_error,
        },
    )
    (rig,) = asked.rigs
    found = findings(rig, nights)
    if as_json:
        print_json(_as_json(rig, found))
    else:
        _print(rig, found)


def _as_json(rig: Rig, found: tuple[Finding, ...]) -> Json:
    """Put an answer into the fields that the command promises."""
    focus = back_focus(rig)
    return {
        "rig": rig.name,
        "focal_length_mm": rig.focal_length_mm,
        "focal_ratio": rig.focal_ratio,
        "scale_arcsec_px": rig.scale_arcsec_px,
        "mass_kg": rig.mass_kg,
        "load_fraction": rig.load_fraction,
        "back_focus": {
            "required_mm": focus.required_mm,
            "present_mm": focus.present_mm,
            "missing_mm": focus.missing_mm,
        },
        "image_circle_fraction": circle_fraction(rig),
        "price": rig.price,
        "findings": [one.model_dump(exclude={"part"}) for one in found],
    }


def _print(rig: Rig, found: tuple[Finding, ...]) -> None:
    """Print the rig in a line and a table of the findings."""
    from rich.box import SIMPLE
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    screen = sys.stdout.isatty()
    console = Console(width=None if screen else _WIDE, force_terminal=screen, highlight=False)
    console.print(Text(_head(rig)))
    table = Table("", "finding", box=SIMPLE)
    table.columns[0].no_wrap = True
    for one in found:
        table.add_row(Text(f"{_MARKS[one.severity]} {one.severity}"), Text(one.message))
    console.print(table)
    console.print(verdict_of(found))


def _head(rig: Rig) -> str:
    """Write the rig in one line."""
    mass = _UNKNOWN if rig.mass_kg is None else f"{rig.mass_kg:.3g} kg on the mount"
    optics = f"{rig.aperture_mm:.4g}/{rig.focal_length_mm:.5g} f/{rig.focal_ratio:.3g}"
    return f"{rig.name} · {optics} · {rig.scale_arcsec_px:.3g}″/px · {mass}"
