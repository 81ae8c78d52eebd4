"""A view is as wide as its frames need, and no wider."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.framing.enclosing import enclosing_width_deg
from core.sky.footprint import Footprint
from core.sky.tangent_plane import TangentPlane
from tests.core.sky.strategies import centres, position_angles


def test_one_frame_on_the_centre_takes_its_own_width() -> None:
    frame = Footprint(10.0, 0.0, 3.0, 2.0)
    assert enclosing_width_deg(frame.plane, [frame], aspect=1.5, margin=0.0) == pytest.approx(3.0)
    upright = Footprint(10.0, 0.0, 3.0, 2.0, 90.0)
    found = enclosing_width_deg(upright.plane, [upright], aspect=1.5, margin=0.0)
    assert found == pytest.approx(4.5, rel=1e-3), "its height of 3 degrees times the aspect"


@settings(max_examples=60)
@given(centres, position_angles, st.floats(0.1, 40.0), st.floats(-3.0, 3.0))
def test_every_corner_is_inside_and_one_touches_the_margin(
    centre: tuple[float, float], pa_deg: float, width_deg: float, shift_deg: float
) -> None:
    dec = max(-90.0, min(90.0, centre[1] + shift_deg))
    frames = [
        Footprint(*centre, width_deg, width_deg / 2.0, pa_deg),
        Footprint(centre[0], dec, width_deg / 3.0, 1.0, 0.0),
    ]
    plane = TangentPlane(*centre)
    wide = enclosing_width_deg(plane, frames, aspect=1.6, margin=0.2)
    half = np.tan(np.radians(wide / 2.0)) / 1.2
    corners = np.concatenate([frame.corners_deg() for frame in frames])
    xi, eta = np.abs(plane.forward(*np.radians(corners).T))
    assert max(xi.max() / half, eta.max() * 1.6 / half) == pytest.approx(1.0, rel=1e-9)


def test_corners_behind_the_limb_are_left_out() -> None:
    frames = [Footprint(100.0, 0.0, 30.0, 20.0), Footprint(0.0, 0.0, 3.0, 2.0)]
    found = enclosing_width_deg(TangentPlane(0.0, 0.0), frames, aspect=1.0)
    assert 3.0 < found < 180.0


def test_no_frame_is_refused() -> None:
    with pytest.raises(BadValueError, match='frames "none": at least one is needed'):
        enclosing_width_deg(TangentPlane(0, 0), [], aspect=1.0)
