"""Totals, sets that share parts, and money in words."""

import json
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError, InvalidRigError
from core.gear.money.prices import (
    Total,
    difference,
    exact,
    minor_digits,
    money_words,
    rig_total,
    set_total,
    total_of,
)
from core.gear.parts import Camera, OtherPart, Telescope
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from tests.core.gear.small_shelf import Named

prices = st.none() | st.decimals(0, 9999, places=2).map(float)


def part(name: str, price: float | None) -> OtherPart:
    return OtherPart(name=name, price=price)


def rig(*others: OtherPart, telescope: float | None = 500.0, camera: float | None = 300.0) -> Rig:
    return Rig(
        name="rig",
        telescope=Telescope(name="tube", aperture_mm=80, focal_length_mm=400, price=telescope),
        camera=Camera(name="eye", columns=6248, rows=4176, pixel_um=3.76, price=camera),
        others=others,
    )


def plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def test_a_total_is_the_sum_to_the_last_digit() -> None:
    """0.1 + 0.2 = 0.3 in decimals; binary floats give 0.30000000000000004."""
    total = total_of([part("a", 0.1), part("b", 0.2)], "EUR")
    assert total.amount == Decimal("0.3")
    assert rig_total(rig(part("bar", 19.95)), "EUR").amount == Decimal("819.95")


def test_an_unknown_price_is_not_counted_as_nothing() -> None:
    total = rig_total(rig(part("bar", None), part("box", 1140.0), camera=None), "EUR")
    assert total.amount is None
    assert total.known == 1640
    assert total.unpriced == ("eye", "bar")
    assert plain(total.words) == "at least 1 640 €, 2 prices not known"


def test_a_price_of_nothing_is_known() -> None:
    """A borrowed part costs 0, which is another thing than not known."""
    assert plain(total_of([part("lent", 0.0)], "EUR").words) == "0 €"
    assert plain(total_of([part("lent", None)], "EUR").words) == "1 price not known"


@pytest.mark.parametrize(
    ("amount", "currency", "words"),
    [
        (1940, "EUR", "1 940 €"),
        (1234567.5, "USD", "1 234 567.50 $"),
        (999.994, "GBP", "999.99 £"),
        (0.125, "EUR", "0.12 €"),
        (0.135, "EUR", "0.14 €"),
        (12345.6, "JPY", "12 346 ¥"),
        (1.2345, "KWD", "1.234 KWD"),
        (-250, "SEK", "−250 SEK"),
        (-0.001, "EUR", "0 €"),
        (3.5, "XQZ", "3.50 XQZ"),
    ],
)
def test_money_is_written_one_way_everywhere(amount: float, currency: str, words: str) -> None:
    """Halves go to the even digit (ISO 80000-1, annex B, rule A); decimals as in ISO 4217."""
    assert plain(money_words(amount, currency)) == words
    assert " " not in money_words(amount, currency), "a price must not break over two lines"


@pytest.mark.parametrize(
    ("codes", "digits"),
    [
        ("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF", 0),
        ("EUR USD GBP CHF SEK NOK DKK PLN CZK HUF CAD AUD NZD CNY INR TRY BRL MXN ZAR", 2),
        ("BHD IQD JOD KWD LYD OMR TND", 3),
        ("CLF UYW", 4),
    ],
)
def test_minor_units_are_those_of_iso_4217(codes: str, digits: int) -> None:
    """ISO 4217, list one: as a browser's source takes it over (version of 2026-01-01)."""
    assert {code: minor_digits(code) for code in codes.split()} == dict.fromkeys(
        codes.split(), digits
    )


def test_a_part_shared_by_rigs_is_counted_once() -> None:
    bar, mount = part("bar", 40.0), part("legs", 240.0)
    total = set_total([rig(bar, mount), rig(mount)], "EUR")
    assert total.amount == 500 + 300 + 40 + 240


def test_two_pieces_in_one_rig_stay_two_in_the_set() -> None:
    ring = part("spacer 10 mm", 15.0)
    assert set_total([rig(ring), rig(ring, ring), rig()], "EUR").amount == 800 + 2 * 15


def test_a_shared_part_priced_in_one_rig_only_has_that_price() -> None:
    first, second = rig(part("bar", None)), rig(part("bar", 40.0))
    assert set_total([first, second], "EUR").amount == 840
    assert set_total([second, first], "EUR").amount == 840


