"""One of several words, chosen from a list that the wheel does not change by accident."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPolygonF, QWheelEvent
from PySide6.QtWidgets import QComboBox, QSizePolicy

__all__ = ["Choice"]


class Choice(QComboBox):
    """A list to choose from."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("choice", True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the word, and a small triangle that tells of the list."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.palette().text())
        side = self.height() / 8.0
        right, y = self.width() - 2.5 * side, self.height() / 2.0
        tip = [QPointF(right - 2 * side, y - side / 2), QPointF(right, y - side / 2)]
        painter.drawPolygon(QPolygonF([*tip, QPointF(right - side, y + side * 0.7)]))
        painter.end()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Let the page scroll instead."""
        event.ignore()
