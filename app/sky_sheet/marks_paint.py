"""Outlines and names of objects over the picture, thin and quiet."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.shared.theme import Theme
from app.sky_sheet.labels import Label, LabelPen, chosen_labels
from app.sky_sheet.transform import SheetTransform
from core.pictures.marks import TINTS, Marks, Outline

__all__ = ["MarksStyle", "paint_marks"]

_AREA_PER_LABEL_PX2 = 22000.0
_OUTLINE_ALPHA = 150
_LARGE_PX = 34.0


Floats = NDArray[np.float64]


@dataclass(frozen=True)
class MarksStyle:
    """With what to write, in which colours, and where no name may stand (flags, plates)."""

    pen: LabelPen
    theme: Theme
    keep_clear: tuple[QRectF, ...] = ()


def paint_marks(
    painter: QPainter,
    transform: SheetTransform,
    marks: Marks,
    how: MarksStyle,
) -> None:
    """Draw outlines, then the labels that find room, the foremost first."""
    matrix = transform.homography_from(marks.plane)
    for outline in marks.outlines:
        _paint_outline(painter, matrix, outline, how.theme)
    labels = _labels(matrix, marks, transform)
    most = int(transform.rect.width() * transform.rect.height() / _AREA_PER_LABEL_PX2)
    for label in chosen_labels(labels, how.pen, transform.rect, most, list(how.keep_clear)):
        how.pen.write(painter, label)


def _paint_outline(painter: QPainter, matrix: Floats, outline: Outline, theme: Theme) -> None:
    """One closed line; a cosmetic pen of width 1 is what Qt draws fast."""
    points = _screen(matrix, outline.points[:, 0], outline.points[:, 1])
    colour = QColor(theme.marks) if theme.red_only else QColor(*TINTS[outline.kind])
    colour.setAlpha(_OUTLINE_ALPHA)
    pen = QPen(colour, 1.0)
    if outline.dashed:
        pen.setDashPattern([5.0, 5.0])
    painter.setPen(pen)
    painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in points.tolist()]))


def _labels(matrix: Floats, marks: Marks, transform: SheetTransform) -> list[Label]:
    """Screen places of the names."""
    if not marks.labels:
        return []
    xi = np.array([label.xi for label in marks.labels])
    eta = np.array([label.eta for label in marks.labels])
    points = _screen(matrix, xi, eta)
    reach = transform.px_per_rad
    return [
        Label(label.text, x, y, _gap(label.reach * reach))
        for label, (x, y) in zip(marks.labels, points.tolist(), strict=True)
    ]


def _gap(radius_px: float) -> float:
    """How far a name stands off: beside a small object, inside a large one."""
    return radius_px * 0.7 if radius_px < _LARGE_PX else 4.0


def _screen(matrix: Floats, xi: Floats, eta: Floats) -> Floats:
    """Points of another plane on the screen, (N, 2)."""
    x, y, w = matrix @ np.stack([xi, eta, np.ones_like(xi)])
    w = np.where(w > 1e-6, w, 1e-6)
    return np.stack([x / w, y / w], axis=-1)
