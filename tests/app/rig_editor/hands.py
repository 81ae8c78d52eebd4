"""What a person does on the bench: types a figure, drags a part, takes one from the shelf."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.rig_editor.beam_layout import ADD
from app.rig_editor.parts_page import PartsPage
from core.gear.slots import Slot

__all__ = ["KEY", "add_blank", "beam_order", "choose", "click", "drag_to", "take", "type_figure"]

KEY = Qt.Key
_LEFT = Qt.MouseButton.LeftButton


def click(page: PartsPage, slot: Slot) -> None:
    """Click a part of the drawing."""
    QTest.mouseClick(page.beam.handle(slot), _LEFT)
    QApplication.processEvents()


def type_figure(page: PartsPage, field: str, text: str, *, enter: bool = True) -> None:
    """Type into a field of the chosen part."""
    line = page.desk.form.fields[field]
    line.setFocus()
    line.selectAll()
    if text:
        QTest.keyClicks(line, text)
    else:
        QTest.keyClick(line, KEY.Key_Delete)
    if enter:
        QTest.keyClick(line, KEY.Key_Return)


def choose(page: PartsPage, field: str, words: str) -> None:
    """Choose from a list of the chosen part by typing its first letters."""
    choice = page.desk.form.choices[field]
    choice.setFocus()
    place = choice.findText(words)
    assert place >= 0, words
    while choice.currentIndex() != place:
        QTest.keyClick(choice, KEY.Key_Down if choice.currentIndex() < place else KEY.Key_Up)
        choice = page.desk.form.choices[field]


def take(page: PartsPage, kind: str, words: str) -> None:
    """Add a part from the shelf: kind, a few letters, Enter."""
    click(page, ADD)
    page.chooser.choose_kind(kind)
    page.chooser.narrow.setFocus()
    QTest.keyClicks(page.chooser.narrow, words)
    QTest.keyClick(page.chooser.narrow, KEY.Key_Return)
    QApplication.processEvents()


def add_blank(page: PartsPage, kind: str) -> None:
    """Add a part of which nothing is known."""
    click(page, ADD)
    page.chooser.choose_kind(kind)
    QTest.mouseClick(page.chooser.blank, _LEFT)
    QApplication.processEvents()


def drag_to(page: PartsPage, slot: Slot, x: float, *, drop: bool = True) -> None:
    """Carry a part of the beam to a place of the drawing."""
    handle = page.beam.handle(slot)
    start = handle.rect().center()
    goal = QPoint(round(x) - handle.x(), start.y())
    QTest.mousePress(handle, _LEFT, pos=start)
    for n in (1, 2, 3):
        QTest.mouseMove(handle, start + (goal - start) * n / 3)
    QApplication.processEvents()
    if drop:
        QTest.mouseRelease(handle, _LEFT, pos=goal)
        QApplication.processEvents()


def beam_order(page: PartsPage) -> list[str]:
    """Give the names along the beam as they are drawn."""
    assert page.beam.drawing is not None
    return [tile.part.name for tile in page.beam.drawing.row if tile.part is not None]
