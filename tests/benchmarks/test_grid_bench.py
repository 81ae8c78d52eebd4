"""Speed of checking every combination of a shelf, as a ratio against rig after rig."""

import random

import pytest

from core.gear.accessories import FilterPart, GuideCamera, OffAxisGuider, Spacer, Tripod
from core.gear.checks import findings
from core.gear.grid import Grid, Optics, check_grid
from core.gear.parts import OtherPart
from tests.benchmarks.timing import ratio
from tests.core.gear.grid.shelves import many_parts

#: One rig in so many is checked by itself; its time is scaled up.
ONE_IN = 50


#: What a rig with an off-axis guider has besides.
BESIDES = (
    Spacer(name="ring", length_mm=17.5, clear_diameter_mm=48.0, mass_kg=0.1),
    OffAxisGuider(
        name="pick-off",
        length_mm=16.5,
        prism_mm=8.0,
        prism_radius_mm=15.0,
        prism_angle_deg=0.0,
        clear_diameter_mm=44.0,
        mass_kg=0.3,
    ),
    FilterPart(
        name="wheel", kind="filter wheel", length_mm=20.0, clear_diameter_mm=36.0, mass_kg=0.8
    ),
    FilterPart(name="narrow", glass_mm=2.0, glass_index=1.52, band_nm=3.0, clear_diameter_mm=34.0),
    GuideCamera(name="guide eye", columns=1280, rows=960, pixel_um=3.75, mass_kg=0.1),
    Tripod(name="legs", rated_load_kg=30.0, mass_kg=6.0),
)


@pytest.mark.parametrize("others", [(), BESIDES], ids=["bare", "with six parts more"])
def test_48_000_combinations_are_checked_100_times_faster_than_one_by_one(
    others: tuple[OtherPart, ...],
) -> None:
    """The records are built and asked as `findings` does it, from parts that stand ready."""
    tubes, cameras, mounts = many_parts(60, 40, 20)
    optics = [Optics(tube) for tube in tubes]
    whole = check_grid(optics, cameras, mounts, others=others)
    chance = random.Random(3)
    some = [
        tuple(chance.randrange(n) for n in whole.shape) for _ in range(whole.worst.size // ONE_IN)
    ]
    assert whole.worst.size == 48_000

    def named() -> object:
        return [findings(whole.rig_at(*place)) for place in some]

    def ours() -> Grid:
        grid = check_grid(optics, cameras, mounts, others=others)
        assert grid.passes.any() or others
        return grid

    found = ratio(named, ours, rounds=5, label=f"48,000 rigs (named: every {ONE_IN}th of them)")
    times = ONE_IN * found.times_faster
    print(f"48,000 rigs: {times:.0f} times faster than one by one, {found.ours_s * 1e3:.0f} ms")
    assert times >= 100.0
