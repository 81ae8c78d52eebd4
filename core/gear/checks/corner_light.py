"""Tells how much darker the corners of the picture are than its middle.

Two causes: the light reaches a corner aslant, by cos^4 of its angle from the axis, and the
bores cut off a part of its beam. Bores cut it from the same side, so the narrowest of them
counts, not their product.
"""

import math
from collections.abc import Iterator

from core.gear.accessories import InTheBeam
from core.gear.checks.finding import Band, Conditions, Finding, graded
from core.gear.optics.illumination import beam_passing
from core.gear.optics.light_path import light_path
from core.gear.rig import Rig

__all__ = ["BANDS", "check_corner_light", "corner_light_fraction", "narrowest_bore"]

_SOURCE = (
    "natural fall-off cos^4 of the field angle, textbook from memory (lenses made for "
    "digital sensors do better); overlap of beam and bore; limits of our own"
)
#: Fractions of the light that a corner lacks.
BANDS = (
    Band(0.10, "good", "no difference that shows"),
    Band(0.50, "note", "take flat frames (pictures of an even light), which make up for it"),
    Band(
        math.inf,
        "caution",
        "the corners come out grainy, whatever flat frames (pictures of an even light) make up "
        "for; leave room to cut them off",
    ),
)
#: Light that counts as all of it in words.
_WHOLE = 0.995


def corner_light_fraction(diagonal_mm: float, focal_length_mm: float) -> float:
    """Give the light at a corner over that in the middle, bores left out.

    Parameters
    ----------
    diagonal_mm : float
        Of the sensor.
    focal_length_mm : float

    Returns
    -------
    float
        cos^4 of the angle between the corner and the axis. Arrays work too.

    Examples
    --------
    >>> round(corner_light_fraction(43.27, 24.0), 3)
    0.304
    """
    return (1.0 + (diagonal_mm / (2.0 * focal_length_mm)) ** 2) ** -2


def narrowest_bore(rig: Rig) -> tuple[InTheBeam | None, float, bool]:
    """Find the bore that takes most of a corner's light.

    Parameters
    ----------
    rig : Rig

    Returns
    -------
    part : InTheBeam or None
        None when no bore is known to take any.
    passing : float
        The part of the beam that it lets through, 0 to 1.
    all_known : bool
        Whether every bore and its place is known.
    """
    worst, least, all_known = None, 1.0, True
    height = math.hypot(rig.camera.width_mm, rig.camera.height_mm) / 2
    for element in light_path(rig).elements:
        part, place = element.part, element.to_sensor_mm
        if not isinstance(part, InTheBeam):
            continue
        clear = part.clear_diameter_mm
        if clear is None or place is None:
            all_known = False
            continue
        passing = beam_passing(clear, distance_mm=place, ratio=rig.focal_ratio, height_mm=height)
        if passing < least:
            worst, least = part, passing
    return worst, least, all_known


def check_corner_light(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold a corner's light against that of the middle."""
    diagonal = math.hypot(rig.camera.width_mm, rig.camera.height_mm)
    natural = corner_light_fraction(diagonal, rig.focal_length_mm)
    part, passing, all_known = narrowest_bore(rig)
    left = natural * passing
    band = graded(BANDS, 1.0 - left)
    part = part if passing < _WHOLE else None
    open_end = "" if all_known else ", parts whose inner width is not known left out"
    yield Finding(
        rule="corner-light",
        severity=band.severity,
        message=f"The corners get {100 * left:.0f} % of the light of the middle"
        f"{_causes(natural, part, passing)}{open_end}: {band.advice}.",
        value=left,
        limit=1.0 - BANDS[0].upto,
        source=_SOURCE,
        part="" if part is None or band.severity == "good" else part.name,
    )


def _causes(natural: float, part: InTheBeam | None, passing: float) -> str:
    """Say what takes the light; nothing where hardly any is missing."""
    causes = [f"{100 * natural:.0f} % by its slant"] if natural < _WHOLE else []
    if part is not None:
        causes.append(f"{100 * passing:.0f} % through {part.name}")
    return f" ({', '.join(causes)})" if causes else ""
