"""The swaps: a slot a row, each alternative with saving and verdict, taken and undone."""

import threading
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.rig_money.swaps import SwapsPage
from app.session import Session
from app.shared.theme import Theme
from core.gear.checks import findings
from core.gear.money.offers import Question, cheapest_offer, single_offers
from core.gear.money.prices import difference, money_words, rig_total
from core.gear.slots import slots_of
from core.plan import edits
from tests.app.rig_money.hands import choose, found, replace_rig, row_of, slot_row
from tests.app.seeing import close_to, pixels

pytestmark = pytest.mark.gui
KEY, LEFT = Qt.Key, Qt.MouseButton.LeftButton


def asked(session: Session) -> Question:
    assert session.rig is not None
    return Question(session.rig.rig, session.shelf, session.plan.currency, session.plan.nights)


def test_every_slot_stands_with_its_part_and_price_at_once(
    swaps: SwapsPage, session: Session
) -> None:
    """Before anything was looked for: two bundles, then a row for each part."""
    assert session.rig is not None
    parts = slots_of(session.rig.rig).values()
    rows = swaps.table.tops[2:]
    assert len(rows) == len(parts)
    for row, part in zip(rows, parts, strict=True):
        assert row.text(0).lower().endswith(part.name.lower())
        assert row.text(1) == money_words(part.price, "EUR")


