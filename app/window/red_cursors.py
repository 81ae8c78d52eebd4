"""Cursors in red for the deep-red theme: the system's own would shine white."""

from functools import cache

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QCursor, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QLineEdit, QWidget

from app.shared.theme import Theme

__all__ = ["apply_cursors", "cursor"]

_SIDE = 24
_RED = "#d42a1a"
_ARROW = ((2, 2), (2, 17), (6, 13), (9, 20), (12, 19), (9, 12), (15, 12))


def apply_cursors(window: QWidget, theme: Theme) -> None:
    """Give the window, its menus and its text fields the cursors of a theme."""
    menus = [child for child in window.findChildren(QWidget) if child.isWindow()]
    for widget in (window, *menus):  # a menu is a window too: it inherits no cursor
        if theme.red_only:
            widget.setCursor(cursor(Qt.CursorShape.ArrowCursor, red=True))
        else:
            widget.unsetCursor()
    for field in window.findChildren(QLineEdit):
        field.setCursor(cursor(Qt.CursorShape.IBeamCursor, red=theme.red_only))


@cache
def cursor(shape: Qt.CursorShape, *, red: bool) -> QCursor:
    """Give a cursor of some shape, drawn by us where it has to be red."""
    if not red:
        return QCursor(shape)
    pixmap = QPixmap(_SIDE, _SIDE)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(_RED), 1.5))
    hot = _draw(painter, shape)
    painter.end()
    return QCursor(pixmap, *hot)


def _draw(painter: QPainter, shape: Qt.CursorShape) -> tuple[int, int]:
    """Draw a shape and give its hot spot."""
    middle = _SIDE // 2
    if shape == Qt.CursorShape.IBeamCursor:
        painter.drawLine(middle, 4, middle, 20)
        for y in (4, 20):
            painter.drawLine(middle - 3, y, middle + 3, y)
    elif shape == Qt.CursorShape.SizeAllCursor:
        painter.drawLine(middle, 3, middle, 21)
        painter.drawLine(3, middle, 21, middle)
    elif shape == Qt.CursorShape.OpenHandCursor:
        painter.drawEllipse(QPointF(middle, middle), 7.0, 7.0)
    elif shape == Qt.CursorShape.PointingHandCursor:
        painter.drawArc(4, 4, 16, 16, 30 * 16, 300 * 16)
        painter.drawPoint(middle, middle)
    else:
        painter.setBrush(QColor(_RED))
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in _ARROW]))
        return 2, 2
    return middle, middle
