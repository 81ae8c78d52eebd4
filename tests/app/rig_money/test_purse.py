"""What rigs cost alone and as a set, and the currency that the plan's prices are in."""

import pytest
from pytestqt.qtbot import QtBot

from app.rig_money.swaps import SwapsPage
from app.session import Session
from app.shared.theme import Theme
from core.gear.money.prices import money_words, set_total
from core.plan import edits
from tests.app.rig_money.hands import found, replace_rig, slot_row, type_value
from tests.app.seeing import count_of

pytestmark = pytest.mark.gui


def test_the_set_counts_shared_parts_once_and_hidden_rigs_not_at_all(
    swaps: SwapsPage, session: Session
) -> None:
    rigs = [planned.rig for planned in session.plan.rigs]
    together, apart = set_total(rigs, "EUR").known, sum(rig.price or 0 for rig in rigs)
    assert float(together) < apart
    assert swaps.purse.all.text().endswith(f": {money_words(together, 'EUR')}")
    assert "All 7 shown rigs" in swaps.purse.all.text()
    plan = session.plan
    for planned in plan.rigs[2:]:
        plan = edits.with_rig_shown(plan, planned.id, shown=False)
    session.edit("hide", plan)
    assert "Both shown rigs" in swaps.purse.all.text()
    assert swaps.purse.all.text().endswith(money_words(set_total(rigs[:2], "EUR").known, "EUR"))


def test_one_part_with_two_prices_is_told_and_not_added_up(
    swaps: SwapsPage, session: Session
) -> None:
    rig = session.plan.rigs[2].rig
    others = tuple(
        part.but(price=1.0) if part.name == "tripod, steel" else part for part in rig.others
    )
    replace_rig(session, 2, rig.but(others=others))
    words = swaps.purse.all.text()
    assert "no common price" in words
    assert "tripod, steel" in words


def test_another_currency_is_taken_by_the_plan_and_nothing_is_converted(
    qtbot: QtBot, swaps: SwapsPage, session: Session, dark: Theme
) -> None:
    found(swaps, qtbot)
    price = session.plan.rigs[2].rig.price
    type_value(qtbot, swaps.purse.currency, "usd")
    assert session.plan.currency == "USD"
    assert session.plan.rigs[2].rig.price == price
    assert "$" in swaps.purse.rig.text()
    found(swaps, qtbot)
    assert swaps.trouble.isVisible()
    assert "no rate is known here" in swaps.trouble.text()
    assert count_of(swaps.trouble, dark.bad) > 20
    assert slot_row(swaps, "All savings").text(2) == "not known"
    session.history.undo()
    assert session.plan.currency == "EUR"
    found(swaps, qtbot)
    assert not swaps.trouble.isVisible()


@pytest.mark.parametrize(
    ("text", "part"), [("EURO", "three capital letters"), ("XXX", "no currency"), ("", "three")]
)
def test_what_is_no_currency_is_refused_in_a_sentence(
    qtbot: QtBot, swaps: SwapsPage, session: Session, text: str, part: str
) -> None:
    before = session.plan
    type_value(qtbot, swaps.purse.currency, text)
    assert session.plan is before
    assert part in swaps.purse.currency.complaint.text()
