"""The stars of a chart: how faint to go, their colour, their light on the raster.

Conventions: flux is 10^(-0.4 V), so that V 0 has flux 1; colours are linear red, green,
blue scaled to a luminance of 1, so that a star's luminance is its V flux and its colour
adds nothing. Magnitudes are Johnson V, colours B-V.

Sources: temperature from B-V by Ballesteros 2012, EPL 97, 34008, eq. 14; colour as a
black body (Planck) at 610, 550 and 465 nm against a star like the Sun (B-V 0.65);
luminance weights of ITU-R BT.709; all-sky star counts of Tycho-2 with Hipparcos-2.
"""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.pictures.light import Patches, Profile, Raster, deposit
from core.pictures.picture import PictureFrame

if TYPE_CHECKING:
    from core.catalogue.stars import Stars

__all__ = [
    "LUMINANCE",
    "add_stars",
    "faintest_drawn",
    "flux_of",
    "peak_share",
    "star_rgb",
    "temperature_kelvin",
]

Floats = NDArray[np.float64]

#: Weight of red, green and blue in what the eye calls brightness.
LUMINANCE: Floats = np.array([0.2126, 0.7152, 0.0722])

#: Stars brighter than a V magnitude on the whole sky (Tycho-2 with Hipparcos-2, counted).
_COUNT_V = np.array([6.0, 6.5, 10.0, 11.0, 11.5, 12.0])
_COUNT = np.log10([5031.0, 8858.0, 356749.0, 943114.0, 1495356.0, 2077375.0])
_SKY_DEG2 = 41252.96
#: Stars wanted in a field of mean richness; the Milky Way has some four times as many.
_WANTED = 2500
#: Never more stars than this in one chart: the brightest.
_MOST = 9000

#: The wing: its height at the middle as a share of the core's, and its core radius, px.
_WING, _WING_PX = 0.02, 3.0
_WAVELENGTHS_NM = np.array([610.0, 550.0, 465.0])
_SUN_B_V = 0.65
#: Colours are drawn a little stronger than the eye would see them.
_SATURATION = 1.0


def flux_of(v_mag: ArrayLike) -> Floats:
    """Give the flux of a V magnitude, 1 at V 0."""
    return np.asarray(10.0 ** (-0.4 * np.asarray(v_mag, dtype=np.float64)))


def faintest_drawn(area_deg2: float, faintest: float) -> float:
    """Choose the V magnitude down to which a field is drawn.

    Parameters
    ----------
    area_deg2 : float
        Area of the field, square degrees.
    faintest : float
        Where the catalogue ends.

    Returns
    -------
    float
        Depends on the area alone, so that panning never changes the stars' brightness.
    """
    wanted = np.log10(_WANTED * _SKY_DEG2 / area_deg2)
    if wanted < _COUNT[0]:
        return float(_COUNT_V[0] + (wanted - _COUNT[0]) / 0.49)
    return float(min(np.interp(wanted, _COUNT, _COUNT_V, right=faintest), faintest))


def star_rgb(b_v: ArrayLike) -> Floats:
    """Give the colour of stars.

    Parameters
    ----------
    b_v : (N,) array_like
        B-V; limited to -0.4..2.5, NaN taken as the Sun's.

    Returns
    -------
    (N, 3) float array
        Linear red, green, blue of luminance 1.
    """
    index = np.clip(np.nan_to_num(np.asarray(b_v, dtype=np.float64), nan=_SUN_B_V), -0.4, 2.5)
    ratio = _planck(index) / _planck(np.array([_SUN_B_V]))
    ratio = (ratio / ratio[:, 1:2]) ** _SATURATION
    return np.asarray(ratio / (ratio @ LUMINANCE)[:, None])


def temperature_kelvin(b_v: ArrayLike) -> Floats:
    """Give the temperature of a star from its B-V (Ballesteros 2012, eq. 14)."""
    index = np.asarray(b_v, dtype=np.float64)
    return np.asarray(4600.0 * (1.0 / (0.92 * index + 1.7) + 1.0 / (0.92 * index + 0.62)))


def peak_share(sigma_px: float) -> float:
    """Give the share of a star's flux that falls into its brightest pixel."""
    core = 2.0 * np.pi * sigma_px**2
    wing = _WING * np.pi * (_WING_PX * sigma_px) ** 2
    return float((1.0 + _WING) / (core + wing))


def add_stars(
    raster: Raster, frame: PictureFrame, stars: "Stars", *, sigma_px: float, threshold: float
) -> int:
    """Add stars to a raster of red, green and blue.

    Parameters
    ----------
    raster : (3, H, W) float32 array
        Flux per pixel; added to.
    frame : PictureFrame
    stars : Stars
        The brightest 9000 are drawn.
    sigma_px : float
        Width of a star's core, pixels.
    threshold : float
        Flux per pixel below which a wing is not followed.

    Returns
    -------
    int
        Stars whose centres lie in the picture.
    """
    column, row = frame.to_pixels(*frame.plane.forward_vectors(stars.vectors))
    flux = flux_of(stars.v_mag)
    kept = np.flatnonzero(np.isfinite(column) & np.isfinite(flux))
    if kept.size > _MOST:
        kept = kept[np.argpartition(-flux[kept], _MOST)[:_MOST]]
    flux, column, row = flux[kept], column[kept], row[kept]
    wing_px = _WING_PX * sigma_px
    followed = wing_px * (_WING * flux * peak_share(sigma_px) / threshold) ** 0.25
    radius = np.maximum(followed, 4.75 * sigma_px)
    colours = star_rgb(np.asarray(stars.b_v)[kept]) * flux[:, None]
    deposit(raster, Patches(column, row, radius, colours), _point(sigma_px, radius))
    inside = (np.abs(column - (frame.width_px - 1) / 2) <= frame.width_px / 2) & (
        np.abs(row - (frame.height_px - 1) / 2) <= frame.height_px / 2
    )
    return int(np.count_nonzero(inside))


def _point(sigma_px: float, radius_px: Floats) -> Profile:
    """Shape of a star: a Gaussian core and a wide faint wing that ends at its radius."""
    half = np.float32(-0.5 / sigma_px**2)
    wing_2 = np.float32((_WING_PX * sigma_px) ** -2)
    end_2 = (radius_px**-2).astype(np.float32)

    def profile(rows: NDArray[np.intp], dx: Raster, dy: Raster) -> Raster:
        core = np.exp(half * dx * dx) * np.exp(half * dy * dy)
        r2 = dx * dx + dy * dy
        wing = 1.0 + wing_2 * r2
        fade = np.maximum(1.0 - r2 * end_2[rows, None, None], 0.0)
        return np.asarray(core + np.float32(_WING) * (fade / wing) ** 2, dtype=np.float32)

    return profile


def _planck(b_v: Floats) -> Floats:
    """Black-body radiance at the three wavelengths, (N, 3), in units of its own."""
    exponent = 1.438777e7 / (_WAVELENGTHS_NM * temperature_kelvin(b_v)[:, None])
    return np.asarray(_WAVELENGTHS_NM**-5.0 * 1e13 / np.expm1(exponent))
