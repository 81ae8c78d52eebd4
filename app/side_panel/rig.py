"""The panel's third part: the chosen frame in numbers, to read, to type, to copy."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.session import Session
from app.shared.typed_field import TypedField, set_property
from app.side_panel import frame_actions
from app.side_panel.frame_text import centre_words, frame_text
from app.words import rig_actions
from app.words.fit_words import Verdict, fit_of, room_words, verdict_of
from app.words.rig_words import (
    area_words,
    field_words,
    number_words,
    ratio_words,
    scale_words,
    spoken,
)

__all__ = ["FrameNumbers"]

NO_RIG = "No rig is chosen. Click a card below, or a frame on the sheet."
_ROWS = ("Field", "Area", "Image scale", "Focal length", "Room left")


class FrameNumbers(QWidget):
    """Centre and angle to type, the other figures to read, and what can be done.

    Parameters
    ----------
    session : Session
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._pair: tuple[str, str] | None = None
        self.heading = QLabel()
        self.heading.setProperty("heading", True)
        self.heading.setWordWrap(True)
        self.empty = QLabel(NO_RIG)
        self.empty.setWordWrap(True)
        self.verdict = QLabel()
        self.verdict.setWordWrap(True)
        self.centre = TypedField("Centre", lambda text: frame_actions.type_centre(session, text))
        self.angle = TypedField(
            "Camera angle, north through east",
            lambda text: frame_actions.type_angle(session, text),
        )
        self.values = {words: QLabel() for words in _ROWS}
        self._add_buttons()
        self._lay_out()
        self.refresh()

    def _add_buttons(self) -> None:
        """Make the things to do."""
        session = self._session
        self.edit = _button(
            "Edit rig",
            "The rig's parts and their figures, in place of the sheet (Ctrl+E)",
            session.open_bench,
        )
        self.back = _button(
            "Back to target",
            "Centre the frame on the target again, turned as suggested",
            self._go_back,
        )
        self.along = _button("Along the target", "", lambda: frame_actions.turn_along(session))
        self.quarter = _button(
            "Turn by 90°",
            "Turn the camera a quarter further, north through east",
            lambda: frame_actions.turn_quarter(session),
        )
        self.copy = _button("Copy numbers", "Centre, angle, field and corners as text", self._copy)

    def _lay_out(self) -> None:
        """Put rows and buttons under each other."""
        self._body = QWidget()
        grid = QGridLayout(self._body)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(5)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self.verdict, 0, 0, 1, 2)
        for words, field in (("Centre", self.centre), ("Camera angle", self.angle)):
            row = grid.rowCount()
            label = _quiet(words)
            label.setBuddy(field)
            grid.addWidget(label, row, 0)
            grid.addWidget(field, row, 1)
            grid.addWidget(field.complaint, row + 1, 0, 1, 2)
        grid.addWidget(self._button_box(), grid.rowCount(), 0, 1, 2)
        for words, value in self.values.items():
            row = grid.rowCount()
            grid.addWidget(_quiet(words), row, 0, Qt.AlignmentFlag.AlignTop)
            value.setAlignment(Qt.AlignmentFlag.AlignRight)
            grid.addWidget(value, row, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for widget in (self.heading, self.empty, self.edit, self._body):
            column.addWidget(widget)

    def _button_box(self) -> QWidget:
        """Put the buttons two by two."""
        box = QWidget()
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 2, 0, 4)
        grid.setSpacing(6)
        for place, button in enumerate((self.back, self.along, self.quarter, self.copy)):
            grid.addWidget(button, place // 2, place % 2)
        return box

    # Following the session -----------------------------------------------------

    def refresh(self) -> None:
        """Show the chosen frame as it is now."""
        rig, target = self._session.rig, self._session.target
        there = rig is not None and target is not None
        self.heading.setVisible(rig is not None)
        self.edit.setVisible(rig is not None)
        self.empty.setVisible(rig is None and bool(self._session.plan.rigs))
        self._body.setVisible(there)
        if rig is not None:
            self.heading.setText(f"{self._session.letter(rig.id)} · {rig.rig.name}")
        if rig is not None and target is not None:
            self._show_typed(rig.id, target.id)
            self._show_values(rig.id)
            self._show_buttons(rig.id)

    def _show_typed(self, rig_id: str, target_id: str) -> None:
        """Fill the two lines; another frame forgets what was typed for the one before."""
        framing = self._session.framing(rig_id)
        self.centre.show_value(centre_words(framing.ra_deg, framing.dec_deg))
        self.angle.show_value(frame_actions.shown_angle(framing.pa_deg))
        if self._pair != (rig_id, target_id):
            self._pair = (rig_id, target_id)
            self.centre.restore()
            self.angle.restore()

    def _show_values(self, rig_id: str) -> None:
        """Fill the rows to read."""
        rig, fit = self._session.planned_rig(rig_id).rig, fit_of(self._session, rig_id)
        footprint = self._session.footprint(rig_id)
        shown = (
            field_words(rig),
            area_words(footprint.solid_angle_deg2),
            scale_words(rig),
            f"{number_words(rig.focal_length_mm, 0)} mm · {ratio_words(rig)}",
            room_words(fit),
        )
        for (words, label), text in zip(self.values.items(), shown, strict=True):
            label.setText(text)
            label.setAccessibleName(f"{words}: {spoken(text)}")
        self._show_verdict(verdict_of(fit))

    def _show_verdict(self, verdict: Verdict | None) -> None:
        """Say in one sentence how the target sits in the frame."""
        level, words = (verdict.level, verdict.full) if verdict is not None else ("", "")
        self.verdict.setText(f"{words[:1].upper()}{words[1:]}." if words else "")
        set_property(self.verdict, "level", level)
        set_property(self.verdict, "quiet", not level)

    def _show_buttons(self, rig_id: str) -> None:
        """Let only that be pressed which can be done, and say why not."""
        self.back.setEnabled(rig_actions.has_own_framing(self._session, rig_id))
        reason = frame_actions.no_angle_reason(self._session)
        self.along.setEnabled(not reason)
        self.along.setToolTip(reason or "Turn the long side of the frame along the target")
        self.along.setAccessibleDescription(self.along.toolTip())

    def _go_back(self) -> None:
        """Point the chosen rig as suggested."""
        rig = self._session.rig
        if rig is not None:
            rig_actions.forget_framing(self._session, rig.id)

    def _copy(self) -> None:
        """Put the numbers on the clipboard and say so."""
        rig = self._session.rig
        if rig is not None:
            QGuiApplication.clipboard().setText(frame_text(self._session, rig.id))
            letter = self._session.letter(rig.id)
            self._session.say(f"The numbers of {letter} are on the clipboard.", "good")


def _button(words: str, hint: str, call: Callable[[], None]) -> QPushButton:
    """Make a button that leaves the default of the window alone."""
    button = QPushButton(words)
    button.setToolTip(hint)
    button.setAutoDefault(False)
    button.clicked.connect(lambda: call())
    return button


def _quiet(words: str) -> QLabel:
    """Make a quiet label."""
    label = QLabel(words)
    label.setProperty("quiet", True)
    return label
