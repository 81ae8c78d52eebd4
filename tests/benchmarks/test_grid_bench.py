"""Speed of checking every combination of a shelf, as a ratio against rig after rig."""

import random

from core.gear.checks import findings
from core.gear.grid import Grid, Optics, check_grid
from tests.benchmarks.timing import ratio
from tests.core.gear.grid.shelves import many_parts

#: One rig in so many is checked by itself; its time is scaled up.
ONE_IN = 50


def test_48_000_combinations_are_checked_100_times_faster_than_one_by_one() -> None:
    """The records are built and asked as `findings` does it, from parts that stand ready."""
    tubes, cameras, mounts = many_parts(60, 40, 20)
    optics = [Optics(tube) for tube in tubes]
    whole = check_grid(optics, cameras, mounts)
    chance = random.Random(3)
    some = [
        tuple(chance.randrange(n) for n in whole.shape) for _ in range(whole.worst.size // ONE_IN)
    ]
    assert whole.worst.size == 48_000

    def named() -> object:
        return [findings(whole.rig_at(*place)) for place in some]

    def ours() -> Grid:
        grid = check_grid(optics, cameras, mounts)
        assert grid.passes.any()
        return grid

    found = ratio(named, ours, rounds=5, label=f"48,000 rigs (named: every {ONE_IN}th of them)")
    times = ONE_IN * found.times_faster
    print(f"48,000 rigs: {times:.0f} times faster than one by one, {found.ours_s * 1e3:.0f} ms")
    assert times >= 100.0
