"""The plane that holds a sky point where the hand holds it: panning and zooming."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.sky.sphere import separation_rad
from core.sky.tangent_plane import TangentPlane
from tests.core.sky.strategies import centres, position_angles

#: On the plane, to 75 degrees off the centre.
held = st.tuples(st.floats(0.0, 75.0), position_angles)


def plane_point(spot: tuple[float, float]) -> tuple[float, float]:
    off, pa = math.radians(spot[0]), math.radians(spot[1])
    return math.tan(off) * math.sin(pa), math.tan(off) * math.cos(pa)


@settings(max_examples=300)
@given(centres, held)
def test_the_point_stands_where_it_was_placed_unless_no_plane_can(
    point: tuple[float, float], spot: tuple[float, float]
) -> None:
    ra, dec = math.radians(point[0]), math.radians(point[1])
    xi, eta = plane_point(spot)
    plane = TangentPlane.placing(ra, dec, xi, eta)
    assert -90.0 <= plane.dec_deg <= 90.0
    assert 0.0 <= plane.ra_deg < 360.0
    possible = math.cos(dec) >= abs(math.sin(dec)) * abs(xi) / math.hypot(1.0, eta)
    assume(possible and abs(plane.dec_deg) < 90.0)
    x, y = plane.forward(ra, dec)
    assert math.hypot(float(x) - xi, float(y) - eta) / (1.0 + xi * xi + eta * eta) < 5e-15


@settings(max_examples=300)
@given(centres, held)
def test_near_a_view_it_finds_that_view_again(
    centre: tuple[float, float], spot: tuple[float, float]
) -> None:
    """What lies under the cursor, placed under the cursor, moves nothing: poles included.

    Where the point is highest or lowest on its way round the pole the answer is a double
    root, so the centre keeps half of the digits; a screen shows a tenth of an arcsecond.
    """
    plane = TangentPlane(*centre)
    xi, eta = plane_point(spot)
    ra, dec = plane.inverse(xi, eta)
    found = TangentPlane.placing(float(ra), float(dec), xi, eta, near=plane)
    away = separation_rad(*np.radians([*centre, found.ra_deg, found.dec_deg]))
    assert math.degrees(float(away)) * 3600.0 < 0.1


def test_without_a_view_the_near_side_of_the_pole_is_taken() -> None:
    """A star at +80, 15 degrees above the centre: centre +65 below it, or +85 beyond."""
    eta = math.tan(math.radians(15.0))
    near = TangentPlane.placing(0.0, math.radians(80.0), 0.0, eta)
    assert (near.ra_deg, near.dec_deg) == pytest.approx((0.0, 65.0), abs=1e-12)
    beyond = TangentPlane.placing(0.0, math.radians(80.0), 0.0, eta, near=TangentPlane(180.0, 84.0))
    assert (beyond.ra_deg, beyond.dec_deg) == pytest.approx((180.0, 85.0), abs=1e-12)


def test_a_pole_pulled_aside_stops_on_the_middle_line() -> None:
    """No north-up plane shows a pole off xi = 0; the nearest has it at the same height."""
    plane = TangentPlane.placing(1.0, math.pi / 2.0, 0.3, 0.2)
    xi, eta = plane.forward(0.0, math.pi / 2.0)
    assert float(xi) == pytest.approx(0.0, abs=1e-15)
    assert float(eta) == pytest.approx(0.2, abs=1e-12)


def test_a_centre_beyond_the_pole_stops_at_the_pole() -> None:
    plane = TangentPlane.placing(0.0, math.radians(80.0), 0.0, -math.tan(math.radians(30.0)))
    assert plane.dec_deg == 90.0
