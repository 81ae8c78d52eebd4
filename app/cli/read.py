"""``skysill read``: what a test frame says of the rig that took it."""

import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from app.cli.asked import asked_plan, number_from, pixels_from
from app.cli.output import print_json
from app.window.places import user_places
from core.errors import StorageError
from core.gear.from_frame.figure import Figure
from core.gear.from_frame.figures import FrameFigures
from core.gear.rig import Rig
from core.plan.edits import with_rig
from core.plan.store import save_plan

__all__ = ["add_to"]

_WIDE = 140
#: Which option gives a figure that is missing.
_OPTIONS = {
    "focal length": "--focal-length",
    "aperture": "--aperture",
    "pixel pitch": "--pixel",
    "columns": "--pixels",
    "rows": "--pixels",
}
Json = dict[str, Any]

FrameFile = Annotated[Path, typer.Argument(metavar="FRAME", help="A FITS file, JPEG or TIFF.")]
Millimetres = Annotated[
    str | None, typer.Option(metavar="MM", help="In place of what the frame tells.")
]
Pixel = Annotated[
    str | None, typer.Option("--pixel", metavar="UM", help="Pixel size of the sensor, unbinned.")
]
PixelCounts = Annotated[
    str | None, typer.Option("--pixels", metavar="WxH", help="Of the sensor, like 6248x4176.")
]
RigName = Annotated[str | None, typer.Option(metavar="NAME", help="What to call the rig.")]
Add = Annotated[bool, typer.Option("--add", help="Add the rig to the plan.")]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the command."""
    commands.command("read")(_read)


def _read(  # noqa: PLR0913  (each parameter is an option of the command)
    frame: FrameFile,
    focal_length: Millimetres = None,
    aperture: Millimetres = None,
    pixel: Pixel = None,
    pixels: PixelCounts = None,
    name: RigName = None,
    add: Add = False,
    plan: PlanFile = None,
    as_json: AsJson = False,
) -> None:
    """Tell what a test frame says of its rig.

    Each figure with the keyword that it comes from. What is ambiguous or cannot be is
    said; what is missing can be given. Pixels are never looked at.
    """
    from core.gear.from_frame.read import figures_of

    figures = figures_of(frame).given(**_given(focal_length, aperture, pixel, pixels))
    rig = None if figures.missing and not add else figures.to_rig(name)
    added = _added(rig, plan) if add and rig is not None else None
    if as_json:
        print_json(_as_json(figures, rig, added))
    else:
        _print(figures, rig)
        if added is not None and rig is not None:
            sys.stdout.write(f"{_added_words(rig, added, plan)}\n")


def _given(
    focal_length: str | None, aperture: str | None, pixel: str | None, pixels: str | None
) -> dict[str, float]:
    """Read the figures that were typed."""
    typed = {
        "focal_length_mm": ("focal length", focal_length, "mm"),
        "aperture_mm": ("aperture", aperture, "mm"),
        "pixel_um": ("pixel", pixel, "µm"),
    }
    given = {
        field: number_from(words, text, unit)
        for field, (words, text, unit) in typed.items()
        if text is not None
    }
    if pixels is not None:
        given["columns"], given["rows"] = pixels_from(pixels)
    return given


def _added(rig: Rig, file: str | None) -> Path:
    """Add a rig to the plan named, or to the plan as it was left; give the plan's file."""
    path = user_places().open_plan if file is None else Path(file)
    plan = with_rig(asked_plan(file), rig)
    if file is None:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StorageError(f"cannot make {path.parent}: {error.strerror}") from error
    save_plan(plan, path)
    return path


def _added_words(rig: Rig, path: Path, file: str | None) -> str:
    """Say where a rig went."""
    if file is not None:
        return f'"{rig.name}" is added to {path}.'
    return f'"{rig.name}" is added to the plan as it was left; a window that is open does not know.'


def _as_json(figures: FrameFigures, rig: Rig | None, added: Path | None) -> Json:
    """Put an answer into the fields that the command promises."""
    return {
        "file": figures.file,
        "form": figures.form,
        "figures": {
            figure.field: {
                "value": figure.value,
                "source": figure.source,
                "remark": figure.remark,
                "sure": figure.sure,
            }
            for figure in figures.figures
        },
        "choices": [
            {
                "figure": choice.field,
                "taken": choice.taken,
                "readings": {option.key: option.value for option in choice.options},
            }
            for choice in figures.choices
        ],
        "remarks": list(figures.remarks),
        "missing": list(figures.missing),
        "rig": None if rig is None else _rig_as_json(rig),
        "added_to": None if added is None else str(added),
    }


def _rig_as_json(rig: Rig) -> Json:
    """Give a rig in numbers."""
    return {
        "name": rig.name,
        "aperture_mm": rig.aperture_mm,
        "focal_length_mm": rig.focal_length_mm,
        "focal_ratio": rig.focal_ratio,
        "pixel_um": rig.camera.pixel_um,
        "columns": rig.camera.columns,
        "rows": rig.camera.rows,
        "scale_arcsec_px": rig.scale_arcsec_px,
        "width_deg": rig.width_deg,
        "height_deg": rig.height_deg,
    }


def _print(figures: FrameFigures, rig: Rig | None) -> None:
    """Print a table of the figures, then the rig, what is odd and what is missing."""
    from rich.box import SIMPLE
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    screen = sys.stdout.isatty()
    console = Console(width=None if screen else _WIDE, force_terminal=screen, highlight=False)
    console.print(f"{figures.file} · {figures.form}", markup=False)
    table = Table("figure", "value", "from", "remark", box=SIMPLE)
    for figure in figures.figures:
        table.add_row(*map(Text, _row(figure)))
    console.print(table)
    for line in _lines(figures, rig):
        console.print(line, markup=False, soft_wrap=True)


def _row(figure: Figure) -> tuple[str, str, str, str]:
    """Write the cells of a figure; what needs a second look has a mark."""
    mark = "" if figure.sure else "? "
    return figure.words, figure.value_words, figure.source, mark + figure.remark


def _lines(figures: FrameFigures, rig: Rig | None) -> list[str]:
    """Write what stands below the table."""
    lines = [f"{remark[:1].upper()}{remark[1:]}." for remark in figures.remarks]
    if rig is None:
        options = " ".join(dict.fromkeys(_OPTIONS[words] for words in figures.missing))
        return [*lines, f"Not told: {', '.join(figures.missing)}; give {options} for a rig."]
    optics = f"{rig.aperture_mm:.4g}/{rig.focal_length_mm:.5g} f/{rig.focal_ratio:.3g}"
    field = f"{rig.width_deg:.4g}° × {rig.height_deg:.4g}°"
    unbinned = " unbinned" if figures.figure("binning") else ""
    scale = f"{rig.scale_arcsec_px:.3g}″/px{unbinned}"
    return [*lines, f"{rig.name}: {optics} · {scale} · {field}"]
