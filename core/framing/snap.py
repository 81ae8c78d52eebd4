"""Angles that a hand snaps to while it turns a frame.

Conventions: position angles in degrees, north through east.
"""

from collections.abc import Sequence

from core.sky.angles import wrap_180, wrap_360

__all__ = ["snap_pa"]


def snap_pa(
    pa_deg: float, *, step_deg: float = 5.0, also_deg: Sequence[float] = (), reach_deg: float = 1.5
) -> float:
    """Give the nearest good angle to the one the hand holds.

    Parameters
    ----------
    pa_deg : float
        Where the hand is.
    step_deg : float
        Round angles are multiples of this.
    also_deg : sequence of float
        Angles that win over the round ones when the hand is near them, such as the
        one along the target.
    reach_deg : float
        How near that is.

    Examples
    --------
    >>> snap_pa(33.2), snap_pa(34.2, also_deg=[125.0, 34.9]), snap_pa(358.9)
    (35.0, 34.9, 0.0)
    """
    for angle in also_deg:
        if abs(wrap_180(angle - pa_deg)) <= reach_deg:
            return wrap_360(angle)
    return wrap_360(round(pa_deg / step_deg) * step_deg)
