"""The figures of a frame in rows, what else it says, and what can be made of them."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.frame_reading.row import NAMES, FigureRow, RowCalls
from app.frame_reading.taking import add_as_rig, change_rig, now_of, number_typed
from app.session import Session
from app.shared.flow import Flow
from app.shared.theme import Theme
from app.shared.typed_field import capital, set_property
from core.errors import CoreError
from core.gear.from_frame.figures import TAKEN, FrameFigures

__all__ = ["FigureSheet"]

#: Narrower than this, at text size 1, the sources stand below.
_NARROW_PX = 640


class FigureSheet(QWidget):
    """Figures to take or to leave, and two buttons.

    Parameters
    ----------
    session : Session
    figures : FrameFigures
        What the first frame tells.
    theme : Theme
    scale : float
        The user's text size, 1 for 12 px.
    """

    #: The figures went into the plan.
    taken = Signal()

    def __init__(self, session: Session, figures: FrameFigures, theme: Theme, scale: float) -> None:
        super().__init__()
        self._session = session
        self.figures = figures
        calls = RowCalls(self._read_otherwise, self._give)
        self.rows = {field: FigureRow(field, calls) for field in TAKEN}
        self.now_head, self._from_head = QLabel(), QLabel("from")
        self._narrow: bool | None = None
        self.remarks, self.also, self.outcome = QLabel(), QLabel(), QLabel()
        self.add, self.change = QPushButton("Add as a new rig"), QPushButton()
        self._lay_out()
        for row in self.rows.values():
            row.ticked.connect(self._weigh)
        self.add.clicked.connect(lambda: self._take(self._add))
        self.change.clicked.connect(lambda: self._take(self._change))
        self.set_style(theme, scale)
        self.show_figures(figures)
        session.plan_changed.connect(lambda _before, _after: self.follow())

    def _lay_out(self) -> None:
        """Put the rows into a grid, the rest below."""
        self._grid = QGridLayout()
        heads = (QLabel("take"), QLabel("the frame"), self.now_head, self._from_head)
        for place, head in enumerate(heads):
            head.setProperty("heading", True)
            self._grid.addWidget(head, 0, place)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addLayout(self._grid)
        for label in (self.remarks, self.also, self.outcome):
            label.setWordWrap(True)
            self._column.addWidget(label)
        self.remarks.setProperty("level", "caution")
        self.also.setProperty("small", True)
        buttons = QWidget()
        flow = Flow(buttons)
        for button in (self.add, self.change):
            button.setAutoDefault(False)
            flow.addWidget(button)
        self._column.addWidget(buttons)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._grid.setHorizontalSpacing(round(14 * scale))
        self._grid.setVerticalSpacing(round(5 * scale))
        self._column.setSpacing(round(8 * scale))
        self._grid.setColumnMinimumWidth(1, round(150 * scale))
        side = round(12 * scale)
        self._narrow_px = round(_NARROW_PX * scale)
        for row in self.rows.values():
            row.lift_px = round(6 * scale)
        self._place_rows()
        self.setStyleSheet(
            f"QCheckBox::indicator {{ width: {side}px; height: {side}px;"
            f" border: 1px solid {theme.sheet_line}; background: {theme.field}; }}"
            f"QCheckBox::indicator:checked {{ background: {theme.accent}; }}"
            f"QComboBox::drop-down {{ border: none; width: {round(20 * scale)}px; }}"
            f"QCheckBox:focus {{ color: {theme.accent}; }}"
            f"QCheckBox:disabled {{ color: {theme.quiet}; }}"
            f"QCheckBox::indicator:disabled {{ background: {theme.ground};"
            f" border: 1px solid {theme.rule}; }}"
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the sources under the values where there is no room beside them."""
        super().resizeEvent(event)
        if (self.width() < self._narrow_px) != self._narrow:
            self._place_rows()

    def _place_rows(self) -> None:
        """Put the rows where there is room for them."""
        self._narrow = self.width() < self._narrow_px
        for place, row in enumerate(self.rows.values()):
            row.place(self._grid, 1 + 2 * place, narrow=self._narrow)
        self._from_head.setVisible(not self._narrow)
        for column, stretch in ((2, 1), (3, 0)) if self._narrow else ((2, 1), (3, 3)):
            self._grid.setColumnStretch(column, stretch)
        self.follow()

    @property
    def left(self) -> frozenset[str]:
        """The figures not to take."""
        return frozenset(field for field, row in self.rows.items() if not row.taken)

    @property
    def into_rig(self) -> tuple[str, ...]:
        """The figures to put into a rig that is there."""
        return tuple(field for field in TAKEN if field not in self.left and field not in NAMES)

    def begin(self, figures: FrameFigures) -> None:
        """Show another frame, every figure to be taken."""
        for row in self.rows.values():
            row.tick.setChecked(True)
        self.show_figures(figures)

    def show_figures(self, figures: FrameFigures) -> None:
        """Show the figures as they are read now."""
        self.figures = figures
        self.remarks.setText("\n".join(f"{capital(words)}." for words in figures.remarks))
        self.remarks.setVisible(bool(figures.remarks))
        others = [figure for figure in figures.figures if figure.field not in TAKEN]
        told = " · ".join(f"{one.words} {one.value_words} ({one.source})" for one in others)
        self.also.setText(f"The frame also tells: {told}")
        self.also.setVisible(bool(told))
        self.follow()

    def follow(self) -> None:
        """Show what the chosen rig has now."""
        planned = self._session.rig
        rig = None if planned is None else planned.rig
        for field, row in self.rows.items():
            row.show_figures(self.figures, now_of(rig, field))
        self.change.setVisible(planned is not None)
        if planned is not None:
            letter = self._session.letter(planned.id)
            self.now_head.setText(f"rig {letter} has")
            name = planned.rig.name.replace("&", "&&")
            self.change.setText(f"Change {letter}, {name}")
        self.now_head.setVisible(planned is not None)
        self._weigh()

    def _read_otherwise(self, field: str, key: str) -> None:
        """Take another reading of a figure."""
        self.show_figures(self.figures.choose(field, key))

    def _give(self, field: str, text: str) -> None:
        """Take a figure that was typed; refused with one sentence."""
        self.show_figures(self.figures.given(**{field: number_typed(field, text)}))

    def _add(self) -> None:
        """Make a new rig of the figures."""
        add_as_rig(self._session, self.figures, self.left)

    def _change(self) -> None:
        """Put the figures into the chosen rig."""
        change_rig(self._session, self.figures, self.into_rig)

    def _take(self, take: Callable[[], None]) -> None:
        """Take figures into the plan, or say why that cannot be."""
        try:
            take()
        except CoreError as error:
            self._outcome(capital(f"{error}."), "bad")
        else:
            self.taken.emit()

    def _weigh(self) -> None:
        """Say what the figures taken come to; let only what can be done be pressed."""
        self.change.setEnabled(bool(self.into_rig))
        lacking = self.figures.lacking(self.left)
        self.add.setEnabled(not lacking)
        if lacking:
            words = " and ".join(f"the {words}" for words in lacking)
            self._outcome(f"A new rig needs {words} too: tick or type it.", "caution")
            return
        try:
            rig = self.figures.to_rig(leaving=self.left)
        except CoreError as error:
            self.add.setEnabled(False)
            self._outcome(capital(f"{error}."), "bad")
            return
        optics = f"{rig.aperture_mm:.4g}/{rig.focal_length_mm:.5g} f/{rig.focal_ratio:.3g}"
        field = f"{rig.width_deg:.4g}° × {rig.height_deg:.4g}°"
        self._outcome(f"{optics} · {rig.scale_arcsec_px:.3g}″/px · {field}", "")

    def _outcome(self, words: str, level: str) -> None:
        self.outcome.setText(words)
        set_property(self.outcome, "level", level)
