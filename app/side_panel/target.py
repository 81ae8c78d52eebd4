"""The panel's first part: what the target is, and what is not known about it."""

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.session import Session
from app.words import target_words
from core.catalogue.target import Target
from core.plan.document import PlannedTarget

__all__ = ["TargetFacts"]

NO_TARGET = "No target yet. Type a name or a position into the box at the top."


class TargetFacts(QWidget):
    """Name, kind, size, angle, magnitude, source and doubts of the current target.

    Parameters
    ----------
    session : Session
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._shown: PlannedTarget | None = None
        self.name = _label(name=True)
        self.other = _label()
        self.facts = _label()
        self.doubts = _label(quiet=True)
        self.note = _label()
        self.source = _label(quiet=True, small=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        for label in (self.name, self.other, self.facts, self.doubts, self.note, self.source):
            column.addWidget(label)
        self.setAccessibleName("Target")
        self._show_nothing()

    def refresh(self) -> None:
        """Show the current target."""
        target = self._session.target
        if target == self._shown:
            return
        self._shown = target
        if target is None:
            self._show_nothing()
        else:
            self._show(target, target_words.catalogue_entry(self._session, target))

    def _show_nothing(self) -> None:
        """Say what to do first."""
        for label in (self.name, self.other, self.doubts, self.note, self.source):
            _tell(label, "")
        _tell(self.facts, NO_TARGET)

    def _show(self, target: PlannedTarget, entry: Target | None) -> None:
        """Show a target with what the catalogue knows beyond the plan."""
        _tell(self.name, target_words.title_of(target))
        _tell(self.other, target_words.other_name(target))
        _tell(self.facts, _facts(target, entry))
        _tell(self.doubts, " ".join(target_words.doubt_words(target, entry)))
        _tell(self.note, target.note)
        _tell(self.source, f"Source: {entry.source}" if entry is not None and entry.source else "")


def _facts(target: PlannedTarget, entry: Target | None) -> str:
    """Put kind, size, angle and magnitude in one line."""
    parts = [target.kind.value]
    if target.major_arcmin is not None:
        parts.append(target_words.size_words(target))
    parts.append(target_words.angle_words(target))
    if entry is not None and entry.magnitude is not None:
        parts.append(f"{entry.magnitude:.1f} mag {entry.magnitude_band}".strip())
    return " · ".join(filter(None, parts))


def _label(**properties: bool) -> QLabel:
    """Make a label that wraps, with properties for the style sheet."""
    label = QLabel()
    label.setWordWrap(True)
    for name, value in properties.items():
        label.setProperty(name, value)
    return label


def _tell(label: QLabel, text: str) -> None:
    """Show a text, or no label at all."""
    label.setText(text)
    label.setVisible(bool(text))
