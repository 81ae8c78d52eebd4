"""A loader at work for a sheet that is not shown."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QTimer
from pytestqt.qtbot import QtBot

from app.picture_loader import PictureLoader
from app.session import Session
from app.shared.theme import THEMES
from app.sky_sheet.sheet import SkySheet
from tests.app.picture_loader.hands import settle


class Sheet(SkySheet):
    """A sheet on a screen of any fineness, not shown."""

    ratio = 1.0

    def devicePixelRatioF(self) -> float:
        return self.ratio


@pytest.fixture
def sheet(session: Session, qtbot: QtBot) -> Sheet:
    made = Sheet(session, THEMES["dark"])
    qtbot.addWidget(made)
    made.resize(420, 300)
    return made


@pytest.fixture
def loader(session: Session, sheet: Sheet, qtbot: QtBot) -> Iterator[PictureLoader]:
    made = PictureLoader(session, sheet)
    made.words = []
    made.progressed.connect(made.words.append)
    made.refresh()
    settle(made, qtbot)
    yield made
    made.finish()


@pytest.fixture
def heart(qtbot: QtBot) -> Iterator[Callable[[], None]]:
    """Wait until the window's thread has answered some times."""
    beats: list[int] = []
    timer = QTimer(interval=2)
    timer.timeout.connect(lambda: beats.append(1))
    timer.start()

    def beat() -> None:
        seen = len(beats)
        qtbot.waitUntil(lambda: len(beats) >= seen + 5)

    yield beat
    timer.stop()
