"""The tangent plane and the footprint agree with WCSLIB over the whole sphere.

Distances are measured on the sky: near 80 degrees off the centre one unit of the plane
is 33 times shorter on the sky along the radius (sec^2) and 6 times across it (sec).
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.footprint import Footprint
from core.sky.tangent_plane import TangentPlane
from tests.core.skies import AWKWARD_SKIES, Sky
from tests.core.sky.strategies import centres, position_angles, spots
from tests.core.sky.wcslib import TOLERANCE_ARCSEC, apart_arcsec, wcs_of

ARCSEC = math.radians(1.0 / 3600.0)
RING = np.arange(0.0, 360.0, 30.0)


def plain_header(ra_deg: float, dec_deg: float) -> dict[str, float | int | str]:
    """Pixels that are degrees on the plane, x east and y north; written by hand."""
    return {
        "CTYPE1": "RA---TAN",
        "CTYPE2": "DEC--TAN",
        "CRVAL1": ra_deg,
        "CRVAL2": dec_deg,
        "CRPIX1": 0.0,
        "CRPIX2": 0.0,
        "CDELT1": 1.0,
        "CDELT2": 1.0,
        "LONPOLE": 180.0,
    }


@settings(max_examples=300)
@given(centres, st.lists(spots, min_size=1, max_size=8))
def test_inverse_lands_where_wcslib_lands(
    centre: tuple[float, float], offsets: list[tuple[float, float]]
) -> None:
    off, pa = np.radians(offsets).T
    xi, eta = np.tan(off) * np.sin(pa), np.tan(off) * np.cos(pa)
    theirs = wcs_of(plain_header(*centre)).wcs_pix2world(np.degrees([xi, eta]).T, 1)
    ours = np.degrees(np.stack(TangentPlane(*centre).inverse(xi, eta), axis=-1))
    assert apart_arcsec(ours, theirs).max() < TOLERANCE_ARCSEC


@settings(max_examples=300)
@given(centres, st.lists(spots, min_size=1, max_size=8))
def test_forward_lands_where_wcslib_lands(
    centre: tuple[float, float], offsets: list[tuple[float, float]]
) -> None:
    off, pa = np.radians(offsets).T
    wcs = wcs_of(plain_header(*centre))
    away = np.degrees(np.tan(off) * [np.sin(pa), np.cos(pa)]).T
    sky = wcs.wcs_pix2world(away, 1)
    theirs = np.radians(wcs.wcs_world2pix(sky, 1))
    ours = np.stack(TangentPlane(*centre).forward(*np.radians(sky).T), axis=-1)
    allowed = TOLERANCE_ARCSEC * ARCSEC / np.cos(off) ** 2
    assert (np.linalg.norm(ours - theirs, axis=1) < allowed).all()


@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_behind_the_limb_both_say_there_is_nothing(sky: Sky) -> None:
    """WCSLIB with its bounds checked (prj.h, the default) gives NaN there too."""
    wcs = wcs_of(plain_header(sky.ra_deg, sky.dec_deg))
    antipode = TangentPlane(sky.ra_deg + 180.0, -sky.dec_deg)
    ring = np.radians(RING)
    ra, dec = antipode.inverse(np.sin(ring), np.cos(ring))  # 135 degrees off
    theirs = wcs.wcs_world2pix(np.degrees([ra, dec]).T, 1)
    ours = TangentPlane(sky.ra_deg, sky.dec_deg).forward(ra, dec)
    assert np.isnan(theirs).all()
    assert np.isnan(ours).all()


@settings(max_examples=200)
@given(
    centres,
    position_angles,
    st.booleans(),
    st.sampled_from([(0.01, 0.007), (2.5, 1.7), (60.0, 40.0), (110.0, 100.0)]),
)
def test_corners_are_the_corners_of_wcslibs_picture(
    centre: tuple[float, float], pa_deg: float, mirrored: bool, size_deg: tuple[float, float]
) -> None:
    frame = Footprint(*centre, *size_deg, pa_deg)
    wcs = wcs_of(frame.wcs_header(6248, 4176, mirrored=mirrored))
    low, right, top = 0.5, 6248.5, 4176.5
    pixels = np.array([[low, top], [right, top], [right, low], [low, low]])
    if mirrored:
        pixels = pixels[[1, 0, 3, 2]]
    theirs = wcs.wcs_pix2world(pixels, 1)
    assert apart_arcsec(frame.corners_deg(), theirs).max() < TOLERANCE_ARCSEC


@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
@pytest.mark.parametrize("pa_deg", [0.0, 33.0, 90.0, 200.0, 359.9])
def test_outline_is_the_edge_of_wcslibs_picture(sky: Sky, pa_deg: float) -> None:
    frame = Footprint(sky.ra_deg, sky.dec_deg, 20.0, 12.0, pa_deg)
    wcs = wcs_of(frame.wcs_header(640, 480))
    edge = np.arange(8) / 8.0
    x = np.concatenate([edge, np.ones(8), 1.0 - edge, np.zeros(8), [0.0]])
    y = np.concatenate([np.ones(8), 1.0 - edge, np.zeros(8), edge, [1.0]])
    theirs = wcs.wcs_pix2world(np.stack([0.5 + 640 * x, 0.5 + 480 * y], axis=1), 1)
    assert apart_arcsec(frame.outline_deg(8), theirs).max() < TOLERANCE_ARCSEC


@settings(max_examples=200)
@given(
    centres,
    st.floats(-180.0, 180.0),
    st.sampled_from([(-1.0, 1.0), (1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)]),
    st.floats(0.5, 2.0),
    st.tuples(st.floats(-3000, 3000), st.floats(-3000, 3000)),
)
def test_headers_written_by_others_are_read_as_wcslib_reads_them(
    centre: tuple[float, float],
    crota_deg: float,
    parity: tuple[float, float],
    stretch: float,
    pixel: tuple[float, float],
) -> None:
    """CDELT and CROTA2, mirrored or not: CD by Paper II section 6.1, worked by hand."""
    cdelt = parity[0] * 0.01, parity[1] * 0.01 * stretch
    sin, cos = math.sin(math.radians(crota_deg)), math.cos(math.radians(crota_deg))
    header = plain_header(*centre) | {
        "CDELT1": cdelt[0],
        "CDELT2": cdelt[1],
        "CROTA2": crota_deg,
        "CRPIX1": 12.25,
        "CRPIX2": -7.5,
    }
    x, y = pixel[0] - 12.25, pixel[1] + 7.5
    xi = cdelt[0] * cos * x - cdelt[1] * sin * y
    eta = cdelt[0] * sin * x + cdelt[1] * cos * y
    ours = np.degrees(TangentPlane(*centre).inverse(math.radians(xi), math.radians(eta)))
    theirs = wcs_of(header).wcs_pix2world([pixel], 1)[0]
    assert apart_arcsec(ours, theirs) < TOLERANCE_ARCSEC


def test_header_at_the_pole_is_not_turned_by_the_default_of_lonpole() -> None:
    """Paper II section 2.4: at +90 the default LONPOLE is 0, at every other place 180.

    One degree up from (30, +90) at position angle 0 is RA 210; by the default it is 30.
    """
    header = Footprint(30.0, 90.0, 2.0, 2.0).wcs_header(200, 200)
    assert header["LONPOLE"] == 180.0
    half = math.degrees(math.tan(math.radians(1.0)))
    up = [[100.5, 100.5 + math.degrees(math.tan(math.radians(1.0))) / (2 * half / 200)]]
    assert wcs_of(header).wcs_pix2world(up, 1)[0] == pytest.approx([210.0, 89.0], abs=1e-9)
    del header["LONPOLE"], header["LATPOLE"]
    assert wcs_of(header).wcs_pix2world(up, 1)[0] == pytest.approx([30.0, 89.0], abs=1e-9)


def test_the_reference_itself_has_east_at_positive_x_and_north_at_positive_y() -> None:
    """The fixture first: a header that is mirrored unnoticed would pass everything."""
    wcs = wcs_of(plain_header(50.0, 0.0))
    ra, dec = wcs.wcs_pix2world([[1.0, 0.0], [0.0, 1.0]], 1).T
    assert ra[0] > 50.9
    assert dec[1] > 0.9
    mirrored = wcs_of(Footprint(50.0, 0.0, 2.0, 2.0).wcs_header(2, 2, mirrored=True))
    right = mirrored.wcs_pix2world([[2.0, 1.5]], 1)[0]
    assert right[0] > 50.4, "in a mirrored picture +x is east at position angle 0"
