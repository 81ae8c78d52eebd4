"""A page of the bench that is built when it is first seen, so that the bench opens quickly."""

from collections.abc import Callable

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.shared.theme import Theme
from app.window.red_cursors import apply_cursors

__all__ = ["LatePage"]


class LatePage(QWidget):
    """Stands for a page until somebody looks.

    Parameters
    ----------
    make : callable
        Builds the page in a theme at a text size; it imports what it needs.
    theme : Theme
    scale : float
    """

    def __init__(self, make: Callable[[Theme, float], QWidget], theme: Theme, scale: float) -> None:
        super().__init__()
        self._make = make
        self._style = (theme, scale)
        self.page: QWidget | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size, now or when the page is built."""
        self._style = (theme, scale)
        dress = getattr(self.page, "set_style", None)
        if dress is not None:
            dress(theme, scale)

    def finish(self) -> None:
        """End what the page does beside the window, if it was ever built."""
        end = getattr(self.page, "finish", None)
        if end is not None:
            end()

    def showEvent(self, event: QShowEvent) -> None:
        """Build the page."""
        if self.page is None:
            self.page = self._make(*self._style)
            self._column.addWidget(self.page)
            self.page.show()
            self.setFocusProxy(self.page)
            apply_cursors(self.window(), self._style[0])
        super().showEvent(event)
