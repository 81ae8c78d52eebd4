"""The rectangle on the sky: where its corners lie, what it holds, how large it is."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.sky.footprint import Footprint, camera_axes
from core.sky.sphere import offset_by, position_angle_rad, separation_rad, unit_vectors
from tests.core.skies import AWKWARD_SKIES, Sky
from tests.core.sky.strategies import centres, position_angles
from tests.core.sky.wcslib import TOLERANCE_ARCSEC, apart_arcsec

sizes = st.tuples(st.floats(1e-3, 150.0), st.floats(1e-3, 150.0))


def test_corners_at_pa_0_run_north_east_north_west_south_west_south_east() -> None:
    """By hand on the equator: 2 x 1 degrees; a corner's Dec is atan(tan .5 cos 1)."""
    ra, dec = Footprint(10.0, 0.0, 2.0, 1.0, 0.0).corners_deg().T
    assert ra == pytest.approx([11.0, 9.0, 9.0, 11.0], abs=1e-12)
    high = math.degrees(math.atan(math.tan(math.radians(0.5)) * math.cos(math.radians(1.0))))
    assert dec == pytest.approx([high, high, -high, -high], abs=1e-12)


def test_corners_at_pa_90_begin_south_east_of_the_centre() -> None:
    """Up points east and +x north: (-x, +y) is the south-east corner, then NE, NW, SW."""
    ra, dec = Footprint(10.0, 0.0, 2.0, 1.0, 90.0).corners_deg().T
    assert ra == pytest.approx([10.5, 10.5, 9.5, 9.5], abs=1e-12)
    high = math.degrees(math.atan(math.tan(math.radians(1.0)) * math.cos(math.radians(0.5))))
    assert dec == pytest.approx([-high, high, high, -high], abs=1e-12)


@pytest.mark.parametrize("pa_deg", [0.0, 37.0, 90.0, 180.0, 270.0, 301.5])
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_pa_is_the_direction_from_the_centre_to_the_middle_of_the_upper_edge(
    sky: Sky, pa_deg: float
) -> None:
    """North through east of the sensor's up, and nothing else, everywhere on the sky."""
    frame = Footprint(sky.ra_deg, sky.dec_deg, 3.0, 2.0, pa_deg)
    up, right = frame.sky_deg(np.array([[0.0, frame.half_extents[1]], [frame.half_extents[0], 0]]))
    start = math.radians(sky.ra_deg), math.radians(sky.dec_deg)
    found = math.degrees(float(position_angle_rad(*start, *np.radians(up))))
    assert math.remainder(found - pa_deg, 360.0) == pytest.approx(0.0, abs=1e-9)
    found = math.degrees(float(position_angle_rad(*start, *np.radians(right))))
    assert math.remainder(found - (pa_deg - 90.0), 360.0) == pytest.approx(0.0, abs=1e-9)
    assert math.degrees(float(separation_rad(*start, *np.radians(up)))) == pytest.approx(1.0)


def test_camera_axes_are_up_towards_pa_and_right_towards_pa_minus_90() -> None:
    np.testing.assert_allclose(camera_axes(90.0), [[0.0, 1.0], [1.0, 0.0]], atol=1e-15)
    np.testing.assert_allclose(camera_axes(30.0)[1], [0.5, math.sqrt(0.75)], atol=1e-15)


def test_solid_angle_of_120_by_90_degrees_is_the_published_one() -> None:
    """4 asin(sin(w/2) sin(h/2)), textbook: 8654.239620 square degrees, not 10800."""
    assert Footprint(0, 0, 120.0, 90.0).solid_angle_deg2 == pytest.approx(8654.239620, rel=1e-9)


@settings(max_examples=100)
@given(centres, sizes, position_angles)
def test_area_is_that_of_its_corners_and_unchanged_by_place_and_turn(
    centre: tuple[float, float], size: tuple[float, float], pa_deg: float
) -> None:
    """The spherical excess (Eriksson 1990, Math. Magazine 63, 184) of its two triangles."""
    frame = Footprint(*centre, *size, pa_deg)
    assert frame.solid_angle_deg2 == Footprint(0.0, 0.0, *size).solid_angle_deg2
    a, b, c, d = unit_vectors(*np.radians(frame.corners_deg()).T).T
    area = 0.0
    for p, q, r in ((a, b, c), (a, c, d)):
        area += 2.0 * math.atan2(abs(p @ np.cross(q, r)), 1.0 + p @ q + q @ r + r @ p)
    assert math.degrees(math.degrees(area)) == pytest.approx(frame.solid_angle_deg2, rel=1e-8)


@settings(max_examples=100)
@given(centres, sizes, position_angles)
def test_half_a_turn_gives_the_same_rectangle(
    centre: tuple[float, float], size: tuple[float, float], pa_deg: float
) -> None:
    first = Footprint(*centre, *size, pa_deg).corners_deg()
    second = Footprint(*centre, *size, pa_deg + 180.0).corners_deg()
    assert apart_arcsec(first, np.roll(second, 2, axis=0)).max() < TOLERANCE_ARCSEC