def test_a_shared_part_of_two_prices_is_refused_by_name() -> None:
    with pytest.raises(BadValueError, match=r'^price of bar "40 and 45": must be the same in'):
        set_total([rig(part("bar", 40.0)), rig(part("bar", 45.0))], "EUR")


def test_parts_of_two_classes_may_have_one_name() -> None:
    """The telescope and another part are both called "tube": two things to buy."""
    assert set_total([rig(part("tube", 70.0))], "EUR").amount == 870


def test_a_special_kind_of_a_part_is_the_same_part_by_name() -> None:
    plain_tube = rig().telescope
    named = Named(**{**dict(plain_tube), "price": 500.0})
    assert set_total([rig(), rig().but(telescope=named)], "EUR").amount == 800


@given(st.lists(st.lists(st.tuples(st.sampled_from("abcd"), st.just(7.25)), max_size=4)))
@settings(max_examples=60)
def test_a_set_costs_no_less_than_its_dearest_rig_and_no_more_than_all(
    rows: list[list[tuple[str, float]]],
) -> None:
    rigs = [rig(*(part(name, price) for name, price in row)) for row in rows]
    single = [rig_total(one, "EUR").known for one in rigs]
    assert max(single, default=0) <= set_total(rigs, "EUR").known <= sum(single)
    assert set_total([*rigs, *rigs], "EUR").known == set_total(rigs, "EUR").known


@given(st.lists(prices, max_size=6), st.lists(prices, max_size=6))
@settings(max_examples=60)
def test_totals_add_up_in_any_order(one: list[float | None], two: list[float | None]) -> None:
    first = [part(f"a{n}", price) for n, price in enumerate(one)]
    second = [part(f"b{n}", price) for n, price in enumerate(two)]
    joined = total_of([*second, *first], "EUR")
    added = total_of(first, "EUR") + total_of(second, "EUR")
    assert added.known == joined.known
    assert sorted(added.unpriced) == sorted(joined.unpriced)


def test_a_difference_is_known_when_only_the_common_prices_are_not() -> None:
    before = Total(currency="EUR", known=Decimal(900), unpriced=("bar",))
    assert difference(before, Total(currency="EUR", known=Decimal(650), unpriced=("bar",))) == 250
    assert difference(before, Total(currency="EUR", known=Decimal(650))) is None
    assert difference(before, Total(currency="EUR", unpriced=("bar", "bar"))) is None


@pytest.mark.parametrize("currency", ["eur", "EURO", "€", "", "E R", "ÉUR"])
def test_what_is_no_currency_is_refused(currency: str) -> None:
    with pytest.raises(BadValueError, match=r"^currency .*must be three capital letters"):
        rig_total(rig(), currency)


def test_two_currencies_are_never_mixed() -> None:
    euro, krona = Total(currency="EUR"), Total(currency="SEK")
    for mix in (lambda: euro + krona, lambda: difference(euro, krona)):
        with pytest.raises(BadValueError, match=r'^currency "SEK": must be EUR, like the rest'):
            mix()


@pytest.mark.parametrize("price", [-0.01, -500.0, float("nan"), float("inf"), 1e10])
def test_a_price_that_cannot_be_is_refused(price: float) -> None:
    with pytest.raises(InvalidRigError, match=r"^price "):
        part("bar", price)


def test_a_price_in_words_is_refused_when_a_shelf_is_read(tmp_path: Path) -> None:
    shelf = {"format": "skysill-shelf", "version": 1, "currency": "EUR"}
    shelf |= {"others": [{"name": "bar", "price": "12,50"}]}
    (tmp_path / "shelf.json").write_text(json.dumps(shelf), "utf-8")
    with pytest.raises(ValueError, match=r'other part 1, price "12,50": must be a number'):
        Shelf.load(tmp_path / "shelf.json")


@given(st.decimals(0, 10**9, places=2))
@settings(max_examples=60)
def test_a_price_is_taken_by_its_digits(price: Decimal) -> None:
    assert exact(float(price)) == price


def test_a_speck_of_a_price_does_not_spoil_exact_sums() -> None:
    """28 digits hold 1e9 and the sixth decimal, but not 1e9 and 1e-300."""
    assert exact(1e-300) == 0
    assert exact(0.0000015) == Decimal("0.000002")
    big, small = part("big", 1e9), part("small", 0.000001)
    assert total_of([big, small], "EUR").known - total_of([big], "EUR").known == exact(1e-6)
