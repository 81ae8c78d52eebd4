"""The cheapest rig that passes, against trying every combination."""

import itertools
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import CoreError
from core.gear.money.cheapest import cheapest
from core.gear.money.prices import difference, rig_total
from core.gear.money.swaps import swapped
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot, alternatives, slots_of, with_parts
from tests.core.gear.small_shelf import camera, mount, other, rig_of, shelf_of, telescope

#: Few different prices, so that many combinations cost the same.
prices = st.sampled_from([0.0, 10.5, 10.5, 20.0, 99.99, 100.0]) | st.floats(0, 1e5)


@st.composite
def shelves(draw: st.DrawFn) -> Shelf:
    """Shelves of up to four telescopes, three cameras, three mounts and three guiders."""

    def row(make: Callable[..., object], sizes: list[int]) -> list[object]:
        count = draw(st.integers(1, len(sizes)))
        return [make(f"{make.__name__} {n}", sizes[n], draw(prices)) for n in range(count)]

    guiders = st.lists(prices, min_size=1, max_size=3)
    return shelf_of(
        telescopes=row(telescope, [400, 200, 1000, 650]),
        cameras=row(camera, [6000, 3000, 1500]),
        mounts=row(mount, [10, 5, 20]),
        others=[other(f"guider {n}", p, kind="guiding") for n, p in enumerate(draw(guiders))],
    )


def by_trying_all(rig: Rig, shelf: Shelf, passes: Callable[[Rig], bool]) -> list[Rig]:
    """Every rig of alternatives that passes, by its total."""
    slots = slots_of(rig)
    rows = [(part, *alternatives(part, shelf)) for part in slots.values()]
    rigs = [with_parts(rig, dict(zip(slots, row, strict=True))) for row in itertools.product(*rows)]
    return sorted(filter(passes, rigs), key=lambda made: rig_total(made, "EUR").known)


CHECKS: dict[str, Callable[[Rig], bool]] = {
    "load at most half": lambda rig: (rig.load_fraction or 1.0) <= 0.5,
    "fine scale on a carrying mount": lambda rig: (
        rig.scale_arcsec_px < 1.5 and (rig.load_fraction or 1.0) < 0.9
    ),
    "wide field": lambda rig: rig.width_deg > 3.0,
    "all": lambda rig: True,
    "none": lambda rig: False,
}


@pytest.mark.parametrize("check", CHECKS)
@given(shelf=shelves())
@settings(max_examples=30, deadline=None)
def test_the_cheapest_is_what_trying_all_finds(check: str, shelf: Shelf) -> None:
    passes = CHECKS[check]
    rig = rig_of(shelf).but(others=shelf.others[:1])
    found, all_rigs = cheapest(rig, shelf, passes), by_trying_all(rig, shelf, passes)
    assert (found.rig is None) == (not all_rigs)
    if found.rig is not None:
        assert passes(found.rig)
        least = rig_total(all_rigs[0], "EUR")
        assert rig_total(found.rig, "EUR").known == least.known
        assert found.saving == difference(rig_total(rig, "EUR"), least)
        assert swapped(rig, found.swaps) == found.rig
        equal = [made for made in all_rigs if rig_total(made, "EUR").known == least.known]
        assert len(found.swaps) == min(swaps_between(rig, made) for made in equal)


def swaps_between(rig: Rig, made: Rig) -> int:
    pairs = zip(slots_of(rig).values(), slots_of(made).values(), strict=True)
    return sum(one.name != other.name for one, other in pairs)


def test_combinations_are_tried_from_the_cheapest_up_and_each_once() -> None:
    """Prices 1, 2, 4 and 10, 13 and 0.5, 5: all 12 sums in their order."""
    shelf = shelf_of(
        telescopes=[telescope(f"t{p}", 400, p) for p in (1, 2, 4)],
        cameras=[camera(f"c{p}", 6000, p) for p in (10, 13)],
        mounts=[mount(f"m{p}", 10, p) for p in (0.5, 5)],
    )
    totals: list[Decimal] = []
    cheapest(rig_of(shelf), shelf, lambda rig: bool(totals.append(rig_total(rig, "EUR").known)))
    sums = [Decimal(str(sum(s))) for s in itertools.product((1, 2, 4), (10, 13), (0.5, 5))]
    assert totals == sorted(sums)


