"""Image circle and clear diameters, against printed values, shapely and counting."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, box

from core.gear.optics.illumination import beam_passing, fraction_in_circle
from tests.core.gear.check_kits import finding, kit, reducer, sensor, spacer, wheel


def test_a_26_mm_circle_holds_98_42_percent_of_an_aps_c_sensor() -> None:
    """Area integral derived by hand and by numerical quadrature: 0.98420."""
    assert fraction_in_circle(23.49, 15.70, 26.0) == pytest.approx(0.98420, abs=1e-4)


@given(width=st.floats(1.0, 60.0), height=st.floats(1.0, 60.0), circle=st.floats(0.5, 100.0))
@settings(max_examples=60)
def test_the_fraction_is_the_area_that_shapely_finds(
    width: float, height: float, circle: float
) -> None:
    disc = Point(0.0, 0.0).buffer(circle / 2, quad_segs=512)
    rectangle = box(-width / 2, -height / 2, width / 2, height / 2)
    expected = rectangle.intersection(disc).area / rectangle.area
    assert fraction_in_circle(width, height, circle) == pytest.approx(expected, abs=2e-5)


def test_the_inscribed_circle_holds_pi_over_four_of_a_square() -> None:
    assert fraction_in_circle(2.0, 2.0, 2.0) == pytest.approx(math.pi / 4, rel=1e-12)


def test_a_36_mm_ring_30_mm_before_the_sensor_passes_all_of_f5_and_part_of_f2_8() -> None:
    """Plane geometry, derived: f/5, y 14.13 wants 34.26 mm; f/2.8, y 15.5: 0.76145, counted."""
    for clear, whole in ((36.0, True), (34.27, True), (34.25, False)):
        passing = beam_passing(clear, distance_mm=30.0, ratio=5.0, height_mm=14.13)
        assert (passing == 1.0) is whole
    partly = beam_passing(36.0, distance_mm=30.0, ratio=2.8, height_mm=15.5)
    assert partly == pytest.approx(0.76145, abs=1e-4)


@pytest.mark.parametrize(
    ("clear", "distance", "ratio", "height"),
    [(20.0, 40.0, 2.0, 5.0), (8.0, 60.0, 3.0, 1.0), (30.0, 50.0, 4.0, 14.0), (10.0, 9.0, 3.0, 5.0)],
)
def test_the_part_that_passes_is_the_part_that_counting_finds(
    clear: float, distance: float, ratio: float, height: float
) -> None:
    beam = distance / ratio / 2
    x, y = np.meshgrid(*[(np.arange(1500) + 0.5) / 750 * beam - beam] * 2)
    in_beam = np.hypot(x, y) <= beam
    in_ring = np.hypot(x, y + height) <= clear / 2
    expected = (in_beam & in_ring).sum() / in_beam.sum()
    passing = beam_passing(clear, distance_mm=distance, ratio=ratio, height_mm=height)
    assert 0.0 < expected < 1.0
    assert passing == pytest.approx(expected, abs=5e-4)


def test_a_point_outside_the_ring_with_no_beam_gets_nothing() -> None:
    assert beam_passing(10.0, distance_mm=0.0, ratio=5.0, height_mm=6.0) == 0.0
    assert beam_passing(10.0, distance_mm=0.0, ratio=5.0, height_mm=5.0) == 1.0


@pytest.mark.parametrize(
    ("circle", "severity"), [(28.3, "good"), (26.0, "note"), (24.0, "caution"), (15.0, "stop")]
)
def test_a_smaller_image_circle_is_a_graver_finding(circle: float, severity: str) -> None:
    found = finding("image-circle", kit(corrector=reducer(image_circle_mm=circle)))
    assert found.severity == severity
    assert found.value == pytest.approx(fraction_in_circle(23.49248, 15.70176, circle))


def test_a_31_mm_filter_17_5_mm_ahead_just_clips_and_36_mm_passes() -> None:
    """L 17.5, f/5, diagonal 28.26: 31.8 mm; derived, tolerance 0.05 for the diagonal."""
    for clear, severity in ((36.0, "good"), (31.0, "note"), (20.0, "stop"), (29.0, "caution")):
        glass = wheel(kind="filter", length_mm=None, clear_diameter_mm=clear)
        found = finding("filter-size", kit(spacer(), glass))
        assert found.limit == pytest.approx(31.76, abs=0.01)
        assert found.severity == severity


@pytest.mark.parametrize(
    ("rule", "change", "wanted"),
    [
        ("image-circle", {"corrector": reducer(image_circle_mm=None)}, "image circle of reducer"),
        ("filter-size", {"others": (wheel(clear_diameter_mm=None),)}, "clear diameter of wheel"),
        ("filter-size", {"camera": sensor(flange_mm=None)}, "every length from wheel to"),
    ],
)
def test_an_unknown_diameter_or_length_is_asked_for(
    rule: str, change: dict[str, object], wanted: str
) -> None:
    found = finding(rule, kit(**change))
    assert found.severity == "unknown"
    assert wanted in found.message


def test_a_circle_that_lacks_the_very_corners_does_not_hold_100_percent() -> None:
    """A diagonal of 28.257 mm against 28.2 mm: 0.9999 of the area."""
    found = finding("image-circle", kit(corrector=reducer(image_circle_mm=28.2)))
    assert found.value is not None
    assert 0.9995 < found.value < 1.0
    assert "which holds all but the corners of the sensor: the corners are poor" in found.message
