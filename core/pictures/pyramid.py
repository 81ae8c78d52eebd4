"""Lay elliptical patches of light of any size, the large ones on coarser rasters.

Conventions: as in `light`. An ellipse is its spread, the symmetric 2 x 2 matrix S in
square pixels for which ``q = d^T S^-1 d`` is the squared distance from the middle in
scale lengths. A profile is a function of q alone; it is faded to nothing over the last
quarter of its `end` scale lengths.

A patch is drawn on the coarsest raster that still samples its short axis, 1, 4, 16, 64
or 256 pixels a side, and the rasters are enlarged and added: the cost of a galaxy does
not grow with the zoom.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.pictures.light import Patches, Raster, deposit, grow

__all__ = ["Ellipses", "Pyramid", "Radial", "eigenvalues"]

Floats = NDArray[np.float64]
#: Brightness from the squared distance in scale lengths.
Radial = Callable[[Raster], Raster]

_FACTORS = np.array([1, 4, 16, 64, 256])
#: Longest reach of a stamp, and the fewest pixels in a short axis' scale length.
_REACH, _SAMPLES = 135.0, 1.5


@dataclass(frozen=True)
class Ellipses:
    """Elliptical patches.

    Parameters
    ----------
    column, row : (N,) float arrays
        Centres, pixels.
    spread : (N, 2, 2) float array
        Square pixels.
    flux : (N, K) float array
        Total flux in each paint.
    end : float
        Scale lengths at which the profile has faded to nothing.
    """

    column: Floats
    row: Floats
    spread: Floats
    flux: Floats
    end: float

    def chosen(self, rows: NDArray[np.bool_]) -> "Ellipses":
        """Keep some of them."""
        return Ellipses(
            self.column[rows], self.row[rows], self.spread[rows], self.flux[rows], self.end
        )


class Pyramid:
    """Rasters of several coarsenesses over one picture.

    Parameters
    ----------
    paints : int
        Planes of each raster.
    height, width : int
        Of the picture, pixels.
    """

    def __init__(self, paints: int, height: int, width: int) -> None:
        self._shape = (paints, height, width)
        self._rasters: dict[int, Raster] = {}

    def raster(self, factor: int) -> Raster:
        """Give the raster of a coarseness; but for the finest it has a margin of one pixel."""
        if factor not in self._rasters:
            self._rasters[factor] = np.zeros(self._size(factor), np.float32)
        return self._rasters[factor]

    def deposit(self, ellipses: Ellipses, profile: Radial) -> None:
        """Add ellipses, each to the raster that suits its size."""
        small, large = eigenvalues(ellipses.spread)
        least = np.searchsorted(_FACTORS, ellipses.end * np.sqrt(large) / _REACH)
        best = np.searchsorted(_FACTORS, np.sqrt(small) / _SAMPLES, side="right") - 1
        level = np.minimum(np.maximum(least, best), _FACTORS.size - 1)
        for number in np.flatnonzero(np.bincount(level)):
            self._deposit_level(int(_FACTORS[number]), ellipses.chosen(level == number), profile)

    def light(self) -> Raster | None:
        """Add the rasters up, (K, H, W); None when nothing was laid down."""
        total: Raster | None = None
        above = 1
        for factor in sorted(self._rasters, reverse=True):
            if total is not None:
                self.raster(factor)[:] += self._onto(factor, above, total)
            total, above = self.raster(factor), factor
        return total if total is None or above == 1 else self._onto(1, above, total)

    def _onto(self, factor: int, above: int, coarse: Raster) -> Raster:
        """Enlarge a coarse raster and cut it to the grid of a finer one."""
        grown = grow(coarse, above // factor)
        _, height, width = self._size(factor)
        skip = above // factor - _margin(factor)
        return grown[:, skip : skip + height, skip : skip + width]

    def _size(self, factor: int) -> tuple[int, int, int]:
        """Shape of the raster of a coarseness."""
        paints, height, width = self._shape
        wide = 2 * _margin(factor)
        return paints, -(-height // factor) + wide, -(-width // factor) + wide

    def _deposit_level(self, factor: int, ellipses: Ellipses, profile: Radial) -> None:
        """Add ellipses to one raster."""
        margin = _margin(factor)
        spread = ellipses.spread / factor**2
        inverse = np.linalg.inv(spread)
        aa, ab, bb = (inverse[:, i, j].astype(np.float32) for i, j in ((0, 0), (0, 1), (1, 1)))
        patches = Patches(
            (ellipses.column + 0.5) / factor - 0.5 + margin,
            (ellipses.row + 0.5) / factor - 0.5 + margin,
            ellipses.end * np.sqrt(eigenvalues(spread)[1]),
            ellipses.flux,
        )
        end_2 = np.float32(ellipses.end**2)

        def shape(rows: NDArray[np.intp], dx: Raster, dy: Raster) -> Raster:
            a, b, c = (part[rows, None, None] for part in (aa, ab, bb))
            q = (a * dx + 2.0 * b * dy) * dx + c * dy * dy
            fade = np.clip((1.0 - q / end_2) * np.float32(2.5), 0.0, 1.0)
            return np.asarray(profile(q) * fade * fade * (3.0 - 2.0 * fade))

        deposit(self.raster(factor), patches, shape)


def _margin(factor: int) -> int:
    """Pixels that a raster reaches beyond the picture; the finest has none."""
    return 0 if factor == 1 else 1


def eigenvalues(spread: Floats) -> tuple[Floats, Floats]:
    """Give the smaller and larger eigenvalue of symmetric matrices, (N, 2, 2)."""
    mean = (spread[:, 0, 0] + spread[:, 1, 1]) / 2.0
    gap = np.hypot((spread[:, 0, 0] - spread[:, 1, 1]) / 2.0, spread[:, 0, 1])
    return mean - gap, mean + gap
