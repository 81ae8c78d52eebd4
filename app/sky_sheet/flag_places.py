"""Where the letter flags stand: each on its frame's stalk, none on another.

Conventions: screen points in logical pixels; steps along a stalk are radii of a flag,
outwards for more than 0.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from PySide6.QtCore import QLineF, QPointF, QRectF

from app.sky_sheet.frame_shape import FLAG_RADIUS, FrameShape

__all__ = ["place_flags"]

Point = tuple[float, float]
Box = tuple[float, float, float, float]

#: Where a flag is tried along its stalk, in radii of a flag: near places first.
_STEPS = (
    0, 1, 2, 3,
    *(n for k in range(3, 30, 3) for n in (-k, -k - 1, -k - 2, k + 1, k + 2, k + 3)),
)  # fmt: skip
#: With more frames than this no order helps, and a hand waits: fewer places are tried.
_MANY, _FEW_STEPS = 20, 7
_GAP = 2.0 * FLAG_RADIUS + 2.0


def place_flags(
    shapes: Sequence[FrameShape], rect: QRectF, keep_clear: Sequence[QRectF] = ()
) -> list[FrameShape]:
    """Slide flags along their stalks until none lies on another.

    Parameters
    ----------
    shapes : sequence of FrameShape
        Most important first: the first flag stays where it is.
    rect : QRectF
        The sheet; flags stay on it.
    keep_clear : sequence of QRectF
        Where no flag may stand (compass, scale bar).
    """
    room = _Room(rect, keep_clear, _STEPS if len(shapes) <= _MANY else _STEPS[:_FEW_STEPS])
    placed = []
    for shape in shapes:
        if shape.stalk is not None:
            tip = (shape.stalk.x2(), shape.stalk.y2())
            end = room.take(tip, shape.up)
            if end != tip:
                shape = replace(shape, stalk=QLineF(shape.stalk.p1(), QPointF(*end)))
        placed.append(shape)
    return placed


class _Room:
    """Where flags may stand, and where some stand already, kept in cells of a gap."""

    def __init__(self, rect: QRectF, keep_clear: Sequence[QRectF], steps: tuple[int, ...]) -> None:
        self._box = _sides(rect, -FLAG_RADIUS)
        self._plates = [_sides(plate, FLAG_RADIUS + 1.0) for plate in keep_clear]
        self._steps = steps
        self._taken: dict[tuple[int, int], list[Point]] = {}

    def take(self, tip: Point, up: Point) -> Point:
        """Take the first free place along a stalk, or the tip where there is none."""
        end = next((place for place in self._places(tip, up) if self._is_free(*place)), tip)
        column, row = int(end[0] // _GAP), int(end[1] // _GAP)
        for near in (-1, 0, 1):  # also in the cells around: more is asked than taken
            for below in (-1, 0, 1):
                self._taken.setdefault((column + near, row + below), []).append(end)
        return end

    def _places(self, tip: Point, up: Point) -> Iterator[Point]:
        """Places along a stalk that lie on the sheet and on no plate."""
        left, top, right, bottom = self._box
        for step in self._steps:
            x, y = tip[0] + up[0] * step * FLAG_RADIUS, tip[1] + up[1] * step * FLAG_RADIUS
            if left <= x <= right and top <= y <= bottom and not self._is_covered(x, y):
                yield x, y

    def _is_covered(self, x: float, y: float) -> bool:
        """Whether a plate lies there."""
        return any(a < x < c and b < y < d for a, b, c, d in self._plates)

    def _is_free(self, x: float, y: float) -> bool:
        """Whether no flag stands within a gap, looking only at those in or around the cell."""
        for ox, oy in self._taken.get((int(x // _GAP), int(y // _GAP)), ()):
            if (ox - x) ** 2 + (oy - y) ** 2 < _GAP * _GAP:
                return False
        return True


def _sides(rect: QRectF, grow: float) -> Box:
    """Left, top, right and bottom of a rectangle, moved outwards."""
    return rect.left() - grow, rect.top() - grow, rect.right() + grow, rect.bottom() + grow
