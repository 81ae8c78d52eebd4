"""Tells whether a narrow filter still passes its line in a fast beam."""

import math
from collections.abc import Iterator

from core.gear.accessories import FilterPart
from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.rig import Rig

__all__ = ["band_shift_nm", "check_narrow_filters"]

_SOURCE = (
    "tilted interference filter, sqrt(1 - (sin U / n)^2) with n of about 2, textbook from "
    "memory; limits of a quarter and a half of the band, our own"
)
#: Effective index of the layers; a usual value, textbook from memory.
_LAYER_INDEX = 2.0
#: The hydrogen line H alpha, for filters that do not say where their band lies.
_H_ALPHA_NM = 656.28
#: Bands wider than this are not called narrow here.
_NARROW_NM = 20.0
#: Shift of the outermost rays over the width of the band.
_BANDS = (
    Band(0.25, "good", "nearly all light of the line passes"),
    Band(0.50, "note", "some light of the line is lost; expose a little longer"),
    Band(math.inf, "caution", "much of the line is lost; take a wider band or one for fast optics"),
)


def band_shift_nm(centre_nm: float, focal_ratio: float) -> float:
    """Give how far the outermost rays of a beam move a filter's band to the blue.

    Parameters
    ----------
    centre_nm : float
        Where the band lies for rays along the axis.
    focal_ratio : float
        Above 0.

    Examples
    --------
    >>> round(band_shift_nm(656.28, 2.0), 2)
    4.84
    """
    sine = math.sin(math.atan(1.0 / (2.0 * focal_ratio)))
    return centre_nm * (1.0 - math.sqrt(1.0 - (sine / _LAYER_INDEX) ** 2))


def check_narrow_filters(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the shift of each narrow filter against its band."""
    for part in rig.others:
        if not isinstance(part, FilterPart) or _holder_of_parts(part, rig):
            continue
        if part.band_nm is None:
            wanted = [f"the width of the band of {part.name} in nm"]
            about = "loss by narrow filters"
            yield unknown("narrow-filter", wanted, about=about, source=_SOURCE, part=part.name)
        elif part.band_nm <= _NARROW_NM:
            yield _judged(rig, part, part.band_nm)


def _holder_of_parts(part: FilterPart, rig: Rig) -> bool:
    """Tell whether a wheel or drawer only holds filters that are parts by themselves."""
    loose = any(isinstance(p, FilterPart) and p.kind == "filter" for p in rig.others)
    return part.kind != "filter" and part.band_nm is None and loose


def _judged(rig: Rig, part: FilterPart, band_nm: float) -> Finding:
    """Judge one narrow filter."""
    shift = band_shift_nm(part.centre_nm or _H_ALPHA_NM, rig.focal_ratio)
    band = graded(_BANDS, shift / band_nm)
    message = (
        f"At f/{rig.focal_ratio:.1f} the outermost rays pass {part.name} aslant, which moves its "
        f"band of {band_nm:g} nm by {shift:.1f} nm: {band.advice}."
    )
    return Finding(
        rule="narrow-filter",
        severity=band.severity,
        message=message,
        value=shift,
        limit=_BANDS[0].upto * band_nm,
        unit="nm",
        source=_SOURCE,
        part=part.name,
    )
