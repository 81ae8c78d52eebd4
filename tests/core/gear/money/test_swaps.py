"""What a swap saves and what it changes, by hand and for any prices."""

import itertools
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.gear.checks import Conditions
from core.gear.checks.differences import finding_changes
from core.gear.money.prices import difference, exact, rig_total
from core.gear.money.swaps import Swap, changes_between, saving_of, swapped, swaps_for
from core.gear.shelf.shelf import Shelf
from core.gear.slots import Slot, alternatives, slots_of, with_parts
from tests.core.gear.small_shelf import (
    Guider,
    Named,
    NamedGuider,
    camera,
    mount,
    other,
    rig_of,
    shelf_of,
    telescope,
)

prices = st.decimals(0, 9999, places=2).map(float)


def small_shelf(**changes: object) -> Shelf:
    parts = {
        "telescopes": [telescope("tube", 400, 900.0), telescope("short", 300, 650.0)],
        "cameras": [
            camera("eye", 6000, 1500.0, sensor="colour"),
            camera("small eye", 3000, 700.0, sensor="colour"),
            camera("grey eye", 6000, 1700.0, sensor="mono"),
        ],
        "mounts": [mount("legs", 10, 1000.0), mount("small legs", 5, 600.0)],
        "others": [other("guide", 250.0, kind="guiding"), other("bag", 40.0)],
    }
    return shelf_of(**parts | changes)


def swaps_by_name(shelf: Shelf, **options: object) -> dict[str, Swap]:
    swaps = swaps_for(rig_of(shelf), shelf, currency="EUR", **options)
    return {swap.new.name: swap for swap in swaps}


def test_a_swap_tells_its_saving_and_every_figure_that_changes() -> None:
    """400 to 300 mm with 3.76 um: 1.9389 to 2.5852 arcsec/px, load 367 % / 10 kg by hand.

    Masses 400/150 + 0.6 + 0.4 + 0.4 = 4.0667 kg and 300/150 + 1.4 = 3.4 kg on 10 kg.
    """
    swap = swaps_by_name(small_shelf())["short"]
    assert swap.saving == 250
    assert swap.words.replace("\xa0", " ") == "short instead of tube saves 250 €"
    told = {change.quantity: (change.before, change.after) for change in swap.changes}
    assert told["scale"] == pytest.approx((1.938889, 2.585186), rel=1e-6)
    assert told["focal length"] == (400.0, 300.0)
    assert told["mass on the mount"] == pytest.approx((4.066667, 3.4), rel=1e-6)
    assert told["load"] == pytest.approx((0.4066667, 0.34), rel=1e-6)
    assert set(told) == {
        *("field width", "field height", "scale", "focal length", "mass on the mount", "load"),
        *("light grasp", "speed on a nebula, at the same scale"),
    }, "the focal ratio stays f/5, and so does the light on one pixel"
    words = [change.words for change in swap.changes]
    assert "focal length 400 mm → 300 mm" in words
    assert "load 40.7 % → 34 %" in words


def test_a_swap_tells_what_becomes_of_the_findings_when_nights_are_given() -> None:
    """4.07 kg on 10 kg are 41 %, on 5 kg 81 %."""
    shelf = small_shelf()
    plain, told = swaps_by_name(shelf), swaps_by_name(shelf, nights=Conditions())
    assert plain["small legs"].findings is None
    found = told["small legs"].findings
    assert found is not None
    assert [change.words for change in found.worse] == ["load: good → caution"]
    assert found == finding_changes(rig_of(shelf), swapped(rig_of(shelf), [told["small legs"]]))


def test_a_dearer_part_costs_more_and_an_equal_one_the_same() -> None:
    shelf = small_shelf(mounts=[mount(*row) for row in [("a", 9, 1.0), ("b", 9, 1.0), ("c", 9, 3)]])
    swaps = swaps_by_name(shelf)
    assert swaps["b"].words == "b instead of a costs the same"
    assert swaps["b"].changes == ()
    assert swaps["c"].words.replace("\xa0", " ") == "c instead of a costs 2 € more"


