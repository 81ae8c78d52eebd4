"""How much light rigs gather, and how fast they are against each other."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.money.changes import changes_between
from core.gear.optics.light import clear_area_cm2, light_grasp_cm2, light_per_pixel, light_ratio
from core.gear.parts import Telescope
from core.gear.rig import Rig
from tests.core.gear.check_kits import kit, sensor, tube

apertures, pitches = st.floats(20.0, 400.0), st.floats(2.0, 10.0)

LARGE: Telescope = tube(aperture_mm=120.0)


def fast(**changes: object) -> Rig:
    """Build f/5 of 1000 mm without a corrector."""
    figures = {"aperture_mm": 200.0, "focal_length_mm": 1000.0, "kind": "newtonian"}
    return kit(telescope=tube(**{**figures, **changes}), corrector=None)


def test_70_of_200_mm_obstructed_leave_0_8775_of_the_light() -> None:
    """1 - (70/200)^2 = 0.8775 of a clear f/5 (textbook)."""
    mirror, clear = fast(obstruction_mm=70.0), fast(obstruction_mm=0.0)
    ratio = light_ratio(mirror, clear)
    assert ratio.same_scale == pytest.approx(0.8775)
    assert ratio.per_pixel == pytest.approx(0.8775)
    assert light_grasp_cm2(clear) == pytest.approx(math.pi * 10.0**2)


def test_speed_per_pixel_is_pitch_squared_over_focal_ratio_squared() -> None:
    """(3.76/3.76)^2 (5/8)^2 (textbook): 200 mm f/5 to f/8, and twice the pitch is fourfold."""
    slow = fast(focal_length_mm=1600.0, obstruction_mm=70.0)
    ratio = light_ratio(slow, fast(obstruction_mm=70.0))
    assert ratio.per_pixel == pytest.approx((5 / 8) ** 2)
    assert ratio.same_scale == pytest.approx(1.0)
    coarse = kit(camera=sensor(pixel_um=7.52))
    assert light_ratio(coarse, kit()).per_pixel == pytest.approx(4.0)


@given(one=apertures, other=apertures, pitch=pitches, focal=st.floats(300.0, 3000.0))
@settings(max_examples=60)
def test_the_light_on_a_pixel_is_the_textbooks_whatever_the_rig(
    one: float, other: float, pitch: float, focal: float
) -> None:
    rig = kit(telescope=tube(aperture_mm=one, focal_length_mm=focal), camera=sensor(pixel_um=pitch))
    against = kit(telescope=tube(aperture_mm=other))
    expected = (pitch / 3.76 * against.focal_ratio / rig.focal_ratio) ** 2
    assert light_ratio(rig, against).per_pixel == pytest.approx(expected)
    there, back = light_ratio(rig, against).same_scale, light_ratio(against, rig).same_scale
    assert there is not None
    assert back is not None
    assert there * back == pytest.approx(1.0)


@given(aperture=apertures, more=st.floats(0.0, 100.0), share=st.floats(0.0, 0.9))
@settings(max_examples=60)
def test_a_wider_aperture_never_gathers_less_and_an_obstruction_never_more(
    aperture: float, more: float, share: float
) -> None:
    assert clear_area_cm2(aperture + more) >= clear_area_cm2(aperture)
    assert clear_area_cm2(aperture, share * aperture) <= clear_area_cm2(aperture)


@pytest.mark.parametrize("kind", ["newtonian", "cassegrain", "catadioptric"])
def test_an_obstruction_that_is_not_known_leaves_the_light_unknown(kind: str) -> None:
    mirror, glass = fast(kind=kind), fast(kind="refractor")
    assert light_grasp_cm2(mirror) is None
    assert light_per_pixel(mirror) is None
    assert light_ratio(mirror, glass).same_scale is None
    assert light_grasp_cm2(glass) == pytest.approx(100 * math.pi)
    words = [change.words for change in changes_between(glass, mirror)]
    assert "light grasp 314.2 cm² → not known" in words
    assert "speed on a nebula, per pixel 1× → not known" in words


def test_one_telescope_of_unknown_light_is_as_fast_as_itself() -> None:
    mirror = fast()
    coarse = mirror.but(camera=sensor(pixel_um=7.52))
    assert light_ratio(coarse, mirror).per_pixel == pytest.approx(4.0)
    assert [c.figure for c in changes_between(mirror, coarse) if "speed" in c.figure] == [
        "relative_speed_per_pixel"
    ]
    assert changes_between(mirror, mirror) == ()


def test_what_changes_tells_light_grasp_and_both_speeds() -> None:
    """80 to 120 mm at 400 mm: area 2.25-fold, the scale stays."""
    figures = {c.figure: (c.before, c.after) for c in changes_between(kit(), kit(telescope=LARGE))}
    assert figures["light_grasp_cm2"] == pytest.approx((50.2655, 113.097), abs=1e-3)
    assert figures["relative_speed_per_pixel"] == pytest.approx((1.0, 2.25))
    assert figures["relative_speed_same_scale"] == pytest.approx((1.0, 2.25))
    words = [change.words for change in changes_between(kit(), kit(telescope=LARGE))]
    assert "speed on a nebula, per pixel 1× → 2.25×" in words
