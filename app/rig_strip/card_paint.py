"""How a rig's card is laid out and drawn.

Logical pixels. Sizes come from the type at the user's text scale, so no line is ever
cut: a card grows with its words. Only a name beyond 24 ems is shortened, with an
ellipsis, and then stands whole in the tooltip.
"""

import math
from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QLineF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen

from app.rig_strip.card_face import CardFace
from app.shared.frame_ink import frame_ink
from app.shared.theme import DASHES, Theme, scaled_font
from app.sky_sheet.frame_shape import frame_shape
from app.sky_sheet.target_outline import target_ring
from app.sky_sheet.transform import SheetTransform
from app.words.finding_mark import level_colour, paint_mark
from app.words.fit_words import Verdict

__all__ = ["CardLayout", "CardStyle", "paint_card"]

_NAME_EMS = 24.0
_LEAST_EMS = 15.5
#: A hidden frame is drawn this faintly.
_HIDDEN_OPACITY = 0.35
_LINE_PX = 1.4
#: Dashes are this much shorter than on the sheet.
_DASH_PART = 0.5
#: How far the chosen card stands above the others.
RAISE_PX = 3.0


@dataclass(frozen=True)
class CardStyle:
    """Theme and type of a card.

    Parameters
    ----------
    theme : Theme
    scale : float
        The user's text size, 1 for 12 px.
    """

    theme: Theme
    scale: float

    @cached_property
    def font(self) -> QFont:
        """Type of the lines."""
        return scaled_font(self.scale)

    @cached_property
    def name_font(self) -> QFont:
        """Type of the name."""
        return scaled_font(self.scale, size_px=13)

    @cached_property
    def letter_font(self) -> QFont:
        """Type of the letter."""
        return scaled_font(self.scale, size_px=13, bold=True)


class CardLayout:
    """Where things stand on a card.

    Parameters
    ----------
    face : CardFace
    style : CardStyle
    """

    def __init__(self, face: CardFace, style: CardStyle) -> None:
        self._plain = QFontMetricsF(style.font)
        self._heading = QFontMetricsF(style.name_font)
        self.pad = round(10.0 * style.scale)
        self.gap = round(6.0 * style.scale)
        self.line = math.ceil(self._plain.height() * 1.04)
        self.heading = math.ceil(self._heading.height() * 1.1)
        #: Side of the box that shows and hides.
        self.box = max(11, round(11.0 * style.scale))
        lines = len(face.lines) + len(face.verdicts)
        self.picture_side = self.heading + lines * self.line
        self.letter_width = QFontMetricsF(style.letter_font).horizontalAdvance(face.letter)
        self.name = self._heading.elidedText(
            face.name, Qt.TextElideMode.ElideRight, _NAME_EMS * 12.0 * style.scale
        )
        self.text_width = math.ceil(self._widest(face))
        self.text_width = max(self.text_width, round(_LEAST_EMS * 12.0 * style.scale))

    @property
    def size(self) -> QSize:
        """Size of the whole card."""
        width = self.text_left + self.text_width + self.pad
        height = self.picture_side + 2 * self.pad + 2 * RAISE_PX
        return QSize(math.ceil(width), math.ceil(height))

    @property
    def text_left(self) -> float:
        """Where the lines begin."""
        return float(2 * self.pad + self.picture_side)

    @property
    def name_left(self) -> float:
        """Where the name begins, after the letter."""
        return self.text_left + self.letter_width + self.gap

    @property
    def mark_side(self) -> float:
        """Side of the verdict's mark."""
        return round(self._plain.ascent() * 0.75)

    def top(self, *, chosen: bool) -> float:
        """Where the content begins: higher on the chosen card."""
        return self.pad + (0.0 if chosen else 2.0 * RAISE_PX)

    def outline(self, *, chosen: bool) -> QRectF:
        """Give the card's edge."""
        size, top = self.size, self.top(chosen=chosen) - self.pad
        height = size.height() - 2.0 * RAISE_PX
        return QRectF(0.0, top, size.width(), height).adjusted(1.0, 1.0, -1.0, -1.0)

    def _widest(self, face: CardFace) -> float:
        """Measure the longest of the card's lines."""
        name = self._heading.horizontalAdvance(self.name)
        widths = [self.letter_width + self.gap + name + self.gap + self.box]
        widths += [self._plain.horizontalAdvance(line) for line in face.lines]
        for said in face.verdicts:
            words = self._plain.horizontalAdvance(said.short) if said is not None else 0.0
            widths.append(self.mark_side + self.gap + words)
        return max(widths) + 1.0


def paint_card(painter: QPainter, face: CardFace, style: CardStyle, *, lit: bool) -> None:
    """Draw a card.

    Parameters
    ----------
    painter : QPainter
    face : CardFace
    style : CardStyle
    lit : bool
        The rig is pointed at, here or elsewhere.
    """
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    layout = CardLayout(face, style)
    _paint_ground(painter, face, style, layout, lit=lit)
    side = layout.picture_side
    picture = QRectF(layout.pad, layout.top(chosen=face.chosen), side, side)
    _paint_picture(painter, face, style, picture)
    _paint_words(painter, face, style, layout)


