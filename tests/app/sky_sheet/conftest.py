"""A sheet on the screen with the demo plan."""

import pytest
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES
from app.sky_sheet.sheet import SkySheet


@pytest.fixture
def sheet(qtbot: QtBot, session: Session) -> SkySheet:
    """Give a shown sheet of 1000 x 700 pixels on M 31."""
    made = SkySheet(session, THEMES["dark"])
    qtbot.addWidget(made)
    made.resize(1000, 700)
    with qtbot.waitExposed(made):
        made.show()
    session.look_at_target()
    return made
