"""One figure of a frame: whether to take it, its value, what the rig has, where it is from."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.shared.typed_field import TypedField, capital, set_property
from core.gear.from_frame.figure import FIELDS, NEEDED
from core.gear.from_frame.figures import FrameFigures

__all__ = ["NAMES", "FigureRow", "RowCalls"]

#: Names go into a new rig only: a rig that is there keeps what its parts are called.
NAMES = ("telescope", "camera")


@dataclass(frozen=True)
class RowCalls:
    """What a row does to the figures: take another reading, take what was typed."""

    choose: Callable[[str, str], None]
    give: Callable[[str, str], None]


class _Readings(QComboBox):
    """The readings of a figure; the wheel scrolls the page instead."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(20)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Show that there is more to choose from."""
        super().paintEvent(event)
        painter, side = QPainter(self), self.height() / 5.0
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.palette().text())
        tip = QPointF(self.width() - 2.5 * side, 0.5 * self.height() + 0.4 * side)
        painter.drawPolygon([tip, tip + QPointF(-side, -side), tip + QPointF(side, -side)])

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the choice as it is."""
        event.ignore()


class FigureRow(QWidget):
    """The widgets of a figure, which stand in a grid of others.

    Parameters
    ----------
    field : str
        A name in `FIELDS`.
    calls : RowCalls
    """

    ticked = Signal()

    def __init__(self, field: str, calls: RowCalls) -> None:
        super().__init__()
        self.field = field
        words = capital(FIELDS[field][0])
        self.tick = QCheckBox(words)
        self.tick.setAccessibleName(f"Take the {FIELDS[field][0]}")
        self.tick.setChecked(True)
        self.tick.toggled.connect(self.ticked)
        self.value, self.now, self.source = QLabel(), QLabel(), QLabel()
        self.typed = TypedField(words, lambda text: calls.give(field, text))
        self.typed.setPlaceholderText(f"not told, {FIELDS[field][1]}")
        self.readings = _Readings()
        self.readings.setAccessibleName(f"Readings of the {FIELDS[field][0]}")
        self.readings.activated.connect(
            lambda place: calls.choose(field, str(self.readings.itemData(place)))
        )
        self.source.setWordWrap(True)
        self.now.setProperty("quiet", True)
        self.now.setWordWrap(True)
        values = (self.value, self.readings, self.typed)
        told = (self.source, self.typed.complaint)
        self._cells = tuple(map(_column, ((self.tick,), values, (self.now,), told)))
        #: By how much words stand lower beside a field than beside words.
        self.lift_px = 0
        self._narrow = False

    def place(self, grid: QGridLayout, row: int, *, narrow: bool) -> None:
        """Put the widgets into two rows of a grid; the source stands below where it is narrow."""
        top = Qt.AlignmentFlag.AlignTop
        for column, cell in enumerate(self._cells[:3]):
            grid.addWidget(cell, row, column, top)
        if narrow:
            grid.addWidget(self._cells[3], row + 1, 1, 1, 2, top)
        else:
            grid.addWidget(self._cells[3], row, 3, top)
        self._narrow = narrow

    @property
    def taken(self) -> bool:
        """Whether the figure is there and is to be taken."""
        return self.tick.isEnabled() and self.tick.isChecked()

    def show_figures(self, figures: FrameFigures, now: str) -> None:
        """Show the figure as it is read now, and what the rig has."""
        figure = figures.figure(self.field)
        choice = next((one for one in figures.choices if one.field == self.field), None)
        to_type = self.field in NEEDED and (figure is None or figure.source == "given")
        shown = figure is not None or to_type
        for place, cell in enumerate(self._cells):
            cell.setVisible(shown)
            beside = place in (0, 2) or (place == 3 and not self._narrow)
            tall = beside and (to_type or choice is not None)
            if (layout := cell.layout()) is not None:
                layout.setContentsMargins(0, self.lift_px if tall else 0, 0, 0)
        self.tick.setEnabled(figure is not None)
        self.typed.setVisible(to_type)
        self.readings.setVisible(choice is not None)
        self.value.setVisible(choice is None and not to_type)
        self.now.setText(now)
        value = figure.value_words if figure is not None else ""
        self.value.setText(value)
        self.typed.show_value(value.partition(" ")[0] if to_type else "")
        if choice is not None:
            self.readings.clear()
            for option in choice.options:
                self.readings.addItem(option.words, option.key)
            self.readings.setCurrentIndex(self.readings.findData(choice.taken))
            self.readings.setToolTip(self.readings.currentText())
        told = [figure.source, figure.remark] if figure is not None else ["the frame is silent"]
        told += ["for a new rig"] if self.field in NAMES and now else []
        unsure = figure is not None and not figure.sure
        self.source.setText(("? " if unsure else "") + "; ".join(words for words in told if words))
        set_property(self.source, "level", "caution" if unsure else "")
        set_property(self.source, "quiet", not unsure)


def _column(widgets: Sequence[QWidget]) -> QWidget:
    """Put widgets under each other."""
    cell = QWidget()
    column = QVBoxLayout(cell)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(2)
    for widget in widgets:
        column.addWidget(widget)
    cell.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return cell
