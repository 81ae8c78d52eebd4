"""The small shapes that stand beside a finding, so that colour never speaks alone.

A disc: good. A triangle: caution. A crossed square: bad. A bar: worth knowing. A ring: not
known.
"""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from app.shared.theme import Theme

__all__ = ["level_colour", "mark_pixmap", "paint_mark"]


def level_colour(theme: Theme, level: str) -> str:
    """Give the colour of a level; quiet text for what is not known or a note."""
    colours = {"good": theme.good, "caution": theme.caution, "bad": theme.bad}
    return colours.get(level, theme.quiet)


def paint_mark(painter: QPainter, box: QRectF, level: str, colour: str) -> None:
    """Draw the shape of a level into a square box."""
    ink = QColor(colour)
    thin = max(1.0, box.width() / 8.0)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    inner = box.adjusted(thin, thin, -thin, -thin)
    if level == "good":
        painter.drawEllipse(inner)
    elif level == "caution":
        top = QPointF(box.center().x(), inner.top())
        painter.drawPolygon(QPolygonF([top, inner.bottomRight(), inner.bottomLeft()]))
    elif level == "note":
        bar = QRectF(inner.left(), 0.0, inner.width(), 2.0 * thin)
        bar.moveCenter(inner.center())
        painter.drawRect(bar)
    else:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(ink, thin))
        if level == "bad":
            painter.drawRect(inner)
            painter.drawLine(QLineF(inner.topLeft(), inner.bottomRight()))
            painter.drawLine(QLineF(inner.topRight(), inner.bottomLeft()))
        else:
            painter.drawEllipse(inner)


def mark_pixmap(side: int, level: str, colour: str, ratio: float) -> QPixmap:
    """Give the shape of a level as a picture, for item views."""
    picture = QPixmap(round(side * ratio), round(side * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_mark(painter, QRectF(0.0, 0.0, side, side), level, colour)
    painter.end()
    return picture
