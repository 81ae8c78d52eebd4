"""The chosen part: its name, what can be done to it, its figures."""

from itertools import pairwise

from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.rig_editor.choice import Choice
from app.rig_editor.form_body import Take
from app.rig_editor.part_form import PartForm
from app.shared.flow import Flow
from core.gear.parts import Mount, Part
from core.gear.rig import Rig

__all__ = ["PartDesk"]

_WEIGHTS = {"as is usual for its kind": None, "with a counterweight": True, "without one": False}


class PartDesk(QWidget):
    """One part of the rig to work on.

    Parameters
    ----------
    take : callable
        Takes a field's name and value; raises a ValueError with one sentence.
    """

    def __init__(self, take: Take) -> None:
        super().__init__()
        self.heading = QLabel()
        self.heading.setProperty("heading", True)
        self.heading.setWordWrap(True)
        self.form = PartForm(take)
        self.replace = _button("Another from the shelf", "Put another part in its place")
        self.remove = _button("Take it out", "Delete")
        self.counterweight = Choice()
        self.form.after = self.counterweight
        self._weight = QWidget()
        self._lay_out()

    def _lay_out(self) -> None:
        """Put heading, buttons and figures under each other."""
        label = QLabel("Used")
        label.setProperty("quiet", True)
        label.setBuddy(self.counterweight)
        for words, value in _WEIGHTS.items():
            self.counterweight.addItem(words, value)
        self.counterweight.setAccessibleName("Counterweight")
        self.counterweight.setToolTip("Whether a counterweight hangs on the mount in this rig")
        row = QHBoxLayout(self._weight)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(label)
        row.addWidget(self.counterweight)
        buttons = QWidget()
        self._flow = Flow(buttons)
        for widget in (self.replace, self.remove, self._weight):
            self._flow.addWidget(widget)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        for each in (self.heading, buttons, self.form):
            self._column.addWidget(each)
        self._column.addStretch(1)

    def set_style(self, scale: float) -> None:
        """Change the text size."""
        self._column.setSpacing(round(8 * scale))
        self._flow.setSpacing(round(8 * scale))
        self._weight.setMinimumWidth(round(220 * scale))
        self.form.set_style(scale)

    def follow(self, widget: QWidget) -> None:
        """Let the tab key come from a widget to what can be done to the part."""
        for before, after in pairwise([widget, self.replace, self.remove, self.counterweight]):
            self.setTabOrder(before, after)

    def show_part(self, part: Part, key: object, rig: Rig) -> None:
        """Show a part of a rig; `key` says what for (rig and slot)."""
        self.heading.setText(part.name)
        needed = part is rig.telescope or part is rig.camera
        self.remove.setEnabled(not needed)
        why = "Every rig has one; put another in its place instead" if needed else "Delete"
        self.remove.setToolTip(why)
        self._weight.setVisible(isinstance(part, Mount))
        self.counterweight.setCurrentIndex(self.counterweight.findData(rig.counterweight))
        self.form.show_part(part, key)


def _button(words: str, hint: str) -> QPushButton:
    button = QPushButton(words)
    button.setToolTip(hint)
    button.setAutoDefault(False)
    return button
