"""The panel's table: how every rig's frame sits on the current target, a row each.

A row under the pointer lights its frame on the sheet; a click or Enter chooses it.
"""

from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QEvent, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor, QFont, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView

from app.session import Session
from app.shared.frame_ink import frame_ink
from app.shared.theme import Theme, scaled_font
from app.words import rig_actions
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.fit_words import Verdict, fill_words, fit_of, inside_words, verdict_of
from app.words.rig_words import field_words, scale_words, spoken

__all__ = ["FramesModel", "FramesTable"]

_HEADINGS = ("", "fills", "inside", "″/px", "field")
_HINTS = (
    "Letter of the rig",
    "How much of the frame the target takes, along the side that is tighter",
    "How much of the target lies in the frame",
    "Image scale, arcseconds per pixel",
    "Width and height of the frame",
)
_MOST_ROWS = 14
_Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()


@dataclass(frozen=True)
class FrameRow:
    """What one row shows."""

    rig_id: str
    name: str
    cells: tuple[str, ...]
    verdict: Verdict | None
    colour: int
    shown: bool
    chosen: bool


class FramesModel(QAbstractTableModel):
    """The rows, from the session.

    Parameters
    ----------
    session : Session
    theme : Theme
    text_scale : float
    """

    def __init__(self, session: Session, theme: Theme, text_scale: float) -> None:
        super().__init__()
        self._session = session
        self.rows: list[FrameRow] = []
        self.lit = ""
        self.set_style(theme, text_scale, 1.0)

    def set_style(self, theme: Theme, text_scale: float, ratio: float) -> None:
        """Change colours or text size; `ratio` is device pixels in a logical one."""
        self._theme, self._scale, self._ratio = theme, text_scale, ratio
        self.refresh(anew=True)

    def refresh(self, *, anew: bool = False) -> None:
        """Bring the rows in step; a table of the same rigs keeps its place."""
        plan = self._session.plan
        rows = [self._row(planned.id) for planned in plan.rigs] if self._session.target else []
        if anew or [r.rig_id for r in rows] != [r.rig_id for r in self.rows]:
            self.beginResetModel()
            self.rows = rows
            self.endResetModel()
            return
        before, self.rows = self.rows, rows
        for place, (old, new) in enumerate(zip(before, rows, strict=True)):
            if old != new:
                self._changed(place)

    def refresh_one(self, rig_id: str) -> None:
        """Bring the row of a moving frame in step."""
        for place, row in enumerate(self.rows):
            if row.rig_id == rig_id:
                self.rows[place] = self._row(rig_id)
                self._changed(place)

    def light(self, rig_id: str) -> None:
        """Light the row of a rig that is pointed at."""
        before, self.lit = self.lit, rig_id
        for place, row in enumerate(self.rows):
            if row.rig_id in (before, rig_id):
                self._changed(place)

    def _changed(self, place: int) -> None:
        last = len(_HEADINGS) - 1
        self.dataChanged.emit(self.index(place, 0), self.index(place, last))

    def _row(self, rig_id: str) -> FrameRow:
        """Measure one rig."""
        planned, fit = self._session.planned_rig(rig_id), fit_of(self._session, rig_id)
        rig = planned.rig
        letter = self._session.letter(rig_id)
        scale = scale_words(rig).removesuffix("/px")
        return FrameRow(
            rig_id=rig_id,
            name=f"{letter} · {rig.name}" + ("" if planned.shown else " (hidden)"),
            cells=(letter, fill_words(fit), inside_words(fit), scale, field_words(rig)),
            verdict=verdict_of(fit),
            colour=planned.colour,
            shown=planned.shown,
            chosen=rig_id == self._session.plan.current_rig,
        )

    # Qt's questions ------------------------------------------------------------

    def rowCount(self, parent: _Index = _ROOT) -> int:
        """One row a rig."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: _Index = _ROOT) -> int:
        """Letter and four figures."""
        return 0 if parent.isValid() else len(_HEADINGS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = 0) -> Any:
        """Head the columns."""
        if orientation == Qt.Orientation.Horizontal:
            if role == Qt.ItemDataRole.DisplayRole:
                return _HEADINGS[section]
            if role == Qt.ItemDataRole.ToolTipRole:
                return _HINTS[section]
            if role == Qt.ItemDataRole.TextAlignmentRole:
                return _alignment(section)
        return None

    def data(self, index: _Index, role: int = 0) -> Any:
        """Answer for one cell."""
        row, column = self.rows[index.row()], index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return row.cells[column]
        if role == Qt.ItemDataRole.DecorationRole:
            return self._mark(row) if column == 2 and row.verdict is not None else None
        if role == Qt.ItemDataRole.ForegroundRole:
            return QColor(self._ink(row, column))
        if role == Qt.ItemDataRole.BackgroundRole:
            return QColor(self._theme.field) if row.chosen or row.rig_id == self.lit else None
        if role == Qt.ItemDataRole.FontRole:
            return self._font(row, column)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _alignment(column)
        return self._words(row, column, role)

    def _words(self, row: FrameRow, column: int, role: int) -> Any:
        """Answer what is read out or shown on resting."""
        verdict = row.verdict.full if row.verdict is not None else ""
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{row.name}: {verdict}"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            words = spoken(row.cells[column])
            head = spoken(_HEADINGS[column]).strip()
            return f"{row.name}; {spoken(verdict)}" if column == 0 else f"{head}: {words}"
        return None

    def _mark(self, row: FrameRow) -> Any:
        """Draw the shape that goes with the verdict."""
        level = row.verdict.level if row.verdict is not None else ""
        side = max(8, round(9.0 * self._scale))
        return mark_pixmap(side, level, level_colour(self._theme, level), self._ratio)

    def _ink(self, row: FrameRow, column: int) -> str:
        """Choose a cell's colour."""
        if column == 0:
            return frame_ink(self._theme, row.colour)
        if column == 2 and row.verdict is not None:
            return level_colour(self._theme, row.verdict.level)
        return self._theme.text if row.shown else self._theme.quiet

    def _font(self, row: FrameRow, column: int) -> QFont:
        """Make the letter and the chosen row bold, a hidden one slanted."""
        font = scaled_font(self._scale, bold=row.chosen or column == 0)
        font.setItalic(not row.shown)
        return font


