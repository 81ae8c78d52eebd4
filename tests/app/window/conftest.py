"""A whole window, opened as the command opens it, in folders of its own."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app.window.opening import open_everything
from app.window.places import Places, user_places
from app.window.settings import Settings
from app.window.shell import Shell
from tests.app.window.hands import OpenWindow, wait_for_pictures


@pytest.fixture
def places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Places:
    """Folders of a user who never ran the program."""
    monkeypatch.setenv("SKYSILL_HOME", str(tmp_path / "home"))
    return user_places()


@pytest.fixture
def quick_catalogues(stars, targets, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the opening find the catalogues already read."""
    monkeypatch.setattr("app.window.opening.StarCatalogue.open", lambda: stars)
    monkeypatch.setattr("app.window.opening.TargetTable.load", lambda: targets)


@pytest.fixture
def undressed() -> Iterator[None]:
    """Take from the application, at the end, what a window put on it."""
    app = QApplication.instance()
    style, colours, font = app.styleSheet(), app.palette(), app.font()
    yield
    # Qt must be through with the widgets before it drops the style they point to.
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    app.setStyleSheet(style)
    app.setPalette(colours)
    app.setFont(font)


@pytest.fixture
def open_window(
    qtbot: QtBot, places: Places, quick_catalogues: None, undressed: None
) -> Iterator[OpenWindow]:
    """Open the window as the command does; it is closed at the end of the test."""
    shells: list[Shell] = []

    def open_one(plan_path: str | None = None, settle: bool = True) -> Shell:
        shell = Shell(Settings(places))
        if shell.settings.geometry is None:
            shell.resize(1280, 800)  # the screen without a screen is 800 x 800
        shells.append(shell)
        with qtbot.waitSignal(shell.furnished, timeout=20_000):
            shell.show()
            shell.show_sky(open_everything(places, plan_path), places)
            shell.furnish()
        shell.activateWindow()
        qtbot.waitUntil(shell.isActiveWindow)
        if settle:
            session = shell.workbench.session
            qtbot.waitUntil(lambda: session.chart is not None, timeout=20_000)
            wait_for_pictures(shell, qtbot)
        return shell

    yield open_one
    for shell in shells:
        shell.close()
        shell.deleteLater()


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch):
    """Answer the next file dialog with a path, or give it up; tell what was asked."""
    seen: list[QFileDialog] = []

    class Asked(list):
        answer = ""

    made = Asked()

    def run(dialog: QFileDialog) -> int:
        seen.append(dialog)
        made.append((dialog.windowTitle(), dialog.acceptMode(), dialog.defaultSuffix()))
        return int(bool(made.answer))

    monkeypatch.setattr(QFileDialog, "exec", run)
    monkeypatch.setattr(QFileDialog, "selectedFiles", lambda dialog: [made.answer])
    return made
