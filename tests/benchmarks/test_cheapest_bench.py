"""Speed of the search for the cheapest rig, as a ratio against making every rig it meets."""

from core.gear.money.cheapest import Cheapest, cheapest
from core.gear.money.no_worse import can_join, no_worse_than
from core.gear.shelf.shelf import Shelf
from core.plan.store import demo_plan
from tests.benchmarks.timing import ratio


def test_parts_that_cannot_be_joined_are_passed_over_3_times_faster_than_made_and_checked() -> None:
    """The rig of the demo with the most to try: over ten thousand combinations."""
    shelf = Shelf.load()
    rig = next(one.rig for one in demo_plan().rigs if one.id == "Nebula bench")
    sure = no_worse_than(rig)

    def named() -> Cheapest:
        return cheapest(rig, shelf, sure)

    def ours() -> Cheapest:
        return cheapest(rig, shelf, sure, worth_making=can_join)

    assert named() == ours()
    tried = ours().tried
    assert tried > 1000
    found = ratio(named, ours, rounds=3, label=f"cheapest rig, {tried} combinations")
    assert found.times_faster >= 3.0
