"""Lines of words, each behind the mark of its level."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from app.rig_money.page import label
from app.shared.theme import Theme
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.fit_words import Verdict
from app.words.glossary import explained

__all__ = ["MarkedLines"]


class MarkedLines(QWidget):
    """Lines under each other; a line without a level has no mark."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(1, 1)
        self._rows: list[tuple[QLabel, QLabel]] = []

    @property
    def texts(self) -> tuple[str, ...]:
        """The words that are shown."""
        return tuple(words.text() for _, words in self._rows if not words.isHidden())

    def show_lines(self, lines: list[Verdict], theme: Theme, scale: float) -> None:
        """Show other lines; the short words of each."""
        self._grid.setHorizontalSpacing(round(6.0 * scale))
        self._grid.setVerticalSpacing(round(4.0 * scale))
        while len(self._rows) < len(lines):
            self._add_row()
        for place, (mark, words) in enumerate(self._rows):
            for shown in (mark, words):
                shown.setVisible(place < len(lines))
            if place < len(lines):
                self._fill(mark, words, lines[place], (theme, scale))

    def _fill(self, mark: QLabel, words: QLabel, line: Verdict, style: tuple[Theme, float]) -> None:
        """Write a line, with its mark and its terms explained where it has a level."""
        theme, scale = style
        words.setText(line.short)
        words.setToolTip(explained(line.short) if line.level else "")
        mark.clear()
        if line.level:
            side, ink = max(8, round(10.0 * scale)), level_colour(theme, line.level)
            mark.setPixmap(mark_pixmap(side, line.level, ink, self.devicePixelRatioF()))
            mark.setContentsMargins(0, round(3.0 * scale), 0, 0)

    def _add_row(self) -> None:
        """Have one more row; rows are kept, as making them takes longer than filling them."""
        mark, words = QLabel(self), label()
        row = len(self._rows)
        self._grid.addWidget(mark, row, 0, Qt.AlignmentFlag.AlignTop)
        self._grid.addWidget(words, row, 1)
        self._rows.append((mark, words))
