"""How well a rig follows the sky: polar error, mounts without a guider, tripods alone."""

import math

import pytest

from core.gear.checks import findings
from core.gear.checks.polar import polar_drift_arcsec, polar_rotation_rad
from core.gear.checks.unguided import trail_arcsec, wander_arcsec
from core.gear.parts import Camera, Mount, OtherPart
from core.gear.rig import Rig
from tests.core.gear.check_kits import (
    equatorial,
    finding,
    guide_camera,
    guide_scope,
    kit,
    off_axis,
    spacer,
)

TRACKER = Mount(name="tracker", kind="tracker", load_bare_kg=20.0, mass_kg=2.0)


def guided(**changes: object) -> Rig:
    return kit(spacer(), guide_scope(), guide_camera(), **changes)


def rules_of(rig: Rig) -> set[str]:
    return {one.rule for one in findings(rig)}


def test_the_drift_of_5_arcmin_is_1_313_arcsec_a_minute() -> None:
    """0.26252 e arcsec a minute, e in arcmin (derived from the sidereal rate)."""
    assert polar_drift_arcsec(5.0, 60.0) == pytest.approx(5 * 0.26252, rel=1e-4)


def test_the_worst_rate_of_the_turn_is_2_625_arcmin_an_hour() -> None:
    """0.26252 e / cos d arcmin an hour: 5 arcmin at declination 60 (derived)."""
    turn = math.degrees(polar_rotation_rad(5.0, 3600.0, 60.0)) * 60
    assert turn == pytest.approx(2.625, abs=1e-3)


def test_the_turn_agrees_with_hooks_limit_for_the_polar_error() -> None:
    """E = 45018.6 S cos d / (T F A): S 9 um, d 60, 30 min, 1000 mm, A 1 deg: 6.75 arcmin.

    Hook 1989, JBAA 99, 19 (from memory, with 45000).
    """
    turn = polar_rotation_rad(6.7528, 1800.0, 60.0)
    corner_um = 1000.0 * 1000.0 * math.radians(1.0)
    assert turn * corner_um == pytest.approx(9.0, rel=1e-3)


def test_half_a_guider_holds_no_star() -> None:
    """A guide scope without a camera, or a camera without one, leaves the mount to itself."""
    bare = kit(spacer())
    assert finding("unguided", bare).severity == "caution"
    for half in (guide_scope(), guide_camera(), off_axis(length_mm=10.0)):
        rig = kit(spacer(), half)
        assert finding("unguided", rig) == finding("unguided", bare)
        assert finding("polar-error", rig) == finding("polar-error", bare)
    assert "unguided" not in [found.rule for found in findings(guided())]


def test_a_guided_corner_moves_by_the_turn_times_its_distance() -> None:
    """40 arcmin in 600 s at 60 degrees: 1.018e-3 rad; corner 3757.5 px: 3.826 px (by hand)."""
    found = finding("polar-error", guided(), polar_error_arcmin=40.0, exposure_s=600.0)
    assert found.value == pytest.approx(3.826, abs=2e-3)
    assert (found.severity, found.part) == ("caution", "mount")
    assert "within 10 arcmin of the pole" in found.message
    assert "expose for 150 s at most" in found.message
    usual = finding("polar-error", guided())
    assert usual.severity == "good"
    assert usual.value == pytest.approx(3.826 / 8 / 5, rel=1e-3)


def test_a_guide_star_beside_the_sensor_is_farther_from_the_far_corner() -> None:
    """15 mm at 3.76 um are 3989 px more than from the middle, 3757.5 px."""
    aside = kit(spacer(), off_axis(), guide_camera())
    ratio = finding("polar-error", aside).value / finding("polar-error", guided()).value  # type: ignore[operator]
    assert ratio == pytest.approx((3757.5 + 3989.4) / 3757.5, rel=1e-4)


def test_without_a_guider_the_polar_error_lets_the_picture_drift() -> None:
    """5 arcmin in 120 s: 2.625 arcsec over 1.9389 arcsec/px is 1.354 px."""
    found = finding("polar-error", kit())
    assert (found.severity, found.value) == ("note", pytest.approx(1.354, abs=1e-3))
    assert "drift" in found.message


def test_only_mounts_with_a_polar_axis_are_told_of_its_error() -> None:
    for kind in ("tracker", "equatorial", "strain wave"):
        assert "polar-error" in rules_of(kit(mount=equatorial(kind=kind)))
    assert "polar-error" not in rules_of(kit(mount=equatorial(kind="alt-azimuth")))
    assert "polar-error" not in rules_of(kit(mount=None))


@pytest.mark.parametrize(
    ("exposure_s", "severity"), [(17.0, "good"), (46.0, "note"), (47.0, "caution")]
)
def test_a_mount_without_a_guider_wanders_a_sixth_of_an_arcsecond_a_second(
    exposure_s: float, severity: str
) -> None:
    """10 arcsec a minute (common practice): 1.5 and 4 px of 1.9389 arcsec are 17.4 and 46.5 s."""
    assert wander_arcsec(60.0) == pytest.approx(10.0)
    found = finding("unguided", kit(), exposure_s=exposure_s)
    assert found.severity == severity
    assert ("add a guider" in found.message) == (severity != "good")
    assert ("17 s at most" in found.message) == (severity != "good")


def test_whatever_guides_ends_the_question_of_wandering() -> None:
    assert "unguided" in rules_of(kit())
    vague, eye = OtherPart(name="g", kind="guiding"), guide_camera()
    for guide in ((guide_scope(), eye), (off_axis(), eye), (vague,)):
        assert "unguided" not in rules_of(kit(spacer(), *guide)), guide
    assert "unguided" not in rules_of(kit(mount=None))


def test_a_star_moves_15_arcsec_a_second_over_a_camera_that_stands_still() -> None:
    """15.04107 cos d arcsec a second: 1.939 arcsec/px gives 7.76 px/s at d 0, 3.88 at 60."""
    assert trail_arcsec(1.0) / 1.9388892 == pytest.approx(7.757, abs=1e-3)
    assert trail_arcsec(1.0, 60.0) / 1.9388892 == pytest.approx(3.879, abs=1e-3)


def test_a_tripod_without_a_mount_limits_the_exposure() -> None:
    legs = OtherPart(name="legs", kind="tripod", mass_kg=2.0, on_mount=False)
    wide = kit(
        spacer(), legs, mount=None, camera=Camera(name="c", columns=600, rows=400, pixel_um=58)
    )
    found = finding("star-trails", wide, exposure_s=10.0)
    assert found.value == pytest.approx(150.41 / (206.2648 * 58 / 400), abs=1e-2)
    assert (found.severity, found.part) == ("caution", "legs")
    assert "1.9 s at most or take a mount" in found.message
    assert finding("star-trails", wide, exposure_s=1.9).severity == "good"
    assert finding("star-trails", wide, exposure_s=5.0).severity == "note"
    assert "star-trails" not in rules_of(kit(spacer(), legs, mount=TRACKER))
    assert "star-trails" not in rules_of(kit(mount=None))
