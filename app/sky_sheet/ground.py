"""The lowest layer of the sheet: picture, graticule, outlines and names of objects."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QPixmap, QPolygonF, QTransform

from app.shared.theme import Theme
from app.sky_sheet.marks_paint import MarksStyle, paint_marks
from app.sky_sheet.transform import SheetTransform
from core.pictures.marks import Marks
from core.pictures.picture import Picture, PictureFrame
from core.sky.graticule import Graticule

__all__ = ["GroundContent", "paint_ground", "picture_pixmap"]


@dataclass(frozen=True)
class GroundContent:
    """What lies on the lowest layer; pictures with the lowest first."""

    pictures: tuple[tuple[PictureFrame, QPixmap], ...]
    marks: Marks | None
    graticule: Graticule | None
    style: MarksStyle
    smooth: bool


def picture_pixmap(picture: Picture, theme: Theme) -> QPixmap:
    """Bring a picture's pixels to Qt, in reds only where the theme asks for it."""
    pixels = picture.pixels
    if theme.red_only:
        pixels = _reddened(pixels)
    height, width, _ = pixels.shape
    image = QImage(pixels.data, width, height, 3 * width, QImage.Format.Format_RGB888)
    return QPixmap.fromImage(image)


def paint_ground(painter: QPainter, transform: SheetTransform, content: GroundContent) -> None:
    """Paint the layer inside the neat line."""
    painter.save()
    painter.setClipRect(transform.rect)
    painter.fillRect(
        transform.rect, QColor("#000000" if content.style.theme.red_only else "#05060a")
    )
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, content.smooth)
    for frame, pixmap in content.pictures:
        turn = flattened(transform.picture_transform(frame), transform.rect)
        painter.setTransform(turn)
        painter.drawPixmap(0, 0, pixmap)
        painter.resetTransform()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if content.graticule is not None:
        _paint_graticule(painter, transform, content)
    if content.marks is not None:
        paint_marks(painter, transform, content.marks, content.style)
    painter.restore()


def flattened(turn: QTransform, rect: QRectF) -> QTransform:
    """Drop a perspective too weak to see, and round a pure shift to whole pixels.

    Qt draws a picture many times faster through an affine map or a shift.
    """
    affine = turn
    if turn.type() == QTransform.TransformationType.TxProject:
        affine = _affine_near(turn, rect)
        if _largest_gap(turn, affine, rect) > 0.4:
            return turn
    shift = QTransform.fromTranslate(round(affine.dx()), round(affine.dy()))
    return shift if _largest_gap(turn, shift, rect) < 0.51 else affine


def _affine_near(turn: QTransform, rect: QRectF) -> QTransform:
    """The affine map that agrees with a projective one around the middle of the sheet."""
    back, _ = turn.inverted()
    middle = back.map(rect.center())
    step = max(rect.width(), rect.height()) / 4.0
    px, py = middle + QPointF(step, 0.0), middle + QPointF(0.0, step)
    m, x, y = turn.map(middle), turn.map(px), turn.map(py)
    a, b = (x.x() - m.x()) / step, (x.y() - m.y()) / step
    c, d = (y.x() - m.x()) / step, (y.y() - m.y()) / step
    dx = m.x() - a * middle.x() - c * middle.y()
    dy = m.y() - b * middle.x() - d * middle.y()
    return QTransform(a, b, c, d, dx, dy)


def _largest_gap(one: QTransform, other: QTransform, rect: QRectF) -> float:
    """How far two maps of a picture disagree on the sheet, pixels."""
    back, possible = one.inverted()
    if not possible:
        return float("inf")
    gap = 0.0
    for corner in (rect.topLeft(), rect.topRight(), rect.bottomLeft(), rect.bottomRight()):
        point = back.map(corner)
        apart = other.map(point) - one.map(point)
        gap = max(gap, abs(apart.x()), abs(apart.y()))
    return gap


def _reddened(pixels: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Light as red light only, as bright as it was."""
    red = np.zeros_like(pixels)
    np.max(pixels, axis=2, out=red[..., 0])
    return red


def _paint_graticule(painter: QPainter, transform: SheetTransform, what: GroundContent) -> None:
    """Lines of equal right ascension and declination."""
    assert what.graticule is not None
    ink = QColor(what.style.theme.marks)
    ink.setAlpha(90)
    painter.setPen(QPen(ink, 0.7))
    for line in what.graticule.lines:
        points = transform.plane_points(line.xi, line.eta)
        painter.drawPolyline(polygon(points))


def polygon(points: NDArray[np.float64]) -> QPolygonF:
    """Bring screen points (N, 2) to Qt."""
    return QPolygonF([QPointF(x, y) for x, y in points.tolist()])
