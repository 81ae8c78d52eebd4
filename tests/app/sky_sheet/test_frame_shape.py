"""Frames on the screen: where their corners fall, what a point hits."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF

from app.sky_sheet.flag_places import place_flags
from app.sky_sheet.frame_shape import FLAG_RADIUS, Part, frame_shape
from app.sky_sheet.transform import SheetTransform
from core.plan.document import SheetView
from core.sky.footprint import Footprint
from tests.core.skies import AWKWARD_SKIES

RECT = QRectF(60.0, 30.0, 900.0, 600.0)


def transform_at(ra: float, dec: float, width: float = 6.0, **more: object) -> SheetTransform:
    view = SheetView(ra_deg=ra, dec_deg=dec, width_deg=width, **more)
    return SheetTransform(view, RECT, 0.0)


@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
@pytest.mark.parametrize("mirrored", [False, True])
def test_corners_on_the_screen_are_the_corners_on_the_sky(sky, mirrored: bool) -> None:
    transform = transform_at(sky.ra_deg, sky.dec_deg, mirrored=mirrored)
    footprint = Footprint(sky.ra_deg, sky.dec_deg, 3.0, 2.0, 35.0)
    shape = frame_shape("a", footprint, transform)
    expected = transform.sky_to_screen(*footprint.corners_deg().T)
    for seen, wanted in zip(shape.points, expected, strict=True):
        assert math.dist(seen, wanted) < 1e-6


def test_edges_of_a_wide_frame_away_from_the_middle_follow_its_sampled_outline() -> None:
    transform = transform_at(50.0, 60.0, 60.0)
    footprint = Footprint(80.0, 50.0, 15.0, 10.0, 20.0)
    shape = frame_shape("a", footprint, transform)
    outline = transform.sky_to_screen(*footprint.outline_deg(8).T)
    for x, y in outline:
        assert shape.hit(QPointF(x, y), reach=0.01) is Part.EDGE


def test_a_frame_behind_the_limb_is_not_drawn() -> None:
    shape = frame_shape("a", Footprint(190.0, -40.0, 3.0, 2.0), transform_at(10.0, 40.0))
    assert shape.points == ()
    assert shape.stalk is None
    assert shape.hit(RECT.center()) is Part.NOTHING


def test_a_frame_that_reaches_behind_the_limb_is_cut_not_mirrored() -> None:
    transform = transform_at(0.0, 0.0, 120.0)
    shape = frame_shape("a", Footprint(75.0, 0.0, 60.0, 40.0), transform)
    assert len(shape.points) >= 3
    assert all(x <= RECT.center().x() for x, _ in shape.points)
    assert all(RECT.adjusted(-61, -61, 61, 61).contains(QPointF(x, y)) for x, y in shape.points)


def test_the_stalk_points_to_the_sensor_s_up() -> None:
    transform = transform_at(10.0, 40.0)
    for pa, (dx, dy) in {0.0: (0, -1), 90.0: (-1, 0), 180.0: (0, 1), 270.0: (1, 0)}.items():
        shape = frame_shape("a", Footprint(10.0, 40.0, 3.0, 2.0, pa), transform)
        assert shape.up == pytest.approx((dx, dy), abs=1e-9)
        assert shape.hit(shape.flag) is Part.STALK


def test_inside_edge_and_outside_are_told_apart() -> None:
    shape = frame_shape("a", Footprint(10.0, 40.0, 3.0, 2.0), transform_at(10.0, 40.0))
    left = min(x for x, _ in shape.points)
    middle = RECT.center()
    assert shape.hit(middle) is Part.BODY
    assert shape.hit(QPointF(left + 3.0, middle.y())) is Part.EDGE
    assert shape.hit(QPointF(left - 12.0, middle.y())) is Part.NOTHING


def test_a_frame_larger_than_the_sheet_keeps_its_flag_on_the_sheet() -> None:
    shape = frame_shape("a", Footprint(10.0, 40.0, 20.0, 14.0, 70.0), transform_at(10.0, 40.0))
    assert shape.hides(RECT)
    assert RECT.contains(shape.flag)


@given(st.lists(st.floats(0.0, 359.0), min_size=2, max_size=9))
def test_flags_never_lie_on_each_other(angles: list[float]) -> None:
    transform = transform_at(10.0, 40.0)
    shapes = [
        frame_shape(str(place), Footprint(10.0, 40.0, 3.0, 2.0, pa), transform)
        for place, pa in enumerate(angles)
    ]
    flags = [shape.flag for shape in place_flags(shapes, RECT)]
    for one, other in itertools.combinations(flags, 2):
        assert math.hypot(one.x() - other.x(), one.y() - other.y()) >= 2.0 * FLAG_RADIUS
