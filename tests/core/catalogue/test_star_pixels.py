"""Catalogue stars fall on the stars of real images, taken from astropy's own test data."""

import warnings
from pathlib import Path
from typing import Any

import astropy
import numpy as np
import pytest
import sep
from astropy import units as u
from astropy.coordinates import SkyCoord
from astropy.io import fits
from astropy.wcs import WCS
from astropy.wcs.utils import skycoord_to_pixel
from numpy.typing import NDArray

from core.catalogue.stars import StarCatalogue

DATA = Path(astropy.__file__).parent
CATALOGUE = StarCatalogue.open()
#: Proxima in the Hipparcos main catalogue (ESA 1997), J1991.25.
PROXIMA = (217.44894751, -62.68135207)


def _image(name: str, extension: int) -> tuple[NDArray[np.float64], WCS]:
    """Read an image; its old header makes astropy grumble, which is not our matter."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with fits.open(DATA / name) as hdus:
            pixels = np.ascontiguousarray(hdus[extension].data, dtype=np.float64)
            return pixels, WCS(hdus[extension].header)


def _detections(pixels: NDArray[np.float64], brightest: int) -> NDArray[Any]:
    """Find the stars of an image, brightest first, by sep (Barbary 2016, JOSS 1, 58)."""
    background = sep.Background(pixels)
    found = sep.extract(pixels - background, 3.0, err=background.globalrms)
    return found[np.argsort(-found["flux"])][:brightest]


def _misses_px(
    places: tuple[NDArray[np.float64], NDArray[np.float64]], pixels: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.bool_]]:
    """Distance from each place inside the image to the nearest detection, and its flux."""
    x, y = places
    rows, columns = pixels.shape
    inside = (x > 3) & (x < columns - 4) & (y > 3) & (y < rows - 4)
    stars = _detections(pixels, 54)
    apart = np.hypot(stars["x"][:, None] - x[inside], stars["y"][:, None] - y[inside])
    return apart.min(axis=0), stars["flux"][apart.argmin(axis=0)], inside


@pytest.fixture(scope="module")
def fornax() -> tuple[NDArray[np.float64], WCS]:
    """Read the field of NGC 1316, 51 by 35 arcmin at 7 arcsec a pixel, in FK4 of B1950."""
    return _image("io/fits/tests/data/comp.fits", 1)


def test_stars_fall_on_the_detections_of_a_real_image(
    fornax: tuple[NDArray[np.float64], WCS],
) -> None:
    pixels, wcs = fornax
    stars = CATALOGUE.cone(50.686, -37.2005, 0.7)
    places = skycoord_to_pixel(SkyCoord(stars.ra_deg * u.deg, stars.dec_deg * u.deg), wcs)
    misses, flux, inside = _misses_px(places, pixels)
    assert misses.size >= 16
    assert misses.max() < 2.5
    assert np.median(misses) < 1.3
    brightness = np.corrcoef(stars.v_mag[inside], -2.5 * np.log10(flux))[0, 1]
    assert brightness > 0.95


def test_forgetting_that_the_image_is_in_fk4_misses_every_star(
    fornax: tuple[NDArray[np.float64], WCS],
) -> None:
    """Control: chance does not put stars on detections."""
    pixels, wcs = fornax
    stars = CATALOGUE.cone(50.686, -37.2005, 0.7)
    misses, _, _ = _misses_px(tuple(wcs.all_world2pix(stars.ra_deg, stars.dec_deg, 0)), pixels)
    assert misses.size >= 3
    assert misses.min() > 5.0


def _proxima_miss_arcsec(year: float | None) -> float:
    """Distance of Proxima from the brightest detection of its survey plate of 1976."""
    pixels, wcs = _image("wcs/tests/data/dss.14.29.56-62.41.05.fits.gz", 0)
    stars = CATALOGUE.cone(*PROXIMA, 0.06, year=year)
    red = np.flatnonzero((np.abs(stars.v_mag - 11.01) < 0.1) & (stars.b_v > 1.5))
    assert red.size == 1
    x, y = wcs.all_world2pix(stars.ra_deg[red], stars.dec_deg[red], 0)
    brightest = _detections(pixels, 1)[0]
    scale = np.sqrt(np.abs(np.linalg.det(wcs.pixel_scale_matrix))) * 3600.0
    return float(np.hypot(x[0] - brightest["x"], y[0] - brightest["y"]) * scale)


def test_proxima_moved_to_1976_lies_on_its_image() -> None:
    assert _proxima_miss_arcsec(1976.19) < 2.0


def test_proxima_left_at_2026_misses_its_image_by_minutes() -> None:
    """Control: 50 years at 3.85 arcsec a year."""
    assert _proxima_miss_arcsec(None) == pytest.approx(192.0, abs=5.0)
