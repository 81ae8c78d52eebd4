"""The sheet in a person's hand: drag, turn, zoom, keys, undo."""

import math

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.sky_sheet.context_menu import context_menu
from app.sky_sheet.sheet import SkySheet
from core.catalogue.target import TargetKind
from core.plan import edits
from core.sky.angles import parse_position, wrap_180
from core.sky.sphere import separation_rad

pytestmark = pytest.mark.gui

LEFT = Qt.MouseButton.LeftButton
NO_KEY = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier


def drag(sheet: SkySheet, start: QPointF, *stops: QPointF, held=NO_KEY, button=LEFT) -> None:
    """Press, move and let go as a hand does."""
    QTest.mousePress(sheet, button, held, start.toPoint())
    for stop in stops:
        QTest.mouseMove(sheet, stop.toPoint())
        QApplication.processEvents()
    QTest.mouseRelease(sheet, button, held, stops[-1].toPoint())


def choose(sheet: SkySheet, rig_id: str) -> None:
    session = sheet.session
    session.edit("choose", edits.with_current_rig(session.plan, rig_id))


def framing(sheet: SkySheet):
    return sheet.session.framing(sheet.session.plan.current_rig)


def apart_px(sheet: SkySheet, ra: float, dec: float, point: QPointF) -> float:
    x, y = sheet.transform.sky_to_screen(ra, dec)[0]
    return math.hypot(x - point.x(), y - point.y())


def test_dragging_a_frame_moves_its_centre_as_far(sheet: SkySheet, fitting: str) -> None:
    before = framing(sheet)
    start = sheet.shape(fitting).centre
    end = start + QPointF(57.0, -34.0)
    drag(sheet, start, start + QPointF(20, -10), end)
    after = framing(sheet)
    assert apart_px(sheet, after.ra_deg, after.dec_deg, end) < 1.5
    assert after.pa_deg == before.pa_deg


def test_undo_puts_a_dragged_frame_back_in_one_step(sheet: SkySheet, fitting: str) -> None:
    before = framing(sheet)
    start = sheet.shape(fitting).centre
    drag(sheet, start, start + QPointF(20, 10), start + QPointF(40, 20), start + QPointF(60, 30))
    moved = framing(sheet)
    sheet.session.history.undo()
    assert framing(sheet) == before
    sheet.session.history.redo()
    assert framing(sheet) == moved


def test_the_stalk_turns_the_frame_to_the_pointer(sheet: SkySheet, fitting: str) -> None:
    shape = sheet.shape(fitting)
    end = shape.centre + QPointF(-150.0, 0.0)
    drag(sheet, shape.flag, shape.centre + QPointF(-90, -90), end)
    assert abs(wrap_180(framing(sheet).pa_deg - 90.0)) < 0.7


def test_shift_snaps_the_turn_to_five_degrees(sheet: SkySheet, fitting: str) -> None:
    shape = sheet.shape(fitting)
    turned = math.radians(62.0)
    end = shape.centre + QPointF(-140.0 * math.sin(turned), -140.0 * math.cos(turned))
    QTest.mousePress(sheet, LEFT, NO_KEY, shape.flag.toPoint())
    sheet.gesture.follow(end, SHIFT)
    QTest.mouseRelease(sheet, LEFT, NO_KEY, end.toPoint())
    assert framing(sheet).pa_deg == pytest.approx(60.0, abs=1e-9)


def test_escape_gives_a_drag_up(sheet: SkySheet, fitting: str) -> None:
    before, steps = framing(sheet), sheet.session.history.count()
    start = sheet.shape(fitting).centre
    QTest.mousePress(sheet, LEFT, NO_KEY, start.toPoint())
    QTest.mouseMove(sheet, (start + QPointF(50, 0)).toPoint())
    QApplication.processEvents()
    assert framing(sheet) != before
    QTest.keyClick(sheet, Qt.Key.Key_Escape)
    QTest.mouseRelease(sheet, LEFT, NO_KEY, (start + QPointF(50, 0)).toPoint())
    assert framing(sheet) == before
    assert sheet.session.history.count() == steps


def test_dragging_the_sky_carries_it_along(sheet: SkySheet, fitting: str) -> None:
    start = sheet.sky_rect.topLeft() + QPointF(25.0, 25.0)
    held = sheet.transform.to_sky(start)
    end = start + QPointF(80.0, 45.0)
    drag(sheet, start, start + QPointF(30, 20), end, button=Qt.MouseButton.MiddleButton)
    assert apart_px(sheet, *held, end.toPoint().toPointF()) < 1.5


