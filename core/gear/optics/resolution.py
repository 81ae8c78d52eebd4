"""How fine a rig's picture is: diffraction, seeing and guiding together.

Full widths at half maximum in arcseconds, light of 550 nm. The sum of squares is exact for
Gaussian images and common practice for real ones, which seeing does not make Gaussian.
"""

import math

from core.gear.rig import ARCSEC_PER_RAD, Rig

__all__ = ["diffraction_arcsec", "resolution_arcsec"]

#: Width of the Airy pattern over wavelength by aperture (from its Bessel function; textbook).
_AIRY_WIDTH = 1.028994
_WAVELENGTH_MM = 550e-6
#: Full width of a Gaussian over its standard deviation, 2 sqrt(2 ln 2).
_WIDTH_OF_SIGMA = 2.0 * math.sqrt(2.0 * math.log(2.0))


def diffraction_arcsec(aperture_mm: float) -> float:
    """Give the width of a star that only a clear aperture blurs.

    Examples
    --------
    >>> round(diffraction_arcsec(80.0), 4)
    1.4592
    """
    return _AIRY_WIDTH * _WAVELENGTH_MM / aperture_mm * ARCSEC_PER_RAD


def resolution_arcsec(rig: Rig, *, seeing_arcsec: float, guide_rms_arcsec: float) -> float:
    """Give the width of a star in the picture, before pixels.

    Parameters
    ----------
    rig : Rig
    seeing_arcsec : float
        Width of a star that the air blurs.
    guide_rms_arcsec : float
        Guiding error on each axis, root mean square.
    """
    guiding = _WIDTH_OF_SIGMA * guide_rms_arcsec
    return math.hypot(seeing_arcsec, diffraction_arcsec(rig.aperture_mm), guiding)
