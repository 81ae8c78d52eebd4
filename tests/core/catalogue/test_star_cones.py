"""A cone holds exactly the stars within its radius, anywhere on the sky."""

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.catalogue.stars import StarCatalogue, Stars
from core.errors import BadValueError
from core.sky.tangent_plane import unit_vectors

CATALOGUE = StarCatalogue.open()


@pytest.fixture(scope="module")
def everything() -> Stars:
    return CATALOGUE.cone(0.0, 0.0, 180.0)


def _mark(stars: Stars, rows: NDArray[np.bool_] | slice = slice(None)) -> tuple[int, int]:
    """Give the number of stars and a sum over all their bits that knows no order."""
    mixed = np.zeros(stars.ra_deg[rows].size, dtype=np.uint64)
    for values in (stars.ra_deg, stars.dec_deg, stars.v_mag, stars.b_v):
        mixed = (mixed ^ values[rows].view(np.uint64)) * np.uint64(0x9E3779B97F4A7C15)
        mixed ^= mixed >> np.uint64(29)
    return mixed.size, int(mixed.sum())


def _assert_same_as_brute_force(whole: Stars, ra: float, dec: float, radius: float) -> int:
    """Compare a cone with chords to every star of the sky (reference: plain geometry)."""
    centre = unit_vectors(np.radians([ra]), np.radians([dec]))
    chord2 = sum((whole.vectors[axis] - centre[axis]) ** 2 for axis in range(3))
    inside = chord2 <= (2.0 * np.sin(np.radians(radius) / 2.0)) ** 2
    found = CATALOGUE.cone(ra, dec, radius)
    assert _mark(found) == _mark(whole, inside)
    return len(found)


@settings(max_examples=40)
@given(
    ra=st.floats(0.0, 360.0),
    dec=st.floats(-90.0, 90.0),
    radius=st.floats(0.001, 25.0) | st.floats(88.0, 92.0) | st.floats(150.0, 179.9),
)
@example(ra=0.0, dec=90.0, radius=5.0)
@example(ra=123.0, dec=-90.0, radius=5.0)
@example(ra=200.0, dec=89.7, radius=0.29)
@example(ra=200.0, dec=-89.7, radius=0.31)
@example(ra=0.0, dec=0.0, radius=3.0)
@example(ra=359.9999, dec=45.0, radius=0.5)
@example(ra=0.0001, dec=-89.0, radius=1.0)
@example(ra=360.0, dec=12.0, radius=1.0)
@example(ra=77.0, dec=30.0, radius=60.0)
@example(ra=77.0, dec=30.0, radius=120.0)
@example(ra=180.0, dec=0.0, radius=90.0)
def test_a_cone_holds_what_brute_force_finds(
    everything: Stars, ra: float, dec: float, radius: float
) -> None:
    _assert_same_as_brute_force(everything, ra, dec, radius)


def test_cones_at_poles_and_seam_are_not_empty(everything: Stars) -> None:
    for ra, dec in ((0.0, 90.0), (0.0, -90.0), (0.0, 10.0), (359.99, -60.0)):
        assert _assert_same_as_brute_force(everything, ra, dec, 1.5) > 50


def test_the_whole_sky_is_every_star(everything: Stars) -> None:
    assert len(everything) == CATALOGUE.size
    assert len(CATALOGUE.cone(211.0, -35.0, 180.0)) == CATALOGUE.size


def test_radius_zero_finds_the_star_that_stands_there_and_none_beside_it(
    everything: Stars,
) -> None:
    for row in range(0, len(everything), 200_001):
        ra, dec = float(everything.ra_deg[row]), float(everything.dec_deg[row])
        found = CATALOGUE.cone(ra, dec, 0.0)
        assert (found.ra_deg.tolist(), found.dec_deg.tolist()) == ([ra], [dec])
        assert len(CATALOGUE.cone(ra, dec + 1e-4 * (-1 if dec > 0 else 1), 1e-7)) == 0


def test_right_ascension_is_wrapped() -> None:
    assert _mark(CATALOGUE.cone(-10.0, 20.0, 2.0)) == _mark(CATALOGUE.cone(350.0, 20.0, 2.0))


@pytest.mark.parametrize("limit", [-3.0, 4.0, 7.99, 8.0, 8.01, 9.3, 10.5, 11.2, 11.975, 12.0, 30.0])
def test_faintest_keeps_exactly_the_brighter_stars(limit: float) -> None:
    whole = CATALOGUE.cone(83.0, 0.0, 12.0)
    cut = CATALOGUE.cone(83.0, 0.0, 12.0, faintest=limit)
    assert _mark(cut) == _mark(whole, whole.v_mag <= limit)


def test_places_lie_on_the_sky_and_magnitudes_within_the_limit(everything: Stars) -> None:
    assert everything.ra_deg.min() >= 0.0
    assert everything.ra_deg.max() < 360.0
    assert abs(everything.dec_deg).max() <= 90.0
    assert everything.v_mag.max() < CATALOGUE.faintest
    assert np.isfinite(everything.b_v).all()


def test_vectors_point_at_the_stars() -> None:
    stars = CATALOGUE.cone(10.0, 41.0, 1.0)
    assert np.allclose(np.degrees(np.arcsin(stars.vectors[2])), stars.dec_deg, atol=1e-11)
    assert np.allclose(np.linalg.norm(stars.vectors, axis=0), 1.0, atol=1e-15)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((float("nan"), 0.0, 1.0), "right ascension"),
        ((0.0, 90.1, 1.0), "declination"),
        ((0.0, float("nan"), 1.0), "declination"),
        ((0.0, 0.0, -0.1), "search radius"),
        ((0.0, 0.0, 180.1), "search radius"),
        ((0.0, 0.0, float("nan")), "search radius"),
    ],
)
def test_a_cone_off_the_sky_is_refused_by_name(
    arguments: tuple[float, float, float], words: str
) -> None:
    with pytest.raises(BadValueError, match=words):
        CATALOGUE.cone(*arguments)


def test_a_limit_or_year_that_is_no_number_is_refused_by_name() -> None:
    with pytest.raises(BadValueError, match="limiting magnitude"):
        CATALOGUE.cone(0.0, 0.0, 1.0, faintest=float("nan"))
    for year in (float("nan"), 999.0, 3001.0):
        with pytest.raises(BadValueError, match="year"):
            CATALOGUE.cone(0.0, 0.0, 1.0, year=year)