def _paint_ground(
    painter: QPainter, face: CardFace, style: CardStyle, layout: CardLayout, *, lit: bool
) -> None:
    """Draw the card; the chosen one stands over a shadow, edged in its colour."""
    theme, edge = style.theme, layout.outline(chosen=face.chosen)
    painter.setPen(Qt.PenStyle.NoPen)
    if face.chosen:
        shadow = QColor(theme.rule)
        painter.setBrush(shadow)
        painter.drawRoundedRect(edge.translated(0.0, RAISE_PX), 5.0, 5.0)
    pen = QPen(QColor(theme.quiet if lit else theme.rule), 1.0)
    if face.chosen:
        pen = QPen(QColor(frame_ink(theme, face.colour)), 2.0)
    painter.setPen(pen)
    painter.setBrush(QColor(theme.field if face.chosen or lit else theme.raised))
    inset = pen.widthF() / 2.0
    painter.drawRoundedRect(edge.adjusted(inset, inset, -inset, -inset), 5.0, 5.0)


def _paint_picture(painter: QPainter, face: CardFace, style: CardStyle, box: QRectF) -> None:
    """Draw the target and the frame on a small plate of sky."""
    theme = style.theme
    plate = QPainterPath()
    plate.addRoundedRect(box, 3.0, 3.0)
    painter.fillPath(plate, QColor(theme.plate))
    painter.save()
    painter.setClipPath(plate)
    painter.setOpacity(1.0 if face.shown else _HIDDEN_OPACITY)
    transform = SheetTransform(face.view, box, 0.0)
    _paint_target(painter, face, theme, transform)
    shape = frame_shape("", face.footprint, transform)
    beyond = shape.hides(box)
    pen = QPen(QColor(theme.frames[face.colour]), _LINE_PX)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if DASHES[face.dash] and not beyond:
        pen.setDashPattern([length * _DASH_PART for length in DASHES[face.dash]])
    painter.setPen(pen)
    painter.drawLines(_outward(box) if beyond else [QLineF(*a, *b) for a, b in shape.edges()])
    painter.restore()
    if face.wider or not face.shown:
        _paint_foot(painter, style, box, "wider" if face.shown else "hidden")


def _outward(box: QRectF) -> list[QLineF]:
    """Give small corners at the picture's own: the frame lies somewhere beyond them."""
    inner, arm = box.adjusted(4.0, 4.0, -4.0, -4.0), box.width() * 0.14
    lines = []
    for x, across in ((inner.left(), arm), (inner.right(), -arm)):
        for y, along in ((inner.top(), arm), (inner.bottom(), -arm)):
            lines += [QLineF(x, y, x + across, y), QLineF(x, y, x, y + along)]
    return lines


def _paint_target(
    painter: QPainter, face: CardFace, theme: Theme, transform: SheetTransform
) -> None:
    """Draw the target, dashed where its angle is not known, nothing without a size."""
    target = face.target
    ring = target_ring(target, transform) if target is not None else None
    if target is None or ring is None:
        return
    ink = QColor(theme.marks)
    ink.setAlpha(150)
    pen = QPen(ink, 1.0)
    if target.pa_deg is None and target.minor_arcmin != target.major_arcmin:
        pen.setDashPattern([3.0, 3.0])
    tint = QColor(theme.marks)
    tint.setAlpha(60)
    painter.setPen(pen)
    painter.setBrush(tint)
    painter.drawPolygon(ring)


def _paint_foot(painter: QPainter, style: CardStyle, box: QRectF, words: str) -> None:
    """Write across the foot of the picture what it cannot show."""
    height = QFontMetricsF(style.font).height()
    band = QRectF(box.left(), box.bottom() - height, box.width(), height)
    ground = QColor(style.theme.raised)
    ground.setAlpha(225)
    painter.fillRect(band, ground)
    painter.setPen(QColor(style.theme.quiet))
    painter.setFont(style.font)
    painter.drawText(band, Qt.AlignmentFlag.AlignCenter, words)


def _paint_words(painter: QPainter, face: CardFace, style: CardStyle, layout: CardLayout) -> None:
    """Write letter, name, figures and verdicts."""
    theme = style.theme
    ink = QColor(theme.text if face.shown else theme.quiet)
    top = layout.top(chosen=face.chosen)
    middle = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
    painter.setFont(style.letter_font)
    painter.setPen(QColor(frame_ink(theme, face.colour)))
    row = QRectF(layout.text_left, top, layout.text_width, layout.heading)
    painter.drawText(row, middle, face.letter)
    painter.setFont(style.name_font)
    painter.setPen(ink)
    painter.drawText(row.adjusted(layout.letter_width + layout.gap, 0, 0, 0), middle, layout.name)
    painter.setFont(style.font)
    row = QRectF(layout.text_left, top + layout.heading, layout.text_width, layout.line)
    painter.setPen(QColor(theme.quiet))
    for line in face.lines:
        painter.drawText(row, middle, line)
        row.translate(0.0, layout.line)
    for said in face.verdicts:
        if said is not None:
            _paint_verdict(painter, said, style, layout, row)
            row.translate(0.0, layout.line)


def _paint_verdict(
    painter: QPainter, said: Verdict, style: CardStyle, layout: CardLayout, row: QRectF
) -> None:
    """Write a verdict behind its mark."""
    colour, side = level_colour(style.theme, said.level), layout.mark_side
    box = QRectF(row.left(), row.center().y() - side / 2.0, side, side)
    paint_mark(painter, box, said.level, colour)
    painter.setPen(QColor(colour))
    middle = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
    painter.drawText(row.adjusted(side + layout.gap, 0, 0, 0), middle, said.short)
