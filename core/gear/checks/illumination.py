"""Tells whether light reaches the whole sensor: image circle, every bore in the beam."""

import math
from collections.abc import Iterator

from core.gear.accessories import FilterPart, InTheBeam
from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.optics.illumination import beam_passing, fraction_in_circle
from core.gear.optics.light_path import light_path
from core.gear.rig import Rig

__all__ = [
    "BORE_BANDS",
    "CIRCLE_BANDS",
    "check_clear_diameters",
    "check_image_circle",
    "circle_fraction",
]

_CIRCLE_SOURCE = "area of the sensor inside the circle, plane geometry; limits of our own"
_BORE_SOURCE = (
    "overlap of beam and bore for a corner, plane geometry, exit pupil far away; limits of our own"
)
#: Fractions of the sensor left dark.
CIRCLE_BANDS = (
    Band(0.0, "good", "it is covered to the corners"),
    Band(0.02, "note", "the corners are poor; cut them off or leave them out of the composition"),
    Band(0.15, "caution", "the corners are of no use; take a smaller sensor or other optics"),
    Band(math.inf, "stop", "too much of the sensor is wasted; take a smaller sensor"),
)
#: Fractions of a corner's light that are lost.
BORE_BANDS = (
    Band(0.005, "good", "no loss that shows"),
    Band(0.10, "note", "flat frames (pictures of an even light) make up for it"),
    Band(
        0.50,
        "caution",
        "the corners are dark; flat frames (pictures of an even light) help, a wider one cures it",
    ),
    Band(math.inf, "stop", "the corners stay black; take a wider one"),
)


def circle_fraction(rig: Rig) -> float | None:
    """Give the fraction of the sensor inside the image circle; None when not known."""
    circle = (rig.corrector or rig.telescope).image_circle_mm
    if circle is None:
        return None
    return fraction_in_circle(rig.camera.width_mm, rig.camera.height_mm, circle)


def check_image_circle(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the sensor against the circle that the optics are made for."""
    optics, fraction = rig.corrector or rig.telescope, circle_fraction(rig)
    if fraction is None:
        wanted = [f"the image circle of {optics.name} (how wide a field it draws sharp)"]
        yield unknown("image-circle", wanted, source=_CIRCLE_SOURCE, part=optics.name)
        return
    band = graded(CIRCLE_BANDS, 1.0 - fraction)
    diagonal = math.hypot(rig.camera.width_mm, rig.camera.height_mm)
    share = f"{100 * fraction:.1f} %" if fraction < 0.9995 else "all but the corners"
    held = "" if fraction == 1.0 else f", which holds {share} of the sensor"
    message = (
        f"The sensor is {diagonal:.1f} mm across its corners, {optics.name} is sharp in a "
        f"circle of {optics.image_circle_mm:g} mm{held}: {band.advice}."
    )
    yield Finding(
        rule="image-circle",
        severity=band.severity,
        message=message,
        value=fraction,
        limit=1.0 - CIRCLE_BANDS[1].upto,
        source=_CIRCLE_SOURCE,
        part=optics.name,
    )


def check_clear_diameters(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Look through every bore between the optics and the sensor."""
    for element in light_path(rig).elements:
        part = element.part
        if isinstance(part, InTheBeam):
            yield _bore(rig, part, element.to_sensor_mm)


def _bore(rig: Rig, part: InTheBeam, distance_mm: float | None) -> Finding:
    """Judge one bore, at its front, where the beam is widest."""
    wanted = []
    if part.clear_diameter_mm is None:
        wanted.append(f"the clear diameter of {part.name} (its width inside)")
    if distance_mm is None:
        wanted.append(f"every length from {part.name} to the sensor")
    clear = part.clear_diameter_mm
    if clear is None or distance_mm is None:
        about = f"light through {part.name}"
        return unknown(_rule_of(part), wanted, about=about, source=_BORE_SOURCE, part=part.name)
    return _judged(rig, part, clear, distance_mm)


def _rule_of(part: InTheBeam) -> str:
    """Name the rule: a filter is chosen by its size."""
    return "filter-size" if isinstance(part, FilterPart) else "clear-diameter"


def _judged(rig: Rig, part: InTheBeam, clear_mm: float, distance_mm: float) -> Finding:
    """Judge a bore whose every figure is known."""
    diagonal = math.hypot(rig.camera.width_mm, rig.camera.height_mm)
    passing = beam_passing(
        clear_mm, distance_mm=distance_mm, ratio=rig.focal_ratio, height_mm=diagonal / 2
    )
    needed, band = diagonal + distance_mm / rig.focal_ratio, graded(BORE_BANDS, 1.0 - passing)
    some = "" if band.severity == "good" else f"; {100 * passing:.0f} % of a corner's light passes"
    message = (
        f"{part.name} is {clear_mm:g} mm wide inside, and it takes {needed:.1f} mm to let all "
        f"light through to the corners{some}: {band.advice}."
    )
    return Finding(
        rule=_rule_of(part),
        severity=band.severity,
        message=message,
        value=clear_mm,
        limit=needed,
        unit="mm",
        source=_BORE_SOURCE,
        part=part.name,
    )
