"""The rectangle of a tangent plane that a view shows.

Conventions: plane coordinates xi east and eta north, radians; the rectangle is centred
on the tangent point and its up points to a position angle (north through east). Sides
are named as they are seen, mirrored or not.

Domain: any finite rectangle, hence less than 90 degrees from the tangent point.

Sources: plane geometry; the handedness of the sky as FITS Paper II writes it.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from core.errors import BadValueError

__all__ = ["Side", "ViewRectangle"]

Floats = NDArray[np.float64]


class Side(StrEnum):
    """A side of the view as it is seen."""

    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"


@dataclass(frozen=True)
class ViewRectangle:
    """The part of a tangent plane that is shown, centred on the tangent point.

    Parameters
    ----------
    half_width, half_height : float
        Radians on the plane (tangents of angles), above 0.
    up_pa_rad : float
        Position angle of the view's up, radians.
    mirrored : bool
        True where east is to the right when north is up.

    Raises
    ------
    BadValueError
        When an extent is not a finite number above 0.
    """

    half_width: float
    half_height: float
    up_pa_rad: float = 0.0
    mirrored: bool = False

    def __post_init__(self) -> None:
        for name in ("half_width", "half_height"):
            value = getattr(self, name)
            if not (math.isfinite(value) and value > 0.0):
                raise BadValueError(name.replace("_", " ") + " of the view", value, "must be > 0")

    @property
    def radius_rad(self) -> float:
        """Angle from the centre to a corner."""
        return math.atan(math.hypot(self.half_width, self.half_height))

    def corners(self) -> Floats:
        """Give (xi, eta) of top left, top right, bottom right, bottom left, (4, 2)."""
        sin, cos = math.sin(self.up_pa_rad), math.cos(self.up_pa_rad)
        right = np.array([-cos, sin]) * (-self.half_width if self.mirrored else self.half_width)
        up = np.array([sin, cos]) * self.half_height
        return np.array([up - right, up + right, right - up, -up - right])
