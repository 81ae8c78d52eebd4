"""A rig's frame as it lies on the screen: its lines, its stalk, what a point hits.

The edges of a frame are great circles, and great circles are straight on any tangent
plane: four corners carried by one projective matrix draw it exactly, at any distance
from the centre of the view. What lies behind the limb is clipped in homogeneous
coordinates, before the division that would mirror it.
"""

import math
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF

from app.sky_sheet.transform import SheetTransform
from core.sky.footprint import CORNER_SIGNS, Footprint

__all__ = ["FLAG_RADIUS", "FrameShape", "Part", "frame_shape"]

Vector = list[float]
Point = tuple[float, float]
Box = tuple[float, float, float, float]

STALK_PX = 26.0
FLAG_RADIUS = 9.0
#: Frames are clipped this far outside the sheet, where no line is seen.
_BEYOND_PX = 60.0
_FRONT = 1e-7
_FAR_PX = 20000.0
#: Flags stay this far inside the sheet; a stalk shorter than that is not drawn.
_INSET_PX, _SHORTEST_PX = 14.0, 12.0
_SIGNS = CORNER_SIGNS.tolist()


class Part(Enum):
    """What of a frame lies under the hand."""

    NOTHING = 0
    STALK = 1
    EDGE = 2
    BODY = 3


@dataclass(frozen=True)
class FrameShape:
    """One frame on the screen.

    Parameters
    ----------
    rig_id : str
    points : tuple of (x, y)
        The outline as far as it can be seen, not closed; empty when out of sight.
    centre : QPointF or None
        None when behind the limb.
    stalk : QLineF or None
        From the top edge to the middle of the flag; None when out of sight.
    up : (float, float)
        Unit vector of the sensor's up on the screen.
    """

    rig_id: str
    points: tuple[tuple[float, float], ...]
    centre: QPointF | None
    stalk: QLineF | None
    up: tuple[float, float]
    area: float

    @property
    def flag(self) -> QPointF | None:
        """The middle of the letter flag."""
        return self.stalk.p2() if self.stalk is not None else None

    def bounds(self, margin: float) -> QRectF:
        """Give a rectangle that holds outline, stalk and flag."""
        points = self.points
        if self.stalk is not None:
            points = (*points, self.stalk.p1().toTuple(), self.stalk.p2().toTuple())
        if not points:
            return QRectF()
        xs, ys = zip(*points, strict=True)
        left, top, grow = min(xs), min(ys), margin + FLAG_RADIUS
        wide, high = max(xs) - left, max(ys) - top
        return QRectF(left - grow, top - grow, wide + 2.0 * grow, high + 2.0 * grow)

    def hit(self, point: QPointF, reach: float = 6.0) -> Part:
        """Tell which part of the frame a point touches."""
        x, y = point.x(), point.y()
        flag = self.flag
        if flag is not None and math.hypot(x - flag.x(), y - flag.y()) <= FLAG_RADIUS + 3.0:
            return Part.STALK
        if len(self.points) < 3:
            return Part.NOTHING
        if min(_distance(x, y, *a, *b) for a, b in self.edges()) <= reach:
            return Part.EDGE
        return Part.BODY if self._inside(x, y) else Part.NOTHING

    def edges(self) -> list[tuple[tuple[float, float], tuple[float, float]]]:
        """Give the sides as pairs of points."""
        return list(zip(self.points, self.points[1:] + self.points[:1], strict=True))

    def hides(self, rect: QRectF) -> bool:
        """Tell whether the frame reaches past a rectangle on every side."""
        corners = (rect.topLeft(), rect.topRight(), rect.bottomLeft(), rect.bottomRight())
        return bool(self.points) and all(self._inside(c.x(), c.y()) for c in corners)

    def _inside(self, x: float, y: float) -> bool:
        """Crossing number of a convex outline."""
        crossings = 0
        for (ax, ay), (bx, by) in self.edges():
            if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
                crossings += 1
        return crossings % 2 == 1


