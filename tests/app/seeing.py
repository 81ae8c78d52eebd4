"""What a test sees of a widget: its pixels, and what lies under the pointer."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.shared.theme import Theme

__all__ = ["Dress", "Host", "close_to", "count_of", "pixels", "point_at"]

#: The fixture that puts widgets into a window.
Host = Callable[..., QWidget]
#: The fixture that gives the application a theme and a text size.
Dress = Callable[[Theme, float], None]


def pixels(widget: QWidget) -> NDArray[np.int64]:
    """Give what a widget paints as (H, W, 3) of red, green, blue."""
    image = widget.grab().toImage()
    rows = np.frombuffer(image.constBits(), np.uint8)
    rows = rows.reshape(image.height(), image.bytesPerLine() // 4, 4)
    return rows[:, : image.width(), 2::-1].astype(np.int64)


def close_to(painted: NDArray[np.int64], colour: str, reach: int = 24) -> int:
    """Count the pixels that come close to a colour."""
    wanted = np.array(QColor(colour).getRgb()[:3])
    return int((np.abs(painted - wanted).max(axis=-1) <= reach).sum())


def count_of(widget: QWidget, colour: str, *, reach: int = 24) -> int:
    """Count the pixels of a widget that come close to a colour."""
    return close_to(pixels(widget), colour, reach)


def point_at(widget: QWidget, at: QPoint | None = None) -> None:
    """Move the pointer over a widget through its window, so that it is really entered."""
    window = widget.window()
    point = widget.mapTo(window, at if at is not None else widget.rect().center())
    QTest.mouseMove(window.windowHandle(), point)
    QApplication.processEvents()
