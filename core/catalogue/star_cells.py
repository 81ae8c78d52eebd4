"""Which runs of cells of the star files a cone on the sky touches.

Degrees outside, radians inside. Domain: any centre, radius 0 to 180 degrees; poles and
the seam of right ascension need no care by the caller. The answer may hold cells that
only come near the cone, never miss one that it touches.

The half-width of a cone at declination d is acos((cos r - sin d sin d0)/(cos d cos d0)),
from the spherical law of cosines; it is widest at sin d = sin d0 / cos r.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.catalogue.star_format import BINS, FIRST_CELL, ZONES

__all__ = ["CellRuns", "runs_in_cone"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: The cone is widened by this much, so that rounding never loses a cell.
_MARGIN_DEG = 1e-5


class CellRuns(NamedTuple):
    """Runs of neighbouring cells in one zone each, arrays (R,)."""

    zone: Ints
    #: Bin of right ascension of the first cell.
    first_bin: Ints
    #: Number of the first cell, and of the one after the last.
    start: Ints
    stop: Ints


def runs_in_cone(ra_deg: float, dec_deg: float, radius_deg: float) -> CellRuns:
    """Find the cells that a cone touches.

    Parameters
    ----------
    ra_deg, dec_deg : float
        Centre, ICRS degrees.
    radius_deg : float
        0 to 180.
    """
    radius = radius_deg + _MARGIN_DEG
    south, north = max(dec_deg - radius, -90.0), min(dec_deg + radius, 90.0)
    low = min(max(math.floor(south + 90.0), 0), ZONES - 1)
    high = min(max(math.floor(north + 90.0), 0), ZONES - 1)
    zone = np.arange(low, high + 1)
    bands = np.clip(np.stack([zone - 90.0, zone - 89.0]), south, north)
    half_width_deg = _half_widths_deg(bands, dec_deg, radius)
    bins = BINS[zone]
    first = np.floor((ra_deg - half_width_deg) * bins / 360.0).astype(np.int64)
    last = np.floor((ra_deg + half_width_deg) * bins / 360.0).astype(np.int64)
    count = np.minimum(last - first + 1, bins)
    return _split_at_seam(zone, np.where(count == bins, 0, first % bins), count)


def _half_widths_deg(bands_deg: Floats, dec_deg: float, radius_deg: float) -> Floats:
    """Greatest half-width of the cone in right ascension within each band (2, Z)."""
    if radius_deg >= 180.0:
        return np.full(bands_deg.shape[1], 180.0)
    sin_d0, cos_d0 = math.sin(math.radians(dec_deg)), math.cos(math.radians(dec_deg))
    cos_r = math.cos(math.radians(radius_deg))
    bands = np.radians(bands_deg)
    if cos_r > abs(sin_d0):
        widest = math.asin(sin_d0 / cos_r)
        bands = np.vstack([bands, np.clip(widest, bands[0], bands[1])])
    # A cosine below -1 means that the cone goes all around, above 1 a touching edge.
    across = (cos_r - np.sin(bands) * sin_d0) / np.maximum(np.cos(bands) * cos_d0, 1e-300)
    return np.asarray(np.degrees(np.arccos(np.clip(across.min(axis=0), -1.0, 1.0))))


def _split_at_seam(zone: Ints, first: Ints, count: Ints) -> CellRuns:
    """Cut the runs that cross RA 0 in two."""
    over = first + count - BINS[zone]
    wraps = over > 0
    zones = np.concatenate([zone, zone[wraps]])
    firsts = np.concatenate([first, np.zeros(np.count_nonzero(wraps), dtype=np.int64)])
    counts = np.concatenate([np.where(wraps, count - over, count), over[wraps]])
    start = FIRST_CELL[zones] + firsts
    return CellRuns(zones, firsts, start, start + counts)
