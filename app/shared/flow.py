"""A row that goes on in the next line where there is no room for it."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget

__all__ = ["Flow"]


class Flow(QLayout):
    """Lays widgets out like words on a page.

    Parameters
    ----------
    parent : QWidget
    gap : int
        Between two widgets and between two lines, pixels.
    """

    def __init__(self, parent: QWidget | None = None, *, gap: int = 8) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self.setSpacing(gap)
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        """Take an item at the end."""
        self._items.append(item)

    def count(self) -> int:
        """Count the items."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """Give an item; None beyond the end."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Take an item out; None beyond the end."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """Ask for no more room than needed."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """The narrower, the higher."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Give the height at a width."""
        return self._place(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        """Lay everything out."""
        super().setGeometry(rect)
        self._place(rect, move=True)

    def sizeHint(self) -> QSize:
        """All in one line."""
        sizes = [item.sizeHint() for item in self._shown()]
        width = sum(size.width() for size in sizes) + self.spacing() * max(0, len(sizes) - 1)
        return QSize(width, max((size.height() for size in sizes), default=0))

    def minimumSize(self) -> QSize:
        """As wide as the widest of them."""
        size = QSize()
        for item in self._shown():
            size = size.expandedTo(item.minimumSize())
        return size

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _place(self, rect: QRect, *, move: bool) -> int:
        """Go along the lines; give the height they take."""
        left, top, height = rect.left(), rect.top(), 0
        for item in self._shown():
            size = item.sizeHint()
            width = min(size.width(), max(rect.width(), item.minimumSize().width()))
            if left > rect.left() and left + width > rect.right() + 1:
                left, top, height = rect.left(), top + height + self.spacing(), 0
            if move:
                item.setGeometry(QRect(QPoint(left, top), QSize(width, size.height())))
            left += width + self.spacing()
            height = max(height, size.height())
        return top + height - rect.top()
