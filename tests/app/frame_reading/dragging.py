"""Files dragged over a widget and let go."""

from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QWidget

__all__ = ["drag", "mime"]


def mime(*urls: str) -> QMimeData:
    data = QMimeData()
    data.setUrls([QUrl(url) for url in urls])
    return data


def drag(widget: QWidget, data: QMimeData) -> tuple[bool, bool]:
    """Drag something over a widget and let it go; tell whether each was accepted."""
    actions, button, none = (
        Qt.DropAction.CopyAction,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    enter = QDragEnterEvent(QPoint(5, 5), actions, data, button, none)
    QApplication.sendEvent(widget, enter)
    drop = QDropEvent(QPointF(5, 5), actions, data, button, none)
    QApplication.sendEvent(widget, drop)
    return enter.isAccepted(), drop.isAccepted()
