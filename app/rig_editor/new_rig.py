"""Makes a rig: a whole one from the shelf, or a telescope and a camera to begin with."""

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QLabel, QPushButton, QScrollArea, QVBoxLayout
from PySide6.QtWidgets import QWidget as Widget

from app.rig_editor.editing import parts_on_offer
from app.rig_editor.pick_list import PickList
from app.session import Session
from app.shared.flow import Flow
from app.shared.line import Line
from app.shared.typed_field import capital
from core.errors import CoreError
from core.gear.kinds import blank_part
from core.gear.parts import Camera, Telescope
from core.gear.rig import Rig
from core.plan import edits

__all__ = ["NewRig"]

_WIDE_PX = 620
_HELP = (
    "A telescope and a camera make a rig; corrector, mount and the rest are added on the bench. "
    "Every figure can be changed there."
)


class NewRig(QScrollArea):
    """Asks what the new rig begins with.

    Parameters
    ----------
    session : Session
    """

    made = Signal()
    given_up = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._scale = 1.0
        self.name = Line()
        self.telescopes, self.cameras = PickList("Telescope or lens"), PickList("Camera")
        self.rigs = PickList("Or a whole rig of the shelf")
        self.complaint = QLabel()
        self.complaint.setProperty("level", "bad")
        self.make = _button("Make the rig", self._make)
        self.take = _button("Take the rig of the shelf", self._take)
        self.leave = _button("Leave it", self.given_up.emit)
        self.leave.setToolTip("Escape")
        self._lay_out()
        self.telescopes.picked.connect(self._make)
        self.cameras.picked.connect(self._make)
        self.rigs.picked.connect(self._take)

    def _lay_out(self) -> None:
        """Put the name above, the lists side by side, the buttons below."""
        heading, words = QLabel("A new rig"), QLabel(_HELP)
        heading.setProperty("heading", True)
        words.setWordWrap(True)
        self.name.setAccessibleName("Name of the new rig")
        self.name.setPlaceholderText("Name of the new rig")
        self.complaint.setWordWrap(True)
        self.complaint.hide()
        lists, buttons, content = Widget(), Widget(), Widget()
        self._lists = QBoxLayout(QBoxLayout.Direction.LeftToRight, lists)
        self._lists.setContentsMargins(0, 0, 0, 0)
        for one in (self.telescopes, self.cameras, self.rigs):
            self._lists.addWidget(one, 1)
        flow = Flow(buttons)
        for button in (self.make, self.take, self.leave):
            flow.addWidget(button)
        self._column = QVBoxLayout(content)
        for widget in (heading, words, self.name, self.complaint, lists, buttons):
            self._column.addWidget(widget)
        self._column.addStretch(1)
        self.setWidget(content)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("A new rig")

    def set_style(self, scale: float) -> None:
        """Change the text size."""
        self._scale = scale
        for one in (self.telescopes, self.cameras, self.rigs):
            one.set_style(scale)
        side, gap = round(16 * scale), round(8 * scale)
        self._column.setContentsMargins(side, gap, side, gap)
        self._turn()

    def ask(self) -> None:
        """List what the shelf has now, and take the keyboard."""
        session = self._session
        self.name.setText("")
        self._complain("")
        self.telescopes.offer_parts(parts_on_offer(session, "telescope"), blank_part("telescope"))
        self.cameras.offer_parts(parts_on_offer(session, "camera"), blank_part("camera"))
        names = [rig.name for rig in session.shelf.rigs if self._same_currency()]
        self.rigs.offer_names(names)
        self.rigs.setVisible(bool(names))
        self.take.setVisible(bool(names))
        self.leave.setVisible(bool(session.plan.rigs))
        self.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the lists under each other where it is narrow."""
        super().resizeEvent(event)
        self._turn()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Make it with Enter, give up with Escape."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._make()
        elif event.key() == Qt.Key.Key_Escape and self._session.plan.rigs:
            self.given_up.emit()
        else:
            super().keyPressEvent(event)

    def _turn(self) -> None:
        ways = QBoxLayout.Direction
        wide = self.viewport().width() >= _WIDE_PX * self._scale
        self._lists.setDirection(ways.LeftToRight if wide else ways.TopToBottom)

    def _same_currency(self) -> bool:
        return self._session.shelf.currency == self._session.plan.currency

    def _make(self) -> None:
        """Make a rig of what is picked."""
        telescope, camera = self.telescopes.value(), self.cameras.value()
        if not isinstance(telescope, Telescope) or not isinstance(camera, Camera):
            self._complain("Pick a telescope and a camera; the narrowed lists show none.")
            return
        name = self.name.text().strip() or f"{telescope.name} with {camera.name}"[:120].strip()
        try:
            self._put(Rig(name=name, telescope=telescope, camera=camera))
        except CoreError as error:
            self._complain(f"{capital(str(error))}.")

    def _take(self) -> None:
        """Put a rig of the shelf into the plan."""
        name = self.rigs.value()
        if isinstance(name, str):
            self._put(self._session.shelf.rig(name))

    def _put(self, rig: Rig) -> None:
        session = self._session
        session.edit(f"new rig {rig.name}", edits.with_rig(session.plan, rig))
        self.made.emit()

    def _complain(self, words: str) -> None:
        self.complaint.setText(words)
        self.complaint.setVisible(bool(words))


def _button(words: str, call: Callable[[], None]) -> QPushButton:
    button = QPushButton(words)
    button.setAutoDefault(False)
    button.clicked.connect(lambda: call())
    return button
