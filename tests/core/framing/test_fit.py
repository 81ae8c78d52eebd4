"""How a target sits in a frame: fill, share, room, words."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue.target import Target, TargetKind
from core.framing.fit import Fit, fill_and_cover
from core.framing.outlined import outline_of
from core.gear.rig import rig_from_numbers
from core.plan.document import planned_target
from core.sky.footprint import Footprint
from core.sky.sphere import offset_by
from tests.core.framing.seen import covered_by_polygon

M31 = Target(
    "M 31", "", TargetKind.GALAXY, 10.685, 41.269, 178.0, 70.0, 35.0, angle_status="catalogue"
)


def frame_on(target: Target, width: float, height: float, pa: float) -> Footprint:
    return Footprint(target.ra_deg, target.dec_deg, width, height, pa)


def test_m31_along_the_long_side_of_aps_c_at_250_mm() -> None:
    """Common practice: M 31 fills a good half of APS-C at 250 mm.

    By hand: 23.5 x 15.7 mm at 250 mm is 322.9' x 215.8'; tan 89' over 23.5/500 = 0.551
    along, room (322.9 - 178)/2 = 72.45' at the ends and (215.8 - 70)/2 = 72.9' beside.
    """
    rig = rig_from_numbers(
        "short", focal_length_mm=250, aperture_mm=50, pixel_um=4.0, columns=5875, rows=3925
    )
    fit = fill_and_cover(M31, frame_on(M31, rig.width_deg, rig.height_deg, 125.0))
    assert fit.fill == pytest.approx(0.551, abs=0.001)
    assert fit.covered == 1.0
    assert fit.room_arcmin == pytest.approx((72.91, 72.45, 72.91, 72.45), abs=0.02)
    assert fit.verdict == "fits, 72′ to spare"


def test_m31_square_across_the_frame_is_larger_by_its_projection() -> None:
    """At camera PA 0 the half extents are hypot(a sin 35, b cos 35) and the like, by hand.

    89 sin 35 = 51.05, 35 cos 35 = 28.67: 58.55'; 89 cos 35 = 72.90, 35 sin 35 = 20.08:
    75.62'. In 4 x 3 degrees: 58.55/120 = 0.488 and 75.62/90 = 0.840 (small angle, so 1e-3).
    """
    fit = fill_and_cover(M31, frame_on(M31, 4.0, 3.0, 0.0))
    assert fit.fill == pytest.approx(0.840, abs=1e-3)
    assert fit.room_arcmin == pytest.approx((14.38, 61.45, 14.38, 61.45), abs=0.05)


def test_fill_compares_tangents_not_angles() -> None:
    """A circle of 60 degrees in a field of 90: tan 30 / tan 45 = 0.57735, not 2/3."""
    wide = Target("wide", "", TargetKind.SCENE, 0.0, 0.0, 3600.0, 3600.0, None)
    fit = fill_and_cover(wide, Footprint(0.0, 0.0, 90.0, 90.0))
    assert fit.fill == pytest.approx(math.tan(math.pi / 6), rel=1e-12)
    assert fit.room_arcmin == pytest.approx((900.0,) * 4, rel=1e-12)


@pytest.mark.parametrize(
    ("pa_deg", "ra_step", "dec_step", "short_side"),
    [
        (0.0, 0.0, -1.0, 0),  # the frame went south: the target nears its top
        (0.0, 1.0, 0.0, 1),  # east: nears its right, which is west
        (0.0, 0.0, 1.0, 2),
        (0.0, -1.0, 0.0, 3),
        (90.0, -1.0, 0.0, 0),  # up is east, the frame went west: top
        (90.0, 0.0, -1.0, 1),  # right is north, the frame went south
        (180.0, 0.0, 1.0, 0),  # up is south, the frame went north
    ],
)
def test_the_room_is_short_on_the_side_the_target_nears(
    pa_deg: float, ra_step: float, dec_step: float, short_side: int
) -> None:
    spot = Target("spot", "", TargetKind.OTHER, 100.0, 0.0, 10.0, 10.0, None)
    fit = fill_and_cover(spot, Footprint(100.0 + ra_step, dec_step, 4.0, 4.0, pa_deg))
    assert fit.room_arcmin is not None
    assert fit.room_arcmin.index(min(fit.room_arcmin)) == short_side
    assert min(fit.room_arcmin) == pytest.approx(60.0 - 5.0, abs=0.01)
    assert sorted(fit.room_arcmin)[3] == pytest.approx(180.0 - 5.0, abs=0.01)


def test_a_cut_side_has_negative_room_and_is_named() -> None:
    spot = Target("spot", "", TargetKind.OTHER, 100.0, 0.0, 60.0, 60.0, None)
    fit = fill_and_cover(spot, Footprint(102.0, 0.0, 4.0, 4.0, 0.0))
    assert fit.covered == pytest.approx(0.5, abs=1e-3)
    assert fit.room_arcmin is not None
    assert fit.room_arcmin[1] == pytest.approx(-30.0, abs=0.05)
    assert fit.verdict.endswith(" % inside, cut at right")
    assert not fit.fits


@pytest.mark.parametrize(
    ("target", "verdict"),
    [
        (replace(M31, major_arcmin=None, minor_arcmin=None), "size not known"),
        (replace(M31, major_arcmin=None, minor_arcmin=None, pa_deg=None), "size not known"),
    ],
)
def test_without_a_size_nothing_is_said_to_fit(target: Target, verdict: str) -> None:
    fit = fill_and_cover(target, frame_on(target, 170.0, 170.0, 0.0))
    assert (fit.fill, fit.covered, fit.room_arcmin) == (None, None, None)
    assert not fit.fits
    assert not fit.size_known
    assert fit.verdict == verdict


@pytest.mark.parametrize(
    "target", [replace(M31, pa_deg=None), replace(M31, minor_arcmin=None)], ids=["angle", "minor"]
)
def test_without_an_angle_a_circle_of_the_major_diameter_stands_in(target: Target) -> None:
    fits = [fill_and_cover(target, frame_on(target, 4.0, 3.0, pa)) for pa in (0.0, 35.0, 125.0)]
    round_fit = fill_and_cover(
        replace(M31, minor_arcmin=178.0, pa_deg=None), frame_on(M31, 4.0, 3.0, 0.0)
    )
    for fit in fits:
        assert fit.assumed_round
        assert fit.fill == pytest.approx(round_fit.fill, rel=1e-9)
        assert fit.verdict.endswith(", taken as round")
    assert not round_fit.assumed_round


def test_an_angle_that_is_not_sure_is_still_drawn_as_it_is_told() -> None:
    doubtful = replace(M31, angle_status="computed")
    assert outline_of(doubtful) == outline_of(M31)


def test_a_target_of_a_plan_fits_as_the_one_of_the_table() -> None:
    frame = frame_on(M31, 3.0, 2.0, 77.0)
    assert fill_and_cover(planned_target(M31), frame) == fill_and_cover(M31, frame)


def test_a_target_elsewhere_is_outside_and_one_behind_the_limb_not_measured() -> None:
    elsewhere = fill_and_cover(M31, Footprint(40.0, 41.0, 3.0, 2.0))
    assert elsewhere.covered == 0.0
    assert elsewhere.verdict == "outside the frame"
    behind = fill_and_cover(M31, Footprint(190.685, -41.0, 3.0, 2.0))
    assert behind == Fit()
    assert behind.verdict == "too far from the frame to measure"
    assert not behind.fits


def test_nearly_all_is_not_said_to_be_all() -> None:
    spot = Target("spot", "", TargetKind.OTHER, 0.0, 0.0, 120.2, 120.2, None)
    fit = fill_and_cover(spot, Footprint(0.0, 0.0, 3.0, 2.0))
    assert fit.covered is not None
    assert 0.995 < fit.covered < 1.0
    assert fit.verdict.startswith("99 % inside, cut at top and bottom")


def test_a_target_as_large_as_the_frame_just_fits() -> None:
    spot = Target("spot", "", TargetKind.OTHER, 33.0, 12.0, 120.0, 120.0, None)
    fit = fill_and_cover(spot, Footprint(33.0, 12.0, 3.0, 2.0, 17.0))
    assert fit.fits
    assert fit.covered == 1.0
    assert fit.verdict == "fits, 0.0′ to spare"


@given(
    off=st.tuples(st.floats(0.0, 3.0), st.floats(0.0, 360.0)),
    pa=st.floats(0.0, 360.0, exclude_max=True),
    shape=st.tuples(st.floats(5.0, 300.0), st.floats(0.1, 1.0), st.floats(0.0, 179.9)),
)
@settings(max_examples=80)
def test_half_a_turn_swaps_the_sides_and_changes_nothing_else(
    off: tuple[float, float], pa: float, shape: tuple[float, float, float]
) -> None:
    target, frame = placed(off, pa, shape)
    fit = fill_and_cover(target, frame)
    turned = fill_and_cover(target, Footprint(frame.ra_deg, frame.dec_deg, 3.0, 2.0, pa + 180.0))
    assert turned.fill == pytest.approx(fit.fill, rel=1e-9)
    assert turned.covered == pytest.approx(fit.covered, abs=1e-9)
    top, right, bottom, left = fit.room_arcmin or (0, 0, 0, 0)
    assert turned.room_arcmin == pytest.approx((bottom, left, top, right), abs=1e-6)


@given(
    off=st.tuples(st.floats(0.0, 3.0), st.floats(0.0, 360.0)),
    pa=st.floats(0.0, 360.0, exclude_max=True),
    shape=st.tuples(st.floats(5.0, 300.0), st.floats(0.1, 1.0), st.floats(0.0, 179.9)),
)
@settings(max_examples=80)
def test_the_sky_in_a_mirror_swaps_left_and_right(
    off: tuple[float, float], pa: float, shape: tuple[float, float, float]
) -> None:
    """Mirrored about the meridian of the frame every angle changes its sign."""
    fit = fill_and_cover(*placed(off, pa, shape))
    mirrored = fill_and_cover(
        *placed((off[0], -off[1] % 360.0), -pa % 360.0, (*shape[:2], -shape[2] % 180.0))
    )
    assert mirrored.fill == pytest.approx(fit.fill, rel=1e-9)
    assert mirrored.covered == pytest.approx(fit.covered, abs=1e-9)
    top, right, bottom, left = fit.room_arcmin or (0, 0, 0, 0)
    assert mirrored.room_arcmin == pytest.approx((top, left, bottom, right), abs=1e-6)


@given(
    off=st.tuples(st.floats(0.0, 3.0), st.floats(0.0, 360.0)),
    pa=st.floats(0.0, 360.0, exclude_max=True),
    shape=st.tuples(st.floats(5.0, 300.0), st.floats(0.1, 1.0), st.floats(0.0, 179.9)),
)
@settings(max_examples=80)
def test_figures_agree_with_each_other_and_with_shapely(
    off: tuple[float, float], pa: float, shape: tuple[float, float, float]
) -> None:
    target, frame = placed(off, pa, shape)
    fit = fill_and_cover(target, frame)
    ellipse, _ = outline_of(target)
    assert ellipse is not None
    assert fit.covered == pytest.approx(covered_by_polygon(ellipse, frame), abs=1e-5)
    assert fit.fits == (fit.covered == 1.0)
    assert fit.fill is not None
    if fit.fits:
        assert fit.fill <= 1.0 + 1e-12


def placed(
    off: tuple[float, float], pa: float, shape: tuple[float, float, float]
) -> tuple[Target, Footprint]:
    """Put a target off the middle of a frame of 3 x 2 degrees."""
    major, flat, angle = shape
    ra, dec = offset_by(*np.radians([200.0, 55.0, off[1], off[0]]))
    target = Target(
        "one",
        "",
        TargetKind.GALAXY,
        float(np.degrees(ra)),
        float(np.degrees(dec)),
        major,
        major * flat,
        angle,
        angle_status="published",
    )
    return target, Footprint(200.0, 55.0, 3.0, 2.0, pa)
