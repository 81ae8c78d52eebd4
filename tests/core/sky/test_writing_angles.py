"""Angles are written so that they can be read again, and 60 never shows."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.angles import (
    format_angle,
    format_dec,
    format_ra,
    parse_angle,
    parse_dec,
    parse_ra,
    wrap_180,
    wrap_360,
)

places = st.integers(-1, 4)


@pytest.mark.parametrize(
    ("ra_deg", "digits", "text"),
    [
        (10.6847, 1, "0h42m44.3s"),
        (314.6958333, 0, "20h58m47s"),
        (314.5, -1, "20h58m"),
        (14.99983333, 1, "1h00m00.0s"),  # 0h59m59.96s carries twice
        (14.99983333, 2, "0h59m59.96s"),
        (359.99999999, 1, "0h00m00.0s"),
        (359.999, -1, "0h00m"),
        (-15.0, 0, "23h00m00s"),
        (0.0, 0, "0h00m00s"),
    ],
)
def test_right_ascension_is_written_with_its_carry(ra_deg: float, digits: int, text: str) -> None:
    assert format_ra(ra_deg, places=digits) == text


@pytest.mark.parametrize(
    ("dec_deg", "digits", "text"),
    [
        (-5.391111, 0, "−5°23′28″"),
        (41.2688, -1, "+41°16′"),
        (-0.5, 0, "−0°30′00″"),
        (0.0, 0, "+0°00′00″"),
        (-0.0, 0, "+0°00′00″"),
        (-0.00001, 0, "+0°00′00″"),
        (-0.00001, 2, "−0°00′00.04″"),
        (0.99999, 0, "+1°00′00″"),
        (89.99999, 0, "+90°00′00″"),
        (-90.0, 1, "−90°00′00.0″"),
    ],
)
def test_declination_is_written_with_sign_and_carry(dec_deg: float, digits: int, text: str) -> None:
    assert format_dec(dec_deg, places=digits) == text


@pytest.mark.parametrize(
    ("angle_deg", "text"), [(2.0, "2°00′00″"), (-0.5, "−0°30′00″"), (-1e-9, "0°00′00″")]
)
def test_an_angle_has_no_plus_sign(angle_deg: float, text: str) -> None:
    assert format_angle(angle_deg) == text


@settings(max_examples=300)
@given(st.floats(0.0, 360.0, exclude_max=True), places)
def test_right_ascension_comes_back_to_the_printed_precision(ra_deg: float, digits: int) -> None:
    step_deg = 15.0 / (60.0 if digits < 0 else 3600.0 * 10.0**digits)
    text = format_ra(ra_deg, places=digits)
    assert "60" not in text.replace("m", "h").split("h")[1:]
    assert abs(wrap_180(parse_ra(text) - ra_deg)) <= 0.5 * step_deg + 1e-11


@settings(max_examples=300)
@given(st.floats(-90.0, 90.0), places)
def test_declination_comes_back_to_the_printed_precision(dec_deg: float, digits: int) -> None:
    step_deg = 1.0 / (60.0 if digits < 0 else 3600.0 * 10.0**digits)
    assert abs(parse_dec(format_dec(dec_deg, places=digits)) - dec_deg) <= 0.5 * step_deg + 1e-11


@settings(max_examples=100)
@given(st.floats(-359.0, 359.0))
def test_an_angle_comes_back_to_the_printed_precision(angle_deg: float) -> None:
    assert abs(wrap_180(parse_angle(format_angle(angle_deg)) - angle_deg)) <= 0.5 / 3600.0 + 1e-11


@settings(max_examples=200)
@given(st.floats(-1e6, 1e6))
def test_wrapping_stays_in_range_and_keeps_the_direction(angle_deg: float) -> None:
    assert 0.0 <= wrap_360(angle_deg) < 360.0
    assert -180.0 < wrap_180(angle_deg) <= 180.0
    turns = (wrap_360(angle_deg) - angle_deg) / 360.0
    assert turns == pytest.approx(round(turns), abs=1e-9)
    assert wrap_180(angle_deg) % 360.0 == pytest.approx(wrap_360(angle_deg), abs=1e-9)


@pytest.mark.parametrize(
    ("angle_deg", "full", "half"),
    [(-30.0, 330.0, -30.0), (360.0, 0.0, 0.0), (180.0, 180.0, 180.0), (-180.0, 180.0, 180.0),
     (-1e-20, 0.0, 0.0), (359.0, 359.0, -1.0)],
)  # fmt: skip
def test_the_ends_of_the_ranges(angle_deg: float, full: float, half: float) -> None:
    assert wrap_360(angle_deg) == full
    assert wrap_180(angle_deg) == half