def test_every_alternative_has_price_saving_and_verdict(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    offers = list(single_offers(asked(session)))
    assert len(offers) > 20
    shown = 0
    for top in swaps.table.tops[2:]:
        shown += top.childCount()
    assert shown == len(offers)
    saving = next(o for o in offers if (o.saving or 0) > 0 and o.swaps[0].slot.field == "mount")
    row = row_of(swaps, "Mount", saving.swaps[0].new.name)
    assert row.text(2) == f"saves {money_words(saving.saving, 'EUR')}"
    dearer = next(o for o in offers if (o.saving or 0) < 0 and o.swaps[0].slot.field == "mount")
    row = row_of(swaps, "Mount", dearer.swaps[0].new.name)
    assert row.text(2) == f"{money_words(-dearer.saving, 'EUR')} more"
    assert row.text(3)
    assert not row.icon(3).isNull()


def test_a_price_that_is_not_known_is_told(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    rig = session.plan.rigs[2].rig
    assert rig.mount is not None
    replace_rig(session, 2, rig.but(mount=rig.mount.but(price=None)))
    found(swaps, qtbot)
    row = slot_row(swaps, "Mount")
    assert row.text(1) == "not known"
    assert {row.child(n).text(2) for n in range(row.childCount())} == {"not known"}
    assert "1 price not known" in swaps.purse.rig.text()


def test_the_offer_under_the_cursor_is_told_whole(
    qtbot: QtBot, swaps: SwapsPage, session: Session, dark: Theme
) -> None:
    found(swaps, qtbot)
    offers = [o for o in single_offers(asked(session)) if o.swaps[0].slot.field == "telescope"]
    stopped = next(o for o in offers if not o.passes and o.differences.worse)
    swaps.table.setCurrentItem(row_of(swaps, "Telescope", stopped.swaps[0].new.name))
    assert swaps.view.offer is not None
    assert swaps.view.verdict.text() == "This rig does not work as it stands."
    texts = swaps.view.effects.texts
    assert texts[: len(stopped.changes)] == tuple(c.words for c in stopped.changes)
    assert f"Worse: {stopped.differences.worse[0].message}" in texts
    assert close_to(pixels(swaps.view.verdict), dark.bad) > 20


def test_enter_on_an_alternative_swaps_it_in_and_undo_brings_the_part_back(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    before = session.plan
    name = slot_row(swaps, "Mount").child(0).text(0)
    swaps.table.setFocus()
    swaps.table.setCurrentItem(slot_row(swaps, "Mount"))
    qtbot.keyClick(swaps.table, KEY.Key_Right)
    qtbot.keyClick(swaps.table, KEY.Key_Down)
    qtbot.keyClick(swaps.table, KEY.Key_Return)
    assert session.rig is not None
    assert session.rig.rig.mount is not None
    assert session.rig.rig.mount.name == name
    assert session.history.undoText() == f"swap in {name}"
    assert session.rig.id == before.current_rig
    session.history.undo()
    assert session.plan.rigs == before.rigs


def test_after_a_swap_the_table_shows_the_new_part_and_keeps_its_place(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    slot_row(swaps, "Mount").setExpanded(True)
    swaps.table.setCurrentItem(slot_row(swaps, "Mount").child(0))
    name = slot_row(swaps, "Mount").child(0).text(0)
    qtbot.mouseClick(swaps.view.take, LEFT)
    found(swaps, qtbot)
    assert slot_row(swaps, "Mount").text(0).endswith(name)
    assert slot_row(swaps, "Mount").isExpanded()
    assert swaps.table.currentItem().text(0).endswith(name)


def test_enter_on_a_slot_opens_and_folds_it(qtbot: QtBot, swaps: SwapsPage) -> None:
    found(swaps, qtbot)
    swaps.table.setFocus()
    swaps.table.setCurrentItem(slot_row(swaps, "Camera"))
    qtbot.keyClick(swaps.table, KEY.Key_Return)
    assert slot_row(swaps, "Camera").isExpanded()
    qtbot.keyClick(swaps.table, KEY.Key_Return)
    assert not slot_row(swaps, "Camera").isExpanded()


def test_all_savings_together_are_the_sum_of_the_best_that_passes_of_every_slot(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    best: dict[object, Decimal] = {}
    for offer in single_offers(asked(session)):
        slot = offer.swaps[0].slot
        if offer.passes:
            best[slot] = max(best.get(slot, Decimal(0)), offer.saving or Decimal(0))
    row = slot_row(swaps, "All savings")
    assert row.text(2) == f"saves {money_words(sum(best.values()), 'EUR')}"


def test_the_cheapest_rig_is_found_and_taken_as_a_whole_in_one_step(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    wanted = cheapest_offer(asked(session))
    assert wanted.swaps
    before = session.rig
    swaps.table.setCurrentItem(slot_row(swaps, "Cheapest"))
    assert slot_row(swaps, "Cheapest").text(2) == f"saves {money_words(wanted.saving, 'EUR')}"
    qtbot.mouseClick(swaps.view.take, LEFT)
    assert before is not None
    assert session.rig is not None
    assert session.rig.rig == wanted.rig
    totals = (rig_total(before.rig, "EUR"), rig_total(session.rig.rig, "EUR"))
    assert difference(*totals) == wanted.saving
    assert findings(session.rig.rig)[0].severity != "stop"
    session.history.undo()
    assert session.rig == before


def test_the_cheapest_rig_as_a_copy_leaves_the_rig_as_it_is(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    wanted, before = cheapest_offer(asked(session)), session.plan
    swaps.table.setCurrentItem(slot_row(swaps, "Cheapest"))
    qtbot.mouseClick(swaps.view.copy, LEFT)
    assert len(session.plan.rigs) == len(before.rigs) + 1
    assert session.plan.rig(before.current_rig).rig == before.rig(before.current_rig).rig
    assert session.rig is not None
    assert session.rig.rig.parts == wanted.rig.parts
    assert session.rig.rig.name == f"{before.rig(before.current_rig).rig.name} (2)"
    session.history.undo()
    assert session.plan.rigs == before.rigs


def test_another_rig_gives_the_search_up_and_asks_anew(
    qtbot: QtBot, swaps: SwapsPage, session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    found(swaps, qtbot)
    begun, ended = threading.Event(), threading.Event()

    def endless(question: Question, *, tried) -> None:
        count = 0
        try:
            while question.rig.name == session.plan.rigs[4].rig.name:
                begun.set()
                tried(count)
                count += 250
        finally:
            ended.set()
        return cheapest_offer(question, tried=tried)

    monkeypatch.setattr("app.rig_money.search.cheapest_offer", endless)
    choose(session, 4)
    with qtbot.waitSignal(swaps.search.tried, timeout=20_000):
        qtbot.waitUntil(begun.is_set, timeout=20_000)
    assert slot_row(swaps, "Cheapest").text(2) == "looking ..."
    swaps.table.setCurrentItem(slot_row(swaps, "Cheapest"))
    assert "tried so far" in swaps.view.note.text()
    choose(session, 2)
    qtbot.waitUntil(ended.is_set, timeout=20_000)
    found(swaps, qtbot)
    assert swaps.search.question == asked(session)
    assert slot_row(swaps, "Cheapest").text(2).startswith("saves")


def test_a_page_nobody_sees_looks_for_nothing(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    swaps.hide()
    choose(session, 1)
    assert not swaps.search.busy
    swaps.show()
    found(swaps, qtbot)
    assert swaps.search.question == asked(session)


def test_a_search_that_was_left_begins_again_on_coming_back(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    choose(session, 1)
    assert swaps.search.busy
    swaps.hide()
    qtbot.waitUntil(lambda: not swaps.search.busy)
    assert not swaps.search.finished
    swaps.show()
    found(swaps, qtbot)
    assert swaps.search.question == asked(session)


def test_nights_that_change_are_asked_for_anew(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    nights = session.plan.nights.but(exposure_s=3600.0)
    session.edit("nights", edits.with_nights(session.plan, nights))
    found(swaps, qtbot)
    assert swaps.search.question is not None
    assert swaps.search.question.nights == nights


def test_a_hidden_frame_does_not_start_the_search_again(
    qtbot: QtBot, swaps: SwapsPage, session: Session
) -> None:
    found(swaps, qtbot)
    offers = swaps.search.offers
    session.edit("hide", edits.with_rig_shown(session.plan, session.plan.rigs[0].id, shown=False))
    assert swaps.search.offers is offers
    assert not swaps.search.busy


def test_without_a_rig_the_page_says_what_to_do(swaps: SwapsPage, session: Session) -> None:
    session.edit("choose none", edits.with_current_rig(session.plan, None))
    assert swaps.no_rig.isVisible()
    assert not swaps.table.isVisible()
