"""A sheet on the screen with the demo plan."""

import math

import pytest
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES
from app.sky_sheet.sheet import SkySheet
from core.plan import edits


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


@pytest.fixture
def fitting(sheet: SkySheet) -> str:
    """Choose a rig whose frame lies on the sheet with sky around it; give its id."""
    transform = sheet.transform
    inside = [
        rig.id
        for rig in sheet.session.plan.rigs
        if sheet.sky_rect.adjusted(60, 60, -60, -60).contains(sheet.shape(rig.id).bounds(0.0))
        and math.radians(rig.rig.height_deg) * transform.px_per_rad > 90
    ]
    plan = edits.with_current_rig(sheet.session.plan, inside[0])
    sheet.session.edit("choose", plan)
    return inside[0]
