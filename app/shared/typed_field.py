"""A value that can be typed: taken with Enter or on leaving, refused with one sentence.

What was typed is never thrown away: a refused text stays, marked, with the sentence
under it, until it is put right, given up with Escape, or the value itself changes.
"""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLabel, QWidget

from app.shared.line import Line

__all__ = ["TypedField", "capital", "set_property"]


class TypedField(Line):
    """A line to type a value into, with a label for what is wrong with it.

    Parameters
    ----------
    name : str
        Accessible name.
    take : callable
        Takes the text; raises a ValueError whose text is one sentence.
    """

    def __init__(self, name: str, take: Callable[[str], None]) -> None:
        super().__init__()
        self._take = take
        self._shown = ""
        self._taking = False
        self.complaint = QLabel()
        self.complaint.setWordWrap(True)
        self.complaint.setProperty("level", "bad")
        self.complaint.hide()
        self.setAccessibleName(name)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.editingFinished.connect(self._finish)
        self.textEdited.connect(lambda _text: self._complain(""))

    @property
    def wrong(self) -> bool:
        """Tell whether a refused text stands in the field."""
        return bool(self.complaint.text())

    def show_value(self, text: str) -> None:
        """Show the value as it is now, unless a hand is typing another."""
        if text == self._shown:
            return
        self._shown = text
        if not (self.isModified() and self.hasFocus()):
            self.restore()

    def restore(self) -> None:
        """Forget what was typed and show the value."""
        self.setText(self._shown)
        self.setCursorPosition(0)
        self._complain("")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Give up with Escape."""
        if event.key() == Qt.Key.Key_Escape and (self.isModified() or self.wrong):
            self.restore()
            self.selectAll()
        else:
            super().keyPressEvent(event)

    def _finish(self) -> None:
        """Hand the typed text over."""
        if not self.isModified() or self._taking:
            return
        self._taking = True
        try:
            self._take(self.text())
        except ValueError as error:
            self.setModified(False)
            self._complain(capital(str(error)))
        else:
            self.restore()
            if self.hasFocus():
                self.selectAll()
        finally:
            self._taking = False

    def _complain(self, sentence: str) -> None:
        """Show or clear the sentence and the mark."""
        if sentence != self.complaint.text():
            self.complaint.setText(sentence)
            self.complaint.setVisible(bool(sentence))
            self.setAccessibleDescription(sentence)
            set_property(self, "wrong", bool(sentence))


def capital(sentence: str) -> str:
    """Begin a sentence with a capital letter.

    Examples
    --------
    >>> capital("right ascension is too large")
    'Right ascension is too large'
    """
    return sentence[:1].upper() + sentence[1:]


def set_property(widget: QWidget, name: str, value: object) -> None:
    """Set a property that the style sheet looks at, and have the style look again."""
    if widget.property(name) != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
        widget.update()
