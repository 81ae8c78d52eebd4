"""The same ellipse by another road: WCSLIB's planes and shapely's polygons."""

import numpy as np
import shapely
from astropy.wcs import WCS
from numpy.typing import NDArray

from core.framing.ellipse import SkyEllipse
from core.sky.footprint import Footprint
from tests.core.sky.wcslib import wcs_of

__all__ = ["covered_by_polygon", "outline_px"]

#: Corners of the polygon; it is smaller than its ellipse by (2 pi / N)^2 / 6 = 4e-7.
_CORNERS = 4000
#: Pixels along both axes of the frame's header; only a unit.
_PIXELS = 1000


def outline_px(ellipse: SkyEllipse, frame: Footprint) -> NDArray[np.float64]:
    """Sample the ellipse on its own plane and read it in the frame's pixels, (N, 2)."""
    turn = np.linspace(0.0, 2.0 * np.pi, _CORNERS, endpoint=False)
    half_major, half_minor = (
        np.degrees(np.tan(np.radians(diameter / 120.0)))
        for diameter in (ellipse.major_arcmin, ellipse.minor_arcmin)
    )
    along, across = half_major * np.cos(turn), half_minor * np.sin(turn)
    pa = np.radians(ellipse.pa_deg)
    xi = along * np.sin(pa) + across * np.cos(pa)
    eta = along * np.cos(pa) - across * np.sin(pa)
    own = _plane_at(ellipse.ra_deg, ellipse.dec_deg)
    sky = own.wcs_pix2world(np.stack([xi, eta], axis=-1), 0)
    seen: NDArray[np.float64] = wcs_of(frame.wcs_header(_PIXELS, _PIXELS)).wcs_world2pix(sky, 1)
    return seen


def covered_by_polygon(ellipse: SkyEllipse, frame: Footprint) -> float:
    """Measure the part of the sampled ellipse inside the frame."""
    polygon = shapely.Polygon(outline_px(ellipse, frame))
    box = shapely.box(0.5, 0.5, _PIXELS + 0.5, _PIXELS + 0.5)
    return float(polygon.intersection(box).area / polygon.area)


def _plane_at(ra_deg: float, dec_deg: float) -> WCS:
    """Give a plane whose 0-based pixels are degrees east and north of its centre."""
    return wcs_of(
        {
            "NAXIS": 2,
            "CTYPE1": "RA---TAN",
            "CTYPE2": "DEC--TAN",
            "CRVAL1": ra_deg,
            "CRVAL2": dec_deg,
            "CRPIX1": 1.0,
            "CRPIX2": 1.0,
            "CDELT1": 1.0,
            "CDELT2": 1.0,
            "LONPOLE": 180.0,
        }
    )
