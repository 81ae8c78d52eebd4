"""Turn the light of a chart into colours for the screen.

Conventions: light is linear red, green, blue flux per pixel; the picture is uint8 as a
screen shows it. Brightness goes through an inverse hyperbolic sine, which is linear for
faint light and logarithmic for bright; colour is kept, so that only what is far beyond
white loses it. Unlit sky is `GROUND`.

Sources: asinh scaling of pictures, Lupton et al. 2004, PASP 116, 133.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from core.pictures.chart_stars import LUMINANCE
from core.pictures.light import Raster, weighted

__all__ = ["GROUND", "develop"]

#: Colour of the sky where there is no light.
GROUND = (5, 6, 10)


def develop(light: Raster, *, soft: float, white: float) -> NDArray[np.uint8]:
    """Develop a picture.

    Parameters
    ----------
    light : (3, H, W) float32 array
        Flux per pixel, not negative.
    soft : float
        Flux per pixel at which brightness turns from linear to logarithmic.
    white : float
        Flux per pixel that becomes white; more than `soft`.

    Returns
    -------
    (H, W, 3) uint8 array
    """
    bright = weighted(light, LUMINANCE.astype(np.float32) / np.float32(soft))
    bright += np.float32(1e-6)
    gain = np.arcsinh(bright)
    gain /= bright
    gain *= np.float32(1.0 / (np.arcsinh(white / soft) * soft))
    out = np.empty((*light.shape[1:], 3), np.uint8)
    grain = _grain(*light.shape[1:])
    for number, ground in enumerate(GROUND):
        plane = light[number] * gain
        plane *= np.float32(255.0 - ground)
        plane += grain
        plane += np.float32(ground + 0.5)
        np.minimum(plane, np.float32(255.0), out=plane)
        out[:, :, number] = plane
    return out


@lru_cache(maxsize=4)
def _grain(height: int, width: int) -> Raster:
    """Give a fixed pattern under half a step, which keeps smooth light from banding."""
    tile = _scattered(64 * 64).reshape(64, 64)
    times = (-(-height // 64), -(-width // 64))
    return np.tile(tile * np.float32(0.98), times)[:height, :width].copy()


def _scattered(count: int) -> NDArray[np.float32]:
    """Give even numbers from -0.5 to 0.5 in no order to be seen, without numpy.random.

    The mixing of whole numbers is the finalizer of MurmurHash3 (Appleby, public domain).
    """
    mixed = np.arange(1, count + 1, dtype=np.uint32)
    for shift, factor in ((16, 0x85EBCA6B), (13, 0xC2B2AE35), (16, 1)):
        mixed ^= mixed >> np.uint32(shift)
        mixed *= np.uint32(factor)
    return (mixed / np.float32(2**32)).astype(np.float32) - np.float32(0.5)
