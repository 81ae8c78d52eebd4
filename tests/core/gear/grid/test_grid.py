"""A grid says of every rig what the checks say of it by itself."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.gear.checks import CHECKS, Conditions, passes
from core.gear.grid import NOTHING, Grid, Optics, check_grid, code_of
from core.gear.grid.rules import RULES, rule_for
from core.gear.grid.severity import worst_code
from core.gear.parts import Camera, Mount, OtherPart, Telescope
from tests.core.gear.grid import shelves

NIGHTS = st.builds(
    Conditions,
    seeing_arcsec=st.sampled_from((1.0, 2.5, 5.0)),
    exposure_s=st.sampled_from((1.0, 30.0, 300.0)),
    latitude_deg=st.sampled_from((0.0, 50.0, 90.0)),
    polar_error_arcmin=st.sampled_from((0.5, 10.0)),
)


def differing(grid: Grid, place: tuple[int, int, int]) -> dict[str, tuple[int, int]]:
    """Name the checks whose code in the grid is not that of the record."""
    rig = grid.rig_at(*place)
    found = {}
    for check in CHECKS:
        ours = int(np.broadcast_to(grid.codes[check], grid.shape)[place])
        theirs = worst_code(check(rig, grid.axes.nights))
        if ours != theirs:
            found[check.__name__] = (ours, theirs)
    return found


@settings(max_examples=150, deadline=None)
@given(
    st.lists(shelves.telescopes, min_size=1, max_size=2),
    st.lists(st.none() | shelves.correctors, min_size=1, max_size=2),
    st.lists(shelves.cameras, min_size=1, max_size=2),
    st.lists(shelves.mounts, min_size=1, max_size=2),
    shelves.others,
    NIGHTS,
)
def test_every_code_is_that_of_the_check(tubes, behind, cameras, mounts, others, nights) -> None:
    optics = shelves.optics_of(tubes, behind)
    assume(optics)
    grid = check_grid(optics, cameras, mounts, others=others, nights=nights)
    for place in np.ndindex(*grid.shape):
        assert differing(grid, place) == {}
        rig = grid.rig_at(*place)
        assert bool(grid.passes[place]) == passes(rig, nights)
        price, said = grid.price[place], rig.price
        assert np.isnan(price) if said is None else price == pytest.approx(said, abs=1e-9)


def test_a_large_shelf_agrees_with_its_records() -> None:
    """60 x 40 x 20, of which 400 are asked one by one."""
    tubes, cameras, mounts = shelves.many_parts(60, 40, 20)
    grid = check_grid([Optics(tube) for tube in tubes], cameras, mounts)
    assert grid.shape == (60, 40, 20)
    assert grid.worst.shape == grid.passes.shape == (60, 40, 20)
    chance = random.Random(7)
    for _ in range(400):
        assert differing(grid, tuple(chance.randrange(n) for n in grid.shape)) == {}
    assert 0.05 < grid.passes.mean() < 0.95, "a shelf on which the checks tell rigs apart"


def test_every_check_has_its_array_rule() -> None:
    assert set(RULES) == set(CHECKS)


def test_a_check_without_an_array_rule_is_asked_for_every_rig() -> None:
    tubes, cameras, mounts = shelves.many_parts(2, 3, 2)
    axes = check_grid([Optics(tube) for tube in tubes], cameras, mounts).axes

    def by_name(rig, _nights):  # a rule that nobody has written for arrays
        from core.gear.checks.finding import Finding

        if rig.mount.name.endswith("1"):
            yield Finding(rule="new", severity="caution", message="1.", source="this test")

    codes = rule_for(by_name)(replace(axes, others=()))
    assert codes.shape == (2, 3, 2)
    assert (codes[..., 1] == code_of("caution")).all()
    assert (codes[..., 0] == NOTHING).all()


def test_the_load_is_that_of_the_mode_in_which_a_mount_is_mostly_used() -> None:
    """Derived: 6 kg on ratings of 13 kg bare and 20 kg balanced, 0.46 and 0.30."""
    tube = Telescope(name="t", aperture_mm=80, focal_length_mm=480, mass_kg=5.0)
    camera = Camera(name="c", columns=100, rows=100, pixel_um=4.0, mass_kg=1.0)
    mounts = [
        Mount(name=kind, kind=kind, load_bare_kg=13.0, load_balanced_kg=20.0)
        for kind in ("strain wave", "equatorial")
    ]
    grid = check_grid([Optics(tube)], [camera], mounts)
    assert grid.axes.load_fraction[0, 0].tolist() == pytest.approx([6 / 13, 6 / 20], rel=1e-12)


#: To the gram, as data sheets give them.
_masses = st.integers(0, 30_000).map(lambda grams: grams / 1000)


@settings(max_examples=300, deadline=None)
@given(_masses, _masses, _masses, _masses)
def test_masses_add_up_as_exactly_as_those_of_a_rig(tube_kg, camera_kg, mount_kg, other_kg) -> None:
    """So that a load of just half is comfortable in both."""
    tube = Telescope(name="t", aperture_mm=50, focal_length_mm=250, mass_kg=tube_kg)
    camera = Camera(name="c", columns=100, rows=100, pixel_um=4.0, mass_kg=camera_kg)
    mount = Mount(name="m", mass_kg=mount_kg)
    parts = (OtherPart(name="o", mass_kg=other_kg),)
    axes = check_grid([Optics(tube)], [camera], [mount], others=parts).axes
    assert axes.mass_kg.item() == math.fsum([tube_kg, camera_kg, other_kg])
    assert axes.carried_kg.item() == math.fsum([tube_kg, camera_kg, other_kg, mount_kg])


@pytest.mark.parametrize("empty", ["optics", "cameras", "mounts"])
def test_no_parts_of_one_kind_is_refused(empty: str) -> None:
    tubes, cameras, mounts = shelves.many_parts(1, 1, 1)
    parts = {"optics": [Optics(tubes[0])], "cameras": cameras, "mounts": mounts} | {empty: []}
    with pytest.raises(BadValueError, match=f'^{empty} "none": must be at least one'):
        check_grid(*parts.values())
