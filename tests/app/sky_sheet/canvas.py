"""A bare canvas to paint on, and what was painted on it."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.sky_sheet.transform import SheetTransform
from core.plan.document import SheetView

__all__ = ["RECT", "along", "as_array", "near", "painted", "transform_at"]

RECT = QRectF(60.0, 30.0, 900.0, 600.0)
SIZE = (1000, 660)


def transform_at(
    ra: float = 10.0, dec: float = 40.0, width: float = 6.0, *, up: float = 0.0, **more: object
) -> SheetTransform:
    """A view on the sheet `RECT`."""
    return SheetTransform(SheetView(ra_deg=ra, dec_deg=dec, width_deg=width, **more), RECT, up)


def as_array(image: QImage) -> NDArray[np.int64]:
    """Red, green, blue of every device pixel, (H, W, 3)."""
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    rows = np.frombuffer(image.constBits(), np.uint8)
    rows = rows.reshape(image.height(), image.bytesPerLine() // 4, 4)
    return rows[:, : image.width(), 2::-1].astype(np.int64)


def painted(
    paint: Callable[[QPainter], None], *, ground: str = "#000000", ratio: float = 1.0
) -> NDArray[np.int64]:
    """What a function paints on a ground of one colour."""
    image = QImage(
        round(SIZE[0] * ratio), round(SIZE[1] * ratio), QImage.Format.Format_ARGB32_Premultiplied
    )
    image.setDevicePixelRatio(ratio)
    image.fill(QColor(ground))
    painter = QPainter(image)
    paint(painter)
    painter.end()
    return as_array(image)


def near(pixels: NDArray[np.int64], colour: str, reach: int = 40) -> NDArray[np.bool_]:
    """Which pixels come close to a colour."""
    wanted = np.array(QColor(colour).getRgb()[:3])
    return np.abs(pixels - wanted).max(axis=-1) <= reach


def along(mask: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Start and length of every run of True in a row of pixels."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], mask.astype(int), [0]])))
    return [(int(a), int(b - a)) for a, b in zip(edges[::2], edges[1::2], strict=True)]
