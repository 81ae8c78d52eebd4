"""What the pointer points at, in words."""

import math

from PySide6.QtCore import QPointF

from app.shared.angle_words import angle_words
from app.sky_sheet.transform import SheetTransform
from core.sky.angles import format_dec, format_ra
from core.sky.sphere import separation_rad

__all__ = ["pointer_words"]


def pointer_words(transform: SheetTransform, point: QPointF) -> str:
    """Give position and distance from the middle of the sheet."""
    ra_deg, dec_deg = transform.to_sky(point)
    plane = transform.frame.plane
    angles = (ra_deg, dec_deg, plane.ra_deg, plane.dec_deg)
    apart = math.degrees(float(separation_rad(*map(math.radians, angles))))
    return f"{format_ra(ra_deg)}  {format_dec(dec_deg)} · {angle_words(apart)} from the middle"
