"""A hand that is not neat: a second button, a trembling click, a double click, Escape."""

import math

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.sky_sheet.frame_shape import Part
from app.sky_sheet.sheet import SkySheet
from core.plan import edits

pytestmark = pytest.mark.gui

LEFT, MIDDLE, RIGHT = (
    Qt.MouseButton.LeftButton,
    Qt.MouseButton.MiddleButton,
    Qt.MouseButton.RightButton,
)
NO_KEY = Qt.KeyboardModifier.NoModifier


def move(sheet: SkySheet, point: QPointF) -> None:
    QTest.mouseMove(sheet, point.toPoint())
    QApplication.processEvents()


def press(sheet: SkySheet, point: QPointF, button: Qt.MouseButton = LEFT) -> None:
    QTest.mousePress(sheet, button, NO_KEY, point.toPoint())


def release(sheet: SkySheet, point: QPointF, button: Qt.MouseButton = LEFT) -> None:
    QTest.mouseRelease(sheet, button, NO_KEY, point.toPoint())


def double_click(sheet: SkySheet, at: QPoint, button: Qt.MouseButton = LEFT) -> None:
    """All four events of a real double click; QTest sends the third one only."""
    QTest.mouseClick(sheet, button, NO_KEY, at)
    QTest.mouseDClick(sheet, button, NO_KEY, at)
    QTest.mouseRelease(sheet, button, NO_KEY, at)