def test_a_pan_is_no_step_to_undo_but_a_view_to_go_back_to(sheet: SkySheet) -> None:
    before, steps = sheet.session.plan.view, sheet.session.history.count()
    middle = sheet.sky_rect.center()
    drag(sheet, middle, middle + QPointF(40, 5), middle + QPointF(90, 9),
         button=Qt.MouseButton.MiddleButton)  # fmt: skip
    assert sheet.session.plan.view != before
    assert sheet.session.history.count() == steps
    sheet.session.step_view(back=True)
    assert sheet.session.plan.view == before


def test_the_wheel_zooms_at_the_pointer(sheet: SkySheet) -> None:
    point = sheet.sky_rect.center() + QPointF(120.0, -70.0)
    held, width = sheet.transform.to_sky(point), sheet.session.plan.view.width_deg
    wheel(sheet, point, 120)
    assert sheet.session.plan.view.width_deg < width
    assert apart_px(sheet, *held, point) < 0.01
    wheel(sheet, point, -120)
    assert sheet.session.plan.view.width_deg == pytest.approx(width, rel=1e-9)


def test_ctrl_and_wheel_turn_by_one_degree_and_with_shift_by_a_tenth(
    sheet: SkySheet, fitting: str
) -> None:
    before = framing(sheet).pa_deg
    wheel(sheet, sheet.sky_rect.center(), 120, CTRL)
    assert wrap_180(framing(sheet).pa_deg - before) == pytest.approx(1.0, abs=1e-6)
    wheel(sheet, sheet.sky_rect.center(), -120, CTRL | SHIFT)
    assert wrap_180(framing(sheet).pa_deg - before) == pytest.approx(0.9, abs=1e-6)


