"""What the hand and the keyboard hold a part by: an invisible widget over its drawing."""

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QEnterEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QApplication, QWidget

from core.gear.slots import Slot

__all__ = ["PartHandle"]

_BY_KEYBOARD = (
    Qt.FocusReason.TabFocusReason,
    Qt.FocusReason.BacktabFocusReason,
    Qt.FocusReason.ShortcutFocusReason,
    Qt.FocusReason.OtherFocusReason,
)
_STEPS = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Home: -10_000,
    Qt.Key.Key_End: 10_000,
}
_ENTERS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class PartHandle(QWidget):
    """One part of the drawing.

    Parameters
    ----------
    slot : Slot
    parent : QWidget
        The drawing.
    """

    chosen = Signal()
    entered = Signal(bool)
    opened = Signal()
    walked = Signal(int)
    pushed = Signal(int)
    carried = Signal(float)
    dropped = Signal(float, bool)
    removed = Signal()

    def __init__(self, slot: Slot, parent: QWidget) -> None:
        super().__init__(parent)
        self.slot = slot
        self.movable = False
        self.ink = "#000000"
        self._grip: QPointF | None = None
        self._dragging = False
        self._ring = False
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    @property
    def dragging(self) -> bool:
        """Tell whether the hand carries the part."""
        return self._dragging

    @property
    def by_key(self) -> bool:
        """Tell whether the keyboard is here, and came here by itself."""
        return self.hasFocus() and self._ring

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw a ring when the keyboard has come here."""
        if self.hasFocus() and self._ring:
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(self.ink), 1.5))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(3, 3, -3, -3), 2.0, 2.0)
            painter.end()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Choose the part that the keyboard comes to."""
        self._ring = event.reason() in _BY_KEYBOARD
        super().focusInEvent(event)
        self.update()
        if self._ring:
            self.chosen.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the ring away."""
        super().focusOutEvent(event)
        self.update()

    def enterEvent(self, event: QEnterEvent) -> None:
        """Tell that the part is pointed at."""
        self.entered.emit(True)

    def leaveEvent(self, event: object) -> None:
        """Tell that it no longer is."""
        self.entered.emit(False)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the part, and choose it."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._grip = event.position()
            self.chosen.emit()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry the part once the hand has moved far enough to mean it."""
        if self._grip is None or not self.movable:
            return
        way = event.position() - self._grip
        if not self._dragging and abs(way.x()) >= QApplication.startDragDistance():
            self._dragging = True
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
        if self._dragging:
            self.carried.emit(self.x() + event.position().x())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the part down, or open what a click opens."""
        if event.button() != Qt.MouseButton.LeftButton or self._grip is None:
            return
        if self._dragging:
            self._put_down(self.x() + event.position().x(), kept=True)
        else:
            self._grip = None
            self.opened.emit()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Choose the part; what can be done stands beside its figures."""
        self.chosen.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Do by key what the pointer does."""
        key, held = Qt.Key(event.key()), event.modifiers()
        if self._dragging and key == Qt.Key.Key_Escape:
            self._put_down(0.0, kept=False)
        elif key in _STEPS and held & Qt.KeyboardModifier.AltModifier:
            self.pushed.emit(_STEPS[key])
        elif key in _STEPS:
            self.walked.emit(_STEPS[key])
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit()
        elif key in _ENTERS:
            self.opened.emit()
        else:
            super().keyPressEvent(event)

    def _put_down(self, x: float, *, kept: bool) -> None:
        """End a drag."""
        self._grip, self._dragging = None, False
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.dropped.emit(x, kept)
