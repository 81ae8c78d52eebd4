"""How much darker the corners are: the slant of the light, and the narrowest bore."""

import math

import pytest

from core.gear.accessories import InTheBeam
from core.gear.checks.corner_light import corner_light_fraction, narrowest_bore
from core.gear.optics.illumination import beam_passing
from core.gear.rig import rig_from_numbers
from tests.core.gear.check_kits import finding, kit, spacer, wheel


def test_the_slant_takes_cos_to_the_fourth_of_the_angle() -> None:
    """20 degrees: cos^4 = 0.780 (textbook); half a diagonal of f tan 20."""
    diagonal = 2.0 * 50.0 * math.tan(math.radians(20.0))
    assert corner_light_fraction(diagonal, 50.0) == pytest.approx(0.780, abs=1e-3)
    assert corner_light_fraction(diagonal, 50.0) == pytest.approx(math.cos(math.radians(20)) ** 4)


@pytest.mark.parametrize(
    ("focal_mm", "left", "severity"),
    [(24.0, 0.305, "caution"), (50.0, 0.710, "note"), (135.0, 0.950, "good")],
)
def test_a_wide_lens_on_a_large_sensor_darkens_its_corners(
    focal_mm: float, left: float, severity: str
) -> None:
    """36 x 24 mm, diagonal 43.27: tan = 21.63 / f, 1 / (1 + tan^2)^2 by hand."""
    rig = rig_from_numbers(
        "lens", focal_length_mm=focal_mm, aperture_mm=10, pixel_um=6.0, columns=6000, rows=4000
    )
    found = finding("corner-light", rig)
    assert found.value == pytest.approx(left, abs=1e-3)
    assert found.severity == severity
    assert f"({100 * left:.0f} % by its slant)" in found.message


def test_the_narrowest_bore_counts_and_is_named() -> None:
    """Wheel 37.5 mm before the sensor, f/5: beam 7.5 mm at 14.13 mm off; 30 mm wide cuts it."""
    narrow = wheel(clear_diameter_mm=30.0)
    rig = kit(spacer(), narrow)
    passing = beam_passing(30.0, distance_mm=37.5, ratio=5.0, height_mm=14.1279)
    assert 0.5 < passing < 0.9
    found = finding("corner-light", rig)
    slant = corner_light_fraction(2 * 14.1279, 400.0)
    assert found.value == pytest.approx(slant * passing, abs=1e-4)
    assert (found.severity, found.part) == ("note", "wheel")
    assert f"({100 * passing:.0f} % through wheel)" in found.message
    assert narrowest_bore(rig)[0] is not None


def test_bores_that_are_not_known_are_said_to_be_left_out() -> None:
    unknown = kit(spacer(clear_diameter_mm=None), wheel())
    part, passing, all_known = narrowest_bore(unknown)
    assert (part, passing, all_known) == (None, 1.0, False)
    assert (
        "parts whose inner width is not known left out" in finding("corner-light", unknown).message
    )
    assert "left out" not in finding("corner-light", kit()).message
    assert isinstance(kit().others[0], InTheBeam)
