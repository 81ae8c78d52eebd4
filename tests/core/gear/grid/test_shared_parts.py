"""Bores, prisms and guiders with every figure known: the grid agrees with the records."""

import random

import numpy as np

from core.gear.accessories import FilterPart, GuideCamera, GuideScope, OffAxisGuider, Spacer
from core.gear.checks import CHECKS
from core.gear.checks.guiding import check_guide_scale, check_prism
from core.gear.checks.illumination import check_clear_diameters
from core.gear.grid import Grid, Optics, check_grid
from core.gear.parts import OtherPart
from tests.core.gear.grid.shelves import many_parts
from tests.core.gear.grid.test_grid import differing


def parts_besides(chance: random.Random) -> tuple[OtherPart, ...]:
    """Take a filter, a tube, an off-axis guider or two, a guide scope, a guide camera."""
    ring = Spacer(
        name="ring",
        length_mm=chance.choice((0.5, 17.5, 37.5)),
        clear_diameter_mm=chance.choice((22.0, 34.0, 48.0)),
    )
    prisms = [
        OffAxisGuider(
            name=f"prism {n}",
            length_mm=16.5,
            clear_diameter_mm=chance.choice((36.0, 44.0)),
            prism_mm=8.0,
            prism_radius_mm=chance.uniform(6.0, 26.0),
            prism_angle_deg=chance.uniform(0.0, 90.0),
        )
        for n in range(chance.choice((0, 1, 1, 2)))
    ]
    glass = FilterPart(name="glass", clear_diameter_mm=chance.choice((20.0, 31.0, 46.0)))
    scope = GuideScope(name="scope", aperture_mm=30.0, focal_length_mm=chance.choice((60.0, 240.0)))
    eye = GuideCamera(name="eye", columns=1280, rows=960, pixel_um=chance.choice((2.0, 3.75)))
    return (ring, *prisms, glass, *([scope] if not prisms else []), eye)


def test_shared_parts_of_known_figures_agree_with_the_records() -> None:
    """40 sets of parts besides 8 x 6 x 2 others; each rule meets three severities or more."""
    chance, met = random.Random(11), dict[str, set[int]]()
    for seed in range(40):
        tubes, cameras, mounts = many_parts(8, 6, 2, seed=seed)
        optics = [Optics(tube) for tube in tubes]
        grid = check_grid(optics, cameras, mounts, others=parts_besides(chance))
        for i, j in np.ndindex(8, 6):
            assert differing(grid, (i, j, 0)) == {}
        for check in (check_clear_diameters, check_guide_scale, check_prism):
            met.setdefault(check.__name__, set()).update(codes_of(grid, check))
    assert all(len(codes) >= 3 for codes in met.values()), met


def codes_of(grid: Grid, check: object) -> set[int]:
    assert check in CHECKS
    return set(grid.codes[check].ravel().tolist())
