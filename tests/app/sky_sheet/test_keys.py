"""Every key of the sheet, in its direction and its measure."""

import math

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from app.sky_sheet.sheet import SkySheet
from core.plan import edits
from core.sky.angles import wrap_180

pytestmark = pytest.mark.gui

Key, Held = Qt.Key, Qt.KeyboardModifier


def place(sheet: SkySheet, ra: float, dec: float) -> tuple[float, float]:
    x, y = sheet.transform.sky_to_screen(ra, dec)[0]
    return float(x), float(y)


@pytest.mark.parametrize(
    ("key", "factor"),
    [(Key.Key_Plus, 0.82), (Key.Key_Equal, 0.82), (Key.Key_Minus, 1 / 0.82),
     (Key.Key_Underscore, 1 / 0.82)],
)  # fmt: skip
def test_plus_shows_less_sky_and_minus_more_about_the_middle(
    sheet: SkySheet, key: Qt.Key, factor: float
) -> None:
    before = sheet.session.plan.view
    QTest.keyClick(sheet, key)
    after = sheet.session.plan.view

    def half(width_deg: float) -> float:
        return math.tan(math.radians(width_deg) / 2.0)

    assert half(after.width_deg) == pytest.approx(half(before.width_deg) * factor, rel=1e-9)
    assert (after.ra_deg, after.dec_deg) == pytest.approx((before.ra_deg, before.dec_deg), abs=1e-9)


@pytest.mark.parametrize(
    ("key", "way"),
    [
        (Key.Key_Right, (-1, 0)),
        (Key.Key_Left, (1, 0)),
        (Key.Key_Up, (0, 1)),
        (Key.Key_Down, (0, -1)),
    ],
)
@pytest.mark.parametrize(("held", "part"), [(Held.NoModifier, 0.1), (Held.ShiftModifier, 0.02)])
def test_alt_and_an_arrow_look_that_way_so_the_sky_goes_the_other(
    sheet: SkySheet, key: Qt.Key, way: tuple[int, int], held, part: float
) -> None:
    middle = sheet.sky_rect.center()
    held_place = sheet.transform.to_sky(middle)
    QTest.keyClick(sheet, key, Held.AltModifier | held)
    x, y = place(sheet, *held_place)
    step = sheet.sky_rect.width() * part
    assert (x - middle.x(), y - middle.y()) == pytest.approx(
        (way[0] * step, way[1] * step), abs=0.01
    )


def test_an_arrow_moves_the_frame_by_a_fortieth_of_its_height(
    sheet: SkySheet, fitting: str
) -> None:
    height_px = math.radians(sheet.session.rig.rig.height_deg) * sheet.transform.px_per_rad
    before = sheet.shape(fitting).centre
    QTest.keyClick(sheet, Key.Key_Right)
    assert sheet.shape(fitting).centre.x() - before.x() == pytest.approx(height_px / 40, rel=1e-3)
    QTest.keyClick(sheet, Key.Key_Right, Held.ShiftModifier)
    way = sheet.shape(fitting).centre.x() - before.x()
    assert way == pytest.approx(height_px * 11 / 400, rel=1e-3)


def test_an_arrow_moves_no_frame_behind_the_limb(sheet: SkySheet, fitting: str) -> None:
    view = sheet.session.plan.view
    away = {"ra_deg": (view.ra_deg + 180.0) % 360.0, "dec_deg": -view.dec_deg}
    sheet.session.set_view(view.model_copy(update=away))
    before = sheet.session.plan
    QTest.keyClick(sheet, Key.Key_Right)
    assert sheet.session.plan == before


def test_turns_in_a_row_are_one_step_and_choosing_too(sheet: SkySheet, fitting: str) -> None:
    session = sheet.session
    before, steps = session.framing(fitting), session.history.count()
    for _ in range(4):
        QTest.keyClick(sheet, Key.Key_Left, Held.ControlModifier)
    assert session.history.count() == steps + 1
    assert session.history.undoText() == f"turn {session.letter(fitting)}"
    session.history.undo()
    assert session.framing(fitting) == before
    steps = session.history.index()
    for rig in session.plan.rigs:
        QTest.keyClicks(sheet, session.letter(rig.id))
    assert session.history.count() == steps + 1


