"""An ellipse on the sky as a frame sees it: its extents, and how much lies inside.

A target is an ellipse on the plane that touches the sky at its own centre, with the
tangents of its half diameters as semi-axes. Carried to another tangent plane it is an
ellipse again, exactly, since both planes are projections of one sphere from its centre:
no small angle, no sampling. Dimensionless tangents throughout, in camera axes.

Domain: every point of the ellipse less than 90 degrees from the frame's centre; else it
has no image there and `seen_from` gives None.

Sources: conics under projective maps, Hartley & Zisserman, Multiple View Geometry,
section 2.2.3 (dual conic D' = H D H^T; cited from memory). Area of circle and polygon by
its edges: Green's theorem, each edge cut where it crosses the circle.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.sky.footprint import CORNER_SIGNS, Footprint, camera_axes
from core.sky.tangent_plane import TangentPlane

__all__ = ["SeenEllipse", "SkyEllipse", "circle_and_polygon_area", "half_tangent"]

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class SeenEllipse:
    """An ellipse in camera axes.

    Parameters
    ----------
    x, y : float
        Its centre.
    xx, xy, yy : float
        The matrix S of ``(p - c)^T S^-1 (p - c) = 1``.
    """

    x: float
    y: float
    xx: float
    xy: float
    yy: float

    @property
    def half_extents(self) -> tuple[float, float]:
        """Half the width and half the height of the box around it."""
        return math.sqrt(self.xx), math.sqrt(self.yy)

    def fraction_inside(self, half_width: float, half_height: float) -> float:
        """Give the part of its area inside a box around the origin, 0 to 1.

        Parameters
        ----------
        half_width, half_height : float
            Of the box.
        """
        corners = CORNER_SIGNS[::-1] * (half_width, half_height) - (self.x, self.y)
        first = math.sqrt(self.xx)
        slope = self.xy / first
        second = math.sqrt(max(self.yy - slope * slope, 0.0))
        u = corners[:, 0] / first
        v = (corners[:, 1] - slope * u) / second
        area = float(circle_and_polygon_area(np.stack([u, v], axis=-1)))
        return min(max(abs(area) / math.pi, 0.0), 1.0)


@dataclass(frozen=True)
class SkyEllipse:
    """An ellipse on the sky.

    Parameters
    ----------
    ra_deg, dec_deg : float
        Centre, ICRS degrees.
    major_arcmin, minor_arcmin : float
        Diameters, above 0 and below a half turn.
    pa_deg : float
        Position angle of the major axis, degrees.
    """

    ra_deg: float
    dec_deg: float
    major_arcmin: float
    minor_arcmin: float
    pa_deg: float

    @property
    def semi_axes(self) -> tuple[float, float]:
        """Tangents of the half diameters."""
        return half_tangent(self.major_arcmin), half_tangent(self.minor_arcmin)

    def seen_from(self, footprint: Footprint) -> SeenEllipse | None:
        """Carry it to a frame's plane, in camera axes; None where it has no image."""
        own = TangentPlane(self.ra_deg, self.dec_deg)
        major, minor = self.semi_axes
        # Rows of the camera axes at the angle of the major axis: x across, y along it.
        axes = camera_axes(self.pa_deg).T * (minor, major)
        carried = own.homography_to(footprint.plane)
        columns = np.column_stack([carried[:, :2] @ axes, carried[:, 2]])
        columns[:2] = camera_axes(footprint.pa_deg) @ columns[:2]
        return _image_of_unit_circle(columns)


def half_tangent(diameter_arcmin: float) -> float:
    """Give the tangent of half an angle given in arcminutes."""
    return math.tan(math.radians(diameter_arcmin / 120.0))


def circle_and_polygon_area(vertices: Floats) -> Floats:
    """Measure what a polygon has in common with the unit circle.

    Parameters
    ----------
    vertices : (..., N, 2) float array
        Corners in order; any number of polygons at once.

    Returns
    -------
    (...) float array
        Area, positive when the corners run counter-clockwise (x to the right).

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> float(circle_and_polygon_area(square)) / math.pi
    0.25
    """
    start = np.asarray(vertices, dtype=np.float64)
    end = np.roll(start, -1, axis=-2)
    way = end - start
    length2 = np.maximum((way * way).sum(-1), 1e-300)
    middle = -(start * way).sum(-1) / length2
    nearest = start + way * middle[..., None]
    depth2 = 1.0 - (nearest * nearest).sum(-1)
    reach = np.sqrt(np.maximum(depth2, 0.0) / length2)
    enters = start + way * np.clip(middle - reach, 0.0, 1.0)[..., None]
    leaves = start + way * np.clip(middle + reach, 0.0, 1.0)[..., None]
    inside = _cross(enters, leaves)
    outside = _angle(start, enters) + _angle(leaves, end)
    return np.asarray((inside + outside).sum(-1) / 2.0)


def _cross(first: Floats, second: Floats) -> Floats:
    """Cross product in the plane."""
    return np.asarray(first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0])


def _angle(first: Floats, second: Floats) -> Floats:
    """Signed angle from one direction to another."""
    return np.asarray(np.arctan2(_cross(first, second), (first * second).sum(-1)))


def _image_of_unit_circle(matrix: Floats) -> SeenEllipse | None:
    """Map the unit circle by a 3x3 matrix; None when a point of it goes behind the limb."""
    depth = matrix[2]
    if depth[2] <= math.hypot(depth[0], depth[1]):
        return None
    middle = matrix[:2, 2] / depth[2]
    # About the image of the centre no digits are lost, however small the ellipse.
    around = matrix[:2, :2] - np.outer(middle, depth[:2])
    scale = depth[0] ** 2 + depth[1] ** 2 - depth[2] ** 2
    shift = around @ depth[:2] / scale
    spread = np.outer(shift, shift) - around @ around.T / scale
    x, y = middle + shift
    return SeenEllipse(float(x), float(y), spread[0, 0], spread[0, 1], spread[1, 1])
