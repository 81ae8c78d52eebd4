"""The target box, by keyboard and mouse as a person uses it."""

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES, Theme
from app.target_box.box import TargetBox
from core.plan.document import Plan
from tests.app.seeing import Dress, Host, count_of, pixels

pytestmark = pytest.mark.gui
KEY = Qt.Key


@pytest.fixture
def box(session: Session, host: Host, dark: Theme) -> TargetBox:
    box = TargetBox(session)
    host(box)
    return box


def type_into(qtbot: QtBot, box: TargetBox, text: str, *keys: Qt.Key) -> None:
    box.focus_and_select()
    qtbot.keyClicks(box, text)
    for key in keys:
        qtbot.keyClick(box, key)


def current(session: Session) -> str:
    assert session.target is not None
    return session.target.id


def test_a_designation_and_enter_change_the_target(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    type_into(qtbot, box, "m51", KEY.Key_Return)
    assert current(session) == "M 51"
    assert session.plan.view.ra_deg == pytest.approx(202.47, abs=0.05)  # OpenNGC
    assert not box.list.isVisible()


def test_a_target_that_the_plan_does_not_have_is_added(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    before = len(session.plan.targets)
    type_into(qtbot, box, "ngc 891", KEY.Key_Return)
    assert current(session) == "NGC 891"
    assert len(session.plan.targets) == before + 1


def test_undo_brings_the_target_before_back(qtbot: QtBot, box: TargetBox, session: Session) -> None:
    plan = session.plan
    type_into(qtbot, box, "ngc 891", KEY.Key_Return)
    session.history.undo()
    assert current(session) == plan.current_target
    assert len(session.plan.targets) == len(plan.targets)


def test_down_and_enter_take_the_first_suggestion(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    type_into(qtbot, box, "Ring Neb")
    assert box.list.isVisible()
    assert "M 57" in [entry.title for entry in box.list.entries]
    qtbot.keyClick(box, KEY.Key_Down)
    marked = box.list.marked
    assert marked is not None
    assert marked == box.list.entries[0]
    qtbot.keyClick(box, KEY.Key_Return)
    assert current(session) == marked.text


def test_up_and_down_walk_round_the_ends(qtbot: QtBot, box: TargetBox) -> None:
    type_into(qtbot, box, "veil", KEY.Key_Up)
    assert box.list.marked == box.list.entries[-1]
    qtbot.keyClick(box, KEY.Key_Down)
    assert box.list.marked == box.list.entries[0]
    qtbot.keyClick(box, KEY.Key_Down)
    assert box.list.marked == box.list.entries[1]


def test_the_box_keeps_the_keyboard_while_the_list_shows(qtbot: QtBot, box: TargetBox) -> None:
    type_into(qtbot, box, "ve")
    assert box.list.isVisible()
    assert box.hasFocus()
    qtbot.keyClicks(box, "il")
    assert box.text() == "veil"


def test_a_click_takes_a_suggestion(qtbot: QtBot, box: TargetBox, session: Session) -> None:
    type_into(qtbot, box, "whirl")
    row = [entry.title for entry in box.list.entries].index("M 51")
    rect = box.list.visualRect(box.list.model().index(row, 0))
    qtbot.mouseClick(box.list.viewport(), Qt.MouseButton.LeftButton, pos=rect.center())
    assert current(session) == "M 51"


def test_tab_takes_what_is_marked_and_moves_on(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    type_into(qtbot, box, "whirlpool", KEY.Key_Down, KEY.Key_Tab)
    assert current(session) == "M 51"
    assert not box.hasFocus()


def test_tab_without_a_mark_moves_on_and_changes_nothing(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    before = session.plan
    type_into(qtbot, box, "whirlpool", KEY.Key_Tab)
    assert session.plan == before
    assert not box.hasFocus()
    assert box.text() == "M 31"


def test_escape_puts_the_list_away_then_brings_the_target_back(
    qtbot: QtBot, box: TargetBox
) -> None:
    type_into(qtbot, box, "veil", KEY.Key_Escape)
    assert not box.list.isVisible()
    assert box.text() == "veil"
    qtbot.keyClick(box, KEY.Key_Escape)
    assert box.text() == "M 31"


def test_coordinates_go_there(qtbot: QtBot, box: TargetBox, session: Session) -> None:
    type_into(qtbot, box, "20 58 +44 20")
    assert [entry.aside for entry in box.list.entries] == ["position, ICRS"]
    qtbot.keyClick(box, KEY.Key_Return)
    target = session.target
    assert target is not None
    # 20h58m is 314.5 degrees: 15 degrees an hour
    assert (target.ra_deg, target.dec_deg) == pytest.approx((314.5, 44.0 + 20.0 / 60.0))
    assert target.kind.value == "position"


def test_an_unknown_name_stays_marked_and_offers_near_misses(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    before = session.plan
    with qtbot.waitSignal(session.said) as said:
        type_into(qtbot, box, "flamng nebla", KEY.Key_Return)
    assert said.args[0].startswith('No object is called "flamng nebla"')
    assert said.args[1] == "bad"
    assert box.wrong
    assert box.text() == "flamng nebla"
    assert session.plan == before
    sentence, *near = box.list.entries
    assert not sentence.takable
    assert "flamng nebla" in sentence.title
    assert "Flaming Star Nebula" in [entry.title for entry in near]


def test_a_near_miss_can_be_taken_by_key_and_by_click(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    type_into(qtbot, box, "flamng nebla", KEY.Key_Return, KEY.Key_Down, KEY.Key_Return)
    assert current(session) == "IC 405"
    assert not box.wrong
    session.history.undo()
    type_into(qtbot, box, "flamng nebla", KEY.Key_Return)
    rect = box.list.visualRect(box.list.model().index(1, 0))
    qtbot.mouseClick(box.list.viewport(), Qt.MouseButton.LeftButton, pos=rect.center())
    assert current(session) == "IC 405"


def test_the_sentence_of_the_list_cannot_be_taken(
    qtbot: QtBot, box: TargetBox, session: Session
) -> None:
    before = session.plan
    type_into(qtbot, box, "flamng nebla", KEY.Key_Return)
    rect = box.list.visualRect(box.list.model().index(0, 0))
    entries = box.list.entries
    qtbot.mouseClick(box.list.viewport(), Qt.MouseButton.LeftButton, pos=rect.center())
    assert session.plan == before
    assert box.text() == "flamng nebla"
    assert box.list.entries == entries
    assert box.hasFocus()


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("25h 10m +41 16", "between 0h and 24h"),
        ("0 42 44 +91 0 0", "between -90 and +90 degrees"),
        ("", "is empty"),
        ("x" * 300, "longer than 200"),
    ],
)
def test_bad_input_gets_one_sentence_and_loses_nothing(
    qtbot: QtBot, box: TargetBox, session: Session, text: str, part: str
) -> None:
    before = session.plan
    box.focus_and_select()
    qtbot.keyClick(box, KEY.Key_Delete)
    with qtbot.waitSignal(session.said) as said:
        type_into(qtbot, box, text, KEY.Key_Return)
    assert part in said.args[0]
    assert "\n" not in said.args[0]
    assert box.wrong
    assert box.text() == text
    assert session.plan == before


def test_typing_on_takes_the_mark_off(qtbot: QtBot, box: TargetBox) -> None:
    type_into(qtbot, box, "25h +41", KEY.Key_Return)
    assert box.wrong
    qtbot.keyClick(box, KEY.Key_Backspace)
    assert not box.wrong


def test_a_wrong_text_survives_leaving(qtbot: QtBot, box: TargetBox) -> None:
    type_into(qtbot, box, "nosuchthing", KEY.Key_Return)
    box.window().elsewhere.setFocus()
    assert box.text() == "nosuchthing"
    assert not box.list.isVisible()


def test_without_the_keyboard_the_box_shows_the_target_and_its_other_name(
    box: TargetBox, dark: Theme
) -> None:
    assert box.text() == "M 31"
    assert "Andromeda Galaxy" in box.accessibleDescription()
    quiet = count_of(box, dark.quiet, reach=8)
    box.focus_and_select()
    assert quiet > 40
    assert count_of(box, dark.quiet, reach=8) < quiet / 4


def test_an_empty_plan_shows_how_to_begin(
    qtbot: QtBot, session: Session, host: Host, dark: Theme
) -> None:
    session.open_plan(Plan(), "begin anew")
    box = TargetBox(session)
    host(box)
    assert box.text() == ""
    assert "M 31" in box.placeholderText()
    type_into(qtbot, box, "m 13", KEY.Key_Enter)
    assert current(session) == "M 13"


def test_the_list_stays_inside_a_small_window(
    qtbot: QtBot, session: Session, host: Host, dark: Theme
) -> None:
    box = TargetBox(session)
    window = host(box, width=260, height=150)
    type_into(qtbot, box, "ngc 1")
    assert box.list.isVisible()
    assert window.rect().contains(box.list.geometry())


def test_the_caret_is_red_in_the_deep_red_theme(
    qtbot: QtBot, session: Session, host: Host, dress: Dress
) -> None:
    dress(THEMES["deep-red"], 1.0)
    box = TargetBox(session)
    host(box)
    type_into(qtbot, box, "veil", KEY.Key_Escape)
    painted = pixels(box)
    assert painted[..., 0].max() > 150
    assert painted[..., 1:].max() < 90


def test_a_click_into_the_box_selects_everything(qtbot: QtBot, box: TargetBox) -> None:
    qtbot.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(20, box.height() // 2))
    assert box.selectedText() == "M 31"
