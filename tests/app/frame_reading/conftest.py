"""Pages that have read a frame, and what the window is told."""

from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.frame_reading.page import FramePage
from app.session import Session
from app.shared.theme import Theme
from tests.app.frame_reading.hands import Reads
from tests.app.seeing import Host
from tests.core.gear.from_frame.frames import frame


@pytest.fixture
def reads(qtbot: QtBot, session: Session, dark: Theme, host: Host, tmp_path: Path) -> Reads:
    """Give a function that shows a page and lets it read a frame of some cards."""

    def read(cards: dict[str, Any] | None = None, **more: Any) -> FramePage:
        page = FramePage(session, lambda: "", dark, 1.0)
        host(page)
        if cards is not None:
            page.read(str(frame(tmp_path / "light.fits", **cards, **more)))
            qtbot.waitUntil(lambda: not page.busy)
        return page

    return read


@pytest.fixture
def said(session: Session) -> list[tuple[str, str]]:
    heard: list[tuple[str, str]] = []
    session.said.connect(lambda words, level: heard.append((words, level)))
    return heard
