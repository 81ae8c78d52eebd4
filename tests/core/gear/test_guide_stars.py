"""Whether the guide camera sees a star wherever it looks."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue.stars import StarCatalogue
from core.gear.checks.guide_stars import _COUNTS, stars_per_deg2, usable_magnitude
from core.gear.rig import Rig
from tests.core.gear.check_kits import (
    finding,
    guide_camera,
    guide_scope,
    kit,
    off_axis,
    spacer,
    tube,
)


def guided(**scope: object) -> Rig:
    return kit(spacer(), guide_scope(**scope), guide_camera())


def test_the_numbers_of_stars_are_those_of_the_catalogue_towards_the_poles_of_the_milky_way() -> (
    None
):
    """Both caps of 15 degrees about the poles (192.85948, +27.12825), IAU 1958 at J2000."""
    catalogue = StarCatalogue.open()
    cap_deg2 = 2 * math.pi * (1 - math.cos(math.radians(15.0))) * math.degrees(1.0) ** 2
    poles = ((192.85948, 27.12825), (12.85948, -27.12825))
    caps = [catalogue.cone(ra, dec, 15.0).v_mag for ra, dec in poles]
    for magnitude, told in _COUNTS:
        counted = sum(int((cap <= magnitude).sum()) for cap in caps) / (2 * cap_deg2)
        assert told == pytest.approx(counted, rel=0.01), magnitude


def test_between_and_beyond_the_counted_magnitudes_the_number_goes_on() -> None:
    """Between: the geometric mean; beyond: 0.25 a magnitude in log10, to 14 and no farther."""
    assert stars_per_deg2(9.5) == pytest.approx(math.sqrt(1.67 * 4.02))
    assert stars_per_deg2(13.0) == pytest.approx(18.96 * 10**0.25)
    assert stars_per_deg2(14.0) == stars_per_deg2(17.0) == pytest.approx(18.96 * 10**0.5)
    assert stars_per_deg2(7.0) == pytest.approx(0.65**2 / 1.67)


@given(one=st.floats(-2.0, 20.0), more=st.floats(0.0, 5.0))
@settings(max_examples=50)
def test_fainter_stars_are_never_fewer(one: float, more: float) -> None:
    assert stars_per_deg2(one + more) >= stars_per_deg2(one)


def test_ten_times_the_aperture_shows_stars_five_magnitudes_fainter() -> None:
    """V 10 at 30 mm, common practice; a hundredfold of light is 5 magnitudes (Pogson 1856)."""
    assert usable_magnitude(300.0) - usable_magnitude(30.0) == pytest.approx(5.0)


def test_a_30_mm_guide_scope_sees_stars_enough() -> None:
    """1280 x 960 of 3.75 um at 120 mm: 2.291 x 1.718 degrees, 3.937 deg2 x 4.02 = 15.8."""
    found = finding("guide-stars", guided())
    assert (found.severity, found.part) == ("good", "small sensor")
    assert found.value == pytest.approx(15.83, abs=0.02)
    assert "16 of them on average" in found.message


@pytest.mark.parametrize(
    ("focal", "severity"), [(270.0, "good"), (280.0, "note"), (470.0, "note"), (490.0, "caution")]
)
def test_a_narrow_guide_field_runs_out_of_stars_at_3_and_at_1(focal: float, severity: str) -> None:
    """15.83 stars at 120 mm fall as 1/f^2: 3 at 275.7 mm, 1 at 477 mm."""
    assert finding("guide-stars", guided(focal_length_mm=focal)).severity == severity


def test_a_prism_smaller_than_the_sensor_is_the_edge_of_the_field() -> None:
    """Kit at f 400, 80 mm: V 12.13, 20.4 stars/deg2; prism 3 mm of 4.8 x 3.6: 0.4297 deg sq."""
    rig = kit(spacer(), off_axis(prism_mm=3.0), guide_camera())
    assert finding("guide-stars", rig).value == pytest.approx(
        0.42972**2 * 18.96 * 10 ** (0.25 * 0.12984), rel=1e-3
    )


def test_long_optics_have_few_stars_for_an_off_axis_guider() -> None:
    """F 1600, 200 mm, 4.8 x 3.6 mm: 0.1719 x 0.1289 deg, V 14: 59.96/deg2, 1.33 stars."""
    long = tube(aperture_mm=200.0, focal_length_mm=2000.0)
    found = finding("guide-stars", kit(spacer(), off_axis(), guide_camera(), telescope=long))
    assert found.value == pytest.approx(1.328, abs=2e-3)
    assert found.severity == "note"


def test_unknown_figures_of_the_guider_are_asked_for() -> None:
    rig = kit(spacer(), guide_scope(aperture_mm=None), guide_camera(columns=None, rows=None))
    assert finding("guide-stars", rig).message == (
        "Guide stars not known: give the columns of small sensor, the rows of small sensor "
        "and the aperture of small tube."
    )
    prism = kit(spacer(), off_axis(prism_mm=None), guide_camera())
    assert "give the prism size of prism" in finding("guide-stars", prism).message
