"""The menu of the plan's targets: go to one, to the next, take one out."""

from functools import partial

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from app.session import Session
from app.words.target_words import other_name, title_of
from core.plan import edits
from core.plan.document import PlannedTarget

__all__ = ["TargetMenu"]


class TargetMenu(QMenu):
    """The targets of the plan, made anew each time it opens.

    Parameters
    ----------
    session : Session
    window : QWidget
        In all of which the keys for the next and the former target work.
    """

    def __init__(self, session: Session, window: QWidget) -> None:
        super().__init__(window)
        self._session = session
        self._next = self._key("Next target of the plan", "Ctrl+PgDown", 1)
        self._former = self._key("Former target of the plan", "Ctrl+PgUp", -1)
        window.addActions([self._next, self._former])
        self.aboutToShow.connect(self.fill)
        self.fill()

    def fill(self) -> None:
        """List the targets as the plan has them now."""
        self.clear()
        session = self._session
        group = QActionGroup(self)
        for target in session.plan.targets:
            action = self.addAction(_words(target))
            action.setCheckable(True)
            action.setChecked(target.id == session.plan.current_target)
            action.triggered.connect(partial(self._go, target))
            group.addAction(action)
        if not session.plan.targets:
            self.addAction("No target in this plan yet").setEnabled(False)
        self.addSeparator()
        self.addActions([self._next, self._former])
        current = session.target
        if current is not None:
            out = self.addAction(f"Take {title_of(current)} out of the plan")
            out.triggered.connect(partial(self._take_out, current))

    def _go(self, target: PlannedTarget) -> None:
        self._session.show_target(target)

    def _take_out(self, target: PlannedTarget) -> None:
        words = f"take {title_of(target)} out"
        self._session.edit(words, edits.without_target(self._session.plan, target.id))
        self._session.look_at_target()

    def _step(self, by: int) -> None:
        """Go round the targets of the plan."""
        targets = self._session.plan.targets
        if targets:
            ids = [target.id for target in targets]
            current = self._session.plan.current_target
            place = ids.index(current) + by if current in ids else 0
            self._go(targets[place % len(targets)])

    def _key(self, words: str, shortcut: str, by: int) -> QAction:
        action = QAction(words, self)
        action.setShortcut(QKeySequence(shortcut))
        action.triggered.connect(partial(self._step, by))
        return action


def _words(target: PlannedTarget) -> str:
    """Designation and name on one line."""
    other = other_name(target)
    return f"{title_of(target)}  {other}" if other else title_of(target)
