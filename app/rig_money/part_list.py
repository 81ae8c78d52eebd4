"""The parts of a step in groups by what becomes of them, each with its price."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from app.rig_money.page import label
from app.shared.typed_field import capital, set_property
from app.words.step_words import fates, price_words
from core.gear.money.step_up import Step

__all__ = ["PartList"]


class PartList(QWidget):
    """Groups of parts under each other."""

    def __init__(self) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self._grid = QGridLayout()
        column.addLayout(self._grid)
        column.addStretch(1)
        self._grid.setColumnStretch(0, 1)
        self._rows: list[tuple[QLabel, QLabel]] = []

    @property
    def texts(self) -> tuple[str, ...]:
        """All words that are shown, row by row."""
        labels = (shown for row in self._rows for shown in row)
        return tuple(shown.text() for shown in labels if not shown.isHidden())

    def show_step(self, step: Step, scale: float) -> None:
        """Show what becomes of the parts of a step."""
        self._grid.setHorizontalSpacing(round(12.0 * scale))
        self._grid.setVerticalSpacing(round(3.0 * scale))
        rows: list[tuple[str, str]] = []
        last = ""
        for fate, part in fates(step):
            if fate != last:
                rows.append((capital(fate), ""))
                last = fate
            rows.append((part.name, price_words(part, step.currency)))
        while len(self._rows) < len(rows):
            self._add_row()
        for place, (name, price) in enumerate(self._rows):
            words, money = rows[place] if place < len(rows) else ("", "")
            name.setText(words)
            price.setText(money)
            set_property(name, "heading", bool(words) and not money)
            above = round(6.0 * scale) if place and not money else 0
            name.setContentsMargins(0, above, 0, 0)
            name.setVisible(place < len(rows))
            price.setVisible(bool(money))

    def _add_row(self) -> None:
        """Have one more row; rows are kept, as making them takes longer than filling them."""
        name, price = label(), QLabel()
        row = len(self._rows)
        self._grid.addWidget(name, row, 0, Qt.AlignmentFlag.AlignTop)
        side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
        self._grid.addWidget(price, row, 1, side)
        self._rows.append((name, price))
