"""What the tests of the window do with it over and over."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QToolButton
from pytestqt.qtbot import QtBot

from app.picture_loader import SurveyService
from app.window.shell import Shell
from core.pictures.cache import PictureCache
from core.pictures.fetch import Servers
from core.pictures.surveys import SURVEYS
from core.pictures.transfer import Limits

__all__ = [
    "CTRL",
    "OpenWindow",
    "choose_survey",
    "entries",
    "message",
    "stop_button",
    "use_service",
    "wait_for_pictures",
]

CTRL = Qt.KeyboardModifier.ControlModifier
#: The fixture that opens a window.
OpenWindow = Callable[..., Shell]


def message(shell: Shell) -> str:
    """Give what the status line says."""
    return shell.workbench.status.text


def entries(menu: QMenu) -> dict[str, QAction]:
    """Give a menu's entries by their words."""
    return {action.text(): action for action in menu.actions() if action.text()}


def use_service(shell: Shell, address: str, cache: PictureCache | None = None, **limits) -> None:
    """Let cutouts come from a loopback service."""
    servers = Servers((address,), Limits(**limits)) if limits else Servers((address,))
    shell.workbench.loader.service = SurveyService(servers, cache)


def choose_survey(shell: Shell, place: int = 0) -> None:
    """Ask for the sky of a survey."""
    shell.workbench.session.change_view(picture=SURVEYS[place].id)


def wait_for_pictures(shell: Shell, qtbot: QtBot) -> None:
    """Wait until no picture is on its way."""
    qtbot.waitUntil(lambda: not shell.workbench.loader.busy, timeout=20_000)


def stop_button(shell: Shell) -> QToolButton:
    """Give the button that gives a picture up."""
    buttons = shell.workbench.status.findChildren(QToolButton)
    return next(button for button in buttons if button.text() == "Stop")
