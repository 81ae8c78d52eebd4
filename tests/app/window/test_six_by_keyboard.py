"""Two of the six classes of rig built in the whole window by the keyboard alone.

Every key goes to what has the keyboard at that moment, as a person's does: arrows along the
drawing, Enter to the figures, Tab from figure to figure.
"""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton, QWidget

from app.rig_editor.beam_layout import ADD
from app.rig_editor.part_handle import PartHandle
from app.session import Session
from app.words.part_words import field_words, kind_words
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of
from tests.app.rig_editor.building import begin_blank, spelled
from tests.app.window.hands import CTRL, OpenWindow
from tests.core.gear.test_six_classes import six

pytestmark = pytest.mark.gui
KEY = Qt.Key
_CHOICES = {None: "not known", True: "yes", False: "no"}


def focused() -> QWidget:
    QApplication.processEvents()
    widget = QApplication.focusWidget()
    assert widget is not None, "nothing has the keyboard"
    return widget


def press(key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(focused(), key, held)


def press_until(key: Qt.Key, holds, most: int = 60) -> None:
    """Press a key until something holds; that it never does is a failure."""
    for _ in range(most):
        if holds(focused()):
            return
        press(key)
    pytest.fail(f"{most} times {key.name}, and still at {focused().accessibleName()!r}")


def walk_to(slot: Slot) -> None:
    """Walk along the drawing, from anywhere on the page."""
    press_until(KEY.Key_Backtab, lambda widget: isinstance(widget, PartHandle))
    press(KEY.Key_Home)
    press_until(KEY.Key_Right, lambda widget: getattr(widget, "slot", None) == slot)


def add(kind: str) -> None:
    """Walk to the place for a new part and take a blank one of a kind."""
    walk_to(Slot("camera"))
    walk_to(ADD)
    press(KEY.Key_Return)
    assert focused().accessibleName() == "Kind of part"
    press(KEY.Key_Home)
    press_until(KEY.Key_Down, lambda widget: widget.currentText() == kind_words(kind))
    press_until(KEY.Key_Tab, lambda widget: getattr(widget, "text", str)() == "A blank one")
    assert isinstance(focused(), QPushButton)
    press(KEY.Key_Space)


def type_over(widget: QWidget, value: object) -> None:
    """Give the field that has the keyboard another value."""
    if isinstance(widget, QComboBox):
        words = _CHOICES.get(value, value)
        press(KEY.Key_Home)
        press_until(KEY.Key_Down, lambda choice: choice.currentText() == words)
    else:
        assert isinstance(widget, QLineEdit)
        assert widget.selectedText() == widget.text(), "Tab selects what it comes to"
        QTest.keyClicks(widget, spelled(value))


def fill_in(session: Session, slot: Slot, wanted: Part) -> None:
    """Go from a part of the drawing to its figures and through all of them with Tab."""
    press(KEY.Key_Return)
    left = {}
    part = slots_of(session.rig.rig)[slot]
    for field in type(wanted).model_fields:
        if getattr(part, field) != getattr(wanted, field):
            words = field_words(type(wanted), field)
            left[f"{words.label}{', ' if words.unit else ''}{words.unit}"] = field
    while left:
        press_until(KEY.Key_Tab, lambda widget: widget.accessibleName() in left)
        field = left.pop(focused().accessibleName())
        type_over(focused(), getattr(wanted, field))
    press(KEY.Key_Tab)


@pytest.mark.parametrize("letter", ["a", "d"])
def test_a_rig_is_built_with_no_hand_on_the_mouse(open_window: OpenWindow, letter: str) -> None:
    shell = open_window(settle=False)
    session, wanted = shell.workbench.session, six()[letter]
    begin_blank(session)
    shell.workbench.sheet.setFocus()
    press(KEY.Key_E, CTRL)
    for slot, part in slots_of(wanted).items():
        if slot in (Slot("telescope"), Slot("camera")):
            walk_to(slot)
        else:
            add(slot.field if slot.place is None else part.kind)
        assert focused().slot == slot
        fill_in(session, slot, part)
    press_until(KEY.Key_Backtab, lambda widget: widget.accessibleName() == "Name of the rig")
    type_over(focused(), wanted.name)
    press(KEY.Key_Return)
    built: Rig = session.rig.rig
    assert built == wanted
    press(KEY.Key_Escape)
    assert not session.bench_open
    assert shell.workbench.sheet.hasFocus()
