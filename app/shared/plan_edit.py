"""One step of the history: a plan replaced by another."""

from typing import Protocol

from PySide6.QtGui import QUndoCommand

from core.plan import edits
from core.plan.document import Plan, SheetView

__all__ = ["PlanEdit", "looking_at"]


class PlanHolder(Protocol):
    """What holds the open plan."""

    @property
    def plan(self) -> Plan:
        """The plan as it is."""

    def replace_plan(self, plan: Plan) -> None:
        """Take another plan."""


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
        Where the plan is replaced.
    """

    def __init__(self, words: str, plans: tuple[Plan, Plan], key: str, holder: PlanHolder) -> None:
        super().__init__(words)
        self.before, self.after = plans
        self.key = key
        self._holder = holder

    def redo(self) -> None:
        """Put the plan after in place."""
        self._holder.replace_plan(_staying(self.after, self._holder.plan))

    def undo(self) -> None:
        """Put the plan before in place."""
        self._holder.replace_plan(_staying(self.before, self._holder.plan))

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