def wheel(sheet: SkySheet, point: QPointF, delta: int, held=NO_KEY) -> None:
    event = QWheelEvent(
        point, sheet.mapToGlobal(point), QPoint(), QPoint(0, delta), Qt.MouseButton.NoButton,
        held, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(sheet, event)


@pytest.mark.parametrize(
    ("key", "way"),
    [
        (Qt.Key.Key_Right, (1, 0)),
        (Qt.Key.Key_Left, (-1, 0)),
        (Qt.Key.Key_Up, (0, -1)),
        (Qt.Key.Key_Down, (0, 1)),
    ],
)
def test_arrow_keys_move_the_frame_that_way_on_the_screen(
    sheet: SkySheet, fitting: str, key: Qt.Key, way: tuple[int, int]
) -> None:
    before = sheet.shape(fitting).centre
    QTest.keyClick(sheet, key)
    moved = sheet.shape(fitting).centre - before
    step = math.hypot(moved.x(), moved.y())
    assert step > 1.0
    assert (moved.x() / step, moved.y() / step) == pytest.approx(way, abs=1e-3)


def test_ten_fine_steps_are_one_step_and_one_undo(sheet: SkySheet, fitting: str) -> None:
    before = sheet.session.plan
    QTest.keyClick(sheet, Qt.Key.Key_Right)
    coarse = framing(sheet)
    sheet.session.history.undo()
    for _ in range(10):
        QTest.keyClick(sheet, Qt.Key.Key_Right, SHIFT)
    fine = framing(sheet)
    angles = map(math.radians, (coarse.ra_deg, coarse.dec_deg, fine.ra_deg, fine.dec_deg))
    assert math.degrees(separation_rad(*angles)) * 3600.0 < 2.0
    sheet.session.history.undo()
    assert sheet.session.plan.framings == before.framings


def test_ctrl_left_turns_counterclockwise_on_the_sheet(sheet: SkySheet, fitting: str) -> None:
    before = framing(sheet).pa_deg
    QTest.keyClick(sheet, Qt.Key.Key_Left, CTRL)
    assert wrap_180(framing(sheet).pa_deg - before) == pytest.approx(1.0)
    QTest.keyClick(sheet, Qt.Key.Key_Right, CTRL | SHIFT)
    assert wrap_180(framing(sheet).pa_deg - before) == pytest.approx(0.9)


def test_alt_and_arrow_move_the_sky_not_the_frame(sheet: SkySheet, fitting: str) -> None:
    before, view = framing(sheet), sheet.session.plan.view
    QTest.keyClick(sheet, Qt.Key.Key_Right, ALT)
    assert sheet.session.plan.view != view
    assert framing(sheet) == before


def test_a_letter_chooses_the_frame_with_that_flag(sheet: SkySheet) -> None:
    for rig in sheet.session.plan.rigs:
        QTest.keyClicks(sheet, sheet.session.letter(rig.id).lower())
        assert sheet.session.plan.current_rig == rig.id


def test_space_hides_and_shows_the_chosen_frame(sheet: SkySheet, fitting: str) -> None:
    QTest.keyClick(sheet, Qt.Key.Key_Space)
    assert not sheet.session.rig.shown
    assert fitting not in sheet.layers.shapes(sheet.transform)
    QTest.keyClick(sheet, Qt.Key.Key_Space)
    assert sheet.session.rig.shown


def test_a_click_chooses_the_smallest_frame_then_the_next(sheet: SkySheet) -> None:
    sheet.session.edit("none", edits.with_current_rig(sheet.session.plan, None))
    middle = sheet.sky_rect.center().toPoint()
    seen = []
    for _ in range(2):
        QTest.mouseClick(sheet, LEFT, NO_KEY, middle)
        seen.append(sheet.session.planned_rig(sheet.session.plan.current_rig).rig.width_deg)
    smallest = sorted(rig.rig.width_deg for rig in sheet.session.plan.rigs if rig.shown)[:2]
    assert seen == pytest.approx(smallest)


def test_a_double_click_points_the_frame_there(sheet: SkySheet, fitting: str) -> None:
    point = sheet.sky_rect.center() + QPointF(33.0, 21.0)
    QTest.mouseDClick(sheet, LEFT, NO_KEY, point.toPoint())
    now = framing(sheet)
    assert apart_px(sheet, now.ra_deg, now.dec_deg, point.toPoint().toPointF()) < 1e-6


def test_camera_up_turns_the_sheet_until_the_stalk_points_up(sheet: SkySheet, fitting: str) -> None:
    sheet.session.change_view(camera_up=True)
    assert sheet.shape(fitting).up == pytest.approx((0.0, -1.0), abs=1e-6)
    sheet.session.history.undo()
    assert sheet.shape(fitting).up != pytest.approx((0.0, -1.0), abs=1e-3)


def test_mirrored_the_frame_turns_the_other_way_on_the_screen(
    sheet: SkySheet, fitting: str
) -> None:
    x, y = sheet.shape(fitting).up
    sheet.session.change_view(mirrored=True)
    assert sheet.shape(fitting).up == pytest.approx((-x, y), abs=1e-6)


def test_a_drag_works_on_a_mirrored_camera_up_sheet(sheet: SkySheet, fitting: str) -> None:
    sheet.session.change_view(mirrored=True, camera_up=True)
    start = sheet.shape(fitting).centre
    end = (start + QPointF(41.0, 23.0)).toPoint().toPointF()
    drag(sheet, start.toPoint().toPointF(), start + QPointF(9, 9), end)
    now = framing(sheet)
    assert apart_px(sheet, now.ra_deg, now.dec_deg, end) < 1.5


def test_a_right_click_offers_the_place_and_the_frames_there(sheet: SkySheet, fitting: str) -> None:
    point = sheet.shape(fitting).centre + QPointF(11.0, 7.0)
    menu = context_menu(sheet, point)
    words = {action.text(): action for action in menu.actions()}
    assert f"Choose {sheet.session.letter(fitting)} · {sheet.session.rig.rig.name}" in words
    words["Point the chosen frame here"].trigger()
    now = framing(sheet)
    assert apart_px(sheet, now.ra_deg, now.dec_deg, point) < 1e-6
    copy = next(action for text, action in words.items() if text.startswith("Copy "))
    copy.trigger()
    ra, dec = parse_position(QApplication.clipboard().text())
    assert apart_px(sheet, ra, dec, point) < 1.0
    words["Make this position the target"].trigger()
    assert sheet.session.target.kind is TargetKind.POSITION
    menu.deleteLater()


def test_the_menu_key_asks_about_the_middle_of_the_sheet(sheet: SkySheet) -> None:
    event = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(), QPoint())
    QApplication.sendEvent(sheet, event)
    menu = QApplication.activePopupWidget()
    assert menu is not None
    middle = sheet.transform.to_sky(sheet.sky_rect.center())
    copied = next(a.text() for a in menu.actions() if a.text().startswith("Copy "))
    assert parse_position(copied[5:]) == pytest.approx(middle, abs=1e-3)
    menu.close()


def test_ctrl_0_shows_all_of_the_chosen_frame(sheet: SkySheet) -> None:
    for rig in sheet.session.plan.rigs:
        choose(sheet, rig.id)
        sheet.session.look_at_frame()
        assert sheet.sky_rect.contains(sheet.shape(rig.id).bounds(0.0)) or rig.rig.width_deg > 80
