"""The history and its steps: a plan replaced by another."""

import contextlib
import weakref
from typing import Protocol

from PySide6.QtGui import QUndoCommand, QUndoStack

from core.plan import edits
from core.plan.document import Plan, SheetView

__all__ = ["History", "PlanEdit", "looking_at"]


class PlanHolder(Protocol):
    """What holds the open plan."""

    @property
    def plan(self) -> Plan:
        """The plan as it is."""

    def replace_plan(self, plan: Plan) -> None:
        """Take another plan."""


class History(QUndoStack):
    """The steps, freed before Python's collector comes to them: it would free them twice."""

    def __del__(self) -> None:
        """Let the steps go while all of them are whole, and tell nobody."""
        with contextlib.suppress(RuntimeError):  # Qt has freed them already
            self.blockSignals(True)
            self.clear()


class PlanEdit(QUndoCommand):
    """A change that can be undone; equal keys in a row become one step.

    Parameters
    ----------
    words : str
        For the undo menu.
    plans : (Plan, Plan)
        Before and after.
    key : str
        Steps in a row with one key merge; empty for a step of its own.
    holder : PlanHolder
        Where the plan is replaced. Not kept alive: it owns the history that owns this step,
        and Python, freeing all three as one ring, would let Qt free a step twice.
    """

    def __init__(self, words: str, plans: tuple[Plan, Plan], key: str, holder: PlanHolder) -> None:
        super().__init__(words)
        self.before, self.after = plans
        self.key = key
        self._holder = weakref.ref(holder)

    def redo(self) -> None:
        """Put the plan after in place."""
        self._put(self.after)

    def undo(self) -> None:
        """Put the plan before in place."""
        self._put(self.before)

    def _put(self, plan: Plan) -> None:
        holder = self._holder()
        if holder is not None:
            holder.replace_plan(_staying(plan, holder.plan))

    def id(self) -> int:
        """Give a number that equal keys share; -1 never merges."""
        return hash(self.key) & 0x7FFFFFFF if self.key else -1

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Take a later step of the same key into this one."""
        if not isinstance(other, PlanEdit) or other.key != self.key:
            return False
        self.after = other.after
        return True


def looking_at(view: SheetView, place: SheetView) -> SheetView:
    """Give a view as it is, but on the part of the sky that another one shows."""
    fields = {"ra_deg": place.ra_deg, "dec_deg": place.dec_deg, "width_deg": place.width_deg}
    return view.model_copy(update=fields)


def _staying(plan: Plan, now: Plan) -> Plan:
    """Undo changes the plan, not where one looks."""
    return edits.with_view(plan, looking_at(plan.view, now.view))