def wheel(sheet: SkySheet, point: QPointF, way: QPoint) -> None:
    event = QWheelEvent(
        point, sheet.mapToGlobal(point), QPoint(), way, Qt.MouseButton.NoButton,
        NO_KEY, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(sheet, event)


@pytest.mark.parametrize("second", [RIGHT, MIDDLE])
def test_a_second_button_in_mid_drag_changes_nothing(
    sheet: SkySheet, fitting: str, second: Qt.MouseButton
) -> None:
    view, start = sheet.session.plan.view, sheet.shape(fitting).centre.toPoint().toPointF()
    press(sheet, start)
    move(sheet, start + QPointF(40, 10))
    press(sheet, start + QPointF(40, 10), second)
    move(sheet, start + QPointF(50, 20))
    release(sheet, start + QPointF(50, 20), second)
    assert sheet.session.in_hand
    move(sheet, start + QPointF(70, 30))
    release(sheet, start + QPointF(70, 30))
    assert not sheet.session.in_hand
    assert sheet.session.plan.view == view
    now = sheet.session.framing(fitting)
    x, y = sheet.transform.sky_to_screen(now.ra_deg, now.dec_deg)[0]
    assert math.hypot(x - start.x() - 70.0, y - start.y() - 30.0) < 1.5
    assert sheet.session.plan.current_rig == fitting


def test_a_click_with_a_trembling_hand_moves_no_frame(sheet: SkySheet, fitting: str) -> None:
    before, start = sheet.session.plan.framings, sheet.shape(fitting).centre
    press(sheet, start)
    move(sheet, start + QPointF(2, -2))
    release(sheet, start + QPointF(2, -2))
    assert sheet.session.plan.framings == before
    assert not sheet.session.in_hand
    assert sheet.session.plan.current_rig != fitting


def test_a_trembling_click_leaves_no_view_to_go_back_to(sheet: SkySheet) -> None:
    before, middle = sheet.session.plan.view, sheet.sky_rect.center()
    press(sheet, middle, MIDDLE)
    move(sheet, middle + QPointF(2, 1))
    release(sheet, middle + QPointF(2, 1), MIDDLE)
    assert sheet.session.plan.view == before


def test_a_frame_brought_back_to_where_it_was_grabbed_was_dragged_not_clicked(
    sheet: SkySheet, fitting: str
) -> None:
    start = sheet.shape(fitting).centre
    press(sheet, start)
    move(sheet, start + QPointF(50, 30))
    move(sheet, start + QPointF(1, 0))
    release(sheet, start + QPointF(1, 0))
    assert sheet.session.plan.current_rig == fitting


def test_a_double_click_moves_the_frame_that_was_chosen_before_it(
    sheet: SkySheet, fitting: str
) -> None:
    """Its first click alone would choose the next frame there."""
    sheet.session.edit("first", edits.with_current_rig(sheet.session.plan, fitting))
    others = {r.id: sheet.session.framing(r.id) for r in sheet.session.plan.rigs}
    point = sheet.shape(fitting).centre.toPoint() + QPoint(31, 17)
    double_click(sheet, point)
    assert sheet.session.plan.current_rig == fitting
    now = sheet.session.framing(fitting)
    x, y = sheet.transform.sky_to_screen(now.ra_deg, now.dec_deg)[0]
    assert math.hypot(x - point.x(), y - point.y()) < 1e-6
    others.pop(fitting)
    assert others == {rig_id: sheet.session.framing(rig_id) for rig_id in others}


def test_a_double_click_off_the_sky_or_with_another_button_moves_nothing(
    sheet: SkySheet, fitting: str
) -> None:
    before = sheet.session.plan.framings
    double_click(sheet, QPoint(20, 300))
    double_click(sheet, sheet.sky_rect.center().toPoint(), RIGHT)
    double_click(sheet, sheet.sky_rect.center().toPoint(), MIDDLE)
    assert sheet.session.plan.framings == before


def test_a_press_in_the_margin_begins_nothing(sheet: SkySheet) -> None:
    before = sheet.session.plan.view
    press(sheet, QPointF(20, 300), MIDDLE)
    move(sheet, QPointF(200, 330))
    release(sheet, QPointF(200, 330), MIDDLE)
    assert sheet.session.plan.view == before


def test_the_right_button_begins_no_drag(sheet: SkySheet, fitting: str) -> None:
    before, middle = sheet.session.plan, sheet.sky_rect.center()
    press(sheet, middle, RIGHT)
    move(sheet, middle + QPointF(60, 10))
    release(sheet, middle + QPointF(60, 10), RIGHT)
    press(sheet, middle, RIGHT)
    release(sheet, middle, RIGHT)
    assert sheet.session.plan == before


def test_escape_puts_a_dragged_sky_back_and_the_release_after_it_chooses_nothing(
    sheet: SkySheet, fitting: str
) -> None:
    before, middle = sheet.session.plan, sheet.sky_rect.center()
    press(sheet, middle, MIDDLE)
    move(sheet, middle + QPointF(60, 10))
    assert sheet.session.plan.view != before.view
    QTest.keyClick(sheet, Qt.Key.Key_Escape)
    assert sheet.session.plan.view == before.view
    release(sheet, middle, MIDDLE)
    press(sheet, sheet.shape(fitting).centre)
    QTest.keyClick(sheet, Qt.Key.Key_Escape)
    release(sheet, sheet.shape(fitting).centre)
    assert sheet.session.plan == before


def test_no_key_or_wheel_interferes_with_a_drag(sheet: SkySheet, fitting: str) -> None:
    before, start = sheet.session.plan, sheet.shape(fitting).centre
    press(sheet, start)
    move(sheet, start + QPointF(40, 10))
    QTest.keyClick(sheet, Qt.Key.Key_Right)
    QTest.keyClick(sheet, Qt.Key.Key_Space)
    QTest.keyClick(sheet, Qt.Key.Key_Plus)
    wheel(sheet, start, QPoint(0, 120))
    assert sheet.session.plan == before
    QTest.keyClick(sheet, Qt.Key.Key_Escape)
    assert not sheet.session.in_hand


def test_a_frame_grabbed_away_from_its_centre_moves_as_far_as_the_hand(
    sheet: SkySheet, fitting: str
) -> None:
    before = sheet.shape(fitting).centre
    start = (before + QPointF(31, 9)).toPoint().toPointF()
    press(sheet, start)
    for stop in (QPointF(20, 5), QPointF(57, -34)):
        move(sheet, start + stop)
    release(sheet, start + QPointF(57, -34))
    way = sheet.shape(fitting).centre - before
    assert (way.x(), way.y()) == pytest.approx((57.0, -34.0), abs=0.2)


def test_undo_names_a_move_a_move_and_a_turn_a_turn(sheet: SkySheet, fitting: str) -> None:
    history, letter = sheet.session.history, sheet.session.letter(fitting)
    start = sheet.shape(fitting).centre
    press(sheet, start)
    move(sheet, start + QPointF(40, 10))
    release(sheet, start + QPointF(40, 10))
    assert history.undoText() == f"move {letter}"
    flag = sheet.shape(fitting).flag
    press(sheet, flag)
    move(sheet, flag + QPointF(40, 10))
    release(sheet, flag + QPointF(40, 10))
    assert history.undoText() == f"turn {letter}"


def test_a_turn_never_leaves_the_round(sheet: SkySheet, fitting: str) -> None:
    """A stored angle lies in 0 <= PA < 360."""
    shape = sheet.shape(fitting)
    press(sheet, shape.flag)
    move(sheet, shape.centre + QPointF(150.0, 2.0))
    release(sheet, shape.centre + QPointF(150.0, 2.0))
    assert sheet.session.framing(fitting).pa_deg == pytest.approx(270.0, abs=2.0)


def test_a_press_on_another_frame_s_line_chooses_and_moves_that_frame(
    sheet: SkySheet, fitting: str
) -> None:
    session = sheet.session
    spots = [
        (shape.rig_id, QPointF((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))
        for shape in sheet.layers.shapes(sheet.transform).values()
        for a, b in shape.edges()
        if shape.rig_id != fitting
    ]
    alone = [
        (rig_id, at)
        for rig_id, at in spots
        if sheet.sky_rect.adjusted(70, 70, -70, -70).contains(at)
        and not any(
            other.hit(at) in ((Part.STALK, Part.EDGE, Part.BODY) if other.rig_id == fitting
                              else (Part.STALK, Part.EDGE))
            for other in sheet.layers.shapes(sheet.transform).values()
            if other.rig_id != rig_id
        )
    ]  # fmt: skip
    rig_id, at = alone[0]
    before = session.framing(rig_id)
    press(sheet, at)
    assert session.plan.current_rig == rig_id
    move(sheet, at + QPointF(30, 30))
    release(sheet, at + QPointF(30, 30))
    assert session.framing(rig_id) != before


def test_a_press_on_any_flag_turns_that_frame(sheet: SkySheet) -> None:
    for rig_id in list(sheet.layers.shapes(sheet.transform)):
        flag = sheet.shape(rig_id).flag
        if flag is None:
            continue
        press(sheet, flag)
        assert sheet.session.plan.current_rig == rig_id
        assert type(sheet.gesture).__name__ == "TurnFrame"
        release(sheet, flag)
        assert sheet.session.plan.current_rig == rig_id


def test_a_sideways_wheel_zooms_too_and_no_turn_of_it_does_nothing(sheet: SkySheet) -> None:
    width = sheet.session.plan.view.width_deg
    wheel(sheet, sheet.sky_rect.center(), QPoint(0, 0))
    assert sheet.session.plan.view.width_deg == width
    wheel(sheet, sheet.sky_rect.center(), QPoint(120, 0))
    assert sheet.session.plan.view.width_deg == pytest.approx(0.82 * width, rel=0.01)
