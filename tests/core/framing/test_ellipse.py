"""The area of a circle inside a polygon, and an ellipse carried between planes."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from core.framing.ellipse import SeenEllipse, SkyEllipse, circle_and_polygon_area
from core.sky.footprint import Footprint
from core.sky.sphere import offset_by
from tests.core.framing.seen import covered_by_polygon, outline_px
from tests.core.skies import AWKWARD_SKIES, Sky

CIRCLE = shapely.Point(0.0, 0.0).buffer(1.0, quad_segs=8000)


def box(left: float, bottom: float, right: float, top: float) -> np.ndarray:
    return np.array([[left, bottom], [right, bottom], [right, top], [left, top]], dtype=float)


@pytest.mark.parametrize(
    ("corners", "area"),
    [
        (box(-1, -1, 1, 1), math.pi),
        (box(-1e6, -1e6, 1e6, 1e6), math.pi),
        (box(-0.5, -0.5, 0.5, 0.5), 1.0),
        (box(0, 0, 2, 2), math.pi / 4),
        (box(0, -2, 2, 2), math.pi / 2),
        (box(2, -1, 3, 1), 0.0),
        (box(1, -1, 3, 1), 0.0),
        (box(2, 2, 3, 3), 0.0),
        # A segment beyond x = 1/2: acos(1/2) - (1/2) sqrt(3)/2, any handbook.
        (box(0.5, -2, 2, 2), math.pi / 3 - math.sqrt(3) / 4),
        # The square inscribed in the circle.
        (box(-(0.5**0.5), -(0.5**0.5), 0.5**0.5, 0.5**0.5), 2.0),
    ],
)
def test_boxes_whose_share_of_the_circle_is_known_by_hand(corners: np.ndarray, area: float) -> None:
    assert circle_and_polygon_area(corners) == pytest.approx(area, abs=1e-12)
    assert circle_and_polygon_area(corners[::-1]) == pytest.approx(-area, abs=1e-12)


@given(
    turn=st.floats(0, 2 * math.pi),
    half=st.tuples(st.floats(0.01, 5), st.floats(0.01, 5)),
    middle=st.tuples(st.floats(-3, 3), st.floats(-3, 3)),
    shear=st.floats(-2, 2),
)
@settings(max_examples=150)
def test_any_parallelogram_shares_with_the_circle_what_shapely_says(
    turn: float, half: tuple[float, float], middle: tuple[float, float], shear: float
) -> None:
    corners = box(-half[0], -half[1], half[0], half[1]) @ [[1.0, 0.0], [shear, 1.0]]
    sin, cos = math.sin(turn), math.cos(turn)
    corners = corners @ [[cos, sin], [-sin, cos]] + middle
    expected = CIRCLE.intersection(shapely.Polygon(corners)).area
    assert circle_and_polygon_area(corners) == pytest.approx(expected, abs=1e-6)


def test_many_polygons_at_once_give_what_each_gives() -> None:
    many = np.stack([box(0, 0, 2, 2), box(-1, -1, 1, 1), box(2, 2, 3, 3)])
    one_by_one = [float(circle_and_polygon_area(corners)) for corners in many]
    assert circle_and_polygon_area(many).tolist() == one_by_one


def test_at_the_middle_of_the_frame_the_semi_axes_are_the_tangents() -> None:
    ellipse = SkyEllipse(10.0, 41.0, 178.0, 70.0, 35.0)
    seen = ellipse.seen_from(Footprint(10.0, 41.0, 5.0, 4.0, 35.0))
    assert seen is not None
    across, along = seen.half_extents
    assert along == pytest.approx(math.tan(math.radians(89 / 60)), rel=1e-12)
    assert across == pytest.approx(math.tan(math.radians(35 / 60)), rel=1e-12)
    assert (seen.x, seen.y, seen.xy) == pytest.approx((0, 0, 0), abs=1e-15)


@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
@pytest.mark.parametrize("off_deg", [0.0, 0.3, 4.0, 25.0])
def test_extents_and_share_agree_with_wcslib_and_shapely_under_every_sky(
    sky: Sky, off_deg: float
) -> None:
    frame = Footprint(sky.ra_deg, sky.dec_deg, 7.0, 5.0, 67.0)
    ra, dec = offset_by(*np.radians([sky.ra_deg, sky.dec_deg, 200.0, off_deg]))
    ellipse = SkyEllipse(float(np.degrees(ra)), float(np.degrees(dec)), 400.0, 130.0, 35.0)
    seen = ellipse.seen_from(frame)
    assert seen is not None
    outline = outline_px(ellipse, frame)
    half_width, half_height = frame.half_extents
    x, y = (outline - 500.5).T / 500.0 * np.array([[half_width], [half_height]])
    across, along = seen.half_extents
    assert (seen.x + across, seen.x - across) == pytest.approx((x.max(), x.min()), rel=1e-5)
    assert (seen.y + along, seen.y - along) == pytest.approx((y.max(), y.min()), rel=1e-5)
    covered = seen.fraction_inside(half_width, half_height)
    assert covered == pytest.approx(covered_by_polygon(ellipse, frame), abs=1e-6)


@given(
    off_deg=st.floats(0.0, 6.0),
    towards_deg=st.floats(0.0, 360.0),
    sizes=st.tuples(st.floats(1.0, 600.0), st.floats(0.05, 1.0)),
    turns=st.tuples(st.floats(0.0, 180.0), st.floats(0.0, 360.0)),
)
@settings(max_examples=120)
def test_the_share_agrees_with_shapely_wherever_the_frame_points(
    off_deg: float,
    towards_deg: float,
    sizes: tuple[float, float],
    turns: tuple[float, float],
) -> None:
    frame = Footprint(83.0, -68.0, 6.0, 4.0, turns[1])
    ra, dec = offset_by(*np.radians([83.0, -68.0, towards_deg, off_deg]))
    ellipse = SkyEllipse(
        float(np.degrees(ra)), float(np.degrees(dec)), sizes[0], sizes[0] * sizes[1], turns[0]
    )
    seen = ellipse.seen_from(frame)
    assert seen is not None
    covered = seen.fraction_inside(*frame.half_extents)
    assert covered == pytest.approx(covered_by_polygon(ellipse, frame), abs=1e-5)


@pytest.mark.parametrize(
    ("off_deg", "size_arcmin", "there"),
    [(89.9, 1.0, True), (90.1, 1.0, False), (89.9, 60.0, False), (120.0, 10.0, False)],
)
def test_what_reaches_the_limb_has_no_image(
    off_deg: float, size_arcmin: float, there: bool
) -> None:
    ellipse = SkyEllipse(off_deg, 0.0, size_arcmin, size_arcmin, 0.0)
    assert (ellipse.seen_from(Footprint(0.0, 0.0, 5.0, 5.0)) is not None) is there


def test_an_arcsecond_far_off_the_middle_keeps_its_digits() -> None:
    """At 40 degrees a small circle is drawn larger by 1/cos^2 along the radius, 1/cos across."""
    seen = SkyEllipse(0.0, 40.0, 1 / 60, 1 / 60, 0.0).seen_from(Footprint(0.0, 0.0, 100.0, 100.0))
    assert seen is not None
    radius, cos = math.radians(0.5 / 3600), math.cos(math.radians(40.0))
    assert seen.half_extents == pytest.approx((radius / cos, radius / cos**2), rel=1e-9)
    assert isinstance(seen, SeenEllipse)