@settings(max_examples=100)
@given(centres, sizes, position_angles)
def test_samples_of_an_edge_lie_on_the_great_circle_of_its_corners(
    centre: tuple[float, float], size: tuple[float, float], pa_deg: float
) -> None:
    frame = Footprint(*centre, *size, pa_deg)
    outline = unit_vectors(*np.radians(frame.outline_deg(8)).T).T
    corners = unit_vectors(*np.radians(frame.corners_deg()).T).T
    assert outline.shape == (33, 3)
    np.testing.assert_array_equal(outline[0], outline[-1])
    for edge in range(4):
        first, second = corners[edge], corners[(edge + 1) % 4]
        pole = np.cross(first, second)
        samples = outline[8 * edge : 8 * edge + 9]
        np.testing.assert_allclose(samples[0], first, atol=1e-15)
        np.testing.assert_allclose(samples[-1], second, atol=1e-15)
        assert np.abs(samples @ pole).max() < 2e-15
        between = [float(sample @ (first + second)) for sample in samples[1:-1]]
        assert min(between) > float(first @ (first + second)), "on the short way round"


@settings(max_examples=150)
@given(centres, sizes, position_angles)
def test_the_edge_is_covered_but_not_contained(
    centre: tuple[float, float], size: tuple[float, float], pa_deg: float
) -> None:
    frame = Footprint(*centre, *size, pa_deg)
    edge = frame.outline_deg(4).T
    assert frame.covers(*edge).all()
    assert not frame.contains(*edge).any()
    assert bool(frame.contains(*centre))
    assert bool(frame.covers(*centre))


def test_the_edge_of_a_frame_of_178_degrees_is_covered_in_spite_of_rounding() -> None:
    """Its corners lie 89.3 degrees off, where the plane is six thousand times the sky."""
    for pa_deg in np.linspace(0.0, 359.0, 50):
        frame = Footprint(217.3, 47.1, 178.0, 178.0, float(pa_deg))
        edge = frame.outline_deg(8).T
        assert frame.covers(*edge).all()
        assert not frame.contains(*edge).any()


@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_an_arcsecond_decides_in_or_out(sky: Sky) -> None:
    frame = Footprint(sky.ra_deg, sky.dec_deg, 3.0, 2.0, 25.0)
    start = math.radians(sky.ra_deg), math.radians(sky.dec_deg)
    for pa_deg, reach_deg in ((25.0, 1.0), (115.0, 1.5), (205.0, 1.0), (295.0, 1.5)):
        for more_arcsec, inside in ((-1.0, True), (1.0, False)):
            way = math.radians(reach_deg + more_arcsec / 3600.0)
            there = np.degrees(offset_by(*start, math.radians(pa_deg), way))
            assert bool(frame.contains(*there)) is inside
            assert bool(frame.covers(*there)) is inside


def test_the_antipode_is_not_in_the_frame() -> None:
    frame = Footprint(10.0, 20.0, 150.0, 150.0)
    assert not frame.contains(190.0, -20.0)
    assert not frame.covers(190.0, -20.0)


def test_right_ascension_and_angle_are_kept_in_their_ranges() -> None:
    frame = Footprint(-10.0, 0.0, 1.0, 1.0, -30.0)
    assert (frame.ra_deg, frame.pa_deg) == (350.0, 330.0)


def test_pixels_of_the_header_are_square_where_those_of_the_field_are() -> None:
    """6248 px of 3.76 um at 400 mm: CRPIX1 (N+1)/2 = 3124.5, 1.938889 arcsec (FITS I)."""
    width = 2.0 * math.degrees(math.atan(6248 * 3.76e-3 / 800.0))
    height = 2.0 * math.degrees(math.atan(4176 * 3.76e-3 / 800.0))
    header = Footprint(10.0, 41.0, width, height, 30.0).wcs_header(6248, 4176)
    assert (header["CRPIX1"], header["CRPIX2"]) == (3124.5, 2088.5)
    cd = np.array([[header[f"CD{i}_{j}"] for j in (1, 2)] for i in (1, 2)], dtype=float)
    assert np.hypot(*cd) * 3600.0 == pytest.approx([1.938889, 1.938889], abs=1e-6)
    assert math.degrees(math.atan2(cd[0, 1], cd[1, 1])) == pytest.approx(30.0, abs=1e-12)
    assert np.linalg.det(cd) < 0.0, "not mirrored: as seen on the sky"


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ((0, 0, 0.0, 1), 'field width "0.0": must lie between 0 and 180 degrees'),
        ((0, 0, 1, 180.0), 'field height "180.0": must lie between 0 and 180 degrees'),
        ((0, 0, math.nan, 1), 'field width "nan": must lie between 0 and 180 degrees'),
        ((0, 0, 1, 1, math.inf), 'camera angle "inf": must be a number in degrees'),
        ((0, 91, 1, 1), 'declination "91": must lie between -90 and +90 degrees'),
    ],
)
def test_figures_that_cannot_be_are_refused(figures: tuple[float, ...], words: str) -> None:
    with pytest.raises(BadValueError) as caught:
        Footprint(*figures)
    assert str(caught.value) == words


def test_pixels_and_samples_below_one_are_refused() -> None:
    frame = Footprint(0, 0, 1, 1)
    with pytest.raises(BadValueError, match='pixels "0 x 10": must be 1 x 1 or more'):
        frame.wcs_header(0, 10)
    with pytest.raises(BadValueError, match='points per edge "0": must be 1 or more'):
        frame.outline_deg(0)
