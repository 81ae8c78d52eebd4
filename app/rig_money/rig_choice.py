"""A button that shows a rig of the plan and lets another be chosen."""

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QMenu, QToolButton

from app.session import Session
from core.gear.money.prices import rig_total
from core.plan.document import Plan

__all__ = ["RigChoice", "next_dearer"]


class RigChoice(QToolButton):
    """The name of a rig; a click or the space bar opens the list of all rigs.

    Parameters
    ----------
    session : Session
    name : str
        Accessible name.
    changed : callable
        Called when the person has chosen another rig.
    """

    def __init__(self, session: Session, name: str, changed: Callable[[], None]) -> None:
        super().__init__()
        self._session, self._changed = session, changed
        self._name = name
        self.rig_id = ""
        self.list = QMenu(self)
        self.list.aboutToShow.connect(self._fill)
        self.setMenu(self.list)
        self.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)

    def refresh(self) -> None:
        """Show the rig that is chosen."""
        words = self._words(self.rig_id)
        self.setText(f"{words} ▾")
        self.setAccessibleName(f"{self._name}: {words}")
        self.setToolTip(f"{self._name}: another rig")

    def choose(self, rig_id: str) -> None:
        """Choose a rig as the person does."""
        self.rig_id = rig_id
        self._changed()

    def _fill(self) -> None:
        """List the rigs as they are now."""
        self.list.clear()
        for planned in self._session.plan.rigs:
            action = self.list.addAction(self._words(planned.id).replace("&", "&&"))
            action.setCheckable(True)
            action.setChecked(planned.id == self.rig_id)
            action.triggered.connect(partial(self._picked, planned.id))

    def _picked(self, rig_id: str, _checked: bool = False) -> None:
        self.choose(rig_id)

    def _words(self, rig_id: str) -> str:
        """Give letter and name."""
        return f"{self._session.letter(rig_id)} · {self._session.planned_rig(rig_id).rig.name}"


def next_dearer(plan: Plan, rig_id: str) -> str:
    """Give the rig that costs the least more than another; else its neighbour in the plan.

    Parameters
    ----------
    plan : Plan
        Of two rigs or more.
    rig_id : str

    Returns
    -------
    str
        The id of another rig.
    """
    totals = {p.id: rig_total(p.rig, plan.currency).amount for p in plan.rigs}
    own = totals.pop(rig_id)
    if own is not None:
        dearer = [(amount, n, other) for n, (other, amount) in enumerate(totals.items())
                  if amount is not None and amount > own]  # fmt: skip
        if dearer:
            return min(dearer)[2]
    place = plan.place_of(rig_id)
    return plan.rigs[place + 1 if place + 1 < len(plan.rigs) else place - 1].id
