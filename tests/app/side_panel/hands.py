"""What a person does to the panel's fields, and where the chosen frame then is."""

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.typed_field import TypedField
from core.plan.document import Framing

__all__ = ["framing", "type_value"]

KEY = Qt.Key


def framing(session: Session) -> Framing:
    assert session.rig is not None
    return session.framing(session.rig.id)


def type_value(qtbot: QtBot, field: TypedField, text: str, *, enter: bool = True) -> None:
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    if enter:
        qtbot.keyClick(field, KEY.Key_Return)
