"""From the sky to the screen and back, for one view of the sheet.

The only place where the sky's handedness meets the screen's: on the tangent plane
east and north grow, on the screen x grows to the right and y down. The turn comes
from `PictureFrame.plane_to_pixel`, shifted by half a pixel since Qt counts from a
pixel's corner and a picture from its centre.
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from core.pictures.picture import PictureFrame
from core.plan.document import SheetView
from core.sky.tangent_plane import TangentPlane

__all__ = ["MAX_WIDTH_DEG", "MIN_WIDTH_DEG", "SheetTransform"]

Floats = NDArray[np.float64]

MIN_WIDTH_DEG = 0.02
MAX_WIDTH_DEG = 130.0


@dataclass(frozen=True)
class SheetTransform:
    """One view: which plane, at what scale, how turned, on which part of the widget.

    Parameters
    ----------
    view : SheetView
        Centre, width across the sheet, mirrored or not.
    rect : QRectF
        The sheet inside the widget, logical pixels.
    up_pa_deg : float
        Position angle that points up on the screen.
    """

    view: SheetView
    rect: QRectF
    up_pa_deg: float

    @cached_property
    def frame(self) -> PictureFrame:
        """The geometry of a picture that would fill the sheet exactly."""
        width = max(2, round(self.rect.width()))
        height = max(2, round(self.rect.height()))
        scale = 2.0 * self._half_width / width
        plane = TangentPlane(self.view.ra_deg, self.view.dec_deg)
        return PictureFrame(plane, width, height, scale, self.up_pa_deg, self.view.mirrored)

    @property
    def _half_width(self) -> float:
        """Half the sheet on the plane; a plan may ask for more than can be shown."""
        width_deg = min(MAX_WIDTH_DEG, max(MIN_WIDTH_DEG, self.view.width_deg))
        return math.tan(math.radians(width_deg) / 2.0)

    @cached_property
    def plane_to_screen(self) -> Floats:
        """Matrix (3, 3) from (xi, eta, 1) to the widget's (x, y, 1)."""
        shift = np.eye(3)
        shift[:2, 2] = self.rect.left() + 0.5, self.rect.top() + 0.5
        turned: Floats = shift @ self.frame.plane_to_pixel
        return turned

    @cached_property
    def _back(self) -> list[list[float]]:
        """Rows of the matrix from the screen to the plane."""
        rows: list[list[float]] = np.linalg.inv(self.plane_to_screen).tolist()
        return rows

    @cached_property
    def _axes(self) -> list[list[float]]:
        """East, north and centre of the plane as plain floats."""
        rows: list[list[float]] = self.frame.plane.basis.tolist()
        return rows

    @cached_property
    def sky_rows(self) -> list[list[float]]:
        """Rows of the matrix from directions in space to homogeneous screen points."""
        rows: list[list[float]] = (self.plane_to_screen @ self.frame.plane.basis).tolist()
        return rows

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of the sheet as plain floats."""
        rect = self.rect
        return rect.left(), rect.top(), rect.right(), rect.bottom()

    @property
    def px_per_rad(self) -> float:
        """Logical pixels in a radian at the centre."""
        return 1.0 / self.frame.scale_rad_px

    def sky_to_screen(self, ra_deg: ArrayLike, dec_deg: ArrayLike) -> Floats:
        """Give screen points (N, 2); NaN at 90 degrees or more from the centre."""
        xi, eta = self.frame.plane.forward(
            np.radians(np.atleast_1d(ra_deg)), np.radians(np.atleast_1d(dec_deg))
        )
        return self.plane_points(xi, eta)

    def plane_points(self, xi: Floats, eta: Floats) -> Floats:
        """Give screen points (N, 2) of points on the view's plane."""
        m = self.plane_to_screen
        return np.stack(
            [m[0, 0] * xi + m[0, 1] * eta + m[0, 2], m[1, 0] * xi + m[1, 1] * eta + m[1, 2]], -1
        )

    def to_plane(self, point: QPointF) -> tuple[float, float]:
        """Give (xi, eta) under a screen point."""
        (a, b, c), (d, e, f), _ = self._back
        x, y = point.x(), point.y()
        return a * x + b * y + c, d * x + e * y + f

    def to_sky(self, point: QPointF) -> tuple[float, float]:
        """Give RA and Dec in degrees under a screen point."""
        x, y, z = self.direction(point)
        ra_deg = math.degrees(math.atan2(y, x)) % 360.0 % 360.0
        return ra_deg, math.degrees(math.atan2(z, math.hypot(x, y)))

    def direction(self, point: QPointF) -> tuple[float, float, float]:
        """Give the direction in space, of any length, under a screen point."""
        xi, eta = self.to_plane(point)
        east, north, centre = self._axes
        x, y, z = (c + xi * e + eta * n for e, n, c in zip(east, north, centre, strict=True))
        return x, y, z

    def homography_from(self, plane: TangentPlane) -> Floats:
        """Matrix (3, 3) from another plane's (xi, eta, 1) to homogeneous screen points."""
        carried: Floats = self.plane_to_screen @ plane.homography_to(self.frame.plane)
        return carried

    def picture_transform(self, frame: PictureFrame) -> QTransform:
        """Give Qt's transform that lays a picture of that geometry on the screen."""
        shift = np.eye(3)
        shift[:2, 2] = -0.5
        matrix = self.homography_from(frame.plane) @ frame.pixel_to_plane @ shift
        m = (matrix / matrix[2, 2]).T.ravel().tolist()
        return QTransform(*m)

    # Moving the view -----------------------------------------------------------

    def placing(self, ra_deg: float, dec_deg: float, point: QPointF) -> SheetView:
        """Give the view in which a sky position lies under a screen point."""
        xi, eta = self.to_plane(point)
        near = self.frame.plane
        ra_rad, dec_rad = math.radians(ra_deg), math.radians(dec_deg)
        plane = TangentPlane.placing(ra_rad, dec_rad, xi, eta, near=near)
        return self.view.model_copy(update={"ra_deg": plane.ra_deg, "dec_deg": plane.dec_deg})

    def panned(self, start: QPointF, now: QPointF) -> SheetView:
        """Give the view in which what lay under one point lies under another."""
        return self.placing(*self.to_sky(start), now)

    def zoomed(self, factor: float, at: QPointF) -> SheetView:
        """Give the view that many times as wide, the sky under a point staying there."""
        ra_deg, dec_deg = self.to_sky(at)
        half = self._half_width * factor
        width = min(MAX_WIDTH_DEG, max(MIN_WIDTH_DEG, math.degrees(2.0 * math.atan(half))))
        wider = self.view.model_copy(update={"width_deg": width})
        return SheetTransform(wider, self.rect, self.up_pa_deg).placing(ra_deg, dec_deg, at)
