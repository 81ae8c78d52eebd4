"""A list with a line above it to narrow it, and a blank one at its end where that makes sense."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from app.shared.line import Line
from app.words.part_words import key_figures
from core.gear.parts import Part

__all__ = ["PickList"]

_DATA = Qt.ItemDataRole.UserRole
_ROWS_PX = 150


class PickList(QWidget):
    """Named things, one of which is picked.

    Parameters
    ----------
    title : str
    """

    picked = Signal()

    def __init__(self, title: str) -> None:
        super().__init__()
        self.heading = QLabel(title)
        self.heading.setProperty("heading", True)
        self.narrow = Line()
        self.narrow.setPlaceholderText("Type to narrow the list")
        self.narrow.setAccessibleName(f"{title}: type to narrow the list")
        self.rows = QListWidget()
        self.rows.setAccessibleName(title)
        self.rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.rows.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.narrow.textChanged.connect(self._narrow)
        self.rows.itemActivated.connect(lambda _item: self.picked.emit())
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        for widget in (self.heading, self.narrow, self.rows):
            column.addWidget(widget)

    def set_style(self, scale: float) -> None:
        """Change the text size."""
        self.rows.setMinimumHeight(round(_ROWS_PX * scale))

    def offer_parts(self, parts: Sequence[Part], blank: Part) -> None:
        """List parts, and a blank one at the end; the first is picked."""
        self.rows.clear()
        for part in parts:
            self._add(f"{part.name}", f"{part.name}\n{key_figures(part)}", part)
        words = f"a blank one: {key_figures(blank)}, to be typed over"
        self._add(words, words, blank)
        self._narrow(self.narrow.text())

    def offer_names(self, names: Sequence[str]) -> None:
        """List names; the first is picked."""
        self.rows.clear()
        for name in names:
            self._add(name, name, name)
        self._narrow(self.narrow.text())

    def value(self) -> object:
        """Give what is picked; None without."""
        item = self.rows.currentItem()
        return None if item is None or item.isHidden() else item.data(_DATA)

    def _add(self, words: str, hint: str, value: object) -> None:
        item = QListWidgetItem(words)
        item.setData(_DATA, value)
        item.setToolTip(hint)
        self.rows.addItem(item)

    def _narrow(self, text: str) -> None:
        """Hide what does not have all the words, and pick the first of the rest."""
        wanted, first = text.casefold().split(), -1
        for row in range(self.rows.count()):
            item = self.rows.item(row)
            words = item.toolTip().casefold()
            item.setHidden(not all(word in words for word in wanted))
            if first < 0 and not item.isHidden():
                first = row
        self.rows.setCurrentRow(first)
