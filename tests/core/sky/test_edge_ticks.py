"""A tick stands exactly where its line leaves the view, and none is missing."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.edge_ticks import EdgeTick, edge_ticks
from core.sky.graticule import LineKind, graticule
from core.sky.tangent_plane import TangentPlane
from core.sky.view_rectangle import Side, ViewRectangle
from tests.core.skies import AWKWARD_SKIES, Sky
from tests.core.sky.strategies import centres

ENDS = {Side.TOP: (0, 1), Side.RIGHT: (1, 2), Side.BOTTOM: (3, 2), Side.LEFT: (0, 3)}


def on_side(rectangle: ViewRectangle, side: Side, fraction: np.ndarray | float) -> np.ndarray:
    start, end = rectangle.corners()[list(ENDS[side])]
    return start + np.multiply.outer(fraction, end - start)


def view(width_deg: float, up_pa_deg: float, mirrored: bool) -> ViewRectangle:
    half = math.tan(math.radians(width_deg / 2.0))
    return ViewRectangle(half, half / 1.5, math.radians(up_pa_deg), mirrored)


@pytest.mark.parametrize(("up_pa_deg", "mirrored"), [(0.0, False), (33.0, False), (200.0, True)])
@pytest.mark.parametrize("width_deg", [0.05, 3.0, 40.0, 120.0])
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_a_tick_stands_on_its_line(
    sky: Sky, width_deg: float, up_pa_deg: float, mirrored: bool
) -> None:
    plane, rectangle = TangentPlane(sky.ra_deg, sky.dec_deg), view(width_deg, up_pa_deg, mirrored)
    drawn = graticule(plane, rectangle)
    ticks = edge_ticks(drawn, rectangle)
    ends = {(line.kind, line.label): line.end_dec_deg for line in drawn.lines}
    assert len(ticks) >= 4
    for tick in ticks:
        assert 0.0 <= tick.fraction <= 1.0
        ra, dec = np.degrees(plane.inverse(*on_side(rectangle, tick.side, tick.fraction)))
        if tick.kind is LineKind.DEC:
            assert float(dec) == pytest.approx(tick.value_deg, abs=1e-8)
        else:
            off = math.remainder(float(ra) - tick.value_deg, 360.0)
            assert abs(off) * math.cos(math.radians(float(dec))) < 1e-8
            low, high = ends[tick.kind, tick.label]
            assert low - 1e-8 <= float(dec) <= high + 1e-8, "a tick where no line is drawn"


@settings(max_examples=100)
@given(centres, st.sampled_from([0.05, 1.0, 8.0, 30.0, 120.0]), st.floats(0.0, 360.0))
def test_no_crossing_of_a_parallel_is_missed(
    centre: tuple[float, float], width_deg: float, up_pa_deg: float
) -> None:
    """Walk along each side in 4001 steps and count the changes of sign."""
    plane, rectangle = TangentPlane(*centre), view(width_deg, up_pa_deg, False)
    drawn = graticule(plane, rectangle)
    ticks = edge_ticks(drawn, rectangle)
    for side in Side:
        _, dec = plane.inverse(*on_side(rectangle, side, np.linspace(0.0, 1.0, 4001)).T)
        turns = np.flatnonzero(np.diff(np.sign(np.diff(dec))) != 0) + 1  # where it may graze
        for line in drawn.lines:
            if line.kind is LineKind.DEC:
                above = np.degrees(dec) - line.value_deg
                if np.abs(above[[0, -1]]).min() < 1e-6 * width_deg:
                    continue  # through a corner: it may fall to either side
                walked = int((np.diff(np.sign(above[above != 0.0])) != 0).sum())
                found = [t for t in ticks if t.side is side and t.label == line.label]
                assert len(found) == walked or (abs(above[turns]) < 1e-6 * width_deg).any()


def test_in_an_ordinary_view_meridians_leave_above_and_below_and_parallels_aside() -> None:
    rectangle = view(3.0, 0.0, False)
    ticks = edge_ticks(graticule(TangentPlane(90.1, 0.2), rectangle), rectangle)
    sides = {(tick.kind, tick.side) for tick in ticks}
    assert (LineKind.RA, Side.TOP) in sides
    assert (LineKind.RA, Side.BOTTOM) in sides
    assert (LineKind.DEC, Side.LEFT) in sides
    assert (LineKind.DEC, Side.RIGHT) in sides
    assert (LineKind.RA, Side.LEFT) not in sides
    assert (LineKind.DEC, Side.TOP) not in sides


def fraction_of(ticks: list[EdgeTick], side: Side, label: str) -> float:
    return next(tick.fraction for tick in ticks if tick.side is side and tick.label == label)


def test_east_is_left_and_a_mirrored_view_has_it_right() -> None:
    """Fractions run from the left as seen: 6h04m lies east of the centre at 6h."""
    plane = TangentPlane(90.0, 0.0)
    plain, mirrored = view(3.0, 0.0, False), view(3.0, 0.0, True)
    as_seen = edge_ticks(graticule(plane, plain), plain)
    in_mirror = edge_ticks(graticule(plane, mirrored), mirrored)
    assert fraction_of(as_seen, Side.TOP, "6h02m") < 0.5
    assert fraction_of(in_mirror, Side.TOP, "6h02m") == pytest.approx(
        1.0 - fraction_of(as_seen, Side.TOP, "6h02m"), abs=1e-12
    )


def test_north_is_up_and_half_a_turn_puts_it_down() -> None:
    plane = TangentPlane(90.0, 10.0)
    up, down = view(3.0, 0.0, False), view(3.0, 180.0, False)
    high = fraction_of(edge_ticks(graticule(plane, up), up), Side.LEFT, "+10°30′")
    low = fraction_of(edge_ticks(graticule(plane, down), down), Side.RIGHT, "+10°30′")
    assert high < 0.5 < low
    assert low == pytest.approx(1.0 - high, abs=1e-9)


def test_the_equator_gives_one_tick_where_it_leaves() -> None:
    """A double root of the quadratic, written so that rounding cannot lose it."""
    rectangle = view(2.0, 17.0, False)
    for ra_deg in np.linspace(0.0, 359.0, 25):
        ticks = edge_ticks(graticule(TangentPlane(ra_deg, 0.001), rectangle), rectangle)
        assert len([tick for tick in ticks if tick.label == "0°00′"]) == 2
