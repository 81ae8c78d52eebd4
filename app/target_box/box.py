"""The target box: a name in any spelling or a position, with suggestions while typing.

While nobody types it shows the current target. Enter takes what is marked in the list,
else what is typed; what nothing is called by stays in the box, marked, with one
sentence and the names that come close.
"""

from PySide6.QtCore import QRect, Qt, QThreadPool, QTimer
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QShowEvent,
)
from PySide6.QtWidgets import QApplication, QSizePolicy, QStyle, QStyleOptionFrame

from app.session import Session
from app.shared.line import Line
from app.shared.typed_field import capital, set_property
from app.target_box.suggestions import Entry, TargetList
from app.words.target_words import box_words, other_name, row_words, title_of
from core.catalogue.resolve import resolve
from core.catalogue.target import Target
from core.catalogue.targets import Suggestion
from core.errors import BadValueError, CoreError, UnknownTargetError
from core.sky.angles import looks_like_position

__all__ = ["TargetBox"]

_PLACEHOLDER = "Name or position: M 31, Veil, 20 58 +44 20"
_STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
#: Leaving for another window or the box's own menu is no leaving.
_STAYS = (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason)
_WARM_UP_MS = 150


class TargetBox(Line):
    """The line at the top that says, and changes, what the plan is on.

    Parameters
    ----------
    session : Session
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._clicked = False
        self.list = TargetList(self)
        self.list.taken.connect(self._go)
        self.setPlaceholderText(_PLACEHOLDER)
        self.setAccessibleName("Target")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setMinimumWidth(160)
        self.textEdited.connect(self._typed)
        session.plan_changed.connect(self._plan_changed)
        self.show_current()

    @property
    def wrong(self) -> bool:
        """Tell whether a text that means nothing stands in the box."""
        return bool(self.property("wrong"))

    def focus_and_select(self) -> None:
        """Take the keyboard, everything selected, ready to be typed over."""
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.selectAll()

    def show_current(self) -> None:
        """Show the current target and forget what was typed."""
        target = self._session.target
        self.setText(title_of(target) if target is not None else "")
        self.setCursorPosition(0)
        self._mark_wrong("")
        self.list.hide()
        words = box_words(target) if target is not None else "none yet"
        self.setToolTip(f"{self.text()} · {words}".strip(" ·") if target is not None else "")
        self.setAccessibleDescription(words)

    # Typing --------------------------------------------------------------------

    def _typed(self, text: str) -> None:
        """Offer what the text may mean."""
        self._mark_wrong("")
        self.list.offer(self._entries(text))

    def _entries(self, text: str) -> list[Entry]:
        """Give the suggestions for a text, or the position it says."""
        if looks_like_position(text):
            try:
                target = resolve(text, self._session.targets)
            except CoreError:
                return []
            return [Entry(text, target.name, "position, ICRS", "Enter goes there")]
        return [_suggested(found) for found in self._session.targets.suggest(text)]

    def _go(self, text: str) -> None:
        """Go to what a text means, or say why that cannot be."""
        try:
            target: Target = resolve(text, self._session.targets)
        except UnknownTargetError as error:
            self._refuse(error, [self._near(name) for name in error.near_misses])
        except BadValueError as error:
            self._refuse(error, [])
        else:
            self._session.show_target(target)
            self.show_current()
            self.selectAll()

    def _near(self, name: str) -> Entry:
        """Give a near miss as an entry, with what it is."""
        try:
            target = self._session.targets.find(name)
        except UnknownTargetError:
            return Entry(name, name)
        aside = title_of(target) if title_of(target) != name else other_name(target)
        return Entry(name, name, aside, row_words(target))

    def _refuse(self, error: CoreError, near: list[Entry]) -> None:
        """Keep the text, mark it, say why, offer what comes close."""
        sentence = str(error)
        heading = f"No object is called “{self.text().strip()}”." if near else capital(sentence)
        if near:
            heading += " Near it:"
        self._mark_wrong(sentence)
        self.list.offer([Entry("", heading), *near])
        self._session.say(capital(sentence), "bad")

    def _mark_wrong(self, sentence: str) -> None:
        """Mark the box, for the eye and for a screen reader; "" takes the mark off."""
        set_property(self, "wrong", bool(sentence))
        if sentence:
            self.setAccessibleDescription(sentence)

    # The keyboard --------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk through the list, take, give up."""
        key = Qt.Key(event.key())
        if key in _STEPS:
            self._step(_STEPS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            marked = self.list.marked if self.list.isVisible() else None
            self._go(marked.text if marked is not None else self.text())
        elif key == Qt.Key.Key_Escape:
            self._give_up(event)
        else:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, forwards: bool) -> bool:
        """Take what is marked before the tab key moves on."""
        marked = self.list.marked if self.list.isVisible() else None
        if marked is not None:
            self._go(marked.text)
        return super().focusNextPrevChild(forwards)

    def _step(self, rows: int) -> None:
        """Mark the next entry; bring the list back when it was put away."""
        if not self.list.isVisible() and self.isModified():
            self.list.offer(self._entries(self.text()))
        self.list.step(rows)

    def _give_up(self, event: QKeyEvent) -> None:
        """Put the list away, then bring the current target back."""
        if self.list.isVisible():
            self.list.hide()
        elif self.isModified() or self.wrong:
            self.show_current()
            self.selectAll()
        else:
            event.ignore()

    # Coming and going ----------------------------------------------------------

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Remember that a click brought the keyboard."""
        super().focusInEvent(event)
        self._clicked = event.reason() == Qt.FocusReason.MouseFocusReason

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Select everything at the first click, so that typing begins anew."""
        super().mouseReleaseEvent(event)
        if self._clicked and not self.hasSelectedText():
            self.selectAll()
        self._clicked = False

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show the current target again, unless something wrong is still to be put right."""
        super().focusOutEvent(event)
        if event.reason() not in _STAYS:
            self.list.hide()
            if not self.wrong:
                self.show_current()

    def showEvent(self, event: QShowEvent) -> None:
        """Make the index of names ready before the first key is struck."""
        super().showEvent(event)
        if not event.spontaneous():
            QTimer.singleShot(_WARM_UP_MS, self, self._warm_up)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the list away: it would hang where the box no longer is."""
        super().resizeEvent(event)
        self.list.hide()

    def _warm_up(self) -> None:
        targets = self._session.targets
        QThreadPool.globalInstance().start(lambda: targets.suggest("m 31"))

    def _plan_changed(self) -> None:
        """Follow the plan, but never take a text from under the hand."""
        if not (self.hasFocus() and self.isModified()) and not self.wrong:
            self.show_current()

    # Painting ------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the line, and quietly behind the name what else the target is called."""
        super().paintEvent(event)
        target = self._session.target
        if target is None or self.hasFocus() or self.wrong or not self.text():
            return
        option = QStyleOptionFrame()
        self.initStyleOption(option)
        part = QStyle.SubElement.SE_LineEditContents
        area: QRect = self.style().subElementRect(part, option, self)
        margins, metrics = self.textMargins(), self.fontMetrics()
        left = margins.left() + metrics.horizontalAdvance(f"{self.text()}  ") + 6
        area.adjust(left, margins.top(), -margins.right() - 2, -margins.bottom())
        words = metrics.elidedText(box_words(target), Qt.TextElideMode.ElideRight, area.width())
        painter = QPainter(self)
        painter.setPen(QApplication.palette().placeholderText().color())
        painter.setFont(self.font())
        flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(area, int(flags), words)
        painter.end()


def _suggested(found: Suggestion) -> Entry:
    """Put a suggestion into the words of the list, its matched name in sight."""
    target, title = found.target, title_of(found.target)
    names = dict.fromkeys(filter(None, (other_name(target), found.matched)))
    names.pop(title, None)
    return Entry(target.id, title, " · ".join(names), row_words(target))
