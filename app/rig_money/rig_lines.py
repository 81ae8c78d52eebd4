"""A line a rig: its name, and the worst finding of those rules that look at the nights."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QAbstractItemView, QFrame, QTreeWidget, QTreeWidgetItem

from app.session import Session
from app.shared.frame_ink import frame_ink
from app.shared.theme import Theme
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.finding_words import findings_of, level_of, level_words, short_words
from app.words.sentences import tip
from core.gear.nights import Conditions
from core.plan.document import PlannedRig

__all__ = ["RULES", "RigLines"]

#: The rules whose answer depends on the nights.
RULES = ("sampling", "field-rotation", "polar-error", "unguided", "star-trails")
_MOST_LINES = 14


class RigLines(QTreeWidget):
    """All rigs of the plan, to read; as high as its lines, up to a screenful.

    Parameters
    ----------
    session : Session
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._nights = session.plan.nights
        self.setAccessibleName("What these nights do to each rig")
        self.setObjectName("plain")
        self.setColumnCount(2)
        self.setHeaderHidden(True)
        self.setRootIsDecorated(False)
        self.setUniformRowHeights(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)

    def refresh(self, theme: Theme, scale: float, nights: Conditions | None = None) -> None:
        """Show every rig in the plan's nights, or in others that are being typed."""
        self._nights = nights or self._session.plan.nights
        plan, side = self._session.plan, max(8, round(10.0 * scale))
        self.setIconSize(QSize(side, side))
        here = max(0, self.currentIndex().row())
        self.clear()
        self.addTopLevelItems([self._line(planned, theme, side) for planned in plan.rigs])
        self.setCurrentIndex(self.model().index(min(here, len(plan.rigs) - 1), 0))
        self.resizeColumnToContents(0)
        line = self.sizeHintForRow(0) if plan.rigs else 0
        self.setFixedHeight(min(len(plan.rigs), _MOST_LINES) * line + 4)

    def _line(self, planned: PlannedRig, theme: Theme, side: int) -> QTreeWidgetItem:
        """Show one rig."""
        found = findings_of(planned.rig, self._nights)
        worst = next((one for one in found if one.rule in RULES), None)
        level = level_of(worst) if worst is not None else ""
        words = short_words(worst) if worst is not None else "nothing to say"
        name = f"{self._session.letter(planned.id)} · {planned.rig.name}"
        item = QTreeWidgetItem([name, words])
        item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        ink = level_colour(theme, level)
        item.setForeground(0, QColor(frame_ink(theme, planned.colour)))
        item.setForeground(1, QColor(ink))
        item.setIcon(1, mark_pixmap(side, level, ink, self.devicePixelRatioF()))
        if worst is not None:
            for column in range(2):
                item.setToolTip(column, tip(worst.message))
            said = f"{name}; {level_words(worst)}: {worst.message}"
            item.setData(0, Qt.ItemDataRole.AccessibleTextRole, said)
        return item
