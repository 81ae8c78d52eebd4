"""Tells whether the pixels are as fine as the air allows."""

import math
from collections.abc import Iterator

from core.gear.checks.finding import Band, Conditions, Finding, graded
from core.gear.optics.resolution import resolution_arcsec
from core.gear.rig import Rig

__all__ = ["BANDS", "check_sampling"]

_SOURCE = "sampling theorem; bands of a quarter, a half and one seeing width, common practice"
#: Image scale over seeing. Between a quarter and a third is still of use.
BANDS = (
    Band(
        math.nextafter(1 / 4, 0.0),
        "note",
        "finer than the air allows; add the pixels up two by two (binning)",
    ),
    Band(1 / 2, "good", "fine detail is well sampled"),
    Band(1.0, "good", "fair, and a usual choice for wide fields"),
    Band(
        math.inf,
        "note",
        "coarse, as wide fields are; move the frame a little between exposures (dithering)",
    ),
)


def check_sampling(rig: Rig, conditions: Conditions) -> Iterator[Finding]:
    """Hold the image scale against the seeing."""
    seeing = conditions.seeing_arcsec
    band = graded(BANDS, rig.scale_arcsec_px / seeing)
    width = resolution_arcsec(
        rig, seeing_arcsec=seeing, guide_rms_arcsec=conditions.guide_rms_arcsec
    )
    message = (
        f"One pixel covers {rig.scale_arcsec_px:.2f} arcsec and the air blurs stars to "
        f"{seeing:g} arcsec (seeing): {band.advice}. With optics and guiding stars are about "
        f"{width:.1f} arcsec wide."
    )
    yield Finding(
        rule="sampling",
        severity=band.severity,
        message=message,
        value=rig.scale_arcsec_px,
        limit=seeing,
        unit="arcsec/px",
        source=_SOURCE,
        part=rig.camera.name,
    )
