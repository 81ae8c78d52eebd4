"""The page of parts: the way of the light above, the chosen part's figures and findings below.

What is being typed is looked at as if it were so, and shown; the plan changes at Enter or
when the field is left.
"""

from functools import cached_property

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QScrollArea, QVBoxLayout, QWidget

from app.rig_editor import editing, offers
from app.rig_editor.beam_layout import ADD
from app.rig_editor.beam_view import BeamView
from app.rig_editor.finding_list import FindingList
from app.rig_editor.levels import focus_level, levels_of
from app.rig_editor.part_chooser import Offer, PartChooser
from app.rig_editor.part_desk import PartDesk
from app.session import Session
from app.shared.theme import Theme
from app.shared.throttle import Throttle
from core.errors import CoreError
from core.gear.checks import findings
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of

__all__ = ["PartsPage"]

_LIVE_MS = 60
_WIDE_PX = 720
_FIRST = Slot("telescope")


class PartsPage(QScrollArea):
    """The parts of the chosen rig; dressed, and filled, by the first `set_style`.

    Parameters
    ----------
    session : Session
    theme : Theme
    scale : float
        The user's text size.
    """

    looked_at = Signal(object)

    def __init__(self, session: Session, theme: Theme, scale: float) -> None:
        super().__init__()
        self._session = session
        self._theme, self._scale = theme, scale
        self._rig_id: str | None = None
        self.slot = _FIRST
        self._asking: Slot | None = None
        self.beam = BeamView(theme, scale)
        self.desk = PartDesk(self._take_figure)
        self.about = FindingList("About this part")
        self.rest = FindingList("About the rest of the rig")
        self.live = Throttle(self._preview, _LIVE_MS, self)
        self._lay_out()
        self._listen()

    def _lay_out(self) -> None:
        """Put the drawing above, form and findings side by side below."""
        content = QWidget()
        self._column = QVBoxLayout(content)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._work = QWidget()
        self._sides = QBoxLayout(QBoxLayout.Direction.LeftToRight, self._work)
        self._sides.setContentsMargins(0, 0, 0, 0)
        said = QWidget()
        told = QVBoxLayout(said)
        told.setContentsMargins(0, 0, 0, 0)
        for one in (self.about, self.rest):
            told.addWidget(one)
        told.addStretch(1)
        for widget, share in ((self.desk, 3), (said, 2)):
            self._sides.addWidget(widget, share)
        for part in (self.beam, self._work):
            self._column.addWidget(part)
        self._column.addStretch(1)
        self.setWidget(content)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("Parts")

    def _listen(self) -> None:
        """Hear what is wished for."""
        self.beam.chosen.connect(self.choose)
        self.beam.opened.connect(self._open)
        self.beam.removed.connect(self._remove)
        self.beam.moved.connect(self._move)
        self.desk.form.typed.connect(self.live.ask)
        self.desk.replace.clicked.connect(lambda: self.ask_replacement())
        self.desk.remove.clicked.connect(lambda: self._remove(self.slot))
        self.desk.counterweight.activated.connect(lambda _index: self._set_counterweight())
        for one in (self.about, self.rest):
            one.pressed.connect(self.go_to)
        self._session.plan_changed.connect(self._plan_changed)

    @cached_property
    def chooser(self) -> PartChooser:
        """What asks for a part of the shelf, built when it is first needed."""
        chooser = PartChooser(self._theme)
        chooser.set_style(self._theme, self._scale)
        chooser.taken.connect(self._taken)
        chooser.given_up.connect(self._leave_chooser)
        chooser.hide()
        self._column.insertWidget(1, chooser)
        return chooser

    @property
    def _is_asking(self) -> bool:
        """Tell whether a part of the shelf is asked for."""
        return "chooser" in self.__dict__ and not self.chooser.isHidden()

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._theme, self._scale = theme, scale
        gap = round(10 * scale)
        self._column.setSpacing(gap)
        self._sides.setSpacing(round(18 * scale))
        self.beam.set_style(theme, scale)
        self.desk.set_style(scale)
        if "chooser" in self.__dict__:
            self.chooser.set_style(theme, scale)
        self._turn()
        self.refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the findings beside the form, or below it where it is narrow."""
        super().resizeEvent(event)
        self._turn()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what happened while it was not seen."""
        super().showEvent(event)
        self.refresh()

    def _turn(self) -> None:
        wide = self.viewport().width() >= _WIDE_PX * self._scale
        ways = QBoxLayout.Direction
        self._sides.setDirection(ways.LeftToRight if wide else ways.TopToBottom)

    # Showing -------------------------------------------------------------------

    def _plan_changed(self) -> None:
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Show the chosen rig as it is now."""
        self.live.drop()
        planned = self._session.rig
        if planned is None:
            self._leave_chooser(focus=False)
        self.beam.setVisible(planned is not None)
        self._work.setVisible(planned is not None and not self._is_asking)
        if planned is None:
            return
        if planned.id != self._rig_id:
            self._rig_id, self.slot = planned.id, _FIRST
            self._leave_chooser(focus=False)
        parts = slots_of(planned.rig)
        if self.slot not in parts:
            self.slot = _FIRST
        first_time = not self.beam.handles
        self._show(planned.rig)
        if first_time:  # the tab key comes to the drawing before the desk
            self.desk.follow(self.beam.handles[ADD])
        self.desk.show_part(parts[self.slot], (planned.id, self.slot), planned.rig)

    def _preview(self) -> None:
        """Look at the rig as it would be with what is being typed."""
        planned = self._session.rig
        if planned is None or self.slot not in slots_of(planned.rig):
            return
        part, rig = self.desk.form.typed_part(), planned.rig
        if part is not None:
            rig = editing.rig_with(rig, self.slot, part, None) or rig
        self._show(rig)

    def _show(self, rig: Rig) -> None:
        """Draw a rig and say what its checks find."""
        found = findings(rig, self._session.plan.nights)
        self.beam.show_rig(rig, levels_of(rig, found), focus_level(found), self.slot)
        name = slots_of(rig)[self.slot].name
        about = [finding for finding in found if finding.part == name]
        rest = [finding for finding in found if finding.part != name]
        self.about.show_findings(about, self._theme, self._scale)
        self.rest.show_findings(rest, self._theme, self._scale)
        self.looked_at.emit(found[0] if found else None)

    # What is wished for --------------------------------------------------------

    def choose(self, slot: Slot) -> None:
        """Bring a part to the desk."""
        if slot != ADD and slot != self.slot:
            self.slot = slot
            self.refresh()

    def _open(self, slot: Slot) -> None:
        """Go to a part's figures, or to the shelf."""
        if slot == ADD:
            self.ask_addition()
            return
        self.choose(slot)
        self._leave_chooser(focus=False)
        by_key = self.beam.handle(slot).hasFocus() and self.beam.handle(slot).by_key
        if by_key:
            self.desk.form.first().setFocus(Qt.FocusReason.TabFocusReason)  # selects it
            self.ensureWidgetVisible(self.desk.form.first())

    def go_to(self, name: str) -> None:
        """Choose a part by its name, as findings give it."""
        planned = self._session.rig
        parts = slots_of(planned.rig) if planned is not None else {}
        slot = next((slot for slot, part in parts.items() if part.name == name), None)
        if slot is not None:
            self.choose(slot)
            self.beam.take_focus(slot)
            self.ensureWidgetVisible(self.beam.handle(slot))

    def _take_figure(self, field: str, value: object) -> None:
        """Let the plan take a figure over."""
        editing.set_figure(self._session, self.slot, field, value)

    def _set_counterweight(self) -> None:
        planned = self._session.rig
        if planned is not None:
            used = self.desk.counterweight.currentData()
            editing.apply(self._session, "counterweight", planned.rig.but(counterweight=used))

    def _move(self, slot: Slot, index: int) -> None:
        """Move a part along the beam, and stay with it."""
        self.slot = editing.move_part(self._session, slot, index)
        self.refresh()
        self.beam.take_focus(self.slot)

    def _remove(self, slot: Slot) -> None:
        """Take a part out, and go to the one that stands there then."""
        if slot != ADD and editing.take_out(self._session, slot):
            self.desk.form.forget()
            self.refresh()
            self.beam.take_focus(self.slot)

    # The shelf -----------------------------------------------------------------

    def ask_addition(self) -> None:
        """Offer what can be added."""
        planned = self._session.rig
        if planned is not None:
            self._asking = None
            self._ask(offers.addition(self._session, planned.rig, self.slot))

    def ask_replacement(self) -> None:
        """Offer what can take the chosen part's place."""
        planned = self._session.rig
        if planned is not None:
            self._asking = self.slot
            self._ask(offers.replacement(self._session, planned.rig, self.slot))

    def _ask(self, offer: Offer) -> None:
        """Show the shelf where the figures are otherwise."""
        self._work.hide()
        self.chooser.show()
        self.chooser.ask(offer)
        self.ensureWidgetVisible(self.chooser)

    def _taken(self, part: Part) -> None:
        """Put the part from the shelf where it was asked for."""
        slot = self._asking
        try:
            if slot is None:
                slot = editing.add_part(self._session, part, self.slot)
            else:
                editing.put_part(self._session, slot, part)
        except CoreError as error:
            self._session.say(f"{part.name} does not go there: {error}.", "caution")
            return
        self.slot = slot
        self.desk.form.forget()
        self._leave_chooser()

    def _leave_chooser(self, *, focus: bool = True) -> None:
        """Go back from the shelf to the figures."""
        if not self._is_asking:
            return
        with QSignalBlocker(self.beam):  # a part that Qt lends the keyboard to is not chosen
            self.chooser.hide()
            self._work.show()
        if focus:
            self.refresh()
            self.beam.take_focus(self.slot)