def test_ctrl_up_and_down_turn_nothing(sheet: SkySheet, fitting: str) -> None:
    before = sheet.session.plan
    QTest.keyClick(sheet, Key.Key_Up, Held.ControlModifier)
    QTest.keyClick(sheet, Key.Key_Down, Held.ControlModifier)
    assert sheet.session.plan == before


def test_a_turn_past_north_comes_round(sheet: SkySheet, fitting: str) -> None:
    session = sheet.session
    level = session.framing(fitting).model_copy(update={"pa_deg": 359.5})
    session.edit("level", edits.with_framing(session.plan, level))
    QTest.keyClick(sheet, Key.Key_Left, Held.ControlModifier)
    assert session.framing(fitting).pa_deg == pytest.approx(0.5, abs=1e-9)
    QTest.keyClick(sheet, Key.Key_Right, Held.ControlModifier)
    assert session.framing(fitting).pa_deg == pytest.approx(359.5, abs=1e-9)


def test_home_brings_the_target_to_the_middle(sheet: SkySheet) -> None:
    middle = sheet.sky_rect.center()
    sheet.session.set_view(sheet.transform.panned(middle, middle + QPointF(300.0, 90.0)))
    QTest.keyClick(sheet, Key.Key_Home)
    target = sheet.session.target
    x, y = place(sheet, target.ra_deg, target.dec_deg)
    assert (x, y) == pytest.approx((middle.x(), middle.y()), abs=1e-6)


def test_a_letter_with_ctrl_or_alt_belongs_to_the_menus(sheet: SkySheet) -> None:
    session = sheet.session
    before = session.plan.current_rig
    other = next(rig for rig in session.plan.rigs if rig.id != before)
    letter = getattr(Key, f"Key_{session.letter(other.id)}")
    QTest.keyClick(sheet, letter, Held.ControlModifier)
    QTest.keyClick(sheet, letter, Held.AltModifier)
    assert session.plan.current_rig == before
    QTest.keyClick(sheet, letter, Held.ShiftModifier)
    assert session.plan.current_rig == other.id


def test_undo_says_hide_for_hiding_and_show_for_showing(sheet: SkySheet, fitting: str) -> None:
    session = sheet.session
    letter = session.letter(fitting)
    QTest.keyClick(sheet, Key.Key_Space)
    assert session.history.undoText() == f"hide {letter}"
    QTest.keyClick(sheet, Key.Key_Space)
    assert session.history.undoText() == f"show {letter}"


def test_keys_ask_nothing_of_a_plan_without_rigs(sheet: SkySheet) -> None:
    session = sheet.session
    session.edit("clear", session.plan.but(rigs=(), framings=(), current_rig=None))
    before = session.plan
    for key in (Key.Key_Right, Key.Key_Space, Key.Key_A):
        QTest.keyClick(sheet, key)
    QTest.keyClick(sheet, Key.Key_Left, Held.ControlModifier)
    assert session.plan == before


def test_ctrl_left_turns_counterclockwise_on_a_mirrored_sheet_s_sky(
    sheet: SkySheet, fitting: str
) -> None:
    """The angle grows; on the mirrored screen that looks clockwise."""
    sheet.session.change_view(mirrored=True)
    before = sheet.session.framing(fitting).pa_deg
    QTest.keyClick(sheet, Key.Key_Left, Held.ControlModifier)
    turned = wrap_180(sheet.session.framing(fitting).pa_deg - before)
    assert turned == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize(
    ("key", "held"),
    [
        (Key.Key_Left, Held.NoModifier),
        (Key.Key_Left, Held.ControlModifier),
        (Key.Key_BracketLeft, Held.NoModifier),
        (Key.Key_R, Held.NoModifier),
    ],
)
def test_keys_that_move_a_frame_do_nothing_without_a_target(
    sheet: SkySheet, key: Qt.Key, held: Qt.KeyboardModifier
) -> None:
    plan = sheet.session.plan
    for target in plan.targets:
        plan = edits.without_target(plan, target.id)
    sheet.session.edit("no target", plan)
    QTest.keyClick(sheet, key, held)
    assert sheet.session.plan.framings == ()
