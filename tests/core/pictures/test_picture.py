"""Pixels and plane: the matrices, and the FITS header that must say the same."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.pictures.picture import Picture, PictureFrame
from core.sky.tangent_plane import TangentPlane

ARCSEC = math.radians(1 / 3600)

#: Right ascension and declination of the middle: the seam, both poles and close by.
AWKWARD_MIDDLES = [
    (0.0, 0.0),
    (359.999, 41.3),
    (0.001, -80.0),
    (83.8, 89.99),
    (30.0, 90.0),
    (123.0, -90.0),
    (266.4, -29.0),
]

frames = st.builds(
    PictureFrame,
    plane=st.builds(TangentPlane, st.floats(0, 359.99), st.floats(-90, 90)),
    width_px=st.integers(1, 3000),
    height_px=st.integers(1, 3000),
    scale_rad_px=st.floats(1e-7, 1e-3),
    up_pa_deg=st.floats(0, 359.9),
    mirrored=st.booleans(),
)


def test_north_up_picture_has_east_on_the_left_and_north_above():
    frame = PictureFrame(TangentPlane(10, 20), 101, 51, ARCSEC)
    assert np.allclose(frame.to_pixels(0, 0), (50, 25))
    assert np.allclose(frame.to_pixels(10 * ARCSEC, 0), (40, 25))
    assert np.allclose(frame.to_pixels(0, 10 * ARCSEC), (50, 15))


def test_mirrored_picture_has_east_on_the_right():
    frame = PictureFrame(TangentPlane(10, 20), 101, 51, ARCSEC, mirrored=True)
    assert np.allclose(frame.to_pixels(10 * ARCSEC, 0), (60, 25))
    assert np.allclose(frame.to_pixels(0, 10 * ARCSEC), (50, 15))


@pytest.mark.parametrize("mirrored", [False, True])
def test_up_pa_90_puts_east_above_whatever_the_mirror(mirrored):
    frame = PictureFrame(TangentPlane(10, 20), 101, 101, ARCSEC, 90.0, mirrored)
    assert np.allclose(frame.to_pixels(10 * ARCSEC, 0), (50, 40))
    north_column = 40 if mirrored else 60
    assert np.allclose(frame.to_pixels(0, 10 * ARCSEC), (north_column, 50))


@given(frames)
@settings(max_examples=60)
def test_pixel_to_plane_undoes_plane_to_pixel(frame):
    there_and_back = frame.plane_to_pixel @ frame.pixel_to_plane
    assert np.allclose(there_and_back, np.eye(3), atol=1e-9)


@pytest.mark.parametrize(("ra_deg", "dec_deg"), AWKWARD_MIDDLES)
@pytest.mark.parametrize("up_pa_deg", [0.0, 33.0, 180.0, 271.5])
@pytest.mark.parametrize("mirrored", [False, True])
def test_header_places_stars_where_the_matrix_does(ra_deg, dec_deg, up_pa_deg, mirrored):
    """Reference: WCSLIB through astropy.wcs, to a millionth of a pixel."""
    from astropy.wcs import WCS

    plane = TangentPlane(ra_deg, dec_deg)
    frame = PictureFrame.of_width(plane, 12.0, (640, 411), up_pa_deg=up_pa_deg, mirrored=mirrored)
    columns, rows = np.meshgrid(np.linspace(0, 639, 7), np.linspace(0, 410, 5))
    ra, dec = plane.inverse(*frame.to_plane(columns, rows))
    x, y = WCS(frame.wcs_header()).wcs_world2pix(np.degrees(ra), np.degrees(dec), 1)
    assert np.abs(x - (columns + 1)).max() < 1e-6
    assert np.abs(y - (frame.height_px - rows)).max() < 1e-6


@given(frames)
@settings(max_examples=40)
def test_header_parity_follows_the_mirror(frame):
    """Negative determinant = as seen on the sky (FITS Paper II, derived)."""
    header = frame.wcs_header()
    determinant = header["CD1_1"] * header["CD2_2"] - header["CD1_2"] * header["CD2_1"]
    assert (determinant > 0) == frame.mirrored


def test_frame_of_a_width_spans_it_from_edge_to_edge():
    frame = PictureFrame.of_width(TangentPlane(0, 0), 60.0, (1200, 800))
    xi, _ = frame.to_plane([-0.5, 1199.5], [399.5, 399.5])
    assert np.degrees(np.arctan(xi)) == pytest.approx([30.0, -30.0], abs=1e-12)
    assert frame.footprint.width_deg == pytest.approx(60.0, abs=1e-12)


def test_radius_reaches_the_outer_corner():
    frame = PictureFrame.of_width(TangentPlane(0, 0), 90.0, (1000, 1000))
    assert frame.radius_deg == pytest.approx(math.degrees(math.atan(math.sqrt(2))), abs=1e-12)


BAD_FIGURES = [
    ({"width_px": 0}, "picture width"),
    ({"height_px": 20000}, "picture height"),
    ({"scale_rad_px": 0.0}, "picture scale"),
    ({"scale_rad_px": math.nan}, "picture scale"),
    ({"up_pa_deg": math.inf}, "picture angle"),
]


@pytest.mark.parametrize(("figures", "words"), BAD_FIGURES)
def test_impossible_frame_names_the_figure(figures, words):
    good = {"width_px": 10, "height_px": 10, "scale_rad_px": 1e-5, "up_pa_deg": 0.0}
    with pytest.raises(BadValueError, match=words):
        PictureFrame(TangentPlane(0, 0), **(good | figures))


@pytest.mark.parametrize("width_deg", [0.0, 180.0, math.nan])
def test_field_of_180_degrees_has_no_plane(width_deg):
    with pytest.raises(BadValueError, match="field width"):
        PictureFrame.of_width(TangentPlane(0, 0), width_deg, (10, 10))


def test_picture_of_the_wrong_size_is_refused_and_a_good_one_is_read_only():
    frame = PictureFrame(TangentPlane(0, 0), 4, 3, ARCSEC)
    with pytest.raises(BadValueError, match="picture pixels"):
        Picture(np.zeros((4, 3, 3), np.uint8), frame, "", "chart")
    picture = Picture(np.zeros((3, 4, 3), np.uint8), frame, "", "chart")
    with pytest.raises(ValueError, match="read-only"):
        picture.pixels[0, 0, 0] = 1
