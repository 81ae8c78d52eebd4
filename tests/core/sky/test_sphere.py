"""Separations, position angles and offsets against published examples and ERFA."""

import math

import erfa
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.sphere import (
    directions,
    offset_by,
    position_angle_rad,
    separation_rad,
    unit_vectors,
)
from tests.core.sky.strategies import centres, position_angles

#: Meeus 1998, Astronomical Algorithms, example 17.a: alpha Bootis and alpha Virginis.
ARCTURUS = np.radians([213.9154, 19.1825])
SPICA = np.radians([201.2983, -11.1614])


def test_arcturus_and_spica_are_as_far_apart_as_meeus_prints() -> None:
    """Example 17.a: d = 32.7930 degrees = 32d47'35"."""
    found = math.degrees(float(separation_rad(*ARCTURUS, *SPICA)))
    assert found == pytest.approx(32.7930, abs=0.5e-4)
    assert round(found * 3600.0) == (32 * 60 + 47) * 60 + 35


def test_position_angle_of_spica_from_arcturus() -> None:
    """Meeus p. 116's formula with the places of 17.a; 203.30843 worked with 50 digits."""
    found = math.degrees(float(position_angle_rad(*ARCTURUS, *SPICA)))
    assert found == pytest.approx(203.30843, abs=0.5e-5)


def test_separation_gives_the_number_of_the_sofa_test_of_seps() -> None:
    """SOFA's own test program, t_sofa_c: seps(1, 0.1, 0.2, -3)."""
    assert float(separation_rad(1.0, 0.1, 0.2, -3.0)) == pytest.approx(
        2.346722016996998842, abs=1e-14
    )


def test_position_angle_gives_the_number_of_the_sofa_test_of_pas() -> None:
    """SOFA's own test program, t_sofa_c: pas(1, 0.1, 0.2, -1), there in -pi..pi."""
    found = float(position_angle_rad(1.0, 0.1, 0.2, -1.0))
    assert found == pytest.approx(2.0 * math.pi - 2.724544922932270424, abs=1e-14)


@pytest.mark.parametrize(
    ("to_ra", "to_dec", "pa_deg"),
    [(10.0, 1.0, 0.0), (11.0, 0.0, 90.0), (10.0, -1.0, 180.0), (9.0, 0.0, 270.0)],
)
def test_position_angle_runs_from_north_through_east(
    to_ra: float, to_dec: float, pa_deg: float
) -> None:
    found = position_angle_rad(*np.radians([10.0, 0.0, to_ra, to_dec]))
    assert math.degrees(float(found)) == pytest.approx(pa_deg, abs=1e-9)


def test_a_star_and_itself_are_nothing_apart_and_near_pairs_keep_their_digits() -> None:
    """A thousandth of an arcsecond: acos of the dot product would give 0 or 3 mas."""
    assert float(separation_rad(1.0, 0.5, 1.0, 0.5)) == 0.0
    mas = math.radians(1e-3 / 3600.0)
    assert float(separation_rad(1.0, 0.5, 1.0, 0.5 + mas)) == pytest.approx(mas, rel=1e-6)
    assert float(separation_rad(0.0, 0.0, math.pi, 0.0)) == pytest.approx(math.pi, abs=1e-15)


@settings(max_examples=200)
@given(centres, centres)
def test_separation_and_position_angle_agree_with_erfa(
    first: tuple[float, float], second: tuple[float, float]
) -> None:
    a, b = np.radians(first), np.radians(second)
    assert float(separation_rad(*a, *b)) == pytest.approx(erfa.seps(*a, *b), abs=1e-15)
    turn = float(position_angle_rad(*a, *b)) - erfa.pas(*a, *b)
    near = max(math.sin(float(separation_rad(*a, *b))), 1e-9)
    assert abs(math.remainder(turn, 2.0 * math.pi)) < 1e-15 + 2e-15 / near


@settings(max_examples=200)
@given(centres, position_angles, st.floats(1e-6, 179.0))
def test_offset_goes_that_far_in_that_direction(
    centre: tuple[float, float], pa_deg: float, way_deg: float
) -> None:
    start = np.radians(centre)
    ra, dec = offset_by(*start, math.radians(pa_deg), math.radians(way_deg))
    assert 0.0 <= float(ra) < 2.0 * math.pi
    assert abs(float(separation_rad(*start, ra, dec)) - math.radians(way_deg)) < 1e-14
    if 90.0 - abs(centre[1]) > 1e-6:
        turn = float(position_angle_rad(*start, ra, dec)) - math.radians(pa_deg)
        near = math.sin(math.radians(way_deg)) * math.cos(start[1])
        assert abs(math.remainder(turn, 2.0 * math.pi)) < 4e-15 / near


def test_offset_never_answers_a_full_turn() -> None:
    """-1e-20 modulo 2 pi is 2 pi in floating point; the range excludes it."""
    ra, _ = offset_by(0.0, 0.0, -1e-20, 1.0)
    assert float(ra) == 0.0


@settings(max_examples=100)
@given(centres)
def test_vectors_have_unit_length_and_lead_back(centre: tuple[float, float]) -> None:
    start = np.radians(centre)
    vectors = unit_vectors([start[0]], [start[1]])
    assert np.linalg.norm(vectors) == pytest.approx(1.0, abs=3e-16)
    ra, dec = directions(vectors)
    assert 0.0 <= ra[0] < 2.0 * math.pi
    assert float(separation_rad(ra[0], dec[0], *start)) < 5e-16
