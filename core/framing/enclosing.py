"""How wide a view must be to hold some frames whole.

Conventions: a north-up view on the tangent plane of its centre; widths in degrees.

Domain: frames within 90 degrees of the centre; of a frame that reaches beyond, the
corners behind the limb are left out.

Sources: plane geometry on the gnomonic plane.
"""

import math
from collections.abc import Sequence

import numpy as np

from core.errors import BadValueError
from core.sky.footprint import Footprint
from core.sky.tangent_plane import TangentPlane

__all__ = ["enclosing_width_deg"]


def enclosing_width_deg(
    centre: TangentPlane, frames: Sequence[Footprint], *, aspect: float, margin: float = 0.15
) -> float:
    """Give the width of the view that holds every frame with a margin.

    Parameters
    ----------
    centre : TangentPlane
        Of the view.
    frames : sequence of Footprint
        At least one.
    aspect : float
        Width of the view over its height.
    margin : float
        Part of the half width that stays free on each side.

    Returns
    -------
    float
        Degrees, below 180.

    Raises
    ------
    BadValueError
        When there is no frame.

    Examples
    --------
    >>> frame = Footprint(10.0, 0.0, 3.0, 2.0)
    >>> round(enclosing_width_deg(frame.plane, [frame], aspect=1.5, margin=0.0), 6)
    3.0
    """
    if not frames:
        raise BadValueError("frames", "none", "at least one is needed")
    corners = np.concatenate([frame.corners_deg() for frame in frames])
    xi, eta = (np.nan_to_num(np.abs(axis)) for axis in centre.forward(*np.radians(corners).T))
    half = max(float(xi.max()), float(eta.max()) * aspect) * (1.0 + margin)
    return 2.0 * math.degrees(math.atan(half))