def test_a_saving_without_a_price_is_not_known_and_asks_for_it() -> None:
    shelf = small_shelf(mounts=[mount("legs", 10, 1000.0), mount("old legs", 9, None)])
    swap = swaps_by_name(shelf)["old legs"]
    assert swap.saving is None
    assert swap.words == ("old legs instead of legs: saving not known, give the price of old legs")
    both = small_shelf(mounts=[mount("legs", 10, None), mount("old legs", 9, None)])
    assert swaps_by_name(both)["old legs"].saving is None
    assert saving_of([swap, swaps_by_name(shelf)["short"]]) is None


def test_an_unknown_mass_is_told_as_not_known() -> None:
    shelf = small_shelf(telescopes=[telescope("tube", 400, 9.0), telescope("x", 400, 8.0)])
    heavy = shelf.telescopes[1].but(mass_kg=None)
    changes = changes_between(rig_of(shelf), rig_of(shelf).but(telescope=heavy))
    assert [change.words for change in changes] == [
        "mass on the mount 4.067 kg → not known",
        "load 40.7 % → not known",
    ]


def test_swaps_stand_slot_by_slot_with_the_largest_saving_first() -> None:
    rows = [("legs", 10, 1000.0), ("m", 9, 800.0), ("n", 9, None), ("o", 9, 300.0), ("p", 9, 1e4)]
    swaps = swaps_for(
        rig_of(shelf := small_shelf(mounts=[mount(*row) for row in rows])), shelf, currency="EUR"
    )
    assert [swap.new.name for swap in swaps] == ["short", "small eye", "o", "m", "p", "n"]


def test_a_mono_camera_is_no_alternative_to_a_colour_one_unless_named() -> None:
    swaps = swaps_by_name(small_shelf())
    assert "small eye" in swaps
    assert "grey eye" not in swaps


def test_a_bag_is_no_alternative_to_a_guider() -> None:
    shelf = small_shelf()
    (guide, bag) = shelf.others
    assert alternatives(guide, shelf) == ()
    cheaper = other("finder", 90.0, kind="guiding")
    assert alternatives(guide, shelf.but(others=(guide, bag, cheaper))) == (cheaper,)


def test_alternatives_that_a_part_names_are_the_only_ones() -> None:
    shelf = small_shelf(
        telescopes=[telescope(name, 400, 9.0) for name in ("tube", "one", "two", "three")]
    )
    own = Named(
        name="tube", aperture_mm=80, focal_length_mm=400, alternatives=("two", "tube", "two")
    )
    assert [part.name for part in alternatives(own, shelf)] == ["two"]
    wrong = own.but(alternatives=("two", "four"))
    with pytest.raises(BadValueError, match=r'^alternative to tube "four": is not on the shelf$'):
        alternatives(wrong, shelf)


def test_a_part_may_name_an_alternative_of_another_kind_but_not_of_another_class() -> None:
    """A guide scope names the off-axis guider; a mount of that name is no choice."""
    pick = Guider(name="pick-off", kind="off-axis guider")
    tube = NamedGuider(name="tube", kind="guide scope", alternatives=("pick-off",))
    shelf = small_shelf(others=[pick, tube])
    assert alternatives(tube, shelf) == (pick,)
    with pytest.raises(BadValueError, match="pick-off"):
        alternatives(tube, small_shelf(mounts=[mount("pick-off", 9, 1.0)]))


def test_what_makes_no_rig_is_not_offered() -> None:
    """A factor of 10 on f/150 would be f/1500; nothing is slower than f/1000."""
    shelf = Shelf.load()
    extender = shelf.corrector("extender 1.5x").but(factor=10.0)
    rig = rig_of(shelf).but(corrector=extender)
    slow = telescope("pinhole", 1500, 1.0, aperture_mm=10.0)
    names = [
        swap.new.name for swap in swaps_for(rig, small_shelf(telescopes=[slow]), currency="EUR")
    ]
    assert "pinhole" not in names
    assert "small eye" in names


