"""A line to type into whose caret keeps to the theme's colours and does not blink.

It keeps the keys of undo and redo only while it has something of its own to undo or redo;
otherwise they are the window's.

Qt draws its caret by turning the ground into its opposite, which is white on black: in
the deep-red theme that one line would undo the eyes' adaptation to the dark.
"""

from PySide6.QtCore import QEvent, QRectF
from PySide6.QtGui import QKeyEvent, QKeySequence, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QStyle

__all__ = ["Line"]

#: Qt's rectangle around the caret begins this far to its left, rounded (QLineEdit, Qt 6).
_CARET_INSET_PX = 5


class Line(QLineEdit):
    """A line edit with a caret in the colour of the text."""

    def event(self, event: QEvent) -> bool:
        """Leave undo and redo to the window where there is nothing to undo or redo here."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undo = event.matches(QKeySequence.StandardKey.Undo) and not self.isUndoAvailable()
            redo = event.matches(QKeySequence.StandardKey.Redo) and not self.isRedoAvailable()
            if undo or redo:
                event.ignore()
                return False
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the line, and the caret over Qt's own."""
        super().paintEvent(event)
        if not self.hasFocus() or self.isReadOnly():
            return
        around = self.cursorRect()
        width = self.style().pixelMetric(QStyle.PixelMetric.PM_TextCursorWidth, None, self)
        left = around.left() + _CARET_INSET_PX - 0.5
        caret = QRectF(left, around.top(), width + 1.0, around.height())
        painter = QPainter(self)
        painter.fillRect(caret, QApplication.palette().text().color())
        painter.end()
