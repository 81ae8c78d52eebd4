"""The panel's findings about the chosen rig: the worst first, what is fine folded away."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QToolButton, QVBoxLayout, QWidget

from app.session import Session
from app.shared.theme import Theme
from app.shared.typed_field import capital, set_property
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.finding_words import findings_of, good_ones, level_of, level_words
from app.words.glossary import explained
from core.gear.checks import Finding

__all__ = ["FindingRow", "FindingsList"]

_MARK_PX = 10.0


class FindingRow(QWidget):
    """A mark, the sentence, and where its rule comes from in small type."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.mark, self.sentence, self.source = QLabel(), QLabel(), QLabel()
        self.source.setProperty("quiet", True)
        self.source.setProperty("small", True)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(1)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self.mark, 0, 0, Qt.AlignmentFlag.AlignTop)
        for row, label in enumerate((self.sentence, self.source)):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            grid.addWidget(label, row, 1)
        self._shown: tuple[Finding, Theme, float, float] | None = None

    def show_finding(self, finding: Finding, theme: Theme, scale: float) -> None:
        """Show a finding in a theme at a text size."""
        wanted = (finding, theme, scale, self.devicePixelRatioF())
        if wanted == self._shown:
            return
        self._shown = wanted
        level, side = level_of(finding), max(8, round(_MARK_PX * scale))
        ink = level_colour(theme, level)
        self.mark.setPixmap(mark_pixmap(side, level, ink, self.devicePixelRatioF()))
        self.mark.setContentsMargins(0, round(3.0 * scale), 0, 0)
        self.mark.setAccessibleName(level_words(finding))
        self.sentence.setText(capital(finding.message))
        set_property(self.sentence, "quiet", finding.severity == "good")
        self.source.setText(capital(finding.source))
        self.setToolTip(explained(finding.message))
        self.setAccessibleName(f"{level_words(finding)}: {finding.message}")
        self.setAccessibleDescription(f"Source: {finding.source}")


class FindingsList(QWidget):
    """Every finding about the chosen rig.

    Parameters
    ----------
    session : Session
    theme : Theme
    text_scale : float
        The user's text size, 1 for 12 px.
    """

    def __init__(self, session: Session, theme: Theme, text_scale: float) -> None:
        super().__init__()
        self._session = session
        self._theme, self._scale = theme, text_scale
        self._rows: list[FindingRow] = []
        self.heading = QLabel("Findings")
        self.heading.setProperty("heading", True)
        self.fold = QToolButton()
        self.fold.setProperty("flat", True)
        self.fold.setCheckable(True)
        self.fold.toggled.connect(lambda _open: self.refresh())
        self._open_rows = QVBoxLayout()
        self._good_rows = QVBoxLayout()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.heading)
        column.addLayout(self._open_rows)
        column.addWidget(self.fold, 0, Qt.AlignmentFlag.AlignLeft)
        column.addLayout(self._good_rows)
        self._column = column
        self.refresh()

    @property
    def rows(self) -> tuple[FindingRow, ...]:
        """The rows that are seen, from the top."""
        return tuple(self._rows)

    def set_style(self, theme: Theme, text_scale: float) -> None:
        """Change colours or text size."""
        self._theme, self._scale = theme, text_scale
        for layout in (self._column, self._open_rows, self._good_rows):
            layout.setSpacing(round(7.0 * text_scale))
        self.refresh()

    def refresh(self) -> None:
        """Show the findings about the rig that is chosen now."""
        planned = self._session.rig
        self.setVisible(planned is not None)
        if planned is None:
            return
        found = findings_of(planned.rig, self._session.plan.nights)
        good = good_ones(found)
        rest = tuple(finding for finding in found if finding not in good)
        self._show_fold(len(good), alone=not rest)
        shown = (*rest, *good) if self.fold.isChecked() else rest
        self._keep_rows(len(shown))
        for place, (row, finding) in enumerate(zip(self._rows, shown, strict=True)):
            row.show_finding(finding, self._theme, self._scale)
            (self._open_rows if place < len(rest) else self._good_rows).addWidget(row)

    def _show_fold(self, good: int, *, alone: bool) -> None:
        """Say how many are fine, and how to see them."""
        self.fold.setVisible(good > 0)
        arrow = "▾" if self.fold.isChecked() else "▸"
        if alone:
            words = f"{'All' if good > 1 else 'The'} {good} checks are fine"
        else:
            words = f"and {good} that {'are' if good > 1 else 'is'} fine"
        self.fold.setText(f"{words} {arrow}")
        hint = "Fold them away" if self.fold.isChecked() else "Show them"
        self.fold.setToolTip(hint)

    def _keep_rows(self, count: int) -> None:
        """Have as many rows as there is to show."""
        while len(self._rows) > count:
            row = self._rows.pop()
            row.hide()
            row.deleteLater()
        while len(self._rows) < count:
            row = FindingRow(self)
            row.show()
            self._rows.append(row)