def test_checks_are_asked_for_each_swap() -> None:
    swaps = swaps_by_name(small_shelf(), passes=lambda rig: (rig.load_fraction or 9) < 0.5)
    assert {name: swap.passes for name, swap in swaps.items()} == {
        "short": True,
        "small eye": True,
        "small legs": False,
    }
    assert {swap.passes for swap in swaps_by_name(small_shelf()).values()} == {None}


@given(st.lists(prices, min_size=7, max_size=7))
@settings(max_examples=40)
def test_savings_are_differences_of_totals_in_any_order(given_prices: list[float]) -> None:
    one, two, three, four, five, six, rest = given_prices
    shelf = small_shelf(
        telescopes=[telescope("tube", 400, one), telescope("short", 300, two)],
        cameras=[camera("eye", 6000, three), camera("small eye", 3000, four)],
        mounts=[mount("legs", 10, five), mount("small legs", 5, six)],
        others=[other("bag", rest)],
    )
    rig = rig_of(shelf)
    before = rig_total(rig, "EUR")
    swaps = swaps_for(rig, shelf, currency="EUR")
    assert len(swaps) == 3
    for swap in swaps:
        assert swap.saving == difference(before, rig_total(swapped(rig, [swap]), "EUR"))
    for order in itertools.permutations(swaps):
        after = swapped(rig, order)
        assert after == swapped(rig, swaps)
        assert saving_of(order) == difference(before, rig_total(after, "EUR"))
        step_by_step = rig
        for swap in order:
            step_by_step = swapped(step_by_step, [swap])
        assert step_by_step == after
    assert saving_of(swaps) == exact(one) + exact(three) + exact(five) - sum(
        map(exact, (two, four, six))
    )
    assert saving_of(()) == Decimal(0)


def test_two_swaps_in_one_slot_are_refused() -> None:
    shelf = small_shelf(mounts=[mount(name, 9, 1.0) for name in ("a", "b", "c")])
    swaps = swaps_by_name(shelf)
    with pytest.raises(BadValueError, match=r'^swap to "c": is one of two swaps for a; choose one'):
        swapped(rig_of(shelf), [swaps["b"], swaps["c"]])


def test_a_swap_for_another_rig_is_refused() -> None:
    shelf = small_shelf()
    swap = swaps_by_name(shelf)["short"]
    with pytest.raises(BadValueError, match=r'^swap of "tube": is not for "rig" as it is$'):
        swapped(rig_of(shelf, telescope=1), [swap])


def test_a_part_for_a_slot_that_is_not_there_is_refused() -> None:
    shelf = small_shelf()
    for slot, words in {Slot("corrector"): "corrector", Slot("others", 7): "others 8"}.items():
        with pytest.raises(BadValueError, match=f'^slot "{words}": is empty in "rig"$'):
            with_parts(rig_of(shelf), {slot: shelf.others[0]})


def test_a_part_of_another_class_does_not_go_into_a_slot() -> None:
    shelf = small_shelf()
    with pytest.raises(BadValueError, match="camera"):
        with_parts(rig_of(shelf), {Slot("camera"): shelf.mounts[0]})


def test_every_part_has_a_slot_and_several_change_at_once() -> None:
    rig = rig_of(small_shelf())
    assert sorted(part.name for part in slots_of(rig).values()) == sorted(
        part.name for part in rig.parts
    )
    box, sack = other("box", 1.0), other("sack", 2.0)
    changed = with_parts(rig, {Slot("others", 0): box, Slot("others", 1): sack})
    assert changed.others == (box, sack)
    assert changed.but(others=rig.others) == rig


def test_a_shelf_in_another_currency_is_refused() -> None:
    shelf = small_shelf(currency="USD")
    with pytest.raises(BadValueError, match=r'^currency of the shelf "USD": must be that of the'):
        swaps_for(rig_of(shelf), shelf, currency="EUR")
