"""The side panel: the target's facts, every frame on it, the chosen rig in numbers and findings.

While a hand drags a frame the figures follow, thinned out so that the drag stays quick.
"""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.session import Session
from app.shared.theme import Theme
from app.shared.throttle import Throttle
from app.side_panel.findings import FindingsList
from app.side_panel.frames import FramesTable
from app.side_panel.rig import FrameNumbers
from app.side_panel.target import TargetFacts
from core.plan.document import Framing

__all__ = ["SidePanel"]

_WIDTH_PX = 312.0
_LEAST_WIDTH_PX = 180.0
_LIVE_MS = 30


class SidePanel(QScrollArea):
    """Facts and figures beside the sheet.

    Parameters
    ----------
    session : Session
    theme : Theme
    text_scale : float
        The user's text size, 1 for 12 px.
    """

    def __init__(self, session: Session, theme: Theme, text_scale: float = 1.0) -> None:
        super().__init__()
        self._session = session
        self.target = TargetFacts(session)
        self.table = FramesTable(session, theme, text_scale)
        self.numbers = FrameNumbers(session)
        self.findings = FindingsList(session, theme, text_scale)
        self.table_heading = QLabel("Frames on this target")
        self.table_heading.setProperty("heading", True)
        self._moving: str | None = None
        self.live = Throttle(self._follow, _LIVE_MS, self)
        self._build()
        session.plan_changed.connect(self.refresh)
        session.framing_previewed.connect(self._frame_moved)
        self.set_style(theme, text_scale)

    def _build(self) -> None:
        """Stack the parts."""
        content = QWidget()
        self._column = QVBoxLayout(content)
        parts = (self.target, self.table_heading, self.table, self.numbers, self.findings)
        for widget in parts:
            self._column.addWidget(widget)
        self._column.addStretch(1)
        self.setWidget(content)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Target and frames")

    def set_style(self, theme: Theme, text_scale: float) -> None:
        """Change colours or text size."""
        self._scale = text_scale
        side, gap = round(16.0 * text_scale), round(10.0 * text_scale)
        self._column.setContentsMargins(side, gap, side, gap)
        self._column.setSpacing(gap)
        self.table.set_style(theme, text_scale)
        self.findings.set_style(theme, text_scale)
        self.updateGeometry()
        self.refresh()

    def sizeHint(self) -> QSize:
        """Be as wide as the words want."""
        return QSize(round(_WIDTH_PX * self._scale), 400)

    def minimumSizeHint(self) -> QSize:
        """Shrink when the window is small; then the panel scrolls."""
        return QSize(round(_LEAST_WIDTH_PX), 100)

    def showEvent(self, event: QShowEvent) -> None:
        """Lay the table out once its type is known."""
        super().showEvent(event)
        self.table.fit()

    def refresh(self) -> None:
        """Show the plan as it is now."""
        self.live.drop()
        self.target.refresh()
        self.table.frames.refresh()
        there = bool(self.table.frames.rows)
        self.table.setVisible(there)
        self.table_heading.setVisible(there)
        self.numbers.refresh()
        self.findings.refresh()

    def _frame_moved(self, framing: Framing | None) -> None:
        """Follow a frame that a hand holds."""
        self._moving = framing.rig if framing is not None else None
        self.live.ask()

    def _follow(self) -> None:
        """Show the moving frame as it is now, or everything when the hand let go."""
        if self._moving is None:
            self.refresh()
        else:
            self.table.frames.refresh_one(self._moving)
            self.numbers.refresh()
