"""The margin of the sheet: the graticule's lines and their values on its four sides."""

from collections import Counter
from dataclasses import dataclass
from math import radians

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from app.sky_sheet.furniture import Furniture, shrunk
from app.sky_sheet.transform import SheetTransform
from core.sky.edge_ticks import EdgeTick, edge_ticks
from core.sky.graticule import Graticule, LineKind, graticule
from core.sky.view_rectangle import Side, ViewRectangle

__all__ = ["Margin", "margin_of", "paint_ticks"]

#: Room for a label beside its tick; more than the largest text needs.
_TICK_ROOM_PX = 30.0
#: How far a label above the sheet may reach past its right side.
_RIGHT_MARGIN_PX = 16.0
#: What a side shows when both coordinates cross it equally often.
_USUAL = {
    Side.TOP: LineKind.RA,
    Side.BOTTOM: LineKind.RA,
    Side.LEFT: LineKind.DEC,
    Side.RIGHT: LineKind.DEC,
}


@dataclass(frozen=True)
class Margin:
    """The graticule of a view, and the marks (side T R B L, fraction along it, label)."""

    lines: Graticule
    marks: tuple[tuple[str, float, str], ...]


def margin_of(transform: SheetTransform) -> Margin:
    """Choose lines and marks for a view."""
    frame = transform.frame
    half = frame.scale_rad_px / 2.0
    rectangle = ViewRectangle(
        frame.width_px * half,
        frame.height_px * half,
        up_pa_rad=radians(frame.up_pa_deg),
        mirrored=frame.mirrored,
    )
    lines = graticule(frame.plane, rectangle)
    ticks = _one_kind_a_side(edge_ticks(lines, rectangle))
    return Margin(lines, tuple((t.side.name[0], t.fraction, t.label) for t in ticks))


def _one_kind_a_side(ticks: list[EdgeTick]) -> list[EdgeTick]:
    """Keep the coordinate that crosses a side more often: two mixed are hard to read."""
    of_kind = Counter((tick.side, tick.kind) for tick in ticks)
    of_both = Counter(tick.side for tick in ticks)

    def leads(tick: EdgeTick) -> bool:
        twice = 2 * of_kind[tick.side, tick.kind]
        both = of_both[tick.side]
        return twice > both or (twice == both and tick.kind is _USUAL[tick.side])

    return [tick for tick in ticks if leads(tick)]


def paint_ticks(painter: QPainter, rect: QRectF, margin: Margin, what: Furniture) -> None:
    """Write right ascension and declination into the margin."""
    left = [label for side, _, label in margin.marks if side == "L"]
    fonts = {"L": shrunk(what.small, left, rect.left() - 12.0)}
    ends: dict[str, float] = {}
    for side, fraction, label in sorted(margin.marks, key=lambda mark: mark[:2]):
        font = fonts.get(side, what.small)
        metrics = QFontMetricsF(font)
        along, line, box = _tick_place(rect, side, fraction, metrics.horizontalAdvance(label))
        painter.setPen(QPen(QColor(what.theme.sheet_line), 1.0))
        painter.drawLine(line)
        half = box.width() / 2.0 if side in "TB" else metrics.height() / 2.0
        if box.isNull() or along - half < ends.get(side, -1e9) + 6.0:
            continue
        ends[side] = along + half
        painter.setPen(QColor(what.theme.quiet))
        painter.setFont(font)
        painter.drawText(box, _LABEL_ALIGN[side], label)


_LABEL_ALIGN = {
    "T": Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom,
    "B": Qt.AlignmentFlag.AlignCenter,
    "L": Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
    "R": Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter,
}


def _tick_place(
    rect: QRectF, side: str, fraction: float, width: float
) -> tuple[float, QLineF, QRectF]:
    """Where a tick and its label go; labels stand above and left of the sheet."""
    x = rect.left() + fraction * rect.width()
    y = rect.top() + fraction * rect.height()
    if side == "T":
        top = rect.top() - 1.0
        start = min(x - width / 2, rect.right() + _RIGHT_MARGIN_PX - width)
        box = QRectF(start, top - 7.0 - _TICK_ROOM_PX, width, _TICK_ROOM_PX)
        return x, QLineF(x, top, x, top - 5.0), box
    if side == "B":
        return x, QLineF(x, rect.bottom(), x, rect.bottom() + 5.0), QRectF()
    if side == "L":
        left = rect.left() - 1.0
        return (
            y,
            QLineF(left, y, left - 5.0, y),
            QRectF(left - 10.0 - width, y - _TICK_ROOM_PX / 2, width, _TICK_ROOM_PX),
        )
    return y, QLineF(rect.right(), y, rect.right() + 5.0, y), QRectF()
