"""What swaps offer: savings by hand, and findings that become better or worse."""

from decimal import Decimal

import pytest

from core.errors import BadValueError, Cancelled
from core.gear.checks import Conditions, findings
from core.gear.money.offers import Offer, Question, all_savings, cheapest_offer, single_offers
from core.gear.money.prices import difference, rig_total
from core.gear.shelf.shelf import Shelf
from core.plan.store import demo_plan
from tests.core.gear.small_shelf import camera, mount, rig_of, shelf_of, telescope

NIGHTS = Conditions()
SHELF = shelf_of(
    telescopes=[telescope("long", 600, 1000.0), telescope("short", 300, 400.0)],
    cameras=[camera("large", 6000, 900.0), camera("small", 3000, 450.5)],
    # 4 kg of telescope and 0.6 kg of camera: 46 % of 10 kg, 153 % of 3 kg
    mounts=[mount("firm", 10.0, 800.0), mount("weak", 3.0, 100.0)],
)


def asked(shelf: Shelf = SHELF, **more: object) -> Question:
    return Question(**{"rig": rig_of(SHELF), "shelf": shelf, "currency": "EUR",
                       "nights": NIGHTS, **more})  # fmt: skip


def to(name: str, offers: tuple[Offer, ...]) -> Offer:
    return next(o for o in offers if len(o.swaps) == 1 and o.swaps[0].new.name == name)


def test_every_alternative_is_offered_with_its_own_saving() -> None:
    offers = tuple(single_offers(asked()))
    savings = {offer.swaps[0].new.name: offer.saving for offer in offers}
    assert savings == {"short": Decimal(600), "small": Decimal("449.5"), "weak": Decimal(700)}


def test_a_swap_that_overloads_the_mount_is_worse_and_does_not_pass() -> None:
    offer = to("weak", tuple(single_offers(asked())))
    assert not offer.passes
    assert [change.words for change in offer.differences.worse] == ["load: good → stop"]
    assert {change.figure for change in offer.changes} == {"load_fraction"}


def test_a_lighter_telescope_makes_the_load_no_worse() -> None:
    offer = to("short", tuple(single_offers(asked())))
    assert offer.passes
    assert "load" not in [change.rule for change in offer.differences.worse]


def test_all_savings_are_the_largest_of_each_slot_that_pass_by_themselves() -> None:
    """600 + 449.50; the weak mount saves 700, but it would carry 153 % of its rating."""
    question = asked()
    together = all_savings(question, tuple(single_offers(question)))
    assert together is not None
    assert together.saving == Decimal("1049.5")
    totals = (rig_total(question.rig, "EUR"), rig_total(together.rig, "EUR"))
    assert together.saving == difference(*totals)
    assert together.passes
    assert together.rig.load_fraction == pytest.approx(2.6 / 10.0)


def test_what_passes_one_by_one_may_not_pass_together() -> None:
    """Half the rating is the limit above 1000 mm: 48 %, 50 % and, together, 55 %."""
    shelf = shelf_of(
        telescopes=[telescope("long", 1200, 1000.0).but(mass_kg=4.0)],
        cameras=[camera("large", 6000, 900.0), camera("heavy", 6000, 400.0).but(mass_kg=1.2)],
        mounts=[mount("firm", 10.5, 800.0), mount("weaker", 9.5, 500.0)],
    )
    question = asked(shelf, rig=rig_of(shelf))
    singles = tuple(single_offers(question))
    assert [offer.passes for offer in singles] == [True, True]
    together = all_savings(question, singles)
    assert together is not None
    assert together.saving == Decimal(800)
    assert not together.passes


def test_where_nothing_saves_there_is_no_sum() -> None:
    cheap = rig_of(SHELF, telescope=1, camera=1, mount=1)
    question = asked(rig=cheap)
    assert all_savings(question, tuple(single_offers(question))) is None


def test_a_price_that_is_not_known_saves_nothing_known() -> None:
    shelf = SHELF.but(telescopes=(SHELF.telescopes[0], telescope("gift", 300, None)))
    question = asked(shelf)
    offers = tuple(single_offers(question))
    assert to("gift", offers).saving is None
    together = all_savings(question, offers)
    assert together is not None
    assert "gift" not in [swap.new.name for swap in together.swaps]


def test_the_cheapest_passes_and_counts_what_was_tried() -> None:
    counts: list[int] = []
    offer = cheapest_offer(asked(), tried=counts.append)
    assert offer.passes
    assert counts == list(range(len(counts)))
    # 600 and 449.50; the weak mount would save 700 more, but 87 % of its rating is a caution
    assert offer.saving == Decimal("1049.5")


def test_the_cheapest_of_the_demo_is_never_dearer_and_never_stopped() -> None:
    shelf = Shelf.load()
    for planned in demo_plan().rigs[:3]:
        offer = cheapest_offer(asked(shelf, rig=planned.rig))
        assert offer.passes
        assert offer.saving is not None
        assert offer.saving >= 0
        before, after = rig_total(planned.rig, "EUR"), rig_total(offer.rig, "EUR")
        assert offer.saving == difference(before, after)
        assert offer.found == findings(offer.rig, NIGHTS)


def test_a_search_that_is_called_off_ends_at_once() -> None:
    counts: list[int] = []

    def enough(count: int) -> None:
        counts.append(count)
        if count == 1:
            raise Cancelled

    with pytest.raises(Cancelled):
        cheapest_offer(asked(Shelf.load(), rig=demo_plan().rigs[4].rig), tried=enough)
    assert counts == [0, 1]


def test_another_currency_is_refused_for_single_swaps_and_for_the_cheapest() -> None:
    question = asked(SHELF.but(currency="USD"))
    for look in (lambda: list(single_offers(question)), lambda: cheapest_offer(question)):
        with pytest.raises(BadValueError, match="no rate is known here"):
            look()
