"""Names on the sky: the important ones first, none over another.

Drawn text is kept as small pixmaps, which are far cheaper to put down again than
text while the sky moves.
"""

from collections import OrderedDict
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPixmap

__all__ = ["Label", "LabelPen", "chosen_labels"]

_KEPT = 600
_TEXTS_TRIED = 400


@dataclass(frozen=True)
class Label:
    """A name and the point it belongs to."""

    text: str
    x: float
    y: float
    gap: float


class LabelPen:
    """Writes labels, keeping what it has written before."""

    def __init__(self, font: QFont, colour: str, ratio: float) -> None:
        self.key = (font.toString(), colour, ratio)
        self._font = font
        self._colour = QColor(colour)
        self._ratio = ratio
        self._metrics = QFontMetricsF(font)
        self._kept: OrderedDict[str, QPixmap] = OrderedDict()

    def box(self, label: Label) -> QRectF:
        """Give where a label would stand: to the right of its point, a little above."""
        width = self._metrics.horizontalAdvance(label.text)
        height = self._metrics.height()
        return QRectF(label.x + label.gap + 3.0, label.y - label.gap * 0.4 - height, width, height)

    def write(self, painter: QPainter, label: Label) -> None:
        """Put a label down."""
        box = self.box(label)
        painter.drawPixmap(QPointF(round(box.left()), round(box.top())), self._pixmap(label.text))

    def _pixmap(self, text: str) -> QPixmap:
        """The label's picture, drawn once."""
        kept = self._kept.get(text)
        if kept is not None:
            self._kept.move_to_end(text)
            return kept
        width = round(self._metrics.horizontalAdvance(text) + 4.0)
        height = round(self._metrics.height() + 2.0)
        pixmap = QPixmap(round(width * self._ratio), round(height * self._ratio))
        pixmap.setDevicePixelRatio(self._ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        painter.setFont(self._font)
        shade = QColor(0, 0, 0, 150)
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            painter.setPen(shade)
            painter.drawText(QPointF(1.0 + dx, self._metrics.ascent() + 1.0 + dy), text)
        painter.setPen(self._colour)
        painter.drawText(QPointF(1.0, self._metrics.ascent() + 1.0), text)
        painter.end()
        self._kept[text] = pixmap
        if len(self._kept) > _KEPT:
            self._kept.popitem(last=False)
        return pixmap


def chosen_labels(
    labels: list[Label], pen: LabelPen, rect: QRectF, most: int, keep_clear: list[QRectF]
) -> list[Label]:
    """Choose the labels that find room.

    Parameters
    ----------
    labels : list of Label
        Most important first.
    pen : LabelPen
        Knows how wide a text is.
    rect : QRectF
        The sheet.
    most : int
        No more than this many.
    keep_clear : list of QRectF
        Where no label may stand (compass, scale bar).
    """
    taken = list(keep_clear)
    chosen: list[Label] = []
    for label in labels[:_TEXTS_TRIED]:
        if len(chosen) >= most:
            break
        box = pen.box(label)
        if rect.contains(box) and not any(box.intersects(other) for other in taken):
            taken.append(box.adjusted(-4.0, -1.0, 4.0, 1.0))
            chosen.append(label)
    return chosen
