"""What the pages share: a column that scrolls, rebuilt only while it is seen."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from app.session import Session
from app.shared.theme import Theme
from app.shared.typed_field import set_property

__all__ = ["Page", "button", "heading", "label", "set_level"]

NO_RIG = "No rig is chosen. Click a card below."


class Page(QScrollArea):
    """A page of the bench.

    Parameters
    ----------
    session : Session
    theme : Theme
    scale : float
        The user's text size, 1 for 12 px.
    """

    def __init__(self, session: Session, theme: Theme, scale: float) -> None:
        super().__init__()
        self.session, self.theme, self.scale = session, theme, scale
        self._stale = True
        content = QWidget()
        self.column = QVBoxLayout(content)
        self.setWidget(content)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        session.plan_changed.connect(self.follow)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self.theme, self.scale = theme, scale
        gap = round(8.0 * scale)
        self.column.setContentsMargins(0, gap, gap, gap)
        self.column.setSpacing(gap)
        self.follow()

    def follow(self) -> None:
        """Show the plan as it is now, or remember to do so when the page is seen."""
        self._stale = not self.isVisible()
        if not self._stale:
            self.refresh()

    def refresh(self) -> None:
        """Show the plan as it is now."""
        raise NotImplementedError

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what happened meanwhile."""
        super().showEvent(event)
        if self._stale:
            self._stale = False
            self.refresh()


def label(words: str = "", *, level: str = "", quiet: bool = False) -> QLabel:
    """Make a label that breaks its lines and shows its words as they are."""
    made = QLabel(words)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setWordWrap(True)
    if level:
        made.setProperty("level", level)
    if quiet:
        made.setProperty("quiet", True)
    return made


def set_level(shown: QLabel, level: str) -> None:
    """Give a label the colour of a level; quiet for what is not known or a note."""
    set_property(shown, "level", level)
    set_property(shown, "quiet", level in ("", "note"))


def heading(words: str) -> QLabel:
    """Make the heading of a part of a page."""
    made = label(words)
    made.setProperty("heading", True)
    return made


def button(words: str, hint: str, call: Callable[[], None]) -> QPushButton:
    """Make a button that leaves the default of the window alone."""
    made = QPushButton(words)
    made.setToolTip(hint)
    made.setAutoDefault(False)
    made.clicked.connect(lambda: call())
    return made
