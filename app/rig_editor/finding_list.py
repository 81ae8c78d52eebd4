"""Findings in sentences, the worst first, each with its source; a click goes to its part."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.shared.theme import Theme
from app.words.finding_mark import level_colour, paint_mark
from app.words.finding_words import level_of, level_words
from core.gear.checks import Finding

__all__ = ["FindingList", "FindingRow"]

_MARK_PX = 12.0


class FindingRow(QWidget):
    """One finding: its mark, its sentence, its source in small type."""

    pressed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.finding: Finding | None = None
        self.message, self.source = QLabel(), QLabel()
        self._theme: Theme | None = None
        self._scale = 1.0
        self.source.setProperty("small", True)
        self._column = QVBoxLayout(self)
        for label in (self.message, self.source):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._column.addWidget(label)

    def tell(self, finding: Finding, theme: Theme, scale: float) -> None:
        """Show a finding."""
        if (finding, theme, scale) == (self.finding, self._theme, self._scale):
            return
        self.finding, self._theme, self._scale = finding, theme, scale
        pad, mark = round(6 * scale), round((_MARK_PX + 18) * scale)
        self._column.setContentsMargins(mark, pad, pad, pad)
        self._column.setSpacing(round(2 * scale))
        self.message.setText(finding.message)
        self.source.setText(f"{finding.rule.replace('-', ' ')}: {finding.source}")
        self.setAccessibleName(f"{level_words(finding)}: {finding.message}")
        goes = bool(finding.part)
        self.setToolTip(f"Go to {finding.part}" if goes else "")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if goes else Qt.FocusPolicy.NoFocus)
        shape = Qt.CursorShape.PointingHandCursor if goes else Qt.CursorShape.ArrowCursor
        self.setCursor(shape)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the ground, a bar in the colour of the level, and its mark."""
        if self.finding is None or self._theme is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        level, scale = level_of(self.finding), self._scale
        colour = level_colour(self._theme, level)
        painter.fillRect(self.rect(), QColor(self._theme.raised))
        painter.fillRect(QRectF(0.0, 0.0, 3.0 * scale, self.height()), QColor(colour))
        side = _MARK_PX * scale
        box = QRectF(10.0 * scale, self.message.geometry().top() + 1.0 * scale, side, side)
        paint_mark(painter, box, level, colour)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self._theme.accent), 1.0))
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Go to the part."""
        if (
            self.finding is not None
            and self.finding.part
            and self.rect().contains(event.position().toPoint())
        ):
            self.pressed.emit(self.finding.part)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go to the part with Enter or the space bar."""
        keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
        if event.key() in keys and self.finding is not None and self.finding.part:
            self.pressed.emit(self.finding.part)
        else:
            super().keyPressEvent(event)


class FindingList(QWidget):
    """Findings under a heading; the heading goes with the last of them."""

    pressed = Signal(str)

    def __init__(self, words: str) -> None:
        super().__init__()
        self.heading = QLabel(words)
        self.heading.setProperty("heading", True)
        self.rows: list[FindingRow] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self.heading)

    @property
    def shown(self) -> tuple[Finding, ...]:
        """The findings that are seen."""
        rows = (row for row in self.rows if not row.isHidden())
        return tuple(row.finding for row in rows if row.finding is not None)

    def show_findings(self, found: Sequence[Finding], theme: Theme, scale: float) -> None:
        """Show findings in the order given; rows are kept and used again."""
        self._column.setSpacing(round(4 * scale))
        while len(self.rows) < len(found):
            row = FindingRow()
            row.pressed.connect(self.pressed)
            self.rows.append(row)
            self._column.addWidget(row)
        for row, finding in zip(self.rows, found, strict=False):
            row.tell(finding, theme, scale)
        for number, row in enumerate(self.rows):
            row.setVisible(number < len(found))
        self.setVisible(bool(found))
