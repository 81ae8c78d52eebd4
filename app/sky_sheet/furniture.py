"""What stands on and around the sheet: neat line, compass, scale bar, credit.

Compass and scale bar are always right for the turn and the mirror of the view,
because both are drawn from the view's own matrix.
"""

import math
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from app.shared.theme import Theme
from app.sky_sheet.transform import SheetTransform

__all__ = ["Furniture", "paint_furniture", "plates", "scale_bar", "shrunk"]

#: Lengths the scale bar may have, arcseconds.
_BARS = (
    1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600,
    7200, 18000, 36000, 72000, 108000, 162000,
)  # fmt: skip
#: Words too long for their place are written no smaller than this.
_SMALLEST_PX = 7


@dataclass(frozen=True)
class Furniture:
    """What the painting of the furniture needs to know."""

    theme: Theme
    font: QFont
    small: QFont
    credit: str


def scale_bar(transform: SheetTransform, room_px: float) -> tuple[str, float]:
    """Choose the longest round bar that fits a width.

    Returns
    -------
    words, length : (str, float)
        The bar's angle in words and its length in pixels at the centre of the sheet.
    """
    chosen = _BARS[0]
    for arcsec in _BARS:
        if _bar_px(transform, arcsec) <= room_px:
            chosen = arcsec
    return _angle_words(chosen), _bar_px(transform, chosen)


def plates(transform: SheetTransform, small: QFont) -> tuple[QRectF, QRectF]:
    """Give where compass and scale bar stand; larger for larger text."""
    metrics, rect = QFontMetricsF(small), transform.rect
    side = max(62.0, 27.0 + 2.4 * metrics.height())
    compass = QRectF(rect.left() + 10.0, rect.bottom() - side - 10.0, side, side)
    words, length = scale_bar(transform, _bar_room(rect))
    wide, high = max(length, metrics.horizontalAdvance(words)) + 20.0, metrics.height() + 21.0
    bar = QRectF(rect.right() - wide - 10.0, rect.bottom() - high - 10.0, wide, high)
    return compass, bar


def shrunk(font: QFont, texts: list[str], room_px: float) -> QFont:
    """Give the font, or a smaller one in which the longest of some texts fits a width."""
    wide = max(map(QFontMetricsF(font).horizontalAdvance, texts), default=0.0)
    smaller = QFont(font)
    if wide > room_px:
        smaller.setPixelSize(max(_SMALLEST_PX, int(font.pixelSize() * room_px / wide)))
    return smaller


def paint_furniture(painter: QPainter, transform: SheetTransform, what: Furniture) -> None:
    """Draw neat line, compass, scale bar and credit over the sky."""
    rect = transform.rect
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    _paint_compass(painter, transform, what)
    _paint_scale_bar(painter, transform, what)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(what.theme.sheet_line), 1.0))
    painter.drawRect(rect.adjusted(-1.0, -1.0, 0.0, 0.0))
    _paint_credit(painter, rect, what)


def _paint_compass(painter: QPainter, transform: SheetTransform, what: Furniture) -> None:
    """North and east at the centre of the view, on a small plate in the corner."""
    plate, _ = plates(transform, what.small)
    _paint_plate(painter, plate, what.theme)
    matrix, unit = transform.plane_to_screen, plate.width() / 62.0
    ink = QColor(what.theme.marks)
    painter.setFont(what.small)
    arms = {name: _unit(matrix[0, axis], matrix[1, axis]) for name, axis in (("N", 1), ("E", 0))}
    sx, sy = arms["N"][0] + arms["E"][0], arms["N"][1] + arms["E"][1]
    foot = plate.center() - QPointF(sx, sy) * 11.0 * unit
    for name, (dx, dy) in arms.items():
        tip = foot + QPointF(dx, dy) * (26.0 if name == "N" else 20.0) * unit
        painter.setPen(QPen(ink, 1.0))
        painter.drawLine(QLineF(foot, tip))
        if name == "N":
            painter.setBrush(ink)
            painter.drawPolygon(_arrow_head(tip, dx, dy))
        label = tip + QPointF(dx, dy) * 9.0 * unit
        box = QRectF(-9.0 * unit, -9.0 * unit, 18.0 * unit, 18.0 * unit).translated(label)
        painter.setPen(ink)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, name)


def _paint_scale_bar(painter: QPainter, transform: SheetTransform, what: Furniture) -> None:
    """A bar of a round angle, true at the centre of the sheet."""
    words, length = scale_bar(transform, _bar_room(transform.rect))
    _, plate = plates(transform, what.small)
    _paint_plate(painter, plate, what.theme)
    ink = QColor(what.theme.marks)
    y = plate.bottom() - 10.0
    x0 = plate.center().x() - length / 2.0
    x1 = x0 + length
    painter.setPen(QPen(ink, 1.0))
    ends = [QLineF(x0, y, x1, y), QLineF(x0, y - 4, x0, y + 4), QLineF(x1, y - 4, x1, y + 4)]
    painter.drawLines(ends)
    painter.setFont(what.small)
    text = QRectF(plate.left(), plate.top() + 3.0, plate.width(), y - 6.0 - plate.top())
    painter.drawText(text, Qt.AlignmentFlag.AlignCenter, words)


def _paint_credit(painter: QPainter, rect: QRectF, what: Furniture) -> None:
    """Whom the picture is owed to, in the margin under the sheet; smaller before cut."""
    left, high = 6.0, QFontMetricsF(what.small).height()
    line = QRectF(left, rect.bottom() + 5.0, rect.right() - left, high)
    font = shrunk(what.small, [what.credit], line.width())
    painter.setFont(font)
    painter.setPen(QColor(what.theme.quiet))
    words = QFontMetricsF(font).elidedText(
        what.credit, Qt.TextElideMode.ElideRight, line.width() + 0.5
    )
    painter.drawText(line, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop, words)


def _paint_plate(painter: QPainter, plate: QRectF, theme: Theme) -> None:
    """A quiet ground that keeps small things readable on any sky."""
    colour = QColor(theme.plate)
    colour.setAlpha(190)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawRoundedRect(plate, 3.0, 3.0)


def _arrow_head(tip: QPointF, dx: float, dy: float) -> QPolygonF:
    """A small triangle at the end of the north arm."""
    back = tip - QPointF(dx, dy) * 7.0
    across = QPointF(-dy, dx) * 3.0
    return QPolygonF([tip, back + across, back - across])


def _unit(x: float, y: float) -> tuple[float, float]:
    """Bring a direction to length 1."""
    length = math.hypot(x, y) or 1.0
    return float(x) / length, float(y) / length


def _bar_room(rect: QRectF) -> float:
    """How long the scale bar may be, pixels."""
    return min(190.0, rect.width() * 0.3)


def _bar_px(transform: SheetTransform, arcsec: float) -> float:
    """Pixels that an angle spans when laid across the centre."""
    half = math.radians(arcsec / 3600.0) / 2.0
    return 2.0 * math.tan(half) * transform.px_per_rad


def _angle_words(arcsec: int) -> str:
    """Write a round angle in the unit that leaves it whole."""
    if arcsec >= 3600:
        return f"{arcsec // 3600}°"
    return f"{arcsec // 60}′" if arcsec >= 60 else f"{arcsec}″"
