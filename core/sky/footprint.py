"""The patch of sky that a rectangular sensor sees.

Conventions: the camera's +y axis points to the position angle (north through east),
its +x axis to position angle minus 90 degrees, which is the right-hand side of a
picture with north up and east left. Corners run (-x, +y), (+x, +y), (+x, -y),
(-x, -y): north-east, north-west, south-west, south-east at position angle 0.

Domain: each side wider than 0 and narrower than 180 degrees. The edges of the frame
are straight on its own tangent plane, so they are great circles on the sky.

Sources: field 2 atan(d / 2f), textbook geometry; solid angle of a rectangular field
4 asin(sin(w/2) sin(h/2)), the spherical excess of its four corners; header keywords
by FITS Papers I and II (Greisen & Calabretta 2002; Calabretta & Greisen 2002).
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.errors import BadValueError
from core.sky.angles import wrap_360
from core.sky.tangent_plane import TangentPlane

__all__ = ["CORNER_SIGNS", "Footprint", "camera_axes"]

Floats = NDArray[np.float64]

#: Signs of (x, y) at the corners, in the order every room uses.
CORNER_SIGNS: Floats = np.array([[-1.0, 1.0], [1.0, 1.0], [1.0, -1.0], [-1.0, -1.0]])
#: Half a millionth of an arcsecond: what "on the edge" allows for rounding.
_EDGE = 2.5e-12


def camera_axes(pa_deg: float) -> Floats:
    """Give the camera's +x and +y axes on the plane, as rows of (xi, eta).

    Examples
    --------
    >>> camera_axes(0.0).tolist()
    [[-1.0, 0.0], [0.0, 1.0]]
    """
    sin, cos = math.sin(math.radians(pa_deg)), math.cos(math.radians(pa_deg))
    return np.array([[-cos, sin], [sin, cos]])


@dataclass(frozen=True)
class Footprint:
    """A rectangle on the sky.

    Parameters
    ----------
    ra_deg, dec_deg : float
        Its centre, ICRS degrees.
    width_deg, height_deg : float
        The angles its two axes span, each between 0 and 180 degrees.
    pa_deg : float
        Position angle of the camera's up, degrees; wrapped to 0..360.

    Raises
    ------
    BadValueError
        When a figure is outside its range.
    """

    ra_deg: float
    dec_deg: float
    width_deg: float
    height_deg: float
    pa_deg: float = 0.0

    def __post_init__(self) -> None:
        for name, value in (("field width", self.width_deg), ("field height", self.height_deg)):
            if not 0.0 < value < 180.0:
                raise BadValueError(name, value, "must lie between 0 and 180 degrees")
        if not math.isfinite(self.pa_deg):
            raise BadValueError("camera angle", self.pa_deg, "must be a number in degrees")
        object.__setattr__(self, "ra_deg", self.plane.ra_deg)
        object.__setattr__(self, "pa_deg", wrap_360(self.pa_deg))

    @cached_property
    def plane(self) -> TangentPlane:
        """The plane that touches the sky at the centre."""
        return TangentPlane(self.ra_deg, self.dec_deg)

    @property
    def half_extents(self) -> tuple[float, float]:
        """Half width and half height on the plane: tangents of the half angles."""
        return (
            math.tan(math.radians(self.width_deg) / 2.0),
            math.tan(math.radians(self.height_deg) / 2.0),
        )

    @property
    def solid_angle_deg2(self) -> float:
        """Area on the sphere in square degrees."""
        half_w, half_h = math.radians(self.width_deg) / 2.0, math.radians(self.height_deg) / 2.0
        steradian = 4.0 * math.asin(math.sin(half_w) * math.sin(half_h))
        return steradian * math.degrees(1.0) ** 2

    def corners_deg(self) -> Floats:
        """Give the corners as (4, 2) degrees of RA and Dec, in the order of the module."""
        return self.sky_deg(CORNER_SIGNS * self.half_extents)

    def outline_deg(self, points_per_edge: int = 16) -> Floats:
        """Sample the edges.

        Parameters
        ----------
        points_per_edge : int
            Steps along each of the four edges, 1 or more.

        Returns
        -------
        (4 * points_per_edge + 1, 2) float array
            RA and Dec in degrees; begins and ends at the first corner.
        """
        return self.sky_deg(self.outline_xy(points_per_edge))

    def outline_xy(self, points_per_edge: int = 16) -> Floats:
        """Sample the edges in camera axes, (4 * points_per_edge + 1, 2) tangents."""
        if points_per_edge < 1:
            raise BadValueError("points per edge", points_per_edge, "must be 1 or more")
        corners = CORNER_SIGNS * self.half_extents
        steps = np.arange(points_per_edge)[:, None] / points_per_edge
        edges = [a + (b - a) * steps for a, b in zip(corners, np.roll(corners, -1, 0), strict=True)]
        return np.concatenate([*edges, corners[:1]])

    def sky_deg(self, xy: Floats) -> Floats:
        """Bring points in camera axes, (N, 2) tangents, to RA and Dec in degrees."""
        xi, eta = (xy @ camera_axes(self.pa_deg)).T
        return np.degrees(np.stack(self.plane.inverse(xi, eta), axis=-1))

    def camera_xy(self, ra_deg: ArrayLike, dec_deg: ArrayLike) -> tuple[Floats, Floats]:
        """Bring sky positions to camera axes; NaN at 90 degrees or more."""
        xi, eta = self.plane.forward(np.radians(ra_deg), np.radians(dec_deg))
        (xx, xy), (yx, yy) = camera_axes(self.pa_deg)
        return xi * xx + eta * xy, xi * yx + eta * yy

    def contains(self, ra_deg: ArrayLike, dec_deg: ArrayLike) -> NDArray[np.bool_]:
        """Tell which positions lie strictly inside; the edge is out."""
        return self._within(ra_deg, dec_deg, -_EDGE)

    def covers(self, ra_deg: ArrayLike, dec_deg: ArrayLike) -> NDArray[np.bool_]:
        """Tell which positions lie inside or on the edge."""
        return self._within(ra_deg, dec_deg, _EDGE)

    def wcs_header(
        self, columns: int, rows: int, *, mirrored: bool = False
    ) -> dict[str, float | int | str]:
        """Describe the frame as a FITS celestial header.

        Parameters
        ----------
        columns, rows : int
            Pixels along x and y; rows counted upwards, as FITS does.
        mirrored : bool
            True for a picture that shows the sky as a mirror does (+x to PA + 90).

        Returns
        -------
        dict
            FITS keywords; LONPOLE is always written, since its default jumps at the pole.
        """
        if columns < 1 or rows < 1:
            raise BadValueError("pixels", f"{columns} x {rows}", "must be 1 x 1 or more")
        half_w, half_h = self.half_extents
        axes = np.degrees(camera_axes(self.pa_deg) * [[2 * half_w / columns], [2 * half_h / rows]])
        if mirrored:
            axes[0] = -axes[0]
        return {
            "WCSAXES": 2,
            "NAXIS": 2,
            "NAXIS1": columns,
            "NAXIS2": rows,
            "CTYPE1": "RA---TAN",
            "CTYPE2": "DEC--TAN",
            "CUNIT1": "deg",
            "CUNIT2": "deg",
            "RADESYS": "ICRS",
            "CRVAL1": self.ra_deg,
            "CRVAL2": self.dec_deg,
            "CRPIX1": (columns + 1) / 2,
            "CRPIX2": (rows + 1) / 2,
            "CD1_1": float(axes[0, 0]),
            "CD1_2": float(axes[1, 0]),
            "CD2_1": float(axes[0, 1]),
            "CD2_2": float(axes[1, 1]),
            "LONPOLE": 180.0,
            "LATPOLE": self.dec_deg,
        }

    def _within(self, ra_deg: ArrayLike, dec_deg: ArrayLike, slack: float) -> NDArray[np.bool_]:
        """Compare with the half extents, widened by a slack."""
        x, y = self.camera_xy(ra_deg, dec_deg)
        half_w, half_h = self.half_extents
        slack *= 1.0 + half_w * half_w + half_h * half_h  # the plane's scale at a corner
        return np.asarray((np.abs(x) <= half_w + slack) & (np.abs(y) <= half_h + slack))
