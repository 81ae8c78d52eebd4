"""The target's own outline: its ellipse, or a dashed circle where the angle is unknown."""

import math

import numpy as np
from PySide6.QtCore import QLineF, QPointF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.sky_sheet.transform import SheetTransform
from core.pictures.marks import ellipse_on_plane
from core.plan.document import PlannedTarget

__all__ = ["paint_target", "target_ring"]

_CROSS_PX = 7.0


def target_ring(target: PlannedTarget, transform: SheetTransform) -> QPolygonF | None:
    """Give the outline on the screen, or None for a target without a size."""
    if not target.major_arcmin:
        return None
    minor = target.minor_arcmin if target.pa_deg is not None else None
    places = np.array([target.ra_deg]), np.array([target.dec_deg])
    axes = np.array([target.major_arcmin]), np.array([minor or target.major_arcmin])
    ring = ellipse_on_plane(transform.frame, places, axes, np.array([target.pa_deg or 0.0]))[0]
    points = transform.plane_points(ring[:, 0], ring[:, 1])
    if not np.isfinite(points).all():
        return None
    return QPolygonF([QPointF(x, y) for x, y in points.tolist()])


def paint_target(
    painter: QPainter, transform: SheetTransform, target: PlannedTarget, colour: str
) -> None:
    """Draw the outline of the current target, or a small cross at its place."""
    ink = QColor(colour)
    ink.setAlpha(170)
    ring = target_ring(target, transform)
    pen = QPen(ink, 1.0)
    if ring is not None:
        pen.setDashPattern([2.0, 4.0] if target.pa_deg is not None else [6.0, 6.0])
        painter.setPen(pen)
        painter.drawPolyline(ring)
        return
    x, y = transform.sky_to_screen(target.ra_deg, target.dec_deg)[0].tolist()
    if math.isfinite(x):
        painter.setPen(pen)
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            start, end = _CROSS_PX * 0.6, _CROSS_PX * 1.6
            painter.drawLine(QLineF(x + dx * start, y + dy * start, x + dx * end, y + dy * end))
