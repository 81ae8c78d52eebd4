"""Frames as one JSON object, or as tables for people. Units are in the names of fields.

What is not known is null in JSON and a dash in a table.
"""

import json
import math
import re
import sys
from typing import Any

from app.cli.asked import Frame, Frames
from core.catalogue.target import TargetKind
from core.plan.document import PlannedTarget
from core.sky.angles import format_dec, format_ra

__all__ = ["frames_as_json", "print_frames", "print_json"]

#: Where the output is no terminal a table may be this wide, so that nothing is cut.
_WIDE = 200
_UNKNOWN = "–"
#: A pair of numbers that takes four lines; a text never holds a bare end of line.
_PAIR = re.compile(r"\[\n\s+([-\d.e]+),\n\s+([-\d.e]+)\n\s+\]")
Json = dict[str, Any]


def print_json(content: Json) -> None:
    """Print one JSON object and nothing else on standard output."""
    text = json.dumps(_known(content), indent=1, allow_nan=False)
    sys.stdout.write(_PAIR.sub(r"[\1, \2]", text) + "\n")


def frames_as_json(answer: Frames) -> Json:
    """Put an answer into the fields that the command promises."""
    target = answer.target
    return {
        "target": {
            "name": target.name,
            "id": target.id,
            "kind": target.kind.value,
            "ra_deg": target.ra_deg,
            "dec_deg": target.dec_deg,
            "major_arcmin": target.major_arcmin,
            "minor_arcmin": target.minor_arcmin,
            "pa_deg": target.pa_deg,
            "approximate": target.approximate,
        },
        "rigs": [_rig_as_json(frame) for frame in answer.frames],
    }


def print_frames(answer: Frames) -> None:
    """Print the target, a table of the frames and one of their corners."""
    from rich.box import SIMPLE
    from rich.console import Console
    from rich.table import Table

    screen = sys.stdout.isatty()
    console = Console(width=None if screen else _WIDE, force_terminal=screen, highlight=False)
    console.print(_target_words(answer.target), markup=False)
    table = Table("rig", "optics", "scale", "field", "centre", "PA", "fill", "target", box=SIMPLE)
    corners = Table("corner", "(−x, +y)", "(+x, +y)", "(+x, −y)", "(−x, −y)", box=SIMPLE)
    for frame in answer.frames:
        table.add_row(*map(_plain, _row(frame)))
        places = [_place(*corner) for corner in frame.footprint.corners_deg().tolist()]
        corners.add_row(*map(_plain, (frame.planned.rig.name, *places)))
    console.print(table)
    console.print(corners)
    console.print("PA is north through east of the sensor's up, +y; +x lies 90° before it.")


def _rig_as_json(frame: Frame) -> Json:
    """One rig and its frame."""
    rig, footprint, fit = frame.planned.rig, frame.footprint, frame.fit
    return {
        "name": rig.name,
        "aperture_mm": rig.aperture_mm,
        "focal_length_mm": rig.focal_length_mm,
        "focal_ratio": rig.focal_ratio,
        "scale_arcsec_px": rig.scale_arcsec_px,
        "width_deg": rig.width_deg,
        "height_deg": rig.height_deg,
        "centre_deg": [footprint.ra_deg, footprint.dec_deg],
        "pa_deg": footprint.pa_deg,
        "corners_deg": footprint.corners_deg().tolist(),
        "fill": fit.fill,
        "covered": fit.covered,
        "verdict": fit.verdict,
    }


def _known(value: Any) -> Any:
    """Replace every figure that is not finite by null."""
    if isinstance(value, dict):
        return {key: _known(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_known(item) for item in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value


def _target_words(target: PlannedTarget) -> str:
    """Write the target in one line."""
    names = [target.id, target.name]
    if target.kind in (TargetKind.SCENE, TargetKind.POSITION):
        names = [target.name]  # its id is no designation
    facts = [", ".join(dict.fromkeys(names)), target.kind.value]
    if target.kind is not TargetKind.POSITION:
        facts.append(_place(target.ra_deg, target.dec_deg))
    if target.major_arcmin is not None:
        about = "about " if target.approximate else ""
        minor = target.minor_arcmin or target.major_arcmin
        facts.append(f"{about}{target.major_arcmin:.4g}′ × {minor:.4g}′")
    else:
        facts.append("size not known")
    if target.pa_deg is not None:
        facts.append(f"{'' if target.angle_trusted else 'about '}PA {target.pa_deg:.0f}°")
    return " · ".join(facts)


def _row(frame: Frame) -> tuple[str, ...]:
    """Write the cells of a frame."""
    rig, footprint, fit = frame.planned.rig, frame.footprint, frame.fit
    return (
        rig.name,
        f"{rig.aperture_mm:.4g}/{rig.focal_length_mm:.5g} f/{rig.focal_ratio:.3g}",
        f"{rig.scale_arcsec_px:.3g}″/px",
        f"{rig.width_deg:.4g}° × {rig.height_deg:.4g}°",
        _place(footprint.ra_deg, footprint.dec_deg),
        f"{footprint.pa_deg:.1f}°",
        _UNKNOWN if fit.fill is None else f"{fit.fill * 100.0:.3g} %",
        fit.verdict,
    )


def _place(ra_deg: float, dec_deg: float) -> str:
    """Write a position in sexagesimal."""
    return f"{format_ra(ra_deg)} {format_dec(dec_deg)}"


def _plain(text: str) -> Any:
    """Text in which brackets mean brackets."""
    from rich.text import Text

    return Text(text)
