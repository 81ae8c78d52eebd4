"""Lay many small patches of light on a raster, each with exactly its own flux.

Conventions: a raster is a stack of planes (K, H, W) float32, one for each paint; a
pixel holds flux, so that a patch's pixels add up to what it was given. Positions are
(column, row) from 0 at the centre of the top left pixel and may lie outside: the part
of a patch that falls beyond the edge is lost, the rest keeps its share.

Patches are sampled at pixel centres and normalised by the sum over their whole stamp,
which makes the flux exact whatever the profile and the place within a pixel.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Patches", "Profile", "Raster", "deposit", "grow", "weighted"]

Floats = NDArray[np.floating]
Raster = NDArray[np.float32]
#: Brightness at offsets: (rows of the patches, dx (n, 1, k), dy (n, k, 1)) to (n, k, k).
Profile = Callable[[NDArray[np.intp], Raster, Raster], Raster]

#: Half sides of stamps; a patch takes the first that holds it.
_RADII = (3, 5, 8, 12, 18, 27, 40, 60, 90, 135)
#: Stamp pixels worked on at a time: 4 MB of float32.
_AT_ONCE = 1_000_000


@dataclass(frozen=True)
class Patches:
    """Patches of light.

    Parameters
    ----------
    column, row : (N,) float arrays
        Centres, pixels.
    radius_px : (N,) float array
        Where the profile has faded to nothing, pixels; more than 135 is cut there.
    flux : (N, K) float array
        Total flux in each paint.
    """

    column: Floats
    row: Floats
    radius_px: Floats
    flux: Floats


def deposit(raster: Raster, patches: Patches, profile: Profile) -> None:
    """Add patches to a raster in place.

    Parameters
    ----------
    raster : (K, H, W) float32 array
        Added to.
    patches : Patches
        N patches in K paints.
    profile : callable
        Their shape, not normalised; see `Profile`.
    """
    for rows, radius in _classes(raster, patches):
        size = 2 * radius + 1
        step = max(1, _AT_ONCE // (size * size))
        for start in range(0, rows.size, step):
            _deposit_class(raster, patches, profile, (rows[start : start + step], radius))


def grow(coarse: Raster, factor: int) -> Raster:
    """Enlarge a stack of planes, keeping the flux in it.

    Parameters
    ----------
    coarse : (K, h, w) float32 array
        Each coarse pixel covers `factor` x `factor` fine ones.
    factor : int
        A power of two.

    Returns
    -------
    (K, h * factor, w * factor) float32 array
        Interpolated between coarse centres; edges repeat the outermost value.
    """
    out = coarse / np.float32(factor * factor)
    while factor > 1:
        out = _double(_double(out, 1), 2)
        factor //= 2
    return out


def weighted(planes: Raster, weights: NDArray[np.float32]) -> Raster:
    """Add planes up with weights, (H, W).

    Written out, since a matrix product would wake threads that wait for each other on a
    busy machine: ten times slower there than one thread alone.
    """
    total = planes[0] * weights[0]
    for plane, weight in zip(planes[1:], weights[1:], strict=True):
        total += plane * weight
    return np.asarray(total)


def _double(planes: Raster, axis: int) -> Raster:
    """Interpolate to twice the samples along an axis, quarter steps from the old ones."""
    moved = np.moveaxis(planes, axis, 1)
    count = moved.shape[1]
    shape = list(planes.shape)
    shape[axis] = 2 * count
    out = np.empty(shape, np.float32)
    fine = np.moveaxis(out, axis, 1)
    near = moved * np.float32(0.75)
    far = moved * np.float32(0.25)
    fine[:, 0::2] = near
    fine[:, 1::2] = near
    fine[:, 2::2] += far[:, :-1]
    fine[:, 0] += far[:, 0]
    fine[:, 1:-1:2] += far[:, 1:]
    fine[:, -1] += far[:, -1]
    return out


def _classes(raster: Raster, patches: Patches) -> Iterator[tuple[NDArray[np.intp], int]]:
    """Sort the patches that touch the raster by stamp size."""
    height, width = raster.shape[1:]
    reach = np.minimum(patches.radius_px, _RADII[-1])
    with np.errstate(invalid="ignore"):
        seen = (np.abs(patches.column - (width - 1) / 2) < width / 2 + reach) & (
            np.abs(patches.row - (height - 1) / 2) < height / 2 + reach
        )
    rows = np.flatnonzero(seen)
    of_class = np.searchsorted(_RADII, reach[rows])
    # np.unique would do, but brings numpy.ma with it, which the first picture waits for.
    for number in np.flatnonzero(np.bincount(of_class)):
        yield rows[of_class == number], _RADII[number]


def _deposit_class(
    raster: Raster, patches: Patches, profile: Profile, chosen: tuple[NDArray[np.intp], int]
) -> None:
    """Stamp patches of one size: a block of (n, k, k) values, added where they fall."""
    rows, radius = chosen
    height, width = raster.shape[1:]
    columns, dx, in_x = _axis(patches.column[rows], radius, width)
    lines, dy, in_y = _axis(patches.row[rows], radius, height)
    values = profile(rows, dx[:, None, :], dy[:, :, None])
    total = values.sum(axis=(1, 2), keepdims=True)
    values = values * (in_y[:, :, None] * in_x[:, None, :] / total)
    index = (lines[:, :, None] * width + columns[:, None, :]).ravel()
    for plane, flux in zip(raster, patches.flux[rows].T, strict=True):
        if flux.any():
            weights = values * flux.astype(np.float32)[:, None, None]
            np.add.at(plane.reshape(-1), index, weights.ravel())


def _axis(
    centre: Floats, radius: int, count: int
) -> tuple[NDArray[np.int64], Raster, NDArray[np.float32]]:
    """Pixels along one axis of stamps: clipped index, offset from the centre, 1 if inside."""
    middle = np.rint(centre).astype(np.int64)
    pixels = middle[:, None] + np.arange(-radius, radius + 1)
    offset = (pixels - centre[:, None]).astype(np.float32)
    inside = ((pixels >= 0) & (pixels < count)).astype(np.float32)
    return np.clip(pixels, 0, count - 1), offset, inside
