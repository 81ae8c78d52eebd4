"""A picture of the sky: its pixels and the tangent plane they lie on.

Conventions: pixels are (column, row), counted from 0 at the centre of the top left one;
rows run downwards. The middle of the picture is the tangent point. The picture's up
points to the position angle ``up_pa_deg`` (north through east); unmirrored, its right
points to that angle minus 90 degrees: east is on the left when north is up. Mirrored,
right and left change places. FITS counts rows upwards from 1: y = height - row.

Domain: 1 x 1 to 16384 x 16384 pixels, each side narrower than 180 degrees.

Sources: FITS Papers I and II (Greisen & Calabretta 2002; Calabretta & Greisen 2002).
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.errors import BadValueError
from core.sky.angles import wrap_360
from core.sky.footprint import Footprint, camera_axes
from core.sky.tangent_plane import TangentPlane

__all__ = ["MAX_SIDE_PX", "Picture", "PictureFrame"]

Floats = NDArray[np.float64]

#: The longest side a picture may have.
MAX_SIDE_PX = 16384


@dataclass(frozen=True)
class PictureFrame:
    """Where the pixels of a picture lie on the sky.

    Parameters
    ----------
    plane : TangentPlane
        Touches the sky at the middle of the picture.
    width_px, height_px : int
        Columns and rows.
    scale_rad_px : float
        Length of a pixel's side on the plane: its angle at the middle, radians.
    up_pa_deg : float
        Position angle of the picture's up, degrees; wrapped to 0..360.
    mirrored : bool
        True for a picture that shows the sky as a mirror does.

    Raises
    ------
    BadValueError
        When a figure is outside its range.

    Examples
    --------
    >>> frame = PictureFrame.of_width(TangentPlane(10.0, 40.0), 3.0, (300, 200))
    >>> east = frame.to_pixels(0.01, 0.0)
    >>> [round(float(part), 1) for part in east]
    [92.2, 99.5]
    """

    plane: TangentPlane
    width_px: int
    height_px: int
    scale_rad_px: float
    up_pa_deg: float = 0.0
    mirrored: bool = False

    def __post_init__(self) -> None:
        for name, side in (("picture width", self.width_px), ("picture height", self.height_px)):
            if not 1 <= side <= MAX_SIDE_PX:
                raise BadValueError(name, side, f"must lie between 1 and {MAX_SIDE_PX} pixels")
        if not (math.isfinite(self.scale_rad_px) and self.scale_rad_px > 0.0):
            raise BadValueError("picture scale", self.scale_rad_px, "must be more than 0")
        if not math.isfinite(self.up_pa_deg):
            raise BadValueError("picture angle", self.up_pa_deg, "must be a number in degrees")
        object.__setattr__(self, "up_pa_deg", wrap_360(self.up_pa_deg))

    @classmethod
    def of_width(
        cls,
        plane: TangentPlane,
        width_deg: float,
        size_px: tuple[int, int],
        *,
        up_pa_deg: float = 0.0,
        mirrored: bool = False,
    ) -> "PictureFrame":
        """Frame a field whose columns span exactly `width_deg` degrees, under 180."""
        if not 0.0 < width_deg < 180.0:
            raise BadValueError("field width", width_deg, "must lie between 0 and 180 degrees")
        if size_px[0] < 1:
            raise BadValueError("picture width", size_px[0], "must be 1 pixel or more")
        scale = 2.0 * math.tan(math.radians(width_deg) / 2.0) / size_px[0]
        return cls(plane, size_px[0], size_px[1], scale, up_pa_deg, mirrored)

    @cached_property
    def plane_to_pixel(self) -> Floats:
        """Affine map, (3, 3), from (xi, eta, 1) to (column, row, 1)."""
        right, up = camera_axes(self.up_pa_deg) / self.scale_rad_px
        if self.mirrored:
            right = -right
        return np.array(
            [
                [right[0], right[1], (self.width_px - 1) / 2.0],
                [-up[0], -up[1], (self.height_px - 1) / 2.0],
                [0.0, 0.0, 1.0],
            ]
        )

    @cached_property
    def pixel_to_plane(self) -> Floats:
        """Affine map, (3, 3), from (column, row, 1) to (xi, eta, 1)."""
        right, up = camera_axes(self.up_pa_deg) * self.scale_rad_px
        if self.mirrored:
            right = -right
        turn = np.array([right, -up]).T
        middle = np.array([(self.width_px - 1) / 2.0, (self.height_px - 1) / 2.0])
        out = np.eye(3)
        out[:2, :2] = turn
        out[:2, 2] = -turn @ middle
        return out

    def to_pixels(self, xi: ArrayLike, eta: ArrayLike) -> tuple[Floats, Floats]:
        """Give column and row of points on the plane; NaN stays NaN."""
        return _apply(self.plane_to_pixel, xi, eta)

    def to_plane(self, column: ArrayLike, row: ArrayLike) -> tuple[Floats, Floats]:
        """Give xi and eta, radians, of pixel positions."""
        return _apply(self.pixel_to_plane, column, row)

    @cached_property
    def footprint(self) -> Footprint:
        """The patch of sky from outer pixel edge to outer pixel edge."""
        half = self.scale_rad_px / 2.0
        width_rad = 2.0 * math.atan(self.width_px * half)
        height_rad = 2.0 * math.atan(self.height_px * half)
        return Footprint(
            self.plane.ra_deg,
            self.plane.dec_deg,
            math.degrees(width_rad),
            math.degrees(height_rad),
            self.up_pa_deg,
        )

    @property
    def radius_deg(self) -> float:
        """Angle from the middle to a corner, degrees: what a cone query needs."""
        half_diagonal = math.hypot(self.width_px, self.height_px) / 2.0
        return math.degrees(math.atan(half_diagonal * self.scale_rad_px))

    def wcs_header(self) -> dict[str, float | int | str]:
        """Describe the same geometry as FITS keywords (y = height - row)."""
        return self.footprint.wcs_header(self.width_px, self.height_px, mirrored=self.mirrored)


@dataclass(frozen=True, eq=False)
class Picture:
    """Pixels, where they lie, and whom to thank for them.

    Parameters
    ----------
    pixels : (height, width, 3) uint8 array, C-contiguous
        Red, green, blue; made read-only.
    frame : PictureFrame
    credit : str
        The line that must stand beside the picture.
    source : str
        "chart" or the identifier of a survey.
    note : str
        One sentence about what the picture lacks; empty when there is nothing to say.
    """

    pixels: NDArray[np.uint8]
    frame: PictureFrame
    credit: str
    source: str
    note: str = ""

    def __post_init__(self) -> None:
        wanted = (self.frame.height_px, self.frame.width_px, 3)
        if self.pixels.shape != wanted or self.pixels.dtype != np.uint8:
            shown = f"{self.pixels.shape} {self.pixels.dtype}"
            raise BadValueError("picture pixels", shown, f"must be {wanted} uint8")
        pixels = np.ascontiguousarray(self.pixels)
        pixels.flags.writeable = False
        object.__setattr__(self, "pixels", pixels)


def _apply(matrix: Floats, x: ArrayLike, y: ArrayLike) -> tuple[Floats, Floats]:
    """Carry points through an affine map."""
    first, second = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    (a, b, c), (d, e, f) = matrix[0], matrix[1]
    return a * first + b * second + c, d * first + e * second + f
