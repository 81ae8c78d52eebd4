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
        self._labels: list[QLabel] = []

    @property
    def texts(self) -> tuple[str, ...]:
        """The words that are shown."""
        return tuple(words.text() for words in self._labels[1::2])

    def show_lines(self, lines: list[Verdict], theme: Theme, scale: float) -> None:
        """Show other lines; the short words of each."""
        for shown in self._labels:
            shown.hide()
            shown.deleteLater()
        self._labels = []
        self._grid.setHorizontalSpacing(round(6.0 * scale))
        self._grid.setVerticalSpacing(round(4.0 * scale))
        side = max(8, round(10.0 * scale))
        for row, line in enumerate(lines):
            mark, words = QLabel(self), label(line.short)
            if line.level:
                ink = level_colour(theme, line.level)
                mark.setPixmap(mark_pixmap(side, line.level, ink, self.devicePixelRatioF()))
                mark.setContentsMargins(0, round(3.0 * scale), 0, 0)
                words.setToolTip(explained(line.short))
            self._grid.addWidget(mark, row, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(words, row, 1)
            for shown in (mark, words):
                shown.show()
            self._labels += [mark, words]
