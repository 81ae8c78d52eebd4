"""The head of the bench: whose rig it is, what its checks say worst, what can be done."""

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.rig_editor import editing
from app.session import Session
from app.shared.flow import Flow
from app.shared.frame_ink import frame_ink
from app.shared.theme import Theme
from app.shared.typed_field import TypedField
from app.words import rig_actions
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.finding_words import level_of
from core.gear.checks.finding import Finding
from core.plan.document import PlannedRig

__all__ = ["BenchHeader"]

_NAME_PX = 180


class BenchHeader(QWidget):
    """Letter, name, verdict, and what can be done to the whole rig.

    Parameters
    ----------
    session : Session
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self.flag = QLabel()
        self.name = TypedField("Name of the rig", lambda text: editing.rename_rig(session, text))
        self.name.setAlignment(Qt.AlignmentFlag.AlignLeft)
        self.name.setToolTip("What the rig is called")
        self.mark = QLabel()
        self._marked: object = None
        self.verdict = _OneLine()
        self.duplicate = self._button("Duplicate", self._duplicate)
        self.duplicate.setToolTip("A second rig of the same parts, to change and compare")
        self.back = self._button("Back to the sky", session.close_bench)
        self.back.setToolTip("Escape or Ctrl+E")
        self._lay_out()

    def _lay_out(self) -> None:
        """Put the name first, then the buttons, the verdict under them."""
        self._named = QWidget()
        named = QHBoxLayout(self._named)
        named.setContentsMargins(0, 0, 0, 0)
        named.addWidget(self.flag)
        named.addWidget(self.name, 1)
        self._row = QWidget()
        self._flow = Flow(self._row)
        self._pages: list[QWidget] = []
        self._actions: list[QWidget] = [self.duplicate]
        self._order()
        said = QHBoxLayout()
        said.setSpacing(6)
        said.addWidget(self.mark)
        said.addWidget(self.verdict, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for widget in (self._row, self.name.complaint):
            column.addWidget(widget)
        column.addLayout(said)

    def add_page(self, button: QWidget) -> None:
        """Put the button of a page behind the name and those before it."""
        self._pages.append(button)
        self._order()

    def add_action(self, words: str, call: Callable[[], None]) -> QPushButton:
        """Offer something else, before the way back."""
        button = self._button(words, call)
        self._actions.append(button)
        self._order()
        return button

    def _order(self) -> None:
        """Line everything up: name, pages, what can be done, the way back."""
        while self._flow.count():
            self._flow.takeAt(0)
        row = [self._named, *self._pages, *self._actions, self.back]
        for widget in row:
            self._flow.addWidget(widget)
        for before, after in pairwise([self.name, *row[1:]]):
            self.setTabOrder(before, after)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._theme, self._scale = theme, scale
        self._named.setMinimumWidth(round(_NAME_PX * scale))
        self._flow.setSpacing(round(8 * scale))

    def show_rig(self, planned: PlannedRig | None, worst: Finding | None) -> None:
        """Show the chosen rig and the worst that its checks found."""
        for widget in (self._named, self.duplicate, self.mark, self.verdict):
            widget.setVisible(planned is not None)
        if planned is None:
            return
        ink = frame_ink(self._theme, planned.colour)
        self.flag.setText(self._session.letter(planned.id))
        self.flag.setStyleSheet(f"color: {ink}; font-weight: bold;")
        self.flag.setAccessibleName(f"Rig {self.flag.text()}")
        self.name.show_value(planned.rig.name)
        self._show_worst(worst)

    def _show_worst(self, worst: Finding | None) -> None:
        """Say the worst finding in one line, the whole of it in the tooltip."""
        level = level_of(worst) if worst is not None else "good"
        side = round(12 * self._scale)
        colour = level_colour(self._theme, level)
        look = (side, level, colour, self.devicePixelRatioF())
        if look != self._marked:
            self._marked = look
            self.mark.setPixmap(mark_pixmap(*look))
        self.verdict.tell(worst.message if worst is not None else "Nothing to find fault with.")

    def _duplicate(self) -> None:
        planned = self._session.rig
        if planned is not None:
            rig_actions.duplicate(self._session, planned.id)

    def _button(self, words: str, call: Callable[[], None]) -> QPushButton:
        button = QPushButton(words)
        button.setAutoDefault(False)
        button.clicked.connect(lambda: call())
        return button


class _OneLine(QLabel):
    """A sentence, its end left out where there is no room for it."""

    words = ""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def tell(self, words: str) -> None:
        """Show other words."""
        self.words = words
        self.setToolTip(words)
        self.setAccessibleName(f"Worst finding: {words}")
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show as many words as there is room for."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        metrics = QFontMetrics(self.font())
        self.setText(metrics.elidedText(self.words, Qt.TextElideMode.ElideRight, self.width()))
