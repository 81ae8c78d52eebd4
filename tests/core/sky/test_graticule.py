"""The lines of a view lie where their labels say, in round steps, at the poles too."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.sky.graticule import Graticule, GraticuleLine, LineKind, graticule
from core.sky.graticule_steps import coarser_ra_steps, dec_label, ra_label
from core.sky.tangent_plane import TangentPlane
from core.sky.view_rectangle import ViewRectangle
from tests.core.skies import AWKWARD_SKIES, Sky
from tests.core.sky.strategies import centres

FIELDS_DEG = (0.05, 0.3, 1.0, 2.5, 10.0, 35.0, 80.0, 120.0)
ROUND_RA_S = {0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30} | {60 * m for m in (1, 2, 5, 10, 20, 30)}
ROUND_RA_S |= {3600 * h for h in (1, 2, 3, 6)}
ROUND_DEC_ARCSEC = {1, 2, 5, 10, 20, 30} | {60 * m for m in (1, 2, 5, 10, 20, 30)}
ROUND_DEC_ARCSEC |= {3600 * d for d in (1, 2, 5, 10, 20, 30)}


def view(width_deg: float, up_pa_deg: float = 0.0) -> ViewRectangle:
    half = math.tan(math.radians(width_deg / 2.0))
    return ViewRectangle(half, half / 1.5, math.radians(up_pa_deg))


def of_kind(drawn: Graticule, kind: LineKind) -> list[GraticuleLine]:
    return [line for line in drawn.lines if line.kind is kind]


@pytest.mark.parametrize("width_deg", FIELDS_DEG)
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_every_point_of_a_line_has_the_value_of_its_label(sky: Sky, width_deg: float) -> None:
    plane = TangentPlane(sky.ra_deg, sky.dec_deg)
    drawn = graticule(plane, view(width_deg, 20.0))
    for line in drawn.lines:
        assert np.isfinite(line.points).all()
        ra, dec = np.degrees(plane.inverse(line.xi, line.eta))
        if line.kind is LineKind.DEC:
            assert dec == pytest.approx(line.value_deg, abs=1e-9)
        else:
            off = np.remainder(ra - line.value_deg + 180.0, 360.0) - 180.0
            assert np.abs(off * np.cos(np.radians(dec))).max() < 1e-9
    labels = [(line.kind, line.label) for line in drawn.lines]
    assert len(set(labels)) == len(labels), "no two lines bear one label"


@pytest.mark.parametrize("width_deg", FIELDS_DEG)
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_steps_are_round_and_suit_the_field(sky: Sky, width_deg: float) -> None:
    drawn = graticule(TangentPlane(sky.ra_deg, sky.dec_deg), view(width_deg))
    assert round(drawn.ra_step_deg * 240.0, 6) in ROUND_RA_S
    assert round(drawn.dec_step_deg * 3600.0, 6) in ROUND_DEC_ARCSEC
    for line in drawn.lines:
        step = drawn.ra_step_deg if line.kind is LineKind.RA else drawn.dec_step_deg
        assert line.value_deg / step == pytest.approx(round(line.value_deg / step), abs=1e-6)
    assert 3 <= len(of_kind(drawn, LineKind.DEC)) <= 14
    assert 3 <= len(of_kind(drawn, LineKind.RA)) <= 36


def test_a_six_degree_view_at_dec_60_has_degrees_and_eight_minutes_worth_of_time() -> None:
    """By hand: 6 x 4 degrees, lines=5: spacing 0.98, so 1 degree; over cos 60 - ish, 10m."""
    drawn = graticule(TangentPlane(90.0, 60.0), view(6.0), lines=5)
    assert (drawn.dec_step_deg, drawn.ra_step_deg) == (1.0, 2.5)
    labels = [line.label for line in of_kind(drawn, LineKind.DEC)]
    assert {"+58°", "+59°", "+60°", "+61°", "+62°"} <= set(labels)
    assert "6h00m" in [line.label for line in of_kind(drawn, LineKind.RA)]


def test_both_sides_of_the_seam_have_their_lines() -> None:
    drawn = graticule(TangentPlane(0.0, 0.0), view(10.0))
    labels = [line.label for line in of_kind(drawn, LineKind.RA)]
    assert {"23h50m", "0h00m", "0h10m"} <= set(labels)
    assert "24h00m" not in labels
    assert {"−1°", "0°", "+1°"} <= {line.label for line in of_kind(drawn, LineKind.DEC)}


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("width_deg", [0.05, 5.0, 90.0])
def test_meridians_thin_out_and_four_run_into_the_pole(sign: float, width_deg: float) -> None:
    rectangle = view(width_deg)
    drawn = graticule(TangentPlane(33.0, sign * 90.0), rectangle)
    ends = [max(abs(d) for d in line.end_dec_deg) for line in of_kind(drawn, LineKind.RA)]
    assert len(ends) >= 8
    at_pole = [
        line.value_deg
        for line, end in zip(of_kind(drawn, LineKind.RA), ends, strict=True)
        if end == 90.0
    ]
    assert sorted(at_pole) == [0.0, 90.0, 180.0, 270.0]
    assert sorted(ends)[-5] < 90.0, "the others end before it"


@pytest.mark.parametrize("width_deg", [0.05, 1.0, 20.0])
@pytest.mark.parametrize("dec_deg", [90.0, 89.0, -85.0])
def test_no_two_meridians_come_closer_than_a_third_of_the_spacing(
    dec_deg: float, width_deg: float
) -> None:
    """Measured at each line's pole-ward end, the pole itself left out."""
    drawn = graticule(TangentPlane(10.0, dec_deg), view(width_deg))
    lines = of_kind(drawn, LineKind.RA)
    wanted = 2.0 * math.degrees(math.atan(view(width_deg).half_width)) / math.sqrt(1.5) / 6.0
    for line in lines:
        end = max(abs(value) for value in line.end_dec_deg)
        if end == 90.0:
            continue
        alive = [other for other in lines if max(map(abs, other.end_dec_deg)) >= end - 1e-12]
        gaps = [
            abs(math.remainder(other.value_deg - line.value_deg, 360.0))
            for other in alive
            if other is not line
        ]
        assert min(gaps, default=180.0) * math.cos(math.radians(end)) > wanted / 3.0