def test_a_rig_that_is_cheapest_already_stays_as_it_is() -> None:
    shelf = shelf_of(
        telescopes=[telescope("a", 400, 5), telescope("b", 400, 5), telescope("c", 400, 6)],
        cameras=[camera("eye", 600, 1)],
        mounts=[mount("legs", 10, 1)],
    )
    found = cheapest(rig_of(shelf, telescope=1), shelf, lambda rig: True)
    assert (found.rig, found.swaps, found.saving) == (rig_of(shelf, telescope=1), (), 0)


def test_of_two_ways_to_one_price_the_one_with_fewer_swaps_is_found() -> None:
    """15 is 10 + 5 by one swap and 8 + 7 by two; nothing else passes."""
    shelf = shelf_of(
        telescopes=[telescope("own", 400, 10), telescope("t", 300, 8)],
        cameras=[camera("own", 600, 10), camera("c", 300, 5), camera("d", 300, 7)],
        mounts=[mount("legs", 10, 0)],
    )
    found = cheapest(rig_of(shelf), shelf, lambda rig: rig.price == 15)
    assert [swap.new.name for swap in found.swaps] == ["c"]


def test_what_makes_no_rig_is_passed_over_and_not_checked() -> None:
    """1500/10 with a factor of 10 would be f/1500; nothing is slower than f/1000."""
    shelf = shelf_of(
        telescopes=[telescope("dear", 400, 90), telescope("pinhole", 1500, 1, aperture_mm=10)],
        cameras=[camera("eye", 600, 1)],
        mounts=[mount("legs", 10, 1)],
    )
    extender = Shelf.load().corrector("extender 1.5x").but(factor=10.0)
    asked: list[Rig] = []
    found = cheapest(rig_of(shelf).but(corrector=extender), shelf, lambda r: not asked.append(r))
    assert (found.swaps, found.tried) == ((), 2)
    assert [rig.telescope.name for rig in asked] == ["dear"]


def test_a_kept_slot_is_not_swapped() -> None:
    shelf = shelf_of(
        telescopes=[telescope("dear", 400, 500), telescope("cheap", 300, 50)],
        cameras=[camera("eye", 600, 90), camera("dot", 300, 20)],
        mounts=[mount("legs", 10, 1)],
    )
    found = cheapest(rig_of(shelf), shelf, lambda rig: True, kept=[Slot("telescope")])
    assert found.rig is not None
    assert (found.rig.telescope.name, found.rig.camera.name) == ("dear", "dot")
    assert found.saving == 70


def test_parts_without_a_price_take_no_part_and_are_named() -> None:
    """An unknown price is not the lowest: the lens without one must not win."""
    shelf = shelf_of(
        telescopes=[telescope("dear", 400, 500), telescope("gift", 300, None)],
        cameras=[camera("eye", 600, None), camera("dot", 300, 20)],
        mounts=[mount("legs", 10, 1)],
    )
    found = cheapest(rig_of(shelf), shelf, lambda rig: True)
    assert found.rig == rig_of(shelf)
    assert found.unpriced == ("gift", "eye")


def test_a_search_that_would_not_end_is_given_up_with_a_sentence() -> None:
    shelf = Shelf.load()
    with pytest.raises(
        CoreError, match=r"^none of the 40 cheapest combinations passes the checks;"
    ):
        cheapest(rig_of(shelf), shelf, lambda rig: False, most_tried=40)


def test_as_many_combinations_as_allowed_are_an_answer() -> None:
    shelf = shelf_of(
        telescopes=[telescope(f"t{n}", 400, n) for n in range(4)],
        cameras=[camera("eye", 600, 1)],
        mounts=[mount("legs", 10, 1)],
    )
    assert cheapest(rig_of(shelf), shelf, lambda rig: False, most_tried=4).tried == 4
