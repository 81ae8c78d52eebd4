"""The turn of the camera that suits a target.

Position angles in degrees, north through east; a camera's of its up, a target's of its
major axis. Sides and axes are compared as tangents on the frame's plane.

Sources: the best turn of a rectangle about an ellipse is derived in the notes of
`best_turn_rad`. That a camera is first turned with its long side along the target is
common practice.
"""

import math

from core.framing.ellipse import half_tangent
from core.framing.outlined import Outlined, outline_of

__all__ = ["best_turn_rad", "suggested_pa"]


def best_turn_rad(major: float, minor: float, long: float, short: float) -> float:
    """Turn a rectangle about an ellipse so that it could be smallest and still hold it.

    Parameters
    ----------
    major, minor : float
        Semi-axes of the ellipse, ``major >= minor > 0``, of any unit.
    long, short : float
        Sides of the rectangle, ``long >= short > 0``, of any unit; both centred.

    Returns
    -------
    float
        Angle between the long side and the major axis, 0 to pi/4, radians; its mirror
        image is as good.

    Notes
    -----
    At angle t the half extents along the sides are ``hx^2 = a^2 cos^2 t + b^2 sin^2 t``
    and ``hy^2 = a^2 sin^2 t + b^2 cos^2 t``, whose sum is always ``a^2 + b^2``. The
    short side can never be below b, so t = 0 is best where it is the one that binds,
    ``long / short >= a / b``. Else the best turn lets both bind,
    ``hx / hy = long / short``, which gives ``hx^2 = (a^2 + b^2) L^2 / (L^2 + S^2)``.

    Examples
    --------
    >>> round(math.degrees(best_turn_rad(178.0, 70.0, 3.0, 2.0)), 2)
    29.15
    """
    if major <= minor:
        return 0.0
    reach2 = (major**2 + minor**2) * long**2 / (long**2 + short**2)
    cos2 = (reach2 - minor**2) / (major**2 - minor**2)
    return math.acos(math.sqrt(min(cos2, 1.0)))  # above 1 where the short side binds


def suggested_pa(target: Outlined, width_deg: float, height_deg: float) -> float:
    """Suggest how to turn a camera that looks at the middle of a target.

    Parameters
    ----------
    target : Outlined
    width_deg, height_deg : float
        The field, each below 180 degrees; either may be the longer.

    Returns
    -------
    float
        Position angle of the camera's up, 0 <= PA < 180 degrees (a half turn frames the
        same sky). 0 for a target that is round, or whose size or angle is not known or
        not sure.

    Notes
    -----
    The long side lies along the major axis. Only where that would cut the ends and a turn
    towards the diagonal holds them is the camera turned as `best_turn_rad` says; of the
    two mirrored answers the one nearer to a camera square to north is given. A target too
    large at every angle shows most of itself along the long side, or close to it.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from core.catalogue.target import Target, TargetKind
    >>> m31 = Target("M 31", "", TargetKind.GALAXY, 10.68, 41.27, 178.0, 70.0, 35.0)
    >>> sure = replace(m31, angle_status="catalogue")
    >>> suggested_pa(m31, 4.0, 3.0), suggested_pa(sure, 4.0, 3.0), suggested_pa(sure, 3.0, 4.0)
    (0.0, 125.0, 35.0)
    """
    ellipse, _ = outline_of(target)
    if ellipse is None or not target.angle_trusted or target.pa_deg is None:
        return 0.0
    major, minor = ellipse.semi_axes
    if major <= minor:
        return 0.0
    width, height = half_tangent(width_deg * 60.0), half_tangent(height_deg * 60.0)
    long, short = max(width, height), min(width, height)
    along = ellipse.pa_deg + (90.0 if width > height else 0.0)
    turn = 0.0
    if long < major and math.hypot(major, minor) <= math.hypot(long, short) and minor <= short:
        turn = best_turn_rad(major, minor, long, short)
    answers = [_half_turn(along + sign * math.degrees(turn)) for sign in (-1.0, 1.0)]
    return min(answers, key=_from_square)


def _half_turn(pa_deg: float) -> float:
    """Wrap to 0 <= PA < 180; the first modulo may round up to 180."""
    return pa_deg % 180.0 % 180.0


def _from_square(pa_deg: float) -> tuple[float, float]:
    """How far an angle is from a multiple of 90, then the angle itself."""
    return round(abs((pa_deg + 45.0) % 90.0 - 45.0), 9), pa_deg
