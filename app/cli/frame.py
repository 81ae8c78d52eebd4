"""``skysill frame``: where each rig's frame falls for a target."""

from pathlib import Path
from typing import Annotated

import typer

from app.cli.asked import Asked, RigInNumbers, asked_frames
from app.cli.output import frames_as_json, print_frames, print_json
from app.cli.sheet_picture import save_picture

__all__ = ["add_to"]

Words = Annotated[
    list[str], typer.Argument(metavar="TARGET", help='A name, or "RA DEC" in any usual spelling.')
]
Names = Annotated[
    list[str] | None,
    typer.Option("--rig", metavar="NAME", help="A rig of the plan; may be given again."),
]
Millimetres = Annotated[str | None, typer.Option(metavar="MM")]
Factor = Annotated[
    str | None, typer.Option(metavar="F", help="Of a reducer or extender; 1 without one.")
]
Pixel = Annotated[str | None, typer.Option("--pixel", metavar="UM", help="Pixel size.")]
Pixels = Annotated[str | None, typer.Option("--pixels", metavar="WxH", help="Like 6248x4176.")]
Angle = Annotated[
    str | None,
    typer.Option(
        "--pa", metavar="DEG", help="Position angle of the sensor's up, north through east."
    ),
]
Centre = Annotated[str | None, typer.Option("--centre", metavar="'RA DEC'", help="Of all frames.")]
PlanFile = Annotated[
    str | None, typer.Option("--plan", metavar="FILE", help="Default: the plan as it was left.")
]
Picture = Annotated[
    Path | None, typer.Option("--picture", metavar="FILE", help="Also draw it, as a PNG.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def add_to(commands: typer.Typer) -> None:
    """Add the command."""
    commands.command("frame")(_frame)


def _frame(  # noqa: PLR0913  (each parameter is an option of the command)
    target: Words,
    rig: Names = None,
    focal_length: Millimetres = None,
    aperture: Millimetres = None,
    factor: Factor = None,
    pixel: Pixel = None,
    pixels: Pixels = None,
    pa: Angle = None,
    centre: Centre = None,
    plan: PlanFile = None,
    picture: Picture = None,
    as_json: AsJson = False,
) -> None:
    """Tell where each rig's frame falls.

    Rigs come from the plan, or are said in numbers with --focal-length, --aperture,
    --pixel and --pixels. Without --pa and --centre each frame stands as the plan has it,
    or centred on the target at the suggested angle.
    """
    numbers = RigInNumbers(focal_length, aperture, factor, pixel, pixels)
    asked = Asked(" ".join(target), tuple(rig or ()), numbers, pa, centre, plan)
    frames = asked_frames(asked)
    if picture is not None:
        save_picture(frames, picture)
    if as_json:
        print_json(frames_as_json(frames))
    else:
        print_frames(frames)
