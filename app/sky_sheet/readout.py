"""What the pointer points at, in words."""

import math

from PySide6.QtCore import QPointF

from app.sky_sheet.transform import SheetTransform
from core.sky.angles import format_dec, format_ra
from core.sky.sphere import separation_rad

__all__ = ["angle_words", "pointer_words"]


def pointer_words(transform: SheetTransform, point: QPointF) -> str:
    """Give position and distance from the middle of the sheet."""
    ra_deg, dec_deg = transform.to_sky(point)
    plane = transform.frame.plane
    angles = (ra_deg, dec_deg, plane.ra_deg, plane.dec_deg)
    apart = math.degrees(float(separation_rad(*map(math.radians, angles))))
    return f"{format_ra(ra_deg)}  {format_dec(dec_deg)} · {angle_words(apart)} from the middle"


def angle_words(angle_deg: float) -> str:
    """Write an angle with the unit that suits its size.

    Examples
    --------
    >>> angle_words(1.063), angle_words(0.5), angle_words(0.004)
    ('1.06°', '30.0′', '14.4″')
    """
    if angle_deg >= 1.0:
        return f"{angle_deg:.2f}°"
    if angle_deg >= 1.0 / 60.0:
        return f"{angle_deg * 60.0:.1f}′"
    return f"{angle_deg * 3600.0:.1f}″"
