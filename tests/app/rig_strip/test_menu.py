"""The menu of a rig's card: what it offers and what each entry does to the plan."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction, QContextMenuEvent
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from app.rig_strip.card import RigCard
from app.rig_strip.strip import RigStrip
from app.session import Session
from app.shared.theme import DASHES, Theme
from app.words.rig_actions import COLOUR_NAMES, LINE_NAMES
from core.plan import edits
from core.plan.document import COLOURS
from tests.app.seeing import Host, count_of

pytestmark = pytest.mark.gui


@pytest.fixture
def card(session: Session, host: Host, dark: Theme) -> RigCard:
    strip = RigStrip(session, dark)
    host(strip, width=2600)
    return strip.cards[1]


def open_menu(card: RigCard, reason: QContextMenuEvent.Reason) -> QMenu:
    at = card.mapToGlobal(QPoint(30, 30))
    QApplication.sendEvent(card, QContextMenuEvent(reason, QPoint(30, 30), at))
    assert card.menu is not None
    return card.menu


def entry(menu: QMenu, *path: str) -> QAction:
    for words in path:
        found = next(a for a in menu.actions() if a.text().removesuffix(" ✓") == words)
        sub = found.menu()
        menu = sub if isinstance(sub, QMenu) else menu
    return found


def mouse_menu(card: RigCard) -> QMenu:
    return open_menu(card, QContextMenuEvent.Reason.Mouse)


@pytest.mark.parametrize(
    ("key", "held"),
    [
        (Qt.Key.Key_Menu, Qt.KeyboardModifier.NoModifier),
        (Qt.Key.Key_F10, Qt.KeyboardModifier.ShiftModifier),
    ],
)
def test_a_key_opens_the_menu(
    qtbot: QtBot, card: RigCard, key: Qt.Key, held: Qt.KeyboardModifier
) -> None:
    card.setFocus()
    qtbot.keyClick(card, key, held)
    assert card.menu is not None
    assert card.menu.isVisible()
    qtbot.keyClick(card.menu, Qt.Key.Key_Escape)
    assert card.menu is None


def test_an_entry_is_chosen_by_arrows_and_enter(
    qtbot: QtBot, card: RigCard, session: Session
) -> None:
    card.setFocus()
    qtbot.keyClick(card, Qt.Key.Key_Menu)
    assert card.menu is not None
    qtbot.keyClick(card.menu, Qt.Key.Key_Down)
    qtbot.keyClick(card.menu, Qt.Key.Key_Return)
    assert not session.planned_rig(card.rig_id).shown


def test_the_menu_opens_by_mouse_and_by_key(qtbot: QtBot, card: RigCard) -> None:
    menu = mouse_menu(card)
    assert menu.isVisible()
    menu.close()
    menu = open_menu(card, QContextMenuEvent.Reason.Keyboard)
    assert menu.isVisible()
    menu.close()


def test_every_colour_and_line_of_the_plan_has_a_name(card: RigCard) -> None:
    assert len(COLOUR_NAMES) == COLOURS
    assert len(LINE_NAMES) == len(DASHES)
    menu = mouse_menu(card)
    swatches = entry(menu, "Colour").menu().actions()
    assert [a.text().removesuffix(" ✓") for a in swatches] == list(COLOUR_NAMES)
    assert all(not a.icon().isNull() for a in swatches)
    assert [a.text() for a in swatches if a.isChecked()] == ["Sky blue ✓"]
    menu.close()


def test_a_colour_from_the_menu_recolours_card_and_plan(
    card: RigCard, session: Session, dark: Theme
) -> None:
    assert count_of(card, dark.frames[3]) == 0
    entry(mouse_menu(card), "Colour", "Pink").trigger()
    assert session.planned_rig(card.rig_id).colour == 3
    assert count_of(card, dark.frames[3]) > 40
    session.history.undo()
    assert session.planned_rig(card.rig_id).colour == 1


def test_a_line_from_the_menu_is_kept(card: RigCard, session: Session, dark: Theme) -> None:
    entry(mouse_menu(card), "Line", "Full").trigger()
    full = count_of(card, dark.frames[1])
    entry(mouse_menu(card), "Line", "Dotted").trigger()
    assert session.planned_rig(card.rig_id).dash == 2
    assert 0 < count_of(card, dark.frames[1]) < full


def test_hide_becomes_show(card: RigCard, session: Session) -> None:
    entry(mouse_menu(card), "Hide").trigger()
    assert not session.planned_rig(card.rig_id).shown
    entry(mouse_menu(card), "Show").trigger()
    assert session.planned_rig(card.rig_id).shown


def test_moves_are_dead_at_the_ends(card: RigCard, session: Session) -> None:
    first = session.plan.rigs[0].id
    entry(mouse_menu(card), "Move left").trigger()
    assert [rig.id for rig in session.plan.rigs][:2] == [card.rig_id, first]
    menu = mouse_menu(card)
    assert not entry(menu, "Move left").isEnabled()
    entry(menu, "Move right").trigger()
    assert [rig.id for rig in session.plan.rigs][:2] == [first, card.rig_id]


def test_taking_out_is_undone(card: RigCard, session: Session) -> None:
    before = session.plan
    entry(mouse_menu(card), "Take out of the plan").trigger()
    assert card.rig_id not in [rig.id for rig in session.plan.rigs]
    session.history.undo()
    assert session.plan == before


def test_back_to_the_suggested_framing_forgets_the_hand(card: RigCard, session: Session) -> None:
    words = "Back to the suggested framing"
    menu = mouse_menu(card)
    suggested = session.framing(card.rig_id)
    assert not entry(menu, words).isEnabled()
    menu.close()
    moved = suggested.but(pa_deg=11.0, ra_deg=12.0)
    session.edit("move", edits.with_framing(session.plan, moved))
    entry(mouse_menu(card), words).trigger()
    assert session.framing(card.rig_id) == suggested
