"""Lines of equal right ascension and declination across a view on a tangent plane.

Conventions: plane coordinates xi east and eta north, radians; the view is a rectangle
about the tangent point (`core.sky.view_rectangle`).

Meridians are great circles, so on the plane they are straight and two points draw them
exactly; parallels are conics and are sampled. Near a pole the meridians thin out: a line
of a fine step ends where it would come closer than half the wanted spacing to its
neighbour, and only those of every sixth hour run into the pole.

Domain: any finite rectangle, hence less than 90 degrees from the tangent point.

Sources: plane trigonometry of vectors; a cap of radius R cuts the parallel at
``sin^2(H/2) = (sin^2(R/2) - sin^2((dec - dec0)/2)) / (cos dec cos dec0)`` (the haversine
form, Meeus 1998, chapter 17).
"""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from core.errors import BadValueError
from core.sky import graticule_steps as steps
from core.sky.tangent_plane import TangentPlane
from core.sky.view_rectangle import ViewRectangle

__all__ = [
    "Graticule",
    "GraticuleLine",
    "LineKind",
    "graticule",
]

Floats = NDArray[np.float64]

#: Lines reach this much beyond the farthest corner of the view.
_BEYOND = 1.01
#: Points along a parallel: for a view narrower than so many degrees, so many.
_SAMPLES = ((3.0, 33), (20.0, 65), (math.inf, 129))


class LineKind(StrEnum):
    """What stays equal along a line."""

    RA = "right ascension"
    DEC = "declination"


@dataclass(frozen=True, eq=False)
class GraticuleLine:
    """One line.

    Parameters
    ----------
    kind : LineKind
    value_deg : float
        Its right ascension or declination.
    label : str
    points : (M, 2) float array
        (xi, eta) along it, radians on the plane, all finite.
    end_dec_deg : tuple of float
        The declinations between which it is drawn.
    """

    kind: LineKind
    value_deg: float
    label: str
    points: Floats
    end_dec_deg: tuple[float, float]

    @property
    def xi(self) -> Floats:
        """The eastward coordinate of its points, (M,) radians."""
        return self.points[:, 0]

    @property
    def eta(self) -> Floats:
        """The northward coordinate of its points, (M,) radians."""
        return self.points[:, 1]


@dataclass(frozen=True, eq=False)
class Graticule:
    """The lines of a view, and the steps between them in degrees."""

    plane: TangentPlane
    lines: tuple[GraticuleLine, ...]
    ra_step_deg: float
    dec_step_deg: float


def graticule(plane: TangentPlane, rectangle: ViewRectangle, *, lines: int = 6) -> Graticule:
    """Choose round steps for a view and draw its lines.

    Parameters
    ----------
    plane : TangentPlane
    rectangle : ViewRectangle
    lines : int
        About how many lines of each kind shall cross the view, 1 or more.

    Returns
    -------
    Graticule

    Examples
    --------
    >>> found = graticule(TangentPlane(10.7, 41.3), ViewRectangle(0.03, 0.02), lines=3)
    >>> [line.label for line in found.lines if line.kind is LineKind.DEC]
    ['+40°', '+41°', '+42°', '+43°']
    """
    if lines < 1:
        raise BadValueError("lines of the graticule", lines, "must be 1 or more")
    sides = math.atan(rectangle.half_width) * math.atan(rectangle.half_height)
    spacing = 2.0 * math.degrees(math.sqrt(sides)) / lines
    radius = min(rectangle.radius_rad * _BEYOND, math.radians(89.9))
    reference = max(abs(plane.dec_deg) - math.degrees(radius) / 2.0, 0.0)
    dec_step = steps.dec_step_ticks(spacing)
    ra_step = steps.ra_step_ticks(spacing / max(math.cos(math.radians(reference)), 1e-12))
    return Graticule(
        plane,
        (*_meridians(plane, radius, ra_step, spacing), *_parallels(plane, radius, dec_step)),
        ra_step / steps.RA_TICKS_PER_DEG,
        dec_step / steps.DEC_TICKS_PER_DEG,
    )


