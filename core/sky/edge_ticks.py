"""Where the lines of a graticule cross the sides of a view, exactly.

Conventions: a fraction runs along a side from its left to its right end, or from its
top to its bottom end, as seen.

Domain: every view rectangle; a line that only touches a side's carrier outside the
rectangle gives no tick.

Sources: a side is a straight way ``P(t) = A + t D`` on the plane. A meridian is the
plane ``n.P = 0``, linear in t. A parallel is the cone ``P_z^2 = sin^2(dec) |P|^2``,
quadratic in t; its discriminant ``sin^2 (|A_z D - D_z A|^2 - sin^2 |A x D|^2)`` is
written so that it is exactly 0 at the equator (derived here).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.sky.graticule import Graticule, GraticuleLine, LineKind
from core.sky.view_rectangle import Side, ViewRectangle

__all__ = ["EdgeTick", "edge_ticks"]

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class EdgeTick:
    """Where a line crosses a side; fraction 0 at its left or top end, 1 at the other."""

    side: Side
    fraction: float
    label: str
    kind: LineKind
    value_deg: float


def edge_ticks(drawn: Graticule, rectangle: ViewRectangle) -> list[EdgeTick]:
    """Find where each line crosses the four sides of a view, exactly.

    Parameters
    ----------
    drawn : Graticule
    rectangle : ViewRectangle
        On the same plane; usually the one the graticule was chosen for.

    Returns
    -------
    list of EdgeTick
        Side by side, in the order of the lines.
    """
    top_left, top_right, bottom_right, bottom_left = drawn.plane.vectors_at(
        *rectangle.corners().T
    ).T
    found: list[EdgeTick] = []
    for side, start, end in (
        (Side.TOP, top_left, top_right),
        (Side.RIGHT, top_right, bottom_right),
        (Side.BOTTOM, bottom_left, bottom_right),
        (Side.LEFT, top_left, bottom_left),
    ):
        for kind, crossings in ((LineKind.RA, _cross_meridians), (LineKind.DEC, _cross_parallels)):
            lines = [line for line in drawn.lines if line.kind is kind]
            for index, fraction in crossings(lines, start, end - start):
                line = lines[index]
                found.append(EdgeTick(side, fraction, line.label, kind, line.value_deg))
    return found


def _cross_meridians(
    lines: list[GraticuleLine], start: Floats, way: Floats
) -> list[tuple[int, float]]:
    """(line, fraction) where a straight side meets the planes of the meridians."""
    ra = np.radians([line.value_deg for line in lines])
    ends = np.radians(np.array([line.end_dec_deg for line in lines]).reshape(-1, 2))
    cos, sin = np.cos(ra), np.sin(ra)
    with np.errstate(divide="ignore", invalid="ignore"):
        t = -(cos * start[1] - sin * start[0]) / (cos * way[1] - sin * way[0])
        x, y, z = start[:, None] + way[:, None] * t[None, :]
        outward = cos * x + sin * y
        dec = np.arctan2(z, outward)  # beyond a right angle on the opposite meridian
        good = (t >= 0.0) & (t <= 1.0)
        good &= (dec >= ends[:, 0] - 1e-12) & (dec <= ends[:, 1] + 1e-12)
    return [(int(i), float(t[i])) for i in np.flatnonzero(good)]


def _cross_parallels(
    lines: list[GraticuleLine], start: Floats, way: Floats
) -> list[tuple[int, float]]:
    """(line, fraction) where a straight side meets the cones of the parallels."""
    sin = np.sin(np.radians([line.value_deg for line in lines]))
    s, z0, dz = sin * sin, start[2], way[2]
    a, b = dz * dz - s * (way @ way), z0 * dz - s * (start @ way)
    across, turned = np.cross(start, way), z0 * way - dz * start
    root = np.sqrt(np.maximum(s * (turned @ turned - s * (across @ across)), 0.0))
    real = s * (across @ across) <= turned @ turned
    q = -(b + np.copysign(root, b))
    with np.errstate(divide="ignore", invalid="ignore"):
        t = np.stack([q / a, (z0 * z0 - s * (start @ start)) / q])
        good = real & (t >= 0.0) & (t <= 1.0) & ((z0 + t * dz) * sin >= 0.0)
        good[1] &= ~(np.abs(t[1] - t[0]) < 1e-9)
    return [(int(i), float(t[k, i])) for i, k in np.argwhere(good.T)]
