"""Swaps and the cheapest rig with the real checks, on the shelf that comes along."""

from collections import Counter

import pytest

from core.gear.checks import passes
from core.gear.money.cheapest import cheapest
from core.gear.money.no_worse import no_worse_than
from core.gear.money.prices import rig_total
from core.gear.money.swaps import swapped, swaps_for
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import slots_of
from core.plan.store import demo_plan

DEMO = {planned.id: planned.rig for planned in demo_plan().rigs}
BENCH = DEMO["Galaxy bench"]


def test_a_mount_of_unknown_rating_is_no_cheaper_choice() -> None:
    """The tracker is rated with a counterweight only; used without, nothing forbids it."""
    tracker = Shelf.load().mount("tracker with declination drive 5 kg")
    loose = BENCH.but(mount=tracker)
    assert loose.load_fraction is None
    assert passes(loose)
    assert not no_worse_than(BENCH)(loose)
    assert no_worse_than(loose)(loose), "what was not known before need not be known now"


def test_an_overloaded_mount_is_no_choice() -> None:
    small = Shelf.load().mount("equatorial 10 kg")
    heavy = BENCH.but(mount=small, telescope=BENCH.telescope.but(mass_kg=30.0))
    assert not no_worse_than(heavy)(heavy)


def test_a_missing_spacer_is_no_saving() -> None:
    """The shorter adapter leaves 19.5 mm to be bought after all: a caution, not a stop."""
    rig, shelf = DEMO["Rucksack kit"], Shelf.load()
    short = shelf.other("adapter M48 to M42, 18.5 mm")
    (long,) = (place for place, part in enumerate(rig.others) if part.kind == "adapter")
    lacking = rig.but(others=tuple(short if i == long else p for i, p in enumerate(rig.others)))
    assert passes(lacking)
    assert not no_worse_than(rig)(lacking)
    assert no_worse_than(lacking)(lacking), "a caution that was there before may stay"
    found = cheapest(rig, shelf, no_worse_than(rig)).rig
    assert found is not None
    assert short not in found.others


@pytest.mark.parametrize("name", DEMO)
def test_the_cheapest_of_a_kit_with_its_optics_kept_is_found_and_carried(name: str) -> None:
    rig, shelf = DEMO[name], Shelf.load()
    kept = [slot for slot in slots_of(rig) if slot.field != "mount"]
    sure = no_worse_than(rig)
    found = cheapest(rig, shelf, sure, kept=kept)
    by_trying: list[Rig] = [made for m in shelf.mounts if sure(made := rig.but(mount=m))]
    assert found.rig is not None
    assert rig_total(found.rig, "EUR").known == min(rig_total(r, "EUR").known for r in by_trying)
    assert found.rig.load_fraction is not None
    assert found.rig.load_fraction <= 1.0


def test_every_kit_of_the_demo_has_swaps_in_three_slots() -> None:
    shelf = Shelf.load()
    for name, rig in DEMO.items():
        swaps = swaps_for(rig, shelf, currency="EUR", passes=no_worse_than(rig))
        assert len(Counter(swap.slot for swap in swaps)) >= 3, name
        assert {swap.passes for swap in swaps} == {True, False}, name
        assert all(swapped(rig, [swap]) != rig for swap in swaps)