@settings(max_examples=80)
@given(centres, st.floats(-2.0, 2.0).map(lambda power: 10.0**power), st.floats(0.0, 360.0))
def test_lines_cover_the_whole_view(
    centre: tuple[float, float], width_deg: float, up_pa_deg: float
) -> None:
    """Every point of the view lies within one step of a declination line on either side."""
    rectangle = view(min(width_deg, 120.0), up_pa_deg)
    plane = TangentPlane(*centre)
    drawn = graticule(plane, rectangle)
    corners = rectangle.corners()
    assert np.degrees(np.arctan(np.hypot(*corners.T))) == pytest.approx(
        math.degrees(rectangle.radius_rad), rel=1e-12
    )
    _, dec = np.degrees(plane.inverse(*corners.T))
    shown = [line.value_deg for line in of_kind(drawn, LineKind.DEC)]
    step = drawn.dec_step_deg
    for value in dec:
        low, high = math.floor(value / step) * step, math.ceil(value / step) * step
        nearest = min(abs(value - low), abs(value - high))
        assert min(abs(value - line) for line in shown) <= max(nearest, step) + 1e-9


@pytest.mark.parametrize("width_deg", FIELDS_DEG)
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_no_line_ends_inside_the_view_but_meridians_that_thin_out(
    sky: Sky, width_deg: float
) -> None:
    rectangle = view(width_deg)
    half = np.array([rectangle.half_width, rectangle.half_height])
    for line in graticule(TangentPlane(sky.ra_deg, sky.dec_deg), rectangle).lines:
        outside = (np.abs(line.points[[0, -1]]) > half).any(axis=1)
        ring = np.hypot(*(line.points[0] - line.points[-1])) < 1e-9
        if line.kind is LineKind.DEC:
            assert outside.all() or ring
        else:
            assert outside.any()


def test_corners_of_a_view_turned_to_pa_90_begin_south_east() -> None:
    """Up is east, so right is north: top left is east and south, plain geometry."""
    corners = ViewRectangle(0.3, 0.2, math.radians(90.0)).corners()
    np.testing.assert_allclose(
        corners, [[0.2, -0.3], [0.2, 0.3], [-0.2, 0.3], [-0.2, -0.3]], atol=1e-15
    )
    mirrored = ViewRectangle(0.3, 0.2, 0.0, True).corners()
    np.testing.assert_allclose(mirrored[0], [-0.3, 0.2], atol=1e-15)


@pytest.mark.parametrize("width_deg", [5.0, 40.0, 120.0])
@pytest.mark.parametrize("dec_deg", [0.0, 45.0, 80.0, 90.0])
def test_a_parallel_is_smooth_to_a_fifth_of_a_pixel(dec_deg: float, width_deg: float) -> None:
    """On a view 1200 pixels wide: the middle of each chord against the true curve."""
    plane, rectangle = TangentPlane(10.0, dec_deg), view(width_deg)
    pixel = rectangle.half_width / 600.0
    for line in of_kind(graticule(plane, rectangle), LineKind.DEC):
        middle = (line.points[1:] + line.points[:-1]) / 2.0
        shown = (np.abs(middle) < [rectangle.half_width, rectangle.half_height]).all(axis=1)
        _, dec = plane.inverse(*middle.T)
        scale = 1.0 + (middle**2).sum(axis=1)  # plane per sky, at most
        away = np.abs(np.degrees(dec) - line.value_deg) * math.pi / 180.0 * scale
        assert (away[shown] < 0.2 * pixel).all()


def test_labels_have_as_many_parts_as_the_step() -> None:
    assert ra_label(0, 36_000) == "0h"
    assert ra_label(863_400, 600) == "23h59m"
    assert ra_label(863_999, 1) == "23h59m59.9s"
    assert dec_label(-1800, 1800) == "−0°30′"
    assert dec_label(0, 3600) == "0°"
    assert dec_label(-3601, 1) == "−1°00′01″"


def test_coarser_steps_hold_a_part_of_the_finer_ones_lines() -> None:
    for chain in map(coarser_ra_steps, (1, 50, 300, 1200, 18_000, 36_000, 108_000)):
        assert chain[-1] == 216_000
        assert all(b % a == 0 for a, b in itertools.pairwise(chain))


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ((0.0, 1.0), 'half width of the view "0.0": must be > 0'),
        ((1.0, math.inf), 'half height of the view "inf": must be > 0'),
    ],
)
def test_a_view_that_cannot_be_is_refused(figures: tuple[float, float], words: str) -> None:
    with pytest.raises(BadValueError) as caught:
        ViewRectangle(*figures)
    assert str(caught.value) == words


def test_no_lines_at_all_is_refused() -> None:
    with pytest.raises(BadValueError, match='lines of the graticule "0": must be 1 or more'):
        graticule(TangentPlane(0, 0), view(1.0), lines=0)
