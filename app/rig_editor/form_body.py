"""The fields of one class of parts: a label and something to type or choose into, each."""

from collections.abc import Callable
from functools import partial
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from app.rig_editor.choice import Choice
from app.rig_editor.figure_text import choices_of, read_figure, text_of
from app.shared.typed_field import TypedField
from app.words.part_words import field_words, kind_words
from core.gear.kinds import OTHER_KINDS, kinds_of
from core.gear.parts import OtherPart, Part

__all__ = ["FormBody", "Take", "fields_of"]

NOT_KNOWN = "not known"
#: The fields that come first, and last, whatever the part; the rest is in between.
_FIRST = ("name", "kind")
_LAST = ("mass_kg", "price", "on_mount", "alternatives", "link", "note")
_WIDE = ("alternatives", "link", "note")
#: What stands where there is nothing, other than that it is not known.
_EMPTY = {"name": "", "note": "", "alternatives": "none named: all of its kind"}
#: Takes a field and its new value.
Take = Callable[[str, object], None]


def fields_of(part_class: type[Part]) -> list[str]:
    """Give the fields of a class in the order of the form."""
    own = [f for f in part_class.model_fields if f not in (*_FIRST, *_LAST)]
    order = (*_FIRST, *own, *_LAST)
    return [field for field in order if field in part_class.model_fields]


class FormBody(QWidget):
    """All figures of a part of one class.

    Parameters
    ----------
    part_class : type of Part
    take : callable
        Takes a field's name and value; raises a ValueError with one sentence.
    typed : callable
        Called when a text changes.
    """

    def __init__(self, part_class: type[Part], take: Take, typed: Callable[[], None]) -> None:
        super().__init__()
        self._take, self._typed = take, typed
        self._part: Part | None = None
        self._arranged: tuple[int, float] | None = None
        self.fields: dict[str, TypedField] = {}
        self.choices: dict[str, Choice] = {}
        self._labels: dict[str, QLabel] = {}
        for field in fields_of(part_class):
            self._add_field(part_class, field)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)

    def show_part(self, part: Part, *, afresh: bool) -> None:
        """Show a part; afresh, what was typed before is forgotten."""
        self._part = part
        for field, line in self.fields.items():
            line.show_value(text_of(getattr(part, field)))
            if afresh:
                line.restore()
        for field, choice in self.choices.items():
            choice.setCurrentIndex(choice.findData(getattr(part, field)))

    def _add_field(self, part_class: type[Part], field: str) -> None:
        """Make one field with its label."""
        words = field_words(part_class, field)
        unit = f", {words.unit}" if words.unit else ""
        label = QLabel(f"{words.label}{unit}")
        label.setProperty("quiet", True)
        widget: QWidget
        choices = self._choices(part_class, field)
        if choices is not None:
            widget = self._new_choice(field, choices)
        else:
            take = partial(self._typed_in, part_class, field)
            line = TypedField(f"{words.label}{unit}", take)
            line.setPlaceholderText(_EMPTY.get(field, NOT_KNOWN))
            if field in ("name", *_WIDE):
                line.setAlignment(Qt.AlignmentFlag.AlignLeft)
            line.textChanged.connect(lambda _text: self._typed())
            widget = self.fields[field] = line
        widget.setAccessibleName(f"{words.label}{unit}")
        for each in (label, widget):
            each.setToolTip(words.help)
        label.setBuddy(widget)
        self._labels[field] = label

    def _choices(self, part_class: type[Part], field: str) -> dict[str, Any] | None:
        """Give what a field can be chosen from; None where it is typed."""
        if field != "kind":
            return choices_of(part_class, field)
        other = issubclass(part_class, OtherPart)
        return {kind_words(k): k for k in (OTHER_KINDS if other else kinds_of(part_class))}

    def _new_choice(self, field: str, choices: dict[str, Any]) -> Choice:
        choice = self.choices[field] = Choice()
        for words, value in choices.items():
            choice.addItem(words, value)
        choice.activated.connect(lambda _index: self._chosen(field, choice))
        return choice

    def _typed_in(self, part_class: type[Part], field: str, text: str) -> None:
        """Hand a typed figure over."""
        self._take(field, read_figure(part_class, field, text))

    def _chosen(self, field: str, choice: Choice) -> None:
        """Hand a chosen value over; where it cannot be, go back to the one before."""
        self._take(field, choice.currentData())
        if self._part is not None:
            choice.setCurrentIndex(choice.findData(getattr(self._part, field)))

    def arrange(self, columns: int, scale: float) -> None:
        """Put the fields into columns, read downwards."""
        if (columns, scale) == self._arranged:
            return
        self._arranged = (columns, scale)
        while self._grid.count():
            self._grid.takeAt(0)
        self._grid.setHorizontalSpacing(round(10 * scale))
        self._grid.setVerticalSpacing(round(6 * scale))
        narrow = [field for field in self._labels if field not in ("name", *_WIDE)]
        high = -(-len(narrow) // columns)
        self._put("name", 0, 0, 2 * columns - 1)
        for number, field in enumerate(narrow):
            self._put(field, 2 * (1 + number % high), 2 * (number // high), 1)
        for number, field in enumerate(f for f in _WIDE if f in self._labels):
            self._put(field, 2 * (1 + high + number), 0, 2 * columns - 1)
        for column in range(max(8, self._grid.columnCount())):
            self._grid.setColumnStretch(column, 1 if column % 2 and column < 2 * columns else 0)

    def _put(self, field: str, row: int, column: int, span: int) -> None:
        """Put a label, its field and what is wrong with it into the grid."""
        widget = self.fields.get(field) or self.choices[field]
        self._grid.addWidget(self._labels[field], row, column)
        self._grid.addWidget(widget, row, column + 1, 1, span)
        if field in self.fields:
            self._grid.addWidget(self.fields[field].complaint, row + 1, column, 1, 1 + span)

    def follow(self, widget: QWidget) -> None:
        """Let the tab key go from a widget to the first field, and on in the form's order."""
        fields = [self.fields.get(field) or self.choices[field] for field in self._labels]
        for before, after in pairwise([widget, *fields]):
            self.setTabOrder(before, after)
