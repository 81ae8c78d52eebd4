"""The glow of the Milky Way in wide fields, from our own star counts.

The map holds how many faint catalogue stars stand on a square degree, smoothed, as made
by `assets/build/glow.py` from the embedded star file. It is a picture of where stars
crowd, scaled to a surface brightness by one figure; it is not a photograph, and fields
narrower than a few degrees are drawn without it.

Conventions: a (180, 360) uint8 map; row 0 is declination -90..-89, column 0 is right
ascension 0..1 degree; a value v stands for (v / 255)^2 of the densest place.
"""

import logging
import math
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.paths import ASSETS
from core.pictures.picture import PictureFrame
from core.pictures.pyramid import Pyramid

__all__ = ["add_glow", "glow_between", "glow_map"]

Floats = NDArray[np.float64]

#: Surface brightness of the densest place, mag per square arcsecond.
_DENSEST_MAG = 22.3
#: Widths of field between which the glow comes up, degrees.
_BEGINS_DEG, _FULL_DEG = 5.0, 25.0
_FACTOR = 16
_ARCSEC_PER_RAD = 206264.806


@lru_cache(maxsize=1)
def glow_map(path: Path = ASSETS / "pictures" / "glow.npy") -> Floats | None:
    """Load the map as densities, 1 at the densest place; None when it is missing or damaged."""
    try:
        stored = np.load(path, allow_pickle=False)
    except (OSError, ValueError) as error:
        logging.getLogger(__name__).debug("no glow: %s", error)
        return None
    if stored.shape != (180, 360) or stored.dtype != np.uint8:
        return None
    return np.asarray((stored / 255.0) ** 2)


def add_glow(pyramid: Pyramid, frame: PictureFrame) -> None:
    """Add the glow to the first paint of the pyramid, when the field is wide enough."""
    density = glow_map()
    strength = _strength(frame.footprint.width_deg)
    if density is None or strength == 0.0:
        return
    raster = pyramid.raster(_FACTOR)
    height, width = raster.shape[1:]
    column, row = np.meshgrid(
        (np.arange(width) - 0.5) * _FACTOR - 0.5, (np.arange(height) - 0.5) * _FACTOR - 0.5
    )
    ra, dec = frame.plane.inverse(*frame.to_plane(column, row))
    pixel_arcsec2 = (frame.scale_rad_px * _ARCSEC_PER_RAD * _FACTOR) ** 2
    flux = 10.0 ** (-0.4 * _DENSEST_MAG) * pixel_arcsec2 * strength
    raster[0] += (flux * glow_between(density, ra, dec)).astype(np.float32)


def _strength(width_deg: float) -> float:
    """Rise from 0 to 1 as the field widens."""
    share = math.log(width_deg / _BEGINS_DEG) / math.log(_FULL_DEG / _BEGINS_DEG)
    share = min(max(share, 0.0), 1.0)
    return share * share * (3.0 - 2.0 * share)


def glow_between(density: Floats, ra_rad: ArrayLike, dec_rad: ArrayLike) -> Floats:
    """Interpolate the map between its middles.

    Parameters
    ----------
    density : (180, 360) float array
        As `glow_map` gives it.
    ra_rad, dec_rad : array_like, shapes that broadcast
        Radians, ICRS.

    Returns
    -------
    float array
        The seam wraps; beyond the last row's middle a pole repeats it.
    """
    x = np.degrees(ra_rad) - 0.5
    y = np.clip(np.degrees(dec_rad) + 89.5, 0.0, 179.0)
    left, below = np.floor(x), np.minimum(np.floor(y), 178.0)
    fx, fy = x - left, y - below
    c0 = left.astype(np.int64) % 360
    c1, r0 = (c0 + 1) % 360, below.astype(np.int64)
    low = density[r0, c0] * (1 - fx) + density[r0, c1] * fx
    high = density[r0 + 1, c0] * (1 - fx) + density[r0 + 1, c1] * fx
    return np.asarray(low * (1 - fy) + high * fy)
