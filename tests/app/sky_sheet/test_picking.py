"""What the cursor promises, what a click chooses, what the menu offers, what is read out."""

import math

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.sky_sheet.context_menu import context_menu
from app.sky_sheet.frame_shape import Part
from app.sky_sheet.readout import pointer_words
from app.sky_sheet.sheet import SkySheet
from core.plan import edits
from core.sky.angles import parse_position
from tests.app.sky_sheet.canvas import RECT, transform_at

pytestmark = pytest.mark.gui

LEFT, NO_KEY = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
Shape = Qt.CursorShape


def hover(sheet: SkySheet, point: QPointF) -> None:
    """Come to a point from beside it: Qt swallows a move to where the pointer is."""
    for stop in (point.toPoint() + QPoint(1, 0), point.toPoint()):
        QTest.mouseMove(sheet, stop)
        QApplication.processEvents()


def only(sheet: SkySheet, rig_id: str) -> None:
    """Hide every frame but one."""
    plan = sheet.session.plan
    for rig in plan.rigs:
        plan = edits.with_rig_shown(plan, rig.id, shown=rig.id == rig_id)
    sheet.session.edit("alone", plan)


def test_the_cursor_says_what_a_press_would_do(sheet: SkySheet, fitting: str) -> None:
    only(sheet, fitting)
    shape = sheet.shape(fitting)
    hover(sheet, shape.flag)
    assert sheet.cursor().shape() == Shape.PointingHandCursor
    hover(sheet, shape.centre)
    assert sheet.cursor().shape() == Shape.SizeAllCursor
    hover(sheet, QPointF(*shape.points[0]))
    assert sheet.cursor().shape() == Shape.SizeAllCursor
    hover(sheet, sheet.sky_rect.topLeft() + QPointF(30, 30))
    assert sheet.cursor().shape() == Shape.OpenHandCursor
    hover(sheet, QPointF(10, 300))
    assert sheet.cursor().shape() == Shape.ArrowCursor


def test_inside_another_frame_a_press_takes_the_sky(sheet: SkySheet, fitting: str) -> None:
    only(sheet, fitting)
    sheet.session.edit("none", edits.with_current_rig(sheet.session.plan, None))
    inside = sheet.shape(fitting).centre
    hover(sheet, inside)
    assert sheet.cursor().shape() == Shape.OpenHandCursor
    QTest.mousePress(sheet, LEFT, NO_KEY, inside.toPoint())
    assert type(sheet.gesture).__name__ == "Pan"
    QTest.mouseRelease(sheet, LEFT, NO_KEY, inside.toPoint())


def test_inside_a_chosen_frame_larger_than_the_sheet_a_press_takes_the_sky(
    sheet: SkySheet, fitting: str
) -> None:
    only(sheet, fitting)
    view = sheet.session.plan.view
    small = sheet.session.rig.rig.height_deg / 6.0
    framing = sheet.session.framing(fitting)
    sheet.session.set_view(
        view.model_copy(
            update={"ra_deg": framing.ra_deg, "dec_deg": framing.dec_deg, "width_deg": small}
        )
    )
    assert sheet.shape(fitting).hides(sheet.sky_rect)
    middle = sheet.sky_rect.center()
    hover(sheet, middle)
    assert sheet.cursor().shape() == Shape.OpenHandCursor
    QTest.mousePress(sheet, LEFT, NO_KEY, middle.toPoint())
    assert type(sheet.gesture).__name__ == "Pan"
    QTest.mouseRelease(sheet, LEFT, NO_KEY, middle.toPoint())


def test_a_click_on_a_flag_chooses_its_frame_whatever_lies_under_it(sheet: SkySheet) -> None:
    for rig_id, shape in list(sheet.layers.shapes(sheet.transform).items()):
        if shape.flag is None:
            continue
        QTest.mouseClick(sheet, LEFT, NO_KEY, sheet.shape(rig_id).flag.toPoint())
        assert sheet.session.plan.current_rig == rig_id


def test_clicks_at_one_place_go_round_all_frames_there(sheet: SkySheet) -> None:
    session = sheet.session
    session.edit("none", edits.with_current_rig(session.plan, None))
    middle = sheet.sky_rect.center() + QPointF(3.0, 4.0)
    there = {
        s.rig_id
        for s in sheet.layers.shapes(sheet.transform).values()
        if s.hit(middle) is not Part.NOTHING
    }
    seen = []
    for _ in range(len(there) + 1):
        QTest.mouseClick(sheet, LEFT, NO_KEY, middle.toPoint())
        seen.append(session.plan.current_rig)
    assert set(seen) == there
    assert seen[0] == seen[-1]


def test_a_click_beside_all_frames_keeps_the_chosen_one(sheet: SkySheet, fitting: str) -> None:
    only(sheet, fitting)
    QTest.mouseClick(sheet, LEFT, NO_KEY, (sheet.sky_rect.topLeft() + QPointF(30, 30)).toPoint())
    assert sheet.session.plan.current_rig == fitting


