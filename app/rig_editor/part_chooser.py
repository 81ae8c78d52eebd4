"""Chooses a part from the shelf, or a blank one: a line to narrow the list, and the list."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QModelIndex, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.rig_editor.candidates import Candidates, Effect
from app.rig_editor.choice import Choice
from app.shared.flow import Flow
from app.shared.line import Line
from app.shared.theme import Theme
from app.words.part_words import kind_words
from core.gear.kinds import blank_part
from core.gear.parts import Part

__all__ = ["Offer", "PartChooser"]

_LIST_PX = 190


@dataclass(frozen=True)
class Offer:
    """What can be chosen.

    `parts` holds what the shelf has by kind; `effect` tells what a part would do.
    """

    title: str
    parts: Mapping[str, Sequence[Part]]
    currency: str
    effect: Callable[[Part], Effect]


class PartChooser(QWidget):
    """Asks for one part.

    Parameters
    ----------
    theme : Theme
    """

    taken = Signal(object)
    given_up = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._offer: Offer | None = None
        self._gap = 18
        self.heading = QLabel()
        self.heading.setProperty("heading", True)
        self.kind = Choice()
        self.kind.setAccessibleName("Kind of part")
        self.narrow = Line()
        self.narrow.setPlaceholderText("Type to narrow the list")
        self.narrow.setAccessibleName("Type to narrow the list")
        self.model = Candidates(theme)
        self.table = QTableView()
        self.take = _button("Take it", self._take)
        self.blank = _button("A blank one", self._take_blank)
        self.cancel = _button("Leave it", self.given_up.emit)
        self.blank.setToolTip("A part of which nothing is known yet, to type the figures")
        self.cancel.setToolTip("Escape")
        self._lay_out()
        self.kind.activated.connect(lambda _index: self._fill())
        self.narrow.textChanged.connect(self._narrowed)
        self.narrow.installEventFilter(self)
        self.table.activated.connect(lambda _index: self._take())

    def _lay_out(self) -> None:
        """Put heading, kind, line, list and buttons under each other."""
        table = self.table
        table.setModel(self.model)
        table.setAccessibleName("Parts of the shelf")
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setShowGrid(False)
        table.setProperty("chooser", True)
        table.setTabKeyNavigation(False)
        table.setWordWrap(False)
        table.verticalHeader().hide()
        head = table.horizontalHeader()
        head.setHighlightSections(False)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        head.setStretchLastSection(True)
        asked = QHBoxLayout()
        asked.addWidget(self.kind)
        asked.addWidget(self.narrow, 1)
        buttons = QWidget()
        flow = Flow(buttons)
        for button in (self.take, self.blank, self.cancel):
            flow.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.heading)
        column.addLayout(asked)
        column.addWidget(table)
        column.addWidget(buttons)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self.model.theme, self.model.side = theme, round(11 * scale)
        self.model.ratio = self.devicePixelRatioF()
        self._gap = round(18 * scale)
        self.table.setFixedHeight(round(_LIST_PX * scale))
        self.table.verticalHeader().setDefaultSectionSize(round(24 * scale))

    def ask(self, offer: Offer) -> None:
        """Offer parts, and take the keyboard."""
        self._offer = offer
        self.heading.setText(offer.title)
        self.kind.clear()
        for kind in offer.parts:
            self.kind.addItem(kind_words(kind), kind)
        self.kind.setVisible(len(offer.parts) > 1)
        self.narrow.clear()
        self._fill()
        first = self.kind if len(offer.parts) > 1 else self.narrow
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def choose_kind(self, kind: str) -> None:
        """Show the parts of one kind."""
        self.kind.setCurrentIndex(self.kind.findData(kind))
        self._fill()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Give up with Escape, take with Enter."""
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._take()
        else:
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let up and down in the line walk through the list."""
        if watched is self.narrow and isinstance(event, QKeyEvent):
            down = event.type() == QEvent.Type.KeyPress
            if down and event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
                step = 1 if event.key() == Qt.Key.Key_Down else -1
                row = self.table.currentIndex().row() + step
                if 0 <= row < self.model.rowCount():
                    self.table.selectRow(row)
                return True
        return super().eventFilter(watched, event)

    def _fill(self) -> None:
        """List the parts of the kind that is chosen."""
        if self._offer is None:
            return
        offer = self._offer
        parts = offer.parts.get(self.kind.currentData(), ())
        self.model.offer(parts, offer.currency, offer.effect)
        self._narrowed(self.narrow.text())
        self.table.resizeColumnsToContents()
        for column in range(self.model.columnCount() - 1):
            self.table.setColumnWidth(column, self.table.columnWidth(column) + self._gap)

    def _narrowed(self, words: str) -> None:
        self.model.narrow(words)
        there = self.model.rowCount() > 0
        if there:
            self.table.selectRow(0)
        self.take.setEnabled(there)

    def _take(self) -> None:
        """Hand over the row that is chosen."""
        index: QModelIndex = self.table.currentIndex()
        if index.isValid():
            self.taken.emit(self.model.parts[index.row()])

    def _take_blank(self) -> None:
        """Hand over a part to be filled in."""
        self.taken.emit(blank_part(self.kind.currentData()))


def _button(words: str, call: Callable[[], None]) -> QPushButton:
    button = QPushButton(words)
    button.setAutoDefault(False)
    button.clicked.connect(lambda: call())
    return button
