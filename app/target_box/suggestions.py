"""The list under the target box: suggestions, a position, or near misses with a sentence.

The list never takes the keyboard; the box keeps it and moves the mark up and down. It
is a child of the window, not a window of its own, so it works where windows cannot be
stacked and never leaves one behind.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

__all__ = ["Entry", "TargetList"]

_Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()
ENTRY_ROLE = int(Qt.ItemDataRole.UserRole)


@dataclass(frozen=True)
class Entry:
    """One line of the list.

    Parameters
    ----------
    text : str
        What is put into the box when the entry is taken; "" for a mere sentence.
    title : str
        Stands first.
    aside : str
        Stands quietly behind the title.
    below : str
        Second line.
    """

    text: str
    title: str
    aside: str = ""
    below: str = ""

    @property
    def takable(self) -> bool:
        """Tell whether this is a choice, not a sentence."""
        return bool(self.text)


class _Entries(QAbstractListModel):
    """The entries as Qt's model."""

    def __init__(self) -> None:
        super().__init__()
        self.entries: tuple[Entry, ...] = ()

    def put(self, entries: Sequence[Entry]) -> None:
        self.beginResetModel()
        self.entries = tuple(entries)
        self.endResetModel()

    def rowCount(self, parent: _Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.entries)

    def flags(self, index: _Index) -> Qt.ItemFlag:
        takable = index.isValid() and self.entries[index.row()].takable
        choice = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return choice if takable else Qt.ItemFlag.ItemIsEnabled

    def data(self, index: _Index, role: int = 0) -> Any:
        entry = self.entries[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return entry.title
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return ", ".join(filter(None, (entry.title, entry.aside, entry.below)))
        return entry if role == ENTRY_ROLE else None


class _Painter(QStyledItemDelegate):
    """Draws an entry: title, what stands behind it, a second line."""

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        """Be two lines high, or as high as a sentence needs."""
        entry: Entry = index.data(ENTRY_ROLE)
        metrics = QFontMetrics(self._font(index))
        pad = self._pad(metrics)
        if entry.takable:
            lines = 2 if entry.below else 1
            return QSize(100, lines * metrics.height() + 2 * pad)
        view = self.parent()
        room = (view.width() if isinstance(view, QWidget) else 300) - 4 * pad
        flags = int(Qt.TextFlag.TextWordWrap)
        rect = metrics.boundingRect(QRect(0, 0, room, 10_000), flags, entry.title)
        return QSize(100, rect.height() + 2 * pad)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        """Draw ground and words."""
        entry: Entry = index.data(ENTRY_ROLE)
        marked = bool(option.state & QStyle.StateFlag.State_Selected)
        area: QRect = option.rect
        colours = QApplication.palette()
        ink, quiet = QPalette.ColorRole.Text, QPalette.ColorRole.PlaceholderText
        if marked:
            painter.fillRect(area, colours.highlight())
            ink = quiet = QPalette.ColorRole.HighlightedText
        font = self._font(index)
        metrics = QFontMetrics(font)
        pad = self._pad(metrics)
        inner = area.adjusted(2 * pad, pad, -2 * pad, -pad)
        painter.setFont(font)
        if not entry.takable:
            painter.setPen(colours.color(quiet))
            painter.drawText(inner, int(Qt.TextFlag.TextWordWrap), entry.title)
            return
        painter.setPen(colours.color(ink))
        left = _draw(painter, inner, entry.title) + 2 * pad
        painter.setPen(colours.color(quiet))
        _draw(painter, inner.adjusted(left, 0, 0, 0), entry.aside)
        _draw(painter, inner.adjusted(0, metrics.height(), 0, 0), entry.below)

    def _font(self, index: _Index) -> QFont:
        """Use the type of the list."""
        view = self.parent()
        return view.font() if isinstance(view, QWidget) else QFont()

    @staticmethod
    def _pad(metrics: QFontMetrics) -> int:
        """Leave a third of a line around the words."""
        return max(3, metrics.height() // 3)


class TargetList(QListView):
    """The list itself, hung under a box while it has something to say.

    Parameters
    ----------
    box : QWidget
        The line that has the keyboard.
    """

    taken = Signal(str)

    def __init__(self, box: QWidget) -> None:
        super().__init__(box)
        self._box = box
        self._entries = _Entries()
        self.setModel(self._entries)
        self.setItemDelegate(_Painter(self))
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setFrameShape(QFrame.Shape.Box)
        self.setMouseTracking(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("Targets that may be meant")
        self.entered.connect(self._point_at)
        self.clicked.connect(self._take)
        self.hide()

    @property
    def entries(self) -> tuple[Entry, ...]:
        """What the list shows."""
        return self._entries.entries

    @property
    def marked(self) -> Entry | None:
        """The entry that Enter would take."""
        index = self.currentIndex()
        return self._entries.entries[index.row()] if index.isValid() else None

    def offer(self, entries: Sequence[Entry]) -> None:
        """Show entries under the box, none of them marked; hide when there are none."""
        self._entries.put(entries)
        if not entries or not self._box.isVisible():
            self.hide()
            return
        if self.parentWidget() is not self._box.window():
            self.setParent(self._box.window())
        self._hang()
        self.show()
        self.raise_()

    def step(self, rows: int) -> None:
        """Move the mark up or down over what can be taken, round the ends."""
        places = [n for n, entry in enumerate(self.entries) if entry.takable]
        if not places:
            return
        index = self.currentIndex()
        if index.isValid():
            place = places[(places.index(index.row()) + rows) % len(places)]
        else:
            place = places[0] if rows > 0 else places[-1]
        self._mark(self._entries.index(place))

    def _hang(self) -> None:
        """Lie under the box, as wide as it or wider, inside the window."""
        window = self._box.window()
        width = max(self._box.width(), QFontMetrics(self.font()).horizontalAdvance("m") * 30)
        corner = self._box.mapTo(window, QPoint(0, self._box.height() + 2))
        width = min(width, max(120, window.width() - corner.x() - 4))
        self.resize(width, 100)
        rows = sum(self.sizeHintForRow(n) for n in range(len(self.entries)))
        height = min(rows + 2 * self.frameWidth() + 2, max(60, window.height() - corner.y() - 4))
        self.setGeometry(QRect(corner, QSize(width, height)))
        self.scrollToTop()

    def _point_at(self, index: QModelIndex) -> None:
        """Mark what the pointer is on."""
        if self._entries.entries[index.row()].takable:
            self._mark(index)

    def _mark(self, index: QModelIndex) -> None:
        """Mark one entry."""
        self.setCurrentIndex(index)

    def _take(self, index: QModelIndex) -> None:
        """Hand over what was clicked."""
        entry = self._entries.entries[index.row()]
        if entry.takable:
            self.taken.emit(entry.text)


def _draw(painter: QPainter, area: QRect, text: str) -> int:
    """Write one line, shortened where it does not fit; give its width."""
    shown = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, area.width())
    painter.drawText(area, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop), shown)
    return painter.fontMetrics().horizontalAdvance(shown)
