"""The suggested turn of the camera."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue.target import Target, TargetKind
from core.framing.fit import fill_and_cover
from core.framing.rotation import best_turn_rad, suggested_pa
from core.sky.footprint import Footprint

M31 = Target(
    "M 31", "", TargetKind.GALAXY, 10.685, 41.269, 178.0, 70.0, 35.0, angle_status="catalogue"
)


def galaxy(major: float | None, minor: float | None, pa: float | None, how: str) -> Target:
    return Target("one", "", TargetKind.GALAXY, 50.0, 20.0, major, minor, pa, angle_status=how)


def scale_at(turn_rad: np.ndarray, axes: tuple[float, float], sides: tuple[float, float]) -> float:
    """By how much the ellipse could grow before it touches a side."""
    (major, minor), (long, short) = axes, sides
    along = np.hypot(major * np.cos(turn_rad), minor * np.sin(turn_rad))
    across = np.hypot(major * np.sin(turn_rad), minor * np.cos(turn_rad))
    return float(np.max(np.minimum(long / along, short / across)))


shapes = st.tuples(st.floats(1.0, 100.0), st.floats(0.05, 1.0)).map(lambda s: (s[0], s[0] * s[1]))


@given(axes=shapes, sides=shapes)
@settings(max_examples=300)
def test_no_angle_of_a_fine_scan_holds_a_larger_ellipse(
    axes: tuple[float, float], sides: tuple[float, float]
) -> None:
    """Against 1441 angles, an eighth of a degree apart; and to the closed form of the scale.

    min(sqrt(L^2 + S^2) / sqrt(a^2 + b^2), S / b): derived from hx^2 + hy^2 = a^2 + b^2.
    """
    best = scale_at(np.array([best_turn_rad(*axes, *sides)]), axes, sides)
    scan = scale_at(np.radians(np.arange(0.0, 180.125, 0.125)), axes, sides)
    assert best >= scan * (1 - 1e-12)
    assert best <= scan * 1.005
    closed = min(math.hypot(*sides) / math.hypot(*axes), sides[1] / axes[1])
    assert best == pytest.approx(closed, rel=1e-9)


@given(axes=shapes, sides=shapes, unit=st.floats(1e-3, 1e3))
def test_the_unit_does_not_matter(
    axes: tuple[float, float], sides: tuple[float, float], unit: float
) -> None:
    turn = best_turn_rad(*axes, *sides)
    assert best_turn_rad(axes[0] * unit, axes[1] * unit, *sides) == pytest.approx(turn, abs=1e-6)
    assert best_turn_rad(*axes, sides[0] * unit, sides[1] * unit) == pytest.approx(turn, abs=1e-6)


def test_a_thin_streak_goes_into_the_diagonal_of_a_square() -> None:
    assert math.degrees(best_turn_rad(100.0, 1.0, 5.0, 5.0)) == pytest.approx(45.0)


def test_an_ellipse_less_slender_than_the_frame_lies_along_it() -> None:
    assert best_turn_rad(3.0, 2.1, 3.0, 2.0) == 0.0
    assert best_turn_rad(2.0, 2.0, 3.0, 2.0) == 0.0


@pytest.mark.parametrize(
    ("width_deg", "height_deg", "pa_deg"),
    [(5.37, 3.59, 125.0), (3.59, 5.37, 35.0), (4.0, 4.0, 35.0)],
    ids=["landscape", "portrait", "square"],
)
def test_the_long_side_lies_along_m31(width_deg: float, height_deg: float, pa_deg: float) -> None:
    """M 31 at PA 35: up at 35 + 90 for a wide sensor, at 35 for a tall one (common practice)."""
    assert suggested_pa(M31, width_deg, height_deg) == pytest.approx(pa_deg, abs=1e-12)


def test_a_frame_too_short_for_m31_holds_it_across_the_diagonal() -> None:
    """2.8 x 1.9 degrees: 178' is longer than the frame, its diagonal 3.38 degrees is not.

    tan^2 sums: hypot(178, 70) = 191.3' < 203'; 70' < 114', so a turn exists.
    """
    pa = suggested_pa(M31, 2.8, 1.9)
    along = fill_and_cover(M31, Footprint(M31.ra_deg, M31.dec_deg, 2.8, 1.9, 125.0))
    turned = fill_and_cover(M31, Footprint(M31.ra_deg, M31.dec_deg, 2.8, 1.9, pa))
    assert not along.fits
    assert turned.fits
    assert 90.0 <= pa < 125.0  # of the two answers the one nearer to a square camera


def test_a_frame_far_too_small_stays_along_the_target() -> None:
    assert suggested_pa(M31, 1.27, 0.96) == pytest.approx(125.0)


def test_a_target_longer_than_the_diagonal_stays_along_the_long_side() -> None:
    """2.0 x 1.3 degrees: 70' is below 78', but 178' is beyond the diagonal of 143'."""
    assert suggested_pa(M31, 2.0, 1.3) == pytest.approx(125.0)


@pytest.mark.parametrize(("width_deg", "turned"), [(2.99, True), (3.01, False)])
def test_the_turn_begins_where_the_ends_would_be_cut(width_deg: float, turned: bool) -> None:
    """180' is 3 degrees: a frame a little shorter turns, one a little longer does not."""
    streak = galaxy(180.0, 20.0, 0.0, "published")
    assert (suggested_pa(streak, width_deg, 2.0) != 90.0) is turned


