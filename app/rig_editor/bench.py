"""The rig bench: the chosen rig's name and verdict, and pages to work on it.

It stands where the sky sheet is otherwise. Another rig chosen in the strip is shown here at
once; a page that is not seen is told when it comes to the front.
"""

from collections.abc import Callable
from functools import cached_property

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QResizeEvent, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.rig_editor.header import BenchHeader
from app.rig_editor.new_rig import NewRig
from app.rig_editor.page_switch import PageSwitch
from app.rig_editor.parts_page import PartsPage
from app.session import Session
from app.shared.theme import Theme
from core.gear.checks import Finding, findings
from core.gear.slots import Slot

__all__ = ["RigBench"]

#: Height of a page and width of the bench at least, pixels at text size 1.
_LEAST_PAGE_PX = 230
_LEAST_WIDTH_PX = 290


class RigBench(QWidget):
    """Edits the session's chosen rig.

    Parameters
    ----------
    session : Session
    theme : Theme
    scale : float
        The user's text size, 1 for 12 px.
    """

    def __init__(self, session: Session, theme: Theme, scale: float = 1.0) -> None:
        super().__init__()
        self._session = session
        self._theme, self._scale = theme, scale
        self.switch = PageSwitch(self)
        self.header = BenchHeader(session)
        self.pages = QStackedWidget()
        self.parts = PartsPage(session, theme, scale)
        self._front = QStackedWidget()
        self._lay_out()
        self.add_page("Parts", self.parts)
        self.parts.looked_at.connect(self._looked_at)
        self.parts.beam.chosen.connect(self._bring_into_view)
        self.set_style(theme, scale)
        session.plan_changed.connect(self.refresh)

    def _lay_out(self) -> None:
        """Put head, switch and pages under each other."""
        self.setAccessibleName("Rig bench")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.switch.changed.connect(self.pages.setCurrentIndex)
        self._content = QWidget()
        self._column = QVBoxLayout(self._content)
        self._column.addWidget(self.header)
        self._column.addWidget(self.pages, 1)
        self._scroll = QScrollArea()
        self._scroll.setWidget(self._content)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self._front)
        self._front.addWidget(self._scroll)
        for keys, step in (("Ctrl+PgDown", 1), ("Ctrl+PgUp", -1)):
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(lambda step=step: self.switch.walk(step))

    def add_page(self, title: str, widget: QWidget) -> None:
        """Put a page behind the others.

        Parameters
        ----------
        title : str
            A word or two for the switch.
        widget : QWidget
            May have `set_style(theme, scale)`, which is then called with the window's.
        """
        self.pages.addWidget(widget)
        self.header.add_page(self.switch.add(title))
        self._keep_room()

    def show_page(self, title: str) -> None:
        """Bring a page to the front by its title."""
        self.switch.show(self.switch.titles.index(title))

    def add_action(self, words: str, call: Callable[[], None]) -> QPushButton:
        """Offer something that can be done to the rig, as a button in the head."""
        button = self.header.add_action(words, call)
        self._keep_room()
        return button

    @cached_property
    def new_rig(self) -> NewRig:
        """What asks for another rig, built when it is first needed."""
        asking = NewRig(self._session)
        asking.set_style(self._scale)
        asking.made.connect(self._made)
        asking.given_up.connect(self._leave_new_rig)
        self._front.addWidget(asking)
        return asking

    @property
    def _is_asking(self) -> bool:
        """Tell whether it is a new rig that is asked for."""
        return self._front.currentWidget() is not self._scroll

    def ask_new_rig(self) -> None:
        """Ask what another rig begins with."""
        self._front.setCurrentWidget(self.new_rig)
        self.new_rig.ask()

    def _made(self) -> None:
        """Go to the parts of a rig that was just made."""
        self._front.setCurrentWidget(self._scroll)
        self.switch.show(0)
        self.parts.beam.take_focus(self.parts.slot)

    def _leave_new_rig(self) -> None:
        """Go back to the chosen rig, or to the sky where there is none."""
        self._front.setCurrentWidget(self._scroll)
        self.setFocus()
        if self._session.rig is None:
            self._session.close_bench()

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._theme, self._scale = theme, scale
        if "new_rig" in self.__dict__:
            self.new_rig.set_style(scale)
        side, gap = round(16 * scale), round(8 * scale)
        self._column.setContentsMargins(side, gap, side, gap)
        self._column.setSpacing(gap)
        self.header.set_style(theme, scale)
        self._keep_room()
        for place in range(self.pages.count()):
            dress = getattr(self.pages.widget(place), "set_style", None)
            if dress is not None:
                dress(theme, scale)
        self.refresh()

    def minimumSizeHint(self) -> QSize:
        """Keep the width that a name and a button want; the height scrolls."""
        return QSize(round(_LEAST_WIDTH_PX * self._scale), 120)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Scroll as a whole where there is too little room for a page."""
        super().resizeEvent(event)
        self._keep_room()

    def _keep_room(self) -> None:
        """Give the page in front some height, whatever the window's."""
        edges = self._column.contentsMargins()
        wide = self._scroll.viewport().width() - edges.left() - edges.right()
        head = self.header.heightForWidth(max(wide, 1))
        self._content.setMinimumHeight(head + round(_LEAST_PAGE_PX * self._scale))

    def showEvent(self, event: QShowEvent) -> None:
        """Ask for a rig where none is chosen."""
        super().showEvent(event)
        self.refresh()

    def refresh(self) -> None:
        """Show the chosen rig as it is now; without one, ask for one."""
        planned = self._session.rig
        if planned is None and self.isVisible() and not self._is_asking:
            self.ask_new_rig()
        found = findings(planned.rig, self._session.plan.nights) if planned is not None else ()
        self.header.show_rig(planned, found[0] if found else None)

    def _looked_at(self, worst: Finding | None) -> None:
        """Say the worst about the rig as it is being typed."""
        self.header.show_rig(self._session.rig, worst)

    def _bring_into_view(self, slot: Slot) -> None:
        """Scroll to a part where the window is too small to show all."""
        handle = self.parts.beam.handles.get(slot)
        if handle is not None:
            self.parts.ensureWidgetVisible(handle, 0, 0)
            self._scroll.ensureWidgetVisible(handle, 0, 0)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Hand the keyboard on to the page in front."""
        page = self.pages.currentWidget()
        if self._is_asking:
            self.new_rig.name.setFocus(event.reason())
        elif page is self.parts:
            self.parts.beam.take_focus(self.parts.slot)
        else:
            (page if page is not None else self.header.name).setFocus(event.reason())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go back to the sky with Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self._session.close_bench()
        else:
            super().keyPressEvent(event)
