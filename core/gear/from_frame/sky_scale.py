"""Works out the image scale that a FITS header's world coordinates give.

Arcseconds per pixel at the reference point, along the columns (x) and the rows (y) of the
picture as it is, binning included. Only axes that are celestial count.

Sources: FITS Standard 4.0 section 8.2 and WCS Paper I (Greisen & Calabretta 2002): either
CDi_j, or PCi_j scaled by CDELTi, or CDELTi alone; units from CUNITi, degrees where it is
missing (all from memory). Along an axis j the scale is the length of the column
(CD1j, CD2j); Pythagoras in the plane of projection.
"""

import math
from dataclasses import dataclass

from core.gear.from_frame.fits_cards import FitsHeader
from core.gear.from_frame.told import Told

__all__ = ["SkyScale", "sky_scale"]

_ARCSEC = {"deg": 3600.0, "arcmin": 60.0, "arcsec": 1.0, "rad": math.degrees(1.0) * 3600.0}
_CELESTIAL = ("RA--", "DEC-", "GLON", "GLAT", "ELON", "ELAT")
#: From a thousandth of an arcsecond to a pixel of ten degrees.
_FINEST, _COARSEST = 1e-3, 36_000.0


@dataclass(frozen=True)
class SkyScale:
    """The scale along both axes of a picture, and the keywords that it comes from."""

    x_arcsec_px: float
    y_arcsec_px: float
    source: str


def sky_scale(header: FitsHeader, remarks: list[str]) -> SkyScale | None:
    """Give the scale of a picture.

    Parameters
    ----------
    header : FitsHeader
    remarks : list of str
        A sentence is added where there are world coordinates that cannot be used.

    Returns
    -------
    SkyScale or None
        None when the header has no celestial coordinates.
    """
    types = [header.first(f"CTYPE{axis}") for axis in (1, 2)]
    matrix = _matrix(header)
    if matrix is None or any(told is None for told in types):
        return None
    names = [str(told.value).strip().upper() for told in types if told is not None]
    if not all(name.startswith(_CELESTIAL) for name in names):
        return None
    source, ((a, b), (c, d)) = matrix
    x, y, area = math.hypot(a, c), math.hypot(b, d), abs(a * d - b * c)
    sane = _FINEST <= x <= _COARSEST and _FINEST <= y <= _COARSEST
    if not sane or not area >= 0.5 * x * y:
        remarks.append(f"{source} give no scale that can be; left out")
        return None
    return SkyScale(x, y, source)


_Rows = tuple[tuple[float, float], tuple[float, float]]


def _matrix(header: FitsHeader) -> tuple[str, _Rows] | None:
    """Give the matrix from pixels to arcseconds, and where it comes from."""
    unit = [_unit(header.first(f"CUNIT{axis}")) for axis in (1, 2)]
    steps = [_plain(header.first(f"CDELT{axis}"), math.nan) for axis in (1, 2)]
    if _has(header, "CD"):
        source, scale, rows = "CD", unit, _elements(header, "CD", 0.0)
    elif not any(math.isnan(step) for step in steps):
        scale = [one * step for one, step in zip(unit, steps, strict=True)]
        source = "PC and CDELT" if _has(header, "PC") else "CDELT"
        rows = _elements(header, "PC", 1.0)
    else:
        return None
    first, second = ((one * row[0], one * row[1]) for one, row in zip(scale, rows, strict=True))
    return f"the sky coordinates ({source})", (first, second)


def _has(header: FitsHeader, letters: str) -> bool:
    """Tell whether there is an element of CD or PC."""
    return any(f"{letters}{i}_{j}" in header.cards for i in (1, 2) for j in (1, 2))


def _elements(header: FitsHeader, letters: str, diagonal: float) -> _Rows:
    """Give CD or PC; what is missing is 0, or the given figure on the diagonal."""

    def element(row: int, column: int) -> float:
        told = header.first(f"{letters}{row}_{column}")
        return _plain(told, diagonal if row == column else 0.0)

    return (element(1, 1), element(1, 2)), (element(2, 1), element(2, 2))


def _unit(told: Told | None) -> float:
    """Give the arcseconds of an axis's unit; NaN for one that is no angle."""
    if told is None:
        return _ARCSEC["deg"]
    return _ARCSEC.get(str(told.value).strip().lower() or "deg", math.nan)


def _plain(told: Told | None, otherwise: float) -> float:
    """Give a number as it stands; NaN for what is none."""
    if told is None:
        return otherwise
    if isinstance(told.value, bool) or not isinstance(told.value, int | float):
        return math.nan
    try:
        return float(told.value)
    except OverflowError:
        return math.inf
