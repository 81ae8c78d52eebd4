"""What a person does on the money pages, and how a test waits for what is looked for."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QTreeWidgetItem
from pytestqt.qtbot import QtBot

from app.rig_money.swaps import SwapsPage
from app.session import Session
from app.shared.typed_field import TypedField
from core.gear.rig import Rig
from core.plan import edits

__all__ = ["choose", "found", "replace_rig", "row_of", "slot_row", "type_value"]

KEY = Qt.Key


def choose(session: Session, place: int) -> None:
    """Choose a rig of the plan by its place."""
    plan = edits.with_current_rig(session.plan, session.plan.rigs[place].id)
    session.edit("choose", plan)


def replace_rig(session: Session, place: int, rig: Rig) -> None:
    """Put other parts into a rig of the plan."""
    rig_id = session.plan.rigs[place].id
    session.edit("other parts", edits.with_rig_changed(session.plan, rig_id, rig))


def type_value(qtbot: QtBot, field: TypedField, text: str, *, enter: bool = True) -> None:
    """Type over what a field shows; what no key gives is pasted."""
    field.setFocus()
    field.selectAll()
    qtbot.keyClick(field, KEY.Key_Delete)
    if text.isascii():
        qtbot.keyClicks(field, text)
    else:
        QGuiApplication.clipboard().setText(text)
        qtbot.keyClick(field, KEY.Key_V, Qt.KeyboardModifier.ControlModifier)
    if enter:
        qtbot.keyClick(field, KEY.Key_Return)


def found(page: SwapsPage, qtbot: QtBot) -> None:
    """Wait until everything that is looked for is there."""
    qtbot.waitUntil(lambda: page.search.finished, timeout=20_000)


def slot_row(page: SwapsPage, words: str) -> QTreeWidgetItem:
    """Give the first row of the table that begins with some words."""
    return next(item for item in page.table.tops if item.text(0).startswith(words))


def row_of(page: SwapsPage, slot: str, part: str) -> QTreeWidgetItem:
    """Give the row of an alternative."""
    item = slot_row(page, slot)
    rows = (item.child(place) for place in range(item.childCount()))
    return next(row for row in rows if row.text(0) == part)
