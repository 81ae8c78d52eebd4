"""Takes a frame that is dropped somewhere on the bench."""

from collections.abc import Callable
from typing import cast

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget

__all__ = ["FrameDrop"]


class FrameDrop(QObject):
    """Watches a widget for one file that is dropped on it.

    Parameters
    ----------
    place : QWidget
        What takes the drops; parts of it may take others of their own.
    read : callable
        Called with the path.
    """

    def __init__(self, place: QWidget, read: Callable[[str], None]) -> None:
        super().__init__(place)
        self._read = read
        place.setAcceptDrops(True)
        place.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let one file of this computer in, and nothing else."""
        if event.type() == QEvent.Type.DragEnter:
            entering = cast(QDragEnterEvent, event)
            if _one_file(entering):
                entering.acceptProposedAction()
                return True
        elif event.type() == QEvent.Type.Drop:
            dropped = cast(QDropEvent, event)
            path = _one_file(dropped)
            if path:
                dropped.acceptProposedAction()
                self._read(path)
                return True
        return super().eventFilter(watched, event)


def _one_file(event: QDropEvent) -> str:
    """Give the path of the file that is dragged; empty for none or several."""
    urls = event.mimeData().urls()
    return urls[0].toLocalFile() if len(urls) == 1 else ""