def test_a_click_brings_the_keys_to_the_sheet(sheet: SkySheet, qtbot) -> None:
    sheet.clearFocus()
    QTest.mouseClick(sheet, LEFT, NO_KEY, QPoint(10, 300))
    qtbot.waitUntil(sheet.hasFocus)


# Readout ------------------------------------------------------------------------


@pytest.mark.parametrize(("ra", "dec"), [(10.0, 40.0), (359.999, -5.0), (83.0, 89.5)])
def test_the_readout_is_the_place_under_the_pointer_and_its_distance(ra: float, dec: float) -> None:
    transform = transform_at(ra, dec, 2.0)
    for way in (QPointF(0, 0), QPointF(120, -75), QPointF(-300, 200)):
        words = pointer_words(transform, RECT.center() + way)
        place, rest = words.split(" · ")
        x, y = transform.sky_to_screen(*parse_position(place))[0] - (
            RECT.center().x(),
            RECT.center().y(),
        )
        assert math.hypot(x - way.x(), y - way.y()) < 0.5
        assert rest.endswith(" from the middle")
        number, unit = float(rest.split()[0][:-1]), rest.split()[0][-1]
        apart_px = (
            math.tan(math.radians(number / {"°": 1, "′": 60, "″": 3600}[unit]))
            * transform.px_per_rad
        )
        assert apart_px == pytest.approx(math.hypot(way.x(), way.y()), abs=3)


def test_the_readout_goes_when_the_pointer_leaves_the_sky(sheet: SkySheet) -> None:
    said: list[str] = []
    sheet.session.pointed.connect(said.append)
    hover(sheet, sheet.sky_rect.center())
    assert said[-1] == pointer_words(sheet.transform, sheet.sky_rect.center().toPoint().toPointF())
    hover(sheet, QPointF(10, 300))
    assert said[-1] == ""


# The menu -----------------------------------------------------------------------


def test_the_menu_offers_every_frame_touched_and_chooses_the_one_named(
    sheet: SkySheet, fitting: str
) -> None:
    session = sheet.session
    point = QPointF(*sheet.shape(fitting).points[1])
    menu = context_menu(sheet, point)
    there = [
        s.rig_id
        for s in sheet.layers.shapes(sheet.transform).values()
        if s.hit(point) is not Part.NOTHING
    ]
    assert fitting in there
    assert len(there) >= 2
    offered = [a for a in menu.actions() if a.text().startswith("Choose ")]
    names = [f"Choose {session.letter(r)} · {session.planned_rig(r).rig.name}" for r in there]
    assert [a.text() for a in offered] == names
    offered[-1].trigger()
    assert session.plan.current_rig == there[-1]
    menu.deleteLater()


def test_without_a_rig_no_frame_can_be_pointed(sheet: SkySheet) -> None:
    def aim() -> bool:
        menu = context_menu(sheet, sheet.sky_rect.center())
        menu.deleteLater()
        return next(a for a in menu.actions() if a.text().startswith("Point")).isEnabled()

    session = sheet.session
    assert aim()
    session.edit("clear", session.plan.but(rigs=(), framings=(), current_rig=None))
    assert not aim()


def test_copying_a_place_says_so(sheet: SkySheet) -> None:
    said: list[tuple[str, str]] = []
    sheet.session.said.connect(lambda text, level: said.append((text, level)))
    menu = context_menu(sheet, sheet.sky_rect.center())
    copy = menu.actions()[0]
    copy.trigger()
    assert said == [(f"Copied {copy.text()[5:]}.", "good")]
    assert QApplication.clipboard().text() == copy.text()[5:]
    menu.deleteLater()


def ask_for_menu(sheet: SkySheet, at: QPoint) -> None:
    reason = QContextMenuEvent.Reason.Mouse
    QApplication.sendEvent(sheet, QContextMenuEvent(reason, at, sheet.mapToGlobal(at)))


def test_a_right_click_opens_the_menu_under_the_pointer_on_the_sky_alone(sheet: SkySheet) -> None:
    sheet.move(40, 60)
    ask_for_menu(sheet, QPoint(10, 300))
    assert QApplication.activePopupWidget() is None
    ask_for_menu(sheet, QPoint(400, 300))
    menu = QApplication.activePopupWidget()
    assert menu is not None
    assert (menu.pos() - sheet.mapToGlobal(QPoint(400, 300))).manhattanLength() <= 4
    menu.close()


def test_no_menu_opens_in_mid_drag(sheet: SkySheet, fitting: str) -> None:
    start = sheet.shape(fitting).centre.toPoint()
    QTest.mousePress(sheet, LEFT, NO_KEY, start)
    ask_for_menu(sheet, start)
    assert QApplication.activePopupWidget() is None
    QTest.mouseRelease(sheet, LEFT, NO_KEY, start)
