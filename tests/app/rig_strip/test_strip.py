"""The rig strip and its cards, by hand and by key as a person uses them."""

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from app.rig_strip.card import RigCard
from app.rig_strip.card_paint import CardLayout, CardStyle
from app.rig_strip.strip import EMPTY, RigStrip
from app.session import Session
from app.shared.theme import Theme
from core.plan import edits
from core.plan.document import Plan
from tests.app.seeing import Host, count_of, pixels, point_at

pytestmark = pytest.mark.gui
KEY, LEFT = Qt.Key, Qt.MouseButton.LeftButton
ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def strip(session: Session, host: Host, dark: Theme) -> RigStrip:
    strip = RigStrip(session, dark)
    strip.live.delay_ms = 0
    host(strip, width=2600)
    return strip


def order(session: Session) -> list[str]:
    return [rig.id for rig in session.plan.rigs]


def shown(session: Session, rig_id: str) -> bool:
    return session.planned_rig(rig_id).shown


def drag(qtbot: QtBot, card: RigCard, way: int, *, escape: bool = False) -> None:
    """Take a card at its middle and carry it sideways in steps."""
    start = card.rect().center()
    qtbot.mousePress(card, LEFT, pos=start)
    place = card.mapTo(card.window(), start)
    for part in range(1, 9):
        point = place + QPoint(way * part // 8, 3)
        qtbot.mouseMove(card, card.mapFrom(card.window(), point))
    if escape:
        qtbot.keyClick(card, KEY.Key_Escape)
    qtbot.mouseRelease(card, LEFT, pos=start)


# Choosing, hiding, lighting ----------------------------------------------------


def test_a_click_chooses(qtbot: QtBot, strip: RigStrip, session: Session) -> None:
    card = strip.cards[1]
    qtbot.mouseClick(card, LEFT)
    assert session.plan.current_rig == card.rig_id
    assert card.face.chosen
    assert sum(c.face.chosen for c in strip.cards) == 1


def test_the_chosen_card_is_edged_in_its_colour_and_raised(
    qtbot: QtBot, strip: RigStrip, dark: Theme
) -> None:
    card = strip.cards[1]
    edge = count_of(card, dark.frames[card.face.colour])
    qtbot.mouseClick(card, LEFT)
    assert count_of(card, dark.frames[card.face.colour]) > edge + 2 * card.width()
    layout = CardLayout(card.face, CardStyle(dark, 1.0))
    assert layout.top(chosen=True) < layout.top(chosen=False)


def test_the_box_hides_and_shows(qtbot: QtBot, strip: RigStrip, session: Session) -> None:
    card = strip.cards[1]
    chosen = session.plan.current_rig
    qtbot.mouseClick(card.box, LEFT)
    assert not shown(session, card.rig_id)
    assert session.plan.current_rig == chosen
    assert card.box.toolTip().startswith("Show the frame of B")
    qtbot.mouseClick(card.box, LEFT)
    assert shown(session, card.rig_id)


def test_space_hides_and_undo_shows_again(qtbot: QtBot, strip: RigStrip, session: Session) -> None:
    card = strip.cards[2]
    card.setFocus()
    qtbot.keyClick(card, KEY.Key_Space)
    assert not shown(session, card.rig_id)
    assert session.history.undoText() == "hide C"
    session.history.undo()
    assert shown(session, card.rig_id)
    assert card.box.isChecked()


def test_the_pointer_on_a_card_lights_its_rig_and_off_it_none(
    qtbot: QtBot, strip: RigStrip, session: Session
) -> None:
    heard: list[str] = []
    session.rig_hovered.connect(heard.append)
    point_at(strip.cards[0])
    assert heard[-1] == strip.cards[0].rig_id
    assert strip.cards[0].lit
    point_at(strip.cards[1])
    assert heard[-1] == strip.cards[1].rig_id
    assert not strip.cards[0].lit
    point_at(strip.window().elsewhere)
    assert heard[-1] == ""


def test_a_rig_pointed_at_elsewhere_lights_its_card(strip: RigStrip, session: Session) -> None:
    card = strip.cards[4]
    before = pixels(card)
    session.rig_hovered.emit(card.rig_id)
    assert (pixels(card) != before).any()


# Walking and moving ------------------------------------------------------------


def test_the_strip_is_one_stop_of_the_tab_key_at_the_chosen_card(
    qtbot: QtBot, strip: RigStrip, session: Session
) -> None:
    elsewhere = strip.window().elsewhere
    qtbot.keyClick(elsewhere, KEY.Key_Tab)
    focused = [card.rig_id for card in strip.cards if card.hasFocus()]
    assert focused == [session.plan.current_rig]
    qtbot.keyClick(strip.card(focused[0]), KEY.Key_Tab)
    assert elsewhere.hasFocus()


def test_arrows_walk_and_enter_chooses(qtbot: QtBot, strip: RigStrip, session: Session) -> None:
    before = session.plan
    strip.cards[0].setFocus()
    qtbot.keyClick(strip.cards[0], KEY.Key_Right)
    assert strip.cards[1].hasFocus()
    qtbot.keyClick(strip.cards[1], KEY.Key_End)
    assert strip.cards[-1].hasFocus()
    qtbot.keyClick(strip.cards[-1], KEY.Key_Left)
    assert strip.cards[-2].hasFocus()
    assert session.plan == before
    qtbot.keyClick(strip.cards[-2], KEY.Key_Return)
    assert session.plan.current_rig == strip.cards[-2].rig_id


@pytest.mark.parametrize("held", [ALT, CTRL])
def test_arrows_with_alt_or_ctrl_move_the_card(
    qtbot: QtBot, strip: RigStrip, session: Session, held: Qt.KeyboardModifier
) -> None:
    a, b, c, *rest = order(session)
    card = strip.card(a)
    card.setFocus()
    qtbot.keyClick(card, KEY.Key_Right, held)
    qtbot.keyClick(card, KEY.Key_Right, held)
    assert order(session) == [b, c, a, *rest]
    assert card.hasFocus()
    assert card.face.letter == "C"
    qtbot.keyClick(card, KEY.Key_Left, held)
    assert order(session) == [b, a, c, *rest]
    session.history.undo()
    assert order(session) == [b, c, a, *rest]


def test_a_card_dragged_past_two_others_takes_their_place(
    qtbot: QtBot, strip: RigStrip, session: Session
) -> None:
    a, b, c, *rest = order(session)
    way = strip.card(c).x() - strip.card(a).x() + 20
    drag(qtbot, strip.card(a), way)
    assert order(session) == [b, c, a, *rest]
    lefts = [strip.card(rig_id).x() for rig_id in order(session)]
    assert lefts == sorted(lefts)
    drag(qtbot, strip.card(a), -way - 40)
    assert order(session) == [a, b, c, *rest]


def test_a_drag_chooses_nothing_and_can_be_given_up(
    qtbot: QtBot, strip: RigStrip, session: Session
) -> None:
    plan, lefts = session.plan, [card.x() for card in strip.cards]
    drag(qtbot, strip.cards[0], 700, escape=True)
    assert session.plan == plan
    assert [card.x() for card in strip.cards] == lefts


def test_a_hand_that_trembles_still_clicks(qtbot: QtBot, strip: RigStrip, session: Session) -> None:
    before = order(session)
    drag(qtbot, strip.cards[0], 3)
    assert order(session) == before
    assert session.plan.current_rig == before[0]


def test_delete_takes_a_rig_out_and_the_neighbour_has_the_keyboard(
    qtbot: QtBot, strip: RigStrip, session: Session
) -> None:
    a, b, *rest = order(session)
    strip.card(a).setFocus()
    with qtbot.waitSignal(session.said) as said:
        qtbot.keyClick(strip.card(a), KEY.Key_Delete)
    assert "undo brings it back" in said.args[0]
    assert order(session) == [b, *rest]
    assert strip.card(b).hasFocus()
    session.history.undo()
    assert order(session) == [a, b, *rest]
    assert [card.rig_id for card in strip.cards] == [a, b, *rest]


def test_a_chosen_card_out_of_sight_is_brought_into_sight(
    session: Session, host: Host, dark: Theme
) -> None:
    strip = RigStrip(session, dark)
    host(strip, width=700)
    last = session.plan.rigs[-1].id
    session.edit("choose", edits.with_current_rig(session.plan, last))
    card = strip.card(last)
    left = card.mapTo(strip.viewport(), QPoint(0, 0)).x()
    assert 0 <= left <= strip.viewport().width() - card.width()


# Without rigs or target --------------------------------------------------------


def test_a_plan_without_rigs_says_so(session: Session, host: Host, dark: Theme) -> None:
    session.open_plan(Plan(), "begin anew")
    strip = RigStrip(session, dark)
    host(strip)
    assert strip.cards == ()
    assert EMPTY == "No rigs in this plan yet."
    assert count_of(strip, dark.quiet) > 60
    assert count_of(strip, dark.sheet_line) > 40
