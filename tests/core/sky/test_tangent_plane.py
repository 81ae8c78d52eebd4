"""The tangent plane against printed numbers, and at the edge of its domain."""

import math

import erfa
import numpy as np
import pytest
from hypothesis import given, settings

from core.errors import BadValueError
from core.sky.sphere import offset_by, unit_vectors
from core.sky.tangent_plane import TangentPlane
from tests.core.skies import AWKWARD_SKIES, Sky
from tests.core.sky.strategies import centres, spots

#: Degrees off the tangent point, one side of 90 and the other.
BEHIND = (90.001, 90.5, 100.0, 135.0, 179.0, 180.0)


def test_pixels_of_fits_paper_ii_example_1_fall_where_it_prints_them() -> None:
    """Calabretta & Greisen 2002, A&A 395, 1077, worked example 1: three corners."""
    plane = TangentPlane(45.83, 63.57)
    pixels = np.array([[1, 2], [1, 512], [511, 512]])
    printed = np.array([[47.503264, 62.795111], [47.595581, 64.324332], [44.064419, 64.324332]])
    xi, eta = np.radians((pixels - [256, 257]) * [-0.003, 0.003]).T
    found = np.degrees(np.stack(plane.inverse(xi, eta), axis=-1))
    np.testing.assert_allclose(found, printed, atol=0.6e-6, rtol=0)


def test_forward_gives_the_numbers_of_the_sofa_test_of_tpxes() -> None:
    """SOFA's own test program, t_sofa_c: tpxes(1.3, 1.55, 2.3, 1.5)."""
    plane = TangentPlane(math.degrees(2.3), math.degrees(1.5))
    xi, eta = plane.forward(1.3, 1.55)
    assert float(xi) == pytest.approx(-0.01753200983236980595, abs=1e-14)
    assert float(eta) == pytest.approx(0.05962940005778712891, abs=1e-14)
    assert erfa.tpxes(1.3, 1.55, 2.3, 1.5) == pytest.approx((float(xi), float(eta)), abs=1e-14)


def test_inverse_gives_the_numbers_of_the_sofa_test_of_tpsts() -> None:
    """SOFA's own test program, t_sofa_c: tpsts(-0.03, 0.07, 2.3, 1.5)."""
    plane = TangentPlane(math.degrees(2.3), math.degrees(1.5))
    ra, dec = plane.inverse(-0.03, 0.07)
    assert float(ra) == pytest.approx(0.7596127167359629775, abs=1e-14)
    assert float(dec) == pytest.approx(1.540864645109263028, abs=1e-14)
    assert erfa.tpsts(-0.03, 0.07, 2.3, 1.5) == pytest.approx((float(ra), float(dec)), abs=1e-14)


@pytest.mark.parametrize(("off_deg", "plane_deg"), [(30.0, 33.0797), (80.0, 324.94)])
def test_radial_scale_follows_the_tangent(off_deg: float, plane_deg: float) -> None:
    """R = (180/pi) cot(theta), Paper II equation 54; figures worked by hand."""
    xi, eta = TangentPlane(50.0, 0.0).forward(math.radians(50.0), math.radians(off_deg))
    assert math.degrees(float(eta)) == pytest.approx(plane_deg, rel=2e-5)
    assert math.degrees(float(eta)) == pytest.approx(
        math.degrees(math.tan(math.radians(off_deg))), rel=1e-13
    )
    assert float(xi) == pytest.approx(0.0, abs=1e-15)


def test_east_is_positive_xi_and_north_positive_eta() -> None:
    """Paper II's intermediate world coordinates: x to the east, y to the north."""
    plane = TangentPlane(359.9, 20.0)
    xi, eta = plane.forward(np.radians([0.1, 359.9, 359.7]), np.radians([20.0, 20.5, 20.0]))
    assert xi[0] > 0.001 > abs(xi[1])
    assert xi[2] < -0.001
    assert eta[1] == pytest.approx(math.tan(math.radians(0.5)), rel=1e-12)


@pytest.mark.parametrize("off_deg", BEHIND)
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_nothing_has_an_image_on_or_behind_the_limb(sky: Sky, off_deg: float) -> None:
    """A direction 100 degrees off must not come back as its antipode 80 degrees off."""
    plane = TangentPlane(sky.ra_deg, sky.dec_deg)
    around = np.radians(np.arange(0.0, 360.0, 22.5))
    centre = math.radians(sky.ra_deg), math.radians(sky.dec_deg)
    ra, dec = offset_by(*centre, around, math.radians(off_deg))
    assert np.isnan(plane.forward(ra, dec)).all()
    ra, dec = offset_by(*centre, around, math.radians(89.999))
    assert np.isfinite(plane.forward(ra, dec)).all(), "89.999 degrees off still has an image"