class FramesTable(QTableView):
    """The rows as a table as high as they are, up to a screenful.

    Parameters
    ----------
    session : Session
    theme : Theme
    text_scale : float
    """

    def __init__(self, session: Session, theme: Theme, text_scale: float) -> None:
        super().__init__()
        self._session = session
        self.frames = FramesModel(session, theme, text_scale)
        self.setModel(self.frames)
        self.setAccessibleName("Frames on this target")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setTabKeyNavigation(False)
        self.setMouseTracking(True)
        self.setWordWrap(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setSectionsClickable(False)
        self.horizontalHeader().setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.entered.connect(self._point_at)
        self.clicked.connect(self._choose)
        session.rig_hovered.connect(self.frames.light)
        self.frames.modelReset.connect(self.fit)
        self.set_style(theme, text_scale)

    def set_style(self, theme: Theme, text_scale: float) -> None:
        """Change colours or text size."""
        self._scale = text_scale
        self.frames.set_style(theme, text_scale, self.devicePixelRatioF())

    def fit(self) -> None:
        """Take the height of the rows and the width of the words."""
        header, rows = self.horizontalHeader(), self.verticalHeader()
        header.setMinimumSectionSize(round(16.0 * self._scale))
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        height = round(23.0 * self._scale)
        rows.setMinimumSectionSize(height)
        rows.setDefaultSectionSize(height)
        count = len(self.frames.rows)
        self.setFixedHeight(header.sizeHint().height() + min(count, _MOST_ROWS) * height + 4)
        self._share_width()

    def _share_width(self) -> None:
        """Give each column what its words need, and what is left over in equal parts."""
        header = self.horizontalHeader()
        columns = range(len(_HEADINGS))
        widths = [max(self.sizeHintForColumn(c), header.sectionSizeHint(c)) for c in columns]
        self.setMinimumWidth(sum(widths))
        spare = max(0, self.viewport().width() - sum(widths)) // (len(widths) - 1)
        for column, width in enumerate(widths):
            self.setColumnWidth(column, width + (spare if column else 0))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width out anew."""
        super().resizeEvent(event)
        self._share_width()

    def _point_at(self, index: QModelIndex) -> None:
        self._session.rig_hovered.emit(self.frames.rows[index.row()].rig_id)

    def _choose(self, index: QModelIndex) -> None:
        rig_actions.choose(self._session, self.frames.rows[index.row()].rig_id)

    def currentChanged(self, current: _Index, previous: _Index) -> None:
        """Light the row the keyboard is on."""
        super().currentChanged(current, previous)
        if current.isValid() and self.hasFocus():
            self._session.rig_hovered.emit(self.frames.rows[current.row()].rig_id)

    def leaveEvent(self, event: QEvent) -> None:
        """Give the light up."""
        self._session.rig_hovered.emit("")
        super().leaveEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Choose with Enter, show or hide with the space bar."""
        index = self.currentIndex()
        keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
        if not index.isValid() or event.key() not in keys:
            super().keyPressEvent(event)
        elif event.key() == Qt.Key.Key_Space:
            rig_actions.show_or_hide(self._session, self.frames.rows[index.row()].rig_id)
        else:
            self._choose(index)


def _alignment(column: int) -> Qt.AlignmentFlag:
    """Align the scale and the field right, under each other's units."""
    side = Qt.AlignmentFlag.AlignLeft if column <= 2 else Qt.AlignmentFlag.AlignRight
    return side | Qt.AlignmentFlag.AlignVCenter
