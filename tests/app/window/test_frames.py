"""A rig from a frame in the whole window: by the dialog, by dropping, and at the end."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.frame_reading.page import FramePage
from app.window.shell import Shell
from tests.app.frame_reading.dragging import drag, mime
from tests.app.window.hands import CTRL, OpenWindow, message
from tests.core.gear.from_frame.frames import WHOLE, frame

LEFT = Qt.MouseButton.LeftButton


def on_bench(shell: Shell, qtbot: QtBot) -> FramePage:
    """Open the bench by its key; give the page of frames."""
    qtbot.keyClick(shell, Qt.Key.Key_E, CTRL)
    qtbot.waitUntil(lambda: shell.workbench.session.bench_open)
    bench = shell.workbench.bench
    assert bench is not None
    return bench.findChild(FramePage)


def test_a_frame_asked_for_becomes_a_rig_of_the_plan(
    open_window: OpenWindow, qtbot: QtBot, asked, tmp_path: Path
) -> None:
    shell = open_window()
    page = on_bench(shell, qtbot)
    shell.workbench.bench.show_page("From a frame")
    asked.answer = str(frame(tmp_path / "light.fits", **WHOLE))
    qtbot.mouseClick(page.choose, LEFT)
    qtbot.waitUntil(lambda: page.sheet is not None)
    assert asked == [("Read a rig from a frame", QFileDialog.AcceptMode.AcceptOpen, "")]
    qtbot.mouseClick(page.sheet.add, LEFT)
    rig = shell.workbench.session.rig
    assert rig is not None
    assert rig.rig.focal_length_mm == 400.0
    assert message(shell) == "● 80/400 with 40 × 30 px is in the plan, from light.fits."
    assert not page.isVisible(), "the new rig's parts are shown"


def test_a_frame_dropped_on_the_bench_is_read(
    open_window: OpenWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    shell = open_window()
    page = on_bench(shell, qtbot)
    assert not page.isVisible()
    path = frame(tmp_path / "light.fits", **WHOLE)
    drag(shell.workbench.bench.parts, mime(path.as_uri()))
    qtbot.waitUntil(lambda: page.sheet is not None)
    assert page.isVisible()


def test_the_window_waits_at_its_end_for_what_is_being_read(
    open_window: OpenWindow, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    shell = open_window()
    page = on_bench(shell, qtbot)
    page.read(str(frame(tmp_path / "light.fits", **WHOLE)))
    assert page.busy
    shell.close()
    assert not page.busy
