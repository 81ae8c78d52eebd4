"""Tells how far a Newtonian without a coma corrector draws out the stars of the corners.

A parabolic mirror draws a star that is the angle t off its axis into a small comet of the
length 3 t / (16 N^2), N the focal ratio (third-order tangential coma; Schroeder,
Astronomical Optics, from memory). Other telescopes are judged by their image circle.
"""

import math
from collections.abc import Iterator

from core.gear.checks.finding import Band, Conditions, Finding, graded
from core.gear.optics.resolution import resolution_arcsec
from core.gear.parts import Corrector, Telescope
from core.gear.rig import ARCSEC_PER_RAD, Rig

__all__ = ["BANDS", "check_coma", "coma_arcsec_mm", "has_coma", "star_width_arcsec"]

_SOURCE = (
    "tangential coma of a parabolic mirror, 3 t / (16 N^2), textbook from memory; one and two "
    "widths of a star, our own limits"
)
_CURE = "take a coma corrector, or a smaller sensor"
#: Lengths over the width of a star; most of the light is in the first half of the length.
BANDS = (
    Band(1.0, "good", "it hardly shows"),
    Band(2.0, "note", f"corner stars have short tails; {_CURE} if that disturbs"),
    Band(math.inf, "caution", f"corner stars look like comets; {_CURE}"),
)


def coma_arcsec_mm(focal_length_mm: float, ratio: float) -> float:
    """Give how long a parabolic mirror draws a star for each mm that it is off the axis.

    Parameters
    ----------
    focal_length_mm, ratio : float
        Focal length and focal ratio.

    Examples
    --------
    >>> round(10.0 * coma_arcsec_mm(1000.0, 5.0), 2)
    15.47
    """
    return 3.0 / focal_length_mm * ARCSEC_PER_RAD / (16.0 * ratio**2)


def star_width_arcsec(rig: Rig, conditions: Conditions) -> float:
    """Give the width of a star before pixels; a picture shows none finer than a pixel."""
    return resolution_arcsec(
        rig,
        seeing_arcsec=conditions.seeing_arcsec,
        guide_rms_arcsec=conditions.guide_rms_arcsec,
    )


def has_coma(telescope: Telescope, corrector: Corrector | None) -> bool:
    """Tell whether a mirror's coma is left as it is."""
    return telescope.kind == "newtonian" and corrector is None


def check_coma(rig: Rig, conditions: Conditions) -> Iterator[Finding]:
    """Hold the length of a corner star's image against the width of a star."""
    if not has_coma(rig.telescope, rig.corrector):
        return
    height = math.hypot(rig.camera.width_mm, rig.camera.height_mm) / 2
    length = height * coma_arcsec_mm(rig.focal_length_mm, rig.focal_ratio)
    width = max(star_width_arcsec(rig, conditions), rig.scale_arcsec_px)
    band = graded(BANDS, length / width)
    yield Finding(
        rule="coma",
        severity=band.severity,
        message=f"The mirror of {rig.telescope.name} by itself draws stars in the corners out to "
        f"{length:.1f} arcsec (coma), and stars are {width:.1f} arcsec wide: {band.advice}.",
        value=length,
        limit=BANDS[0].upto * width,
        unit="arcsec",
        source=_SOURCE,
        part=rig.telescope.name,
    )
