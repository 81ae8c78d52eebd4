"""With Shift a turn snaps to round angles, and to those along the target, both ways up."""

import math

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from app.sky_sheet.gestures import along_target_deg
from app.sky_sheet.sheet import SkySheet

pytestmark = pytest.mark.gui

LEFT, NO_KEY = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def lay_target(sheet: SkySheet, pa_deg: float, *, trusted: bool) -> None:
    """Give the target another angle, and say whether it may be trusted."""
    session = sheet.session
    changed = {"pa_deg": pa_deg, "angle_trusted": trusted}
    targets = tuple(
        target.model_copy(update=changed) if target.id == session.plan.current_target else target
        for target in session.plan.targets
    )
    session.edit("askew", session.plan.but(targets=targets))


def turned_to(sheet: SkySheet, rig_id: str, pa_deg: float, held: Qt.KeyboardModifier) -> float:
    """Take the stalk, hold the pointer at an angle, let go; give the frame's angle."""
    shape = sheet.shape(rig_id)
    way = math.radians(pa_deg)
    end = shape.centre + QPointF(-400.0 * math.sin(way), -400.0 * math.cos(way))
    QTest.mousePress(sheet, LEFT, NO_KEY, shape.flag.toPoint())
    sheet.gesture.follow(end, held)
    QTest.mouseRelease(sheet, LEFT, NO_KEY, end.toPoint())
    return sheet.session.framing(rig_id).pa_deg


def test_the_angles_along_the_target_are_its_own_and_the_one_upside_down(
    sheet: SkySheet, fitting: str
) -> None:
    lay_target(sheet, 37.3, trusted=True)
    one, other = along_target_deg(sheet.session)
    assert other - one == 180.0
    assert one % 90.0 == pytest.approx(37.3, abs=1e-6)


@pytest.mark.parametrize("upside_down", [False, True])
def test_near_the_target_s_angle_shift_snaps_to_it(
    sheet: SkySheet, fitting: str, upside_down: bool
) -> None:
    lay_target(sheet, 37.3, trusted=True)
    along = along_target_deg(sheet.session)[upside_down] % 360.0
    assert turned_to(sheet, fitting, along + 1.0, SHIFT) == pytest.approx(along, abs=1e-9)
    assert turned_to(sheet, fitting, along + 1.0, NO_KEY) == pytest.approx(along + 1.0, abs=0.3)


def test_an_angle_that_is_not_trusted_draws_no_turn_to_it(sheet: SkySheet, fitting: str) -> None:
    lay_target(sheet, 37.3, trusted=False)
    assert along_target_deg(sheet.session) == ()
    assert turned_to(sheet, fitting, 38.3, SHIFT) == pytest.approx(40.0, abs=1e-9)