def _meridians(
    plane: TangentPlane, radius: float, step: int, spacing_deg: float
) -> list[GraticuleLine]:
    """Lines of equal right ascension inside a cap about the tangent point."""
    dec0 = math.radians(plane.dec_deg)
    span = 180.0
    if abs(dec0) + radius < math.pi / 2.0:
        span = math.degrees(math.asin(min(math.sin(radius) / math.cos(dec0), 1.0)))
    first = math.ceil((plane.ra_deg - span) * steps.RA_TICKS_PER_DEG / step)
    last = math.floor((plane.ra_deg + span) * steps.RA_TICKS_PER_DEG / step)
    last = min(last, first + steps.RA_TICKS_PER_TURN // step - 1)
    ticks = np.arange(first, last + 1) * step % steps.RA_TICKS_PER_TURN
    ra_deg = ticks / steps.RA_TICKS_PER_DEG
    along = math.cos(dec0) * np.cos(np.radians(ra_deg - plane.ra_deg))
    middle = np.arctan2(math.sin(dec0), along)
    half = np.arccos(np.clip(math.cos(radius) / np.hypot(along, math.sin(dec0)), -1.0, 1.0))
    limit = _end_of_meridians(ticks, step, math.radians(spacing_deg) / 2.0)
    low, high = np.maximum(middle - half, -limit), np.minimum(middle + half, limit)
    ends = np.stack([low, high])
    xi, eta = plane.forward(np.broadcast_to(np.radians(ra_deg), ends.shape), ends)
    return [
        GraticuleLine(
            LineKind.RA,
            float(ra_deg[i]),
            steps.ra_label(int(ticks[i]), step),
            np.stack([xi[:, i], eta[:, i]], axis=-1),
            (math.degrees(low[i]), math.degrees(high[i])),
        )
        for i in np.flatnonzero(low < high)
    ]


def _end_of_meridians(ticks: NDArray[np.int64], step: int, closest_rad: float) -> Floats:
    """How far from the equator each meridian is drawn, radians."""
    reach = np.zeros(ticks.shape)
    for coarser in steps.coarser_ra_steps(step):
        width = math.radians(coarser / steps.RA_TICKS_PER_DEG)
        end = math.acos(min(closest_rad / width, 1.0)) if coarser < 216_000 else math.pi / 2.0
        reach = np.where(ticks % coarser == 0, np.maximum(reach, end), reach)
    return reach


def _parallels(plane: TangentPlane, radius: float, step: int) -> list[GraticuleLine]:
    """Lines of equal declination inside a cap about the tangent point."""
    reach = math.degrees(radius)
    low, high = max(plane.dec_deg - reach, -90.0), min(plane.dec_deg + reach, 90.0)
    first = math.ceil(low * steps.DEC_TICKS_PER_DEG / step)
    last = math.floor(high * steps.DEC_TICKS_PER_DEG / step)
    ticks = np.arange(first, last + 1) * step
    ticks = ticks[np.abs(ticks) < 90 * steps.DEC_TICKS_PER_DEG]
    dec, dec0 = np.radians(ticks / steps.DEC_TICKS_PER_DEG), math.radians(plane.dec_deg)
    room = math.sin(radius / 2.0) ** 2 - np.sin((dec - dec0) / 2.0) ** 2
    half_turn = np.clip(room / np.maximum(np.cos(dec) * math.cos(dec0), 1e-300), 0.0, 1.0)
    half = 2.0 * np.arcsin(np.sqrt(half_turn))
    count = next(points for width, points in _SAMPLES if 2.0 * reach < width)
    if abs(dec0) + radius >= math.pi / 2.0:
        count = _SAMPLES[-1][1]
    ra = math.radians(plane.ra_deg) + half[:, None] * np.linspace(-1.0, 1.0, count)
    xi, eta = plane.forward(ra, np.broadcast_to(dec[:, None], ra.shape))
    points = np.stack([xi, eta], axis=-1)
    return [
        GraticuleLine(
            LineKind.DEC,
            tick / steps.DEC_TICKS_PER_DEG,
            steps.dec_label(int(tick), step),
            points[i],
            (tick / steps.DEC_TICKS_PER_DEG,) * 2,
        )
        for i, tick in enumerate(ticks.tolist())
        if half[i] > 0.0
    ]
