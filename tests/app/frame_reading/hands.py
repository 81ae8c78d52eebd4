"""What the tests of the page do with it over and over."""

from collections.abc import Callable

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.frame_reading.page import FramePage
from app.frame_reading.row import FigureRow
from tests.core.gear.from_frame.frames import WHOLE

__all__ = ["BINNED", "Reads", "choose", "click_tick", "press", "row"]

LEFT = Qt.MouseButton.LeftButton
BINNED = {**WHOLE, "XPIXSZ": 7.52, "YPIXSZ": 7.52, "XBINNING": 2, "YBINNING": 2}
#: The fixture that lets a page read a frame of some cards.
Reads = Callable[..., FramePage]


def row(page: FramePage, field: str) -> FigureRow:
    return page.sheet.rows[field]


def press(qtbot: QtBot, button: QPushButton) -> None:
    assert button.isVisible()
    qtbot.mouseClick(button, LEFT)


def click_tick(qtbot: QtBot, page: FramePage, field: str) -> None:
    box = row(page, field).tick
    qtbot.mouseClick(box, LEFT, pos=QPoint(6, box.height() // 2))


def choose(qtbot: QtBot, page: FramePage, field: str, place: int) -> None:
    """Choose by the keyboard, as in any list."""
    readings = row(page, field).readings
    assert readings.isVisible()
    readings.setFocus()
    qtbot.keyClick(readings, Qt.Key.Key_Home if place == 0 else Qt.Key.Key_End)