def test_a_direction_that_is_not_a_number_hides_no_other_behind_the_limb() -> None:
    """Found by reading: the least of a block was NaN, and its mirrored points passed."""
    plane = TangentPlane(0.0, 0.0)
    ra = np.radians([np.nan, 170.0, 1.0])
    xi, _ = plane.forward(ra, np.zeros(3))
    assert np.isnan(xi).tolist() == [True, True, False]


def test_shapes_are_kept_and_empty_is_no_trouble() -> None:
    plane = TangentPlane(10.0, 20.0)
    assert plane.forward(0.2, 0.3)[0].shape == ()
    assert plane.forward(np.full((2, 3), 0.2), 0.3)[1].shape == (2, 3)
    assert plane.inverse(np.full((2, 3), 0.2), 0.3)[1].shape == (2, 3)
    assert plane.forward([], [])[0].shape == (0,)


def test_more_directions_than_one_block_are_all_projected() -> None:
    plane = TangentPlane(10.0, 20.0)
    ra = np.linspace(0.0, 0.5, 40_000)
    xi, eta = plane.forward_vectors(unit_vectors(ra, np.full(ra.shape, 0.3)))
    for index in (0, 16_383, 16_384, 32_768, 39_999):
        one = plane.forward(ra[index], 0.3)
        assert (xi[index], eta[index]) == pytest.approx((float(one[0]), float(one[1])), abs=1e-15)


@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_basis_is_orthonormal_and_right_handed(sky: Sky) -> None:
    basis = TangentPlane(sky.ra_deg, sky.dec_deg).basis
    np.testing.assert_allclose(basis @ basis.T, np.eye(3), atol=3e-16)
    assert np.linalg.det(basis) == pytest.approx(1.0, abs=1e-15)


@pytest.mark.parametrize(
    ("ra_deg", "dec_deg", "words"),
    [
        (math.nan, 0.0, 'right ascension "nan": must be a number in degrees'),
        (math.inf, 0.0, 'right ascension "inf": must be a number in degrees'),
        (0.0, 90.1, 'declination "90.1": must lie between -90 and +90 degrees'),
        (0.0, math.nan, 'declination "nan": must lie between -90 and +90 degrees'),
    ],
)
def test_a_centre_that_cannot_be_is_refused(ra_deg: float, dec_deg: float, words: str) -> None:
    with pytest.raises(BadValueError) as caught:
        TangentPlane(ra_deg, dec_deg)
    assert str(caught.value) == words


def test_right_ascension_of_the_centre_is_wrapped() -> None:
    assert TangentPlane(-30.0, 0.0).ra_deg == 330.0
    assert TangentPlane(-1e-20, 0.0).ra_deg == 0.0


@settings(max_examples=150)
@given(centres, spots)
def test_there_and_back_is_the_same_place(
    centre: tuple[float, float], spot: tuple[float, float]
) -> None:
    plane = TangentPlane(*centre)
    off, pa = np.radians(spot)
    xi, eta = math.tan(off) * math.sin(pa), math.tan(off) * math.cos(pa)
    ra, dec = plane.inverse(xi, eta)
    assert 0.0 <= float(ra) < 2.0 * math.pi
    back = plane.forward(ra, dec)
    assert np.hypot(back[0] - xi, back[1] - eta) * math.cos(off) ** 2 < 5e-15


@settings(max_examples=150)
@given(centres, spots, spots)
def test_homography_is_back_to_the_sky_and_forward_again(
    centre: tuple[float, float], other: tuple[float, float], spot: tuple[float, float]
) -> None:
    """Two gnomonic planes of one sphere differ by a projective map, exactly."""
    first = TangentPlane(*centre)
    ra, dec = offset_by(*np.radians(centre), math.radians(other[1]), math.radians(other[0]))
    second = TangentPlane(math.degrees(float(ra)), math.degrees(float(dec)))
    off, pa = np.radians(spot)
    xi, eta = math.tan(off) * math.sin(pa), math.tan(off) * math.cos(pa)
    u, v, w = first.homography_to(second) @ [xi, eta, 1.0]
    expected = second.forward(*first.inverse(xi, eta))
    if w <= 0.0:
        assert np.isnan(expected).all()
    elif np.isfinite(expected).all():
        scale = 1.0 + expected[0] ** 2 + expected[1] ** 2
        assert np.hypot(u / w - expected[0], v / w - expected[1]) / scale < 1e-14
