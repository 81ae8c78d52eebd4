"""Speed of the star catalogue, as ratios against the named library in the same run."""

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import SkyCoord
from astropy.wcs import WCS
from numpy.typing import NDArray

from core.catalogue.stars import StarCatalogue
from core.paths import ASSETS
from core.sky.sphere import directions
from core.sky.tangent_plane import TangentPlane
from tests.benchmarks.timing import ratio

CATALOGUE = StarCatalogue.open()
#: Towards the middle of the Galaxy: more than a million stars within 89 degrees.
CENTRE = (266.4, -29.0)
#: A poor field, a rich one in the Milky Way, a pole, and the seam of right ascension.
CENTRES = ((202.5, 47.2), (305.6, 40.3), (37.9, 89.3), (0.1, -30.0))


@pytest.mark.parametrize("centre", CENTRES)
def test_a_5_degree_query_is_50_times_faster_than_skycoord_separation(
    centre: tuple[float, float],
) -> None:
    stars = CATALOGUE.cone(0.0, 0.0, 180.0)
    whole = SkyCoord(stars.ra_deg * u.deg, stars.dec_deg * u.deg)
    place = SkyCoord(*centre, unit="deg")

    def named() -> NDArray[np.intp]:
        return np.flatnonzero(whole.separation(place) < 5.0 * u.deg)

    assert len(CATALOGUE.cone(*centre, 5.0)) == named().size > 1000
    found = ratio(
        named,
        lambda: CATALOGUE.cone(*centre, 5.0),
        label=f"5 deg query at {centre}, of {len(stars):,}",
    )
    assert found.times_faster >= 50.0


def test_projecting_a_million_stars_is_15_times_faster_than_wcslib() -> None:
    vectors = np.ascontiguousarray(CATALOGUE.cone(*CENTRE, 89.0).vectors[:, :1_000_000])
    assert vectors.shape == (3, 1_000_000)
    ra, dec = (np.degrees(angle) for angle in directions(vectors))
    sky = np.stack([ra, dec], axis=1)
    plane = TangentPlane(*CENTRE)
    wcs = WCS(naxis=2)
    wcs.wcs.ctype = ["RA---TAN", "DEC--TAN"]
    wcs.wcs.crval, wcs.wcs.crpix, wcs.wcs.cdelt = CENTRE, [0.0, 0.0], [1.0, 1.0]
    wcs.wcs.set()
    theirs = np.radians(wcs.wcs_world2pix(sky, 0) + 1.0)
    xi, eta = plane.forward_vectors(vectors)
    apart_arcsec = np.degrees(np.hypot(xi - theirs[:, 0], eta - theirs[:, 1])) * 3600.0
    on_sky = apart_arcsec / (1.0 + xi**2 + eta**2)
    print(f"\ngreatest difference on the sky {on_sky.max():.2e} arcsec")
    assert on_sky.max() <= 1e-6
    found = ratio(
        lambda: wcs.wcs_world2pix(sky, 0),
        lambda: plane.forward_vectors(vectors),
        label="project 1,000,000 stars",
    )
    assert found.times_faster >= 15.0


def test_opening_is_faster_than_reading_the_files() -> None:
    """The stars stay on disk until a query needs them."""
    names = [path.name for path in (ASSETS / "catalogues").glob("stars-*.npy")]
    assert len(names) == 5
    found = ratio(
        lambda: [np.load(ASSETS / "catalogues" / name) for name in names],
        StarCatalogue.open,
        label="open the catalogue, against np.load of its files",
    )
    assert found.times_faster > 1.2
