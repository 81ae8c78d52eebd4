"""How a frame is drawn: a thin line, told apart by colour, dash and letter.

Lines with flat caps are drawn one by one: Qt's raster engine does these, dashed or not,
without its general path filler, which is ten times slower on a large turned rectangle.
"""

from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap, QPolygonF

from app.shared.theme import scaled_font
from app.sky_sheet.frame_shape import FLAG_RADIUS, FrameShape

__all__ = ["FlagPen", "FrameLook", "paint_fill", "paint_lines"]


_FLAG_SIDE = 2.0 * FLAG_RADIUS + 4.0


@dataclass(frozen=True)
class FrameLook:
    """What tells one frame from another.

    Parameters
    ----------
    colour : str
        ``#rrggbb``.
    dash : tuple of float
        Stroke and gap by turns in logical pixels; empty for a full line.
    letter : str
        On the flag.
    bold : bool
        The chosen one, or the one pointed at in the strip.
    plate : str
        Colour behind the letter.
    in_hand : bool
        The line is thin while a hand moves it: it shows just where the edge falls, and
        thin lines are what Qt draws fastest.
    """

    colour: str
    dash: tuple[float, ...]
    letter: str
    bold: bool
    plate: str
    in_hand: bool = False


def paint_lines(painter: QPainter, shape: FrameShape, look: FrameLook) -> None:
    """Draw one frame with its stalk; flags come after the lines of all frames."""
    if not shape.points:
        return
    line, stalk = _pens(look)
    painter.setPen(line)
    painter.drawLines([QLineF(*a, *b) for a, b in shape.edges()])
    if shape.stalk is not None:
        painter.setPen(stalk)
        painter.drawLine(shape.stalk)


def paint_fill(painter: QPainter, shape: FrameShape, colour: str) -> None:
    """Lay a breath of colour over the sky inside a frame."""
    tint = QColor(colour)
    tint.setAlpha(22)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QBrush(tint))
    painter.drawConvexPolygon(QPolygonF([QPointF(x, y) for x, y in shape.points]))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)


@lru_cache(maxsize=256)
def _pens(look: FrameLook) -> tuple[QPen, QPen]:
    """The pens for a frame's outline and its stalk, made once for each look."""
    width = 2.0 if look.bold and not look.in_hand else 1.0
    line = QPen(QColor(look.colour), width)
    line.setCapStyle(Qt.PenCapStyle.FlatCap)
    if look.dash:
        line.setDashPattern([length / width for length in look.dash])
    return line, QPen(QColor(look.colour), 1.0)


class FlagPen:
    """Puts flags down, each drawn once: a small disc with the rig's letter."""

    def __init__(self) -> None:
        self._kept: dict[tuple[FrameLook, float], QPixmap] = {}

    def put(self, painter: QPainter, shape: FrameShape, look: FrameLook) -> None:
        """Put a frame's flag down, if it is in sight."""
        middle = shape.flag
        if middle is None or not shape.points:
            return
        ratio = painter.device().devicePixelRatioF()
        key = (look, ratio)
        if key not in self._kept:
            self._kept[key] = _flag(look, ratio)
        painter.drawPixmap(middle - QPointF(_FLAG_SIDE / 2.0, _FLAG_SIDE / 2.0), self._kept[key])


def _flag(look: FrameLook, ratio: float) -> QPixmap:
    """Draw a flag."""
    side = round(_FLAG_SIDE * ratio)
    pixmap = QPixmap(side, side)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    colour, plate = QColor(look.colour), QColor(look.plate)
    painter.setBrush(QBrush(colour if look.bold else plate))
    painter.setPen(QPen(colour, 1.2))
    middle = QPointF(_FLAG_SIDE / 2.0, _FLAG_SIDE / 2.0)
    painter.drawEllipse(middle, FLAG_RADIUS, FLAG_RADIUS)
    painter.setFont(scaled_font(1.0, size_px=10 if len(look.letter) == 1 else 8, bold=True))
    painter.setPen(plate if look.bold else colour)
    box = QRectF(0.0, 0.0, _FLAG_SIDE, _FLAG_SIDE)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, look.letter)
    painter.end()
    return pixmap
