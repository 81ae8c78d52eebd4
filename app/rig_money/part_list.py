"""The parts of a step in groups by what becomes of them, each with its price."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from app.rig_money.page import heading, label
from app.shared.typed_field import capital
from app.words.step_words import fates, price_words
from core.gear.step_up import Step

__all__ = ["PartList"]


class PartList(QWidget):
    """Groups of parts under each other."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(0, 1)
        self._labels: list[QLabel] = []

    @property
    def texts(self) -> tuple[str, ...]:
        """All words that are shown, row by row."""
        return tuple(shown.text() for shown in self._labels)

    def show_step(self, step: Step, scale: float) -> None:
        """Show what becomes of the parts of a step."""
        for shown in self._labels:
            shown.hide()
            shown.deleteLater()
        self._labels = []
        self._grid.setHorizontalSpacing(round(12.0 * scale))
        self._grid.setVerticalSpacing(round(3.0 * scale))
        row, last = 0, ""
        for fate, part in fates(step):
            if fate != last:
                above = heading(capital(fate))
                above.setContentsMargins(0, round(6.0 * scale) if last else 0, 0, 0)
                self._put(above, row, 0)
                row, last = row + 1, fate
            price = QLabel(price_words(part, step.currency))
            self._put(label(part.name), row, 0)
            self._put(price, row, 1)
            row += 1
        self._grid.setRowStretch(row, 1)

    def _put(self, shown: QLabel, row: int, column: int) -> None:
        """Put a label into its place."""
        side = Qt.AlignmentFlag.AlignRight if column else Qt.AlignmentFlag(0)
        self._grid.addWidget(shown, row, column, Qt.AlignmentFlag.AlignTop | side)
        shown.show()
        self._labels.append(shown)