def frame_shape(rig_id: str, footprint: Footprint, transform: SheetTransform) -> FrameShape:
    """Lay a footprint on the screen.

    Parameters
    ----------
    rig_id : str
    footprint : Footprint
        Where the rig points.
    transform : SheetTransform
        The view.

    Notes
    -----
    Six points of one frame are too few for arrays to pay: plain floats are three times
    as fast, and this is what a hand waits for.
    """
    rows = transform.sky_rows
    centre, right, up = (_carried(rows, vector) for vector in _camera_vectors(footprint))
    half_w, half_h = footprint.half_extents
    corners = [
        [c + sx * half_w * r + sy * half_h * u for c, r, u in zip(centre, right, up, strict=True)]
        for sx, sy in _SIGNS
    ]
    points = _clipped(corners, transform.box)
    area = footprint.width_deg * footprint.height_deg
    top = [c + half_h * u for c, u in zip(centre, up, strict=True)]
    if centre[2] <= _FRONT or top[2] <= _FRONT:
        return FrameShape(rig_id, points, None, None, (0.0, -1.0), area)
    cx, cy = centre[0] / centre[2], centre[1] / centre[2]
    tx, ty = top[0] / top[2], top[1] / top[2]
    length = math.hypot(tx - cx, ty - cy) or 1.0
    way = ((tx - cx) / length, (ty - cy) / length)
    stalk = _stalk((cx, cy), (tx, ty), way, transform.box)
    return FrameShape(rig_id, points, QPointF(cx, cy), stalk, way, area)


@lru_cache(maxsize=1024)
def _camera_vectors(footprint: Footprint) -> tuple[Vector, Vector, Vector]:
    """Directions of the centre, of the camera's right and of its up, in space."""
    east, north, centre = footprint.plane.basis.tolist()
    angle = math.radians(footprint.pa_deg)
    sin, cos = math.sin(angle), math.cos(angle)
    right = [sin * n - cos * e for e, n in zip(east, north, strict=True)]
    up = [sin * e + cos * n for e, n in zip(east, north, strict=True)]
    return centre, right, up


def _carried(rows: list[Vector], vector: Vector) -> Vector:
    """A direction in homogeneous screen coordinates."""
    x, y, z = vector
    return [a * x + b * y + c * z for a, b, c in rows]


def _stalk(centre: Point, top: Point, up: Point, box: Box) -> QLineF | None:
    """The stalk, drawn in towards the centre when its end would leave the sheet."""
    left, upper, right, lower = box
    (cx, cy), (ux, uy) = centre, up
    reach = math.hypot(top[0] - cx, top[1] - cy) + STALK_PX
    end = reach
    if ux:
        end = min(end, ((right - _INSET_PX if ux > 0.0 else left + _INSET_PX) - cx) / ux)
    if uy:
        end = min(end, ((lower - _INSET_PX if uy > 0.0 else upper + _INSET_PX) - cy) / uy)
    x, y = cx + ux * end, cy + uy * end
    near = _INSET_PX - 1.0
    inside = left + near <= x <= right - near and upper + near <= y <= lower - near
    if end < _SHORTEST_PX or not inside:
        return None
    start = max(0.0, min(reach, end) - STALK_PX)
    return QLineF(cx + ux * start, cy + uy * start, x, y)


def _clipped(corners: list[Vector], box: Box) -> tuple[Point, ...]:
    """Outline in pixels, cut at the limb and a little outside the sheet."""
    if all(w > _FRONT for _, _, w in corners):
        flat = tuple((x / w, y / w) for x, y, w in corners)
        if all(-_FAR_PX < x < _FAR_PX and -_FAR_PX < y < _FAR_PX for x, y in flat):
            return flat
    left, top = box[0] - _BEYOND_PX, box[1] - _BEYOND_PX
    right, bottom = box[2] + _BEYOND_PX, box[3] + _BEYOND_PX
    sides = (
        (0.0, 0.0, 1.0, -_FRONT),
        (1.0, 0.0, -left, 0.0),
        (-1.0, 0.0, right, 0.0),
        (0.0, 1.0, -top, 0.0),
        (0.0, -1.0, bottom, 0.0),
    )
    points = corners
    for side in sides:
        points = _cut(points, side)
    return tuple((x / w, y / w) for x, y, w in points)


def _cut(points: list[list[float]], side: tuple[float, float, float, float]) -> list[list[float]]:
    """One side of Sutherland & Hodgman 1974, in homogeneous coordinates."""
    a, b, c, d = side
    values = [a * x + b * y + c * w + d for x, y, w in points]
    kept: list[list[float]] = []
    for place, (point, value) in enumerate(zip(points, values, strict=True)):
        before, before_value = points[place - 1], values[place - 1]
        if (value >= 0.0) != (before_value >= 0.0):
            part = before_value / (before_value - value)
            kept.append([p + part * (q - p) for p, q in zip(before, point, strict=True)])
        if value >= 0.0:
            kept.append(point)
    return kept


def _distance(x: float, y: float, ax: float, ay: float, bx: float, by: float) -> float:
    """Distance of a point from a segment."""
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    part = 0.0 if square == 0.0 else max(0.0, min(1.0, ((x - ax) * dx + (y - ay) * dy) / square))
    return math.hypot(x - ax - part * dx, y - ay - part * dy)
