"""WCSLIB (through astropy.wcs) as the reference, and distances in arcseconds."""

import warnings

import erfa
import numpy as np
from astropy.io import fits
from astropy.wcs import WCS, FITSFixedWarning
from numpy.typing import ArrayLike, NDArray

__all__ = ["TOLERANCE_ARCSEC", "apart_arcsec", "wcs_of"]

#: The project's promise: to this the ground agrees with WCSLIB, measured on the sky.
TOLERANCE_ARCSEC = 1e-6


def wcs_of(keywords: dict[str, float | int | str]) -> WCS:
    """Build WCSLIB's reading of some FITS keywords."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", FITSFixedWarning)
        return WCS(fits.Header(keywords))


def apart_arcsec(first_deg: ArrayLike, second_deg: ArrayLike) -> NDArray[np.float64]:
    """Separation of (N, 2) RA and Dec pairs by ERFA's seps."""
    a, b = np.radians(first_deg), np.radians(second_deg)
    return np.degrees(erfa.seps(a[..., 0], a[..., 1], b[..., 0], b[..., 1])) * 3600.0