@pytest.mark.parametrize(
    "target",
    [
        galaxy(None, None, None, ""),
        galaxy(None, None, 35.0, "published"),
        galaxy(60.0, 20.0, None, ""),
        galaxy(60.0, None, 35.0, "published"),
        galaxy(60.0, 20.0, 35.0, "computed"),
        galaxy(60.0, 20.0, 35.0, "memory"),
        galaxy(60.0, 60.0, 35.0, "published"),
    ],
    ids=["nothing", "no size", "no angle", "no minor", "computed", "remembered", "round"],
)
def test_nothing_is_suggested_without_a_sure_shape_and_angle(target: Target) -> None:
    assert suggested_pa(target, 3.0, 2.0) == 0.0


@given(
    pa=st.floats(0.0, 180.0, exclude_max=True),
    field=st.tuples(st.floats(0.2, 12.0), st.floats(0.2, 12.0)),
    axes=st.tuples(st.floats(1.0, 400.0), st.floats(0.1, 0.99)),
)
@settings(max_examples=60)
def test_if_any_angle_holds_the_target_the_suggested_one_does(
    pa: float, field: tuple[float, float], axes: tuple[float, float]
) -> None:
    target = galaxy(axes[0], axes[0] * axes[1], pa, "published")
    suggested = suggested_pa(target, *field)
    assert 0.0 <= suggested < 180.0
    fills = [
        fill_and_cover(target, Footprint(50.0, 20.0, *field, angle)).fill
        for angle in np.arange(0.0, 180.0, 3.0)
    ]
    ours = fill_and_cover(target, Footprint(50.0, 20.0, *field, suggested)).fill
    assert ours is not None
    if min(fill for fill in fills if fill is not None) <= 1.0:
        assert ours <= 1.0 + 1e-9


@given(pa=st.floats(0.0, 180.0, exclude_max=True))
@settings(max_examples=50)
def test_swapping_width_and_height_turns_the_camera_by_a_quarter(pa: float) -> None:
    target = galaxy(120.0, 30.0, pa, "published")
    difference = suggested_pa(target, 5.0, 3.0) - suggested_pa(target, 3.0, 5.0)
    assert abs(difference) == pytest.approx(90.0, abs=1e-9)


def test_an_angle_just_below_a_half_turn_stays_below_it() -> None:
    target = galaxy(120.0, 30.0, 90.0 - 1e-14, "published")
    assert 0.0 <= suggested_pa(target, 5.0, 3.0) < 180.0
    below = galaxy(120.0, 30.0, 179.99999999999997, "published")
    assert 0.0 <= suggested_pa(below, 3.0, 5.0) < 180.0
