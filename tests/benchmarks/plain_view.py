"""The same sheet made the plain ways: graphics items one by one, and matplotlib."""

import math

import numpy as np
from astropy.wcs import WCS
from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPaintEvent, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import (
    QApplication,
    QGraphicsEllipseItem,
    QGraphicsPixmapItem,
    QGraphicsPolygonItem,
    QGraphicsScene,
    QGraphicsSimpleTextItem,
    QGraphicsView,
)

__all__ = ["BlitCanvas", "PlainView"]

Pixels = NDArray[np.uint8]


class PlainView(QGraphicsView):
    """Picture, stars and frames as items, with nothing done for speed.

    Parameters
    ----------
    pixels : (H, W, 3) uint8 array
        The picture behind.
    stars : (N, 3) float array
        x, y and radius, scene pixels.
    frames : (M, 3) float array
        Width, height and rotation in degrees of each frame about the middle.
    size : (int, int)
        Of the view.
    """

    def __init__(
        self,
        pixels: Pixels,
        stars: NDArray[np.float64],
        frames: NDArray[np.float64],
        size: tuple[int, int],
    ) -> None:
        super().__init__()
        self.painted = 0
        scene = QGraphicsScene(QRectF(0, 0, *size), self)
        height, width, _ = pixels.shape
        image = QImage(pixels.data, width, height, 3 * width, QImage.Format.Format_RGB888)
        back = QGraphicsPixmapItem(QPixmap.fromImage(image))
        back.setTransformationMode(Qt.TransformationMode.SmoothTransformation)
        back.setPos((size[0] - width) / 2, (size[1] - height) / 2)
        scene.addItem(back)
        for x, y, radius in stars.tolist():
            star = QGraphicsEllipseItem(x - radius, y - radius, 2 * radius, 2 * radius)
            star.setBrush(QBrush(QColor("#e8e0d0")))
            star.setPen(QPen(Qt.PenStyle.NoPen))
            scene.addItem(star)
        self.frames = [self._frame(scene, *row, size) for row in frames.tolist()]
        self.setScene(scene)
        self.setRenderHints(
            QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform
        )
        self.setFrameShape(QGraphicsView.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.resize(*size)

    def _frame(
        self, scene: QGraphicsScene, width: float, height: float, turn: float, size: tuple[int, int]
    ) -> QGraphicsPolygonItem:
        """A rotatable rectangle with a handle and a letter."""
        box = QRectF(-width / 2, -height / 2, width, height)
        item = QGraphicsPolygonItem(QPolygonF(box))
        item.setPen(QPen(QColor("#56b4e9"), 1.5))
        item.setPos(size[0] / 2, size[1] / 2)
        item.setRotation(turn)
        handle = QGraphicsEllipseItem(-9, -height / 2 - 35, 18, 18, item)
        handle.setPen(QPen(QColor("#56b4e9"), 1.5))
        letter = QGraphicsSimpleTextItem("A", item)
        letter.setPos(-4, -height / 2 - 34)
        scene.addItem(item)
        return item

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        self.painted += 1

    def wait_painted(self) -> None:
        """Let the event loop run until the view has painted once more."""
        before = self.painted
        while self.painted == before:
            QApplication.processEvents()


class BlitCanvas(FigureCanvasQTAgg):
    """A frame on WCSAxes, with stalk, flag and letter, over a kept background, by blitting.

    The frame is given on the sky, as ours is; matplotlib projects it through the WCS.
    """

    def __init__(self, pixels: Pixels, size: tuple[int, int], wcs: WCS) -> None:
        figure = Figure(figsize=(size[0] / 100, size[1] / 100), dpi=100)
        super().__init__(figure)
        self.painted = 0
        self.resize(*size)
        self.axes = figure.add_axes((0, 0, 1, 1), projection=wcs)
        self.axes.imshow(pixels)
        self._centre = wcs.wcs.crval
        sky = self.axes.get_transform("icrs")
        colour = {"color": "#56b4e9", "animated": True}
        self.frame = Polygon(self._corners(0.0), fill=False, transform=sky, **colour)
        self.flag = Circle((750.0, 560.0), 9.0, fill=False, **colour)
        self.axes.add_patch(self.frame)
        self.axes.add_patch(self.flag)
        (self.stalk,) = self.axes.plot([750.0, 750.0], [620.0, 569.0], **colour)
        self.letter = self.axes.text(750.0, 560.0, "A", ha="center", va="center", **colour)
        self.axes.set_xlim(0, 1500)
        self.axes.set_ylim(1500, 0)

    def keep_background(self) -> None:
        """Draw all that stays."""
        self.draw()
        self._kept = self.copy_from_bbox(self.figure.bbox)

    def turn(self, degrees: float) -> None:
        """Turn the frame and wait until it is seen."""
        self.frame.set_xy(self._corners(degrees))
        sin, cos = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
        near, far = ((750.0 + sin * r, 750.0 - cos * r) for r in (130.0, 190.0))
        self.stalk.set_data(*zip(near, far, strict=True))
        self.flag.set_center(far)
        self.letter.set_position(far)
        self.restore_region(self._kept)
        for artist in (self.frame, self.stalk, self.flag, self.letter):
            self.axes.draw_artist(artist)
        before = self.painted
        self.blit(self.figure.bbox)
        while self.painted == before:
            QApplication.processEvents()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        self.painted += 1

    def _corners(self, degrees: float) -> NDArray[np.float64]:
        sin, cos = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
        ra, dec = self._centre
        box = np.array([[-0.7, -0.45], [0.7, -0.45], [0.7, 0.45], [-0.7, 0.45]])
        turned = box @ np.array([[cos, sin], [-sin, cos]])
        return turned / (math.cos(math.radians(dec)), 1.0) + (ra, dec)
