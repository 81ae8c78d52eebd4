"""What stands on a rig sheet agrees with the rooms that worked it out, and by hand."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError, Cancelled
from core.gear.checks import Conditions, findings
from core.gear.money.prices import rig_total, set_total
from core.plan.document import Plan
from core.plan.store import demo_plan
from core.sheets.rig_sheet.build import SheetJob, rig_sheet
from core.sheets.rig_sheet.swap_lists import cheaper_rigs
from tests.core.gear.small_shelf import camera, mount, other, rig_of, shelf_of, telescope
from tests.core.sheets.sheets import SHELF, many_parts, plan_of, sheet_of, small_rig, whole_plan


def test_totals_by_hand_of_two_rigs_that_share_all_but_the_camera() -> None:
    """500 + 900 + 700 + 40 = 2140 and 500 + 1100 + 700 + 40 = 2340; set 2140 + 1100."""
    second = small_rig("second", camera=SHELF.cameras[1])
    sheet = sheet_of(plan_of(small_rig(), second))
    assert [page.total.amount for page in sheet.pages] == [Decimal(2140), Decimal(2340)]
    assert sheet.set_page is not None
    assert sheet.set_page.total is not None
    assert sheet.set_page.total.amount == Decimal(3240)
    assert sheet.set_page.singly.amount == Decimal(4480)
    assert sheet.set_page.shared == ("tube (A, B)", "legs (A, B)", "bag (A, B)")


def test_the_demo_says_what_core_says() -> None:
    plan, sheet = demo_plan(), whole_plan()
    rigs = [one.rig for one in plan.rigs]
    assert sheet.set_page is not None
    assert sheet.set_page.total == set_total(rigs, plan.currency)
    for rig, page in zip(rigs, sheet.pages, strict=True):
        assert page.total == rig_total(rig, plan.currency)
        found = findings(rig, plan.nights)
        assert [one.message for one in page.findings] == [one.message for one in found]
        assert page.verdict.severity == found[0].severity
        assert sorted(part.name for part in page.parts) == sorted(p.name for p in rig.parts)
        assert page.drawing is not None
        assert page.drawing.target is not None


def test_swaps_and_the_cheapest_rig_by_hand() -> None:
    """The cheap tube saves 200; thin legs save 600 but break under the load."""
    (page,) = sheet_of(plan_of(small_rig()), SHELF).pages
    by_old = {slot.old: slot for slot in page.swaps}
    (tube,) = by_old["tube"].lines
    assert (tube.new, tube.saving, tube.passes) == ("cheap tube", Decimal(200), True)
    assert tube.saving_words.replace("\xa0", " ") == "saves 200 €"
    (eye,) = by_old["eye"].lines
    assert (eye.saving, eye.saving_words.replace("\xa0", " ")) == (
        Decimal(-200),
        "costs 200 € more",
    )
    (legs,) = by_old["legs"].lines
    assert (legs.saving, legs.passes, by_old["legs"].passing) == (Decimal(600), False, ())
    assert any("stop" in change for change in legs.changes)
    same, anything = page.cheaper
    assert (same.saving, same.sentence) == (
        None,
        "nothing on the shelf is cheaper and still passes.",
    )
    assert anything.saving == Decimal(200)


def test_what_no_price_is_known_of_is_never_counted_as_nothing() -> None:
    rig = small_rig("open", others=[other("riddle", None)])
    sheet = sheet_of(plan_of(rig, small_rig()), SHELF)
    page = sheet.pages[0]
    assert page.total.amount is None
    assert page.total.words.replace("\xa0", " ") == "at least 2 140 €, 1 price not known"
    (line,) = (part for part in page.parts if part.name == "riddle")
    assert (line.price, line.price_words.replace("\xa0", " ")) == (None, "not known")
    assert sheet.set_page is not None
    assert sheet.set_page.total is not None
    assert sheet.set_page.total.unpriced == ("riddle",)


def test_one_part_at_two_prices_leaves_the_set_without_a_price_and_says_why() -> None:
    dear = small_rig("dear", telescope=telescope("tube", 400.0, 999.0))
    sheet = sheet_of(plan_of(small_rig(), dear))
    assert sheet.set_page is not None
    assert sheet.set_page.total is None
    assert sheet.set_page.total_note.startswith("The set has no one price: price of tube")


@pytest.mark.parametrize(
    ("currency", "shelf", "words"),
    [
        ("SEK", SHELF, 'No swaps are listed: currency of the shelf "EUR": must be that of the'),
        ("EUR", shelf_of(), "The shelf holds nothing to swap these parts for."),
    ],
)
def test_a_shelf_without_swaps_leaves_a_sheet_that_says_so(currency, shelf, words) -> None:
    (page,) = sheet_of(plan_of(small_rig(), currency=currency), shelf).pages
    assert page.swaps == ()
    assert page.swaps_note.startswith(words)


def test_a_rig_that_stops_is_told_to_and_its_cheapest_mend_costs_more() -> None:
    """Thin legs under 4 kg stop; only the sound legs, 600 dearer, pass (with the cheap tube)."""
    weak = small_rig("weak", mount=SHELF.mounts[1])
    (page,) = sheet_of(plan_of(weak), SHELF).pages
    assert page.verdict.severity == "stop"
    same = page.cheaper[0]
    assert same.saving == Decimal(-600)
    assert "for 600\xa0€ more" in same.sentence


def test_the_step_between_two_rigs_names_what_is_bought_and_left_over() -> None:
    second = small_rig("second", camera=SHELF.cameras[1])
    sheet = sheet_of(plan_of(small_rig(), second))
    assert sheet.set_page is not None
    (step,) = sheet.set_page.steps
    lines = {line.label: line.value.replace("\xa0", " ") for line in step.lines}
    assert (step.start, step.goal) == ("rig", "second")
    assert lines["buy"] == "1 100 €: dear eye"
    assert lines["left over"] == "900 € as listed here: eye"
    assert lines["keep"] == "tube · legs · bag"


@settings(max_examples=20)
@given(st.integers(4, 70), st.lists(st.none() | st.integers(0, 5000), min_size=1, max_size=6))
def test_every_part_of_every_rig_is_listed_once(count: int, prices: list[int | None]) -> None:
    more = [other(f"extra {n}", None if p is None else float(p)) for n, p in enumerate(prices)]
    rigs = (many_parts(count), small_rig("second", others=more))
    sheet = sheet_of(plan_of(*rigs))
    for rig, page in zip(rigs, sheet.pages, strict=True):
        assert sorted(part.name for part in page.parts) == sorted(part.name for part in rig.parts)
        known = sum((Decimal(str(p.price)) for p in page.parts if p.price is not None), Decimal(0))
        assert known == page.total.known


def test_a_sheet_that_nobody_waits_for_is_given_up() -> None:
    asked = []

    def cancelled() -> bool:
        asked.append(True)
        return len(asked) > 3

    plan = plan_of(*(small_rig(f"rig {number}") for number in range(9)))
    told: list[str] = []
    job = SheetJob(shelf=SHELF, cancelled=cancelled, told=lambda _part, name: told.append(name))
    with pytest.raises(Cancelled):
        rig_sheet(plan, [one.id for one in plan.rigs], job)
    assert told[0] == "rig 0"
    assert len(told) < 9


def test_the_search_for_the_cheapest_asks_whether_to_go_on_before_every_try() -> None:
    asked = []

    def go_on() -> None:
        asked.append(True)
        raise Cancelled

    with pytest.raises(Cancelled):
        cheaper_rigs(small_rig(), SHELF, nights=Conditions(), cancelled=go_on)
    assert len(asked) == 1


def test_no_rig_and_too_many_are_refused() -> None:
    with pytest.raises(BadValueError, match="at least one is needed"):
        rig_sheet(Plan(), [], SheetJob())
    plan = plan_of(*(small_rig(f"rig {number}") for number in range(61)))
    with pytest.raises(BadValueError, match="must be at most 60"):
        sheet_of(plan)


def test_a_search_that_is_given_up_by_its_length_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("core.sheets.rig_sheet.swap_lists._MOST_TRIED", 1)
    shelf = shelf_of(
        telescopes=[telescope("t", 400.0, 5.0)],
        cameras=[camera("c", 6000, 5.0)],
        mounts=[mount("frail", 0.5, 1.0), mount("weak", 0.6, 2.0), mount("firm", 30.0, 9.0)],
    )
    (page,) = sheet_of(plan_of(rig_of(shelf, mount=2)), shelf).pages
    assert page.cheaper[0].sentence == "none of the 1 cheapest ways passes the checks."
