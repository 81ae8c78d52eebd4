"""The figures of one part, each to be typed; what is not known stands empty and says so.

The fields of a class of parts are made once, and shown again for the next part of it.
"""

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.rig_editor.choice import Choice
from app.rig_editor.figure_text import read_figure, text_of
from app.rig_editor.form_body import FormBody, Take
from app.shared.typed_field import TypedField
from core.errors import CoreError
from core.gear.parts import Part

__all__ = ["PartForm"]

#: A column of label and field, pixels at text size 1.
_COLUMN_PX = 250


class PartForm(QWidget):
    """All figures of a part.

    Parameters
    ----------
    take : callable
        Takes a field's name and value; raises a ValueError with one sentence.
    """

    typed = Signal()

    def __init__(self, take: Take) -> None:
        super().__init__()
        self._take = take
        self._part: Part | None = None
        self._key: object = None
        self._scale = 1.0
        self._showing = False
        #: What the tab key leaves for the first field.
        self.after: QWidget | None = None
        self._bodies: dict[type[Part], FormBody] = {}
        self._body: FormBody | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)

    @property
    def fields(self) -> dict[str, TypedField]:
        """The lines to type into, by field."""
        return self._body.fields if self._body is not None else {}

    @property
    def choices(self) -> dict[str, Choice]:
        """The lists to choose from, by field."""
        return self._body.choices if self._body is not None else {}

    def set_style(self, scale: float) -> None:
        """Change the text size."""
        self._scale = scale
        self._arrange()

    def show_part(self, part: Part, key: object) -> None:
        """Show a part.

        Parameters
        ----------
        part : Part
        key : object
            What it is shown for (rig and slot); another one forgets what was typed.
        """
        afresh, self._key, self._part = key != self._key, key, part
        self._showing = True
        self._bring(type(part)).show_part(part, afresh=afresh)
        self._showing = False

    def forget(self) -> None:
        """Have what was typed and not taken forgotten when the next part is shown."""
        self._key = None

    def typed_part(self) -> Part | None:
        """Give the part as it would be with what is being typed; None where it cannot be."""
        part = self._part
        if part is None:
            return None
        try:
            changes = {
                field: read_figure(type(part), field, line.text())
                for field, line in self.fields.items()
                if line.isModified() and line.text() != text_of(getattr(part, field))
            }
            return part.but(**changes) if changes else None
        except CoreError:
            return None

    def first(self) -> QWidget:
        """Give the field that the keyboard comes to first."""
        return self.fields["name"]

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Have as many columns as there is room for."""
        super().resizeEvent(event)
        self._arrange()

    def _bring(self, part_class: type[Part]) -> FormBody:
        """Show the fields of a class, made when they are first needed."""
        body = self._bodies.get(part_class)
        if body is None:
            body = self._bodies[part_class] = FormBody(part_class, self._take, self._text_changed)
            body.hide()
            self._column.addWidget(body)
        if body is not self._body:
            if self._body is not None:
                self._body.hide()
            self._body = body
            self._arrange()
            body.show()
            if self.after is not None:
                body.follow(self.after)
        return body

    def _text_changed(self) -> None:
        """Tell that somebody types, or gives up what was typed."""
        if not self._showing:
            self.typed.emit()

    def _arrange(self) -> None:
        """Give the fields as many columns as there is room for."""
        if self._body is not None:
            columns = max(1, int(self.width() / (_COLUMN_PX * self._scale)))
            self._body.arrange(columns, self._scale)
