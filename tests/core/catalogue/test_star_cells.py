"""The cells listed for a cone hold every place within it."""

import numpy as np
from hypothesis import example, given
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.catalogue.star_cells import CellRuns, runs_in_cone
from core.catalogue.star_format import BINS, CELLS, FIRST_CELL, ZONES
from core.sky.sphere import offset_by


def _listed(runs: CellRuns) -> NDArray[np.bool_]:
    """Mark the cells of the runs, and see that none is listed twice."""
    marks = np.zeros(CELLS, dtype=int)
    for start, stop in zip(runs.start.tolist(), runs.stop.tolist(), strict=True):
        marks[start:stop] += 1
    assert marks.max() <= 1
    return marks == 1


def _cells_on_rim(ra: float, dec: float, radius: float) -> NDArray[np.int64]:
    """Cells under 2,000 places on the rim of a cone and on a ring of half its radius."""
    angles = np.radians(np.arange(0.0, 360.0, 0.18))
    rings = [
        offset_by(np.radians(ra), np.radians(dec), angles, np.radians(radius * share))
        for share in (1.0, 0.5)
    ]
    rim_ra, rim_dec = np.degrees(np.concatenate(rings, axis=1))
    zone = np.clip(np.floor(rim_dec + 90.0).astype(int), 0, ZONES - 1)
    ra_bin = np.clip((rim_ra / 360.0 * BINS[zone]).astype(int), 0, BINS[zone] - 1)
    return FIRST_CELL[zone] + ra_bin


@given(
    ra=st.floats(0.0, 359.999),
    dec=st.floats(-90.0, 90.0),
    radius=st.floats(0.0, 12.0) | st.floats(80.0, 100.0) | st.floats(170.0, 180.0),
)
@example(ra=10.3, dec=80.45, radius=2.6)
@example(ra=100.0, dec=84.5, radius=4.6)
@example(ra=100.0, dec=-84.5, radius=5.49)
@example(ra=0.0, dec=90.0, radius=0.0)
def test_every_place_on_the_rim_lies_in_a_listed_cell(ra: float, dec: float, radius: float) -> None:
    assert _listed(runs_in_cone(ra, dec, radius))[_cells_on_rim(ra, dec, radius)].all()


def test_a_small_cone_lists_few_cells() -> None:
    """The list is no shortcut through the whole sky: about one square degree a cell."""
    assert 79 < _listed(runs_in_cone(150.0, 20.0, 5.0)).sum() < 130
    assert _listed(runs_in_cone(150.3, 20.5, 0.01)).sum() == 1
    assert _listed(runs_in_cone(150.0, 20.0, 180.0)).all()


def test_there_are_41252_cells() -> None:
    """The whole sky has 41,253 square degrees: 360 x 360 / pi."""
    assert CELLS == 41_252
