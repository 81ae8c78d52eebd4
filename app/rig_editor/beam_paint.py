"""Draws the way of the light: housings cut open, the cone of light, image circle and sensor."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.rig_editor.beam_labels import MARK_PX
from app.rig_editor.beam_layout import ADD, BeamLayout, Tile
from app.shared.theme import Theme, scaled_font
from app.words.finding_mark import level_colour, paint_mark
from core.gear.optics.beam import sensor_diagonal_mm
from core.gear.slots import Slot

__all__ = ["BeamLook", "paint_beam"]

_DASH = [4.0, 3.0]


@dataclass
class BeamLook:
    """What is shown of a drawing beside its shape.

    `levels` holds the level of the worst finding by slot; `seam` is where a carried part
    would come.
    """

    theme: Theme
    levels: Mapping[Slot, str] = field(default_factory=dict)
    chosen: Slot | None = None
    lit: Slot | None = None
    seam: float | None = None


def paint_beam(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Draw everything but the ruler."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setFont(scaled_font(drawing.scale))
    for tile in drawing.tiles:
        if tile.role in ("inside", "beside", "add"):
            _paint_chip(painter, drawing, tile, look)
        else:
            _paint_housing(painter, drawing, tile, look)
    _paint_cone(painter, drawing, look)
    _paint_break(painter, drawing, look)
    _paint_end(painter, drawing, look)
    _paint_doubts(painter, drawing, look)
    _paint_labels(painter, drawing, look)
    painter.setPen(QColor(look.theme.quiet))
    for box, words in drawing.captions:
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
    if look.seam is not None:
        _paint_seam(painter, drawing, look)


def _edge(tile: Tile, look: BeamLook) -> QPen:
    """Give the line round a part: bold when chosen, dashed where its length is not known."""
    chosen = tile.slot == look.chosen
    colour = look.theme.accent if chosen else look.theme.sheet_line
    pen = QPen(QColor(colour), 2.0 if chosen else 1.0)
    if not tile.known:
        pen.setDashPattern(_DASH)
    return pen


def _fill(tile: Tile, look: BeamLook) -> QColor:
    """Give the ground of a part: lit when pointed at or chosen, and stronger in the beam."""
    theme, lit = look.theme, tile.slot in (look.lit, look.chosen)
    if tile.role in ("inside", "beside", "add"):
        return QColor(theme.field if lit else theme.raised)
    return QColor(theme.sheet_line if lit else theme.rule)


def _paint_housing(painter: QPainter, drawing: BeamLayout, tile: Tile, look: BeamLook) -> None:
    """Draw a part of the beam cut open: walls above and below, the bore between."""
    box, theme = tile.box, look.theme
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(_fill(tile, look))
    painter.drawRect(box)
    inner = _bore_half(drawing, tile)
    wide = box.width() if tile.role != "camera" else drawing.sensor_x - box.left()
    bore = QRectF(box.left(), drawing.axis_y - inner, wide, 2.0 * inner)
    painter.setBrush(QColor(theme.ground))
    painter.drawRect(bore)
    rim = QPen(QColor(theme.sheet_line), 1.0)
    if tile.role == "beam" and tile.bore_mm is None:
        rim.setDashPattern(_DASH)
    painter.setPen(rim)
    for y in (bore.top(), bore.bottom()):
        painter.drawLine(QLineF(bore.left(), y, bore.right(), y))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(_edge(tile, look))
    painter.drawRect(box)


def _bore_half(drawing: BeamLayout, tile: Tile) -> float:
    """Give half the height of a bore; where it is not known, what the beam needs."""
    if tile.bore_mm is not None:
        return min(tile.bore_mm / 2.0 * drawing.across_px_mm, tile.box.height() / 2.0)
    wall = 9.0 * drawing.scale
    return tile.box.height() / 2.0 - wall


def _paint_cone(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Draw the light, from the front of the telescope to the sensor."""
    tube = drawing.tiles[0]
    left, right, y = tube.box.left(), drawing.sensor_x, drawing.axis_y
    inner = tube.box.height() / 2.0 - 9.0 * drawing.scale
    upper: list[QPointF] = []
    for x in (left, drawing.rear_x, right):
        half = drawing.beam_half(x) if x > left else max(inner, drawing.beam_half(drawing.rear_x))
        upper.append(QPointF(x, y - half))
    lower = [QPointF(point.x(), 2.0 * y - point.y()) for point in reversed(upper)]
    colour = QColor(look.theme.accent)
    colour.setAlphaF(0.22)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawPolygon(QPolygonF([*upper, *lower]))
    colour.setAlphaF(0.9)
    painter.setPen(QPen(colour, 1.0))
    painter.drawPolyline(QPolygonF(upper))
    painter.drawPolyline(QPolygonF(lower))
    axis = QPen(QColor(look.theme.quiet), 1.0)
    axis.setDashPattern([8.0, 3.0, 2.0, 3.0])
    painter.setPen(axis)
    painter.drawLine(QLineF(left, y, right, y))


def _paint_break(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Break a tube that is drawn shorter than it is, as drawings do, and say its length."""
    tube, scale = drawing.tiles[0], drawing.scale
    box, length = tube.box, drawing.rig.telescope.length_mm
    if tube.broken:
        middle = box.center().x()
        left, right = (_zigzag(box, middle + shift * scale, scale) for shift in (0.0, 7.0))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(look.theme.ground))
        painter.drawPolygon(QPolygonF([*left, *reversed(right)]))
        painter.setPen(QPen(QColor(look.theme.sheet_line), 1.0))
        painter.drawPolyline(QPolygonF(left))
        painter.drawPolyline(QPolygonF(right))
    if length is None:
        return
    painter.setPen(QColor(look.theme.quiet))
    painter.setFont(scaled_font(scale, size_px=11))
    words = f"{length:g} mm, drawn shorter" if tube.broken else f"{length:g} mm"
    room = QRectF(box.left(), box.bottom() + 4.0, max(box.width(), 150.0 * scale), 15.0 * scale)
    painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, words)
    painter.setFont(scaled_font(scale))


def _zigzag(box: QRectF, x: float, scale: float) -> list[QPointF]:
    """Give the line along which a tube is broken."""
    step, high = 3.0 * scale, (box.height() + 6.0) / 6.0
    return [QPointF(x + (step if n % 2 else -step), box.top() - 3.0 + n * high) for n in range(7)]


def _paint_end(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Draw the sensor, and the image circle as a bracket behind the camera."""
    theme, scale, y, rig = look.theme, drawing.scale, drawing.axis_y, drawing.rig
    sensor_mm = sensor_diagonal_mm(rig)
    circle_mm = (rig.corrector or rig.telescope).image_circle_mm
    half = sensor_mm / 2.0 * drawing.across_px_mm
    pen = QPen(QColor(theme.text), 4.0 * scale)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.drawLine(QLineF(drawing.sensor_x, y - half, drawing.sensor_x, y + half))
    camera = drawing.tile(Slot("camera"))
    assert camera is not None
    x = camera.box.right() + 8.0 * scale
    short = circle_mm is not None and circle_mm < sensor_mm
    if circle_mm is not None:
        reach, tick = circle_mm / 2.0 * drawing.across_px_mm, 4.0 * scale
        painter.setPen(QPen(QColor(theme.caution if short else theme.accent), 1.5))
        painter.drawLine(QLineF(x, y - reach, x, y + reach))
        for end in (y - reach, y + reach):
            painter.drawLine(QLineF(x - tick, end, x, end))
    told = f"{circle_mm:g} mm" if circle_mm is not None else "not known"
    rows = (("sensor", theme.quiet), (f"{sensor_mm:.1f} mm", theme.text),
            ("smaller circle" if short else "circle", theme.caution if short else theme.quiet),
            (told, theme.caution if short else theme.text))  # fmt: skip
    _say_end(painter, drawing, x + 6.0 * scale, rows)


def _say_end(
    painter: QPainter, drawing: BeamLayout, left: float, rows: Sequence[tuple[str, str]]
) -> None:
    """Write words in colours of their own under each other, about the axis."""
    line = 14.0 * drawing.scale
    painter.setFont(scaled_font(drawing.scale, size_px=11))
    for number, (words, colour) in enumerate(rows):
        painter.setPen(QColor(colour))
        top = drawing.axis_y + (number - len(rows) / 2.0) * line
        room = QRectF(left, top, drawing.width - left, line)
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
    painter.setFont(scaled_font(drawing.scale))


def _paint_doubts(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Mark every length that is not known."""
    painter.setPen(QColor(look.theme.text))
    painter.setFont(scaled_font(drawing.scale, size_px=15, bold=True))
    for tile in drawing.tiles:
        if not tile.known:
            high = 20.0 * drawing.scale
            room = QRectF(tile.box.left(), drawing.axis_y - high - 2.0, tile.box.width(), high)
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, "?")
    painter.setFont(scaled_font(drawing.scale))


def _paint_labels(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Write the names with their marks, each on a pole that stands on its part."""
    theme, scale = look.theme, drawing.scale
    for label in drawing.labels:
        tile, x, box = drawing.tile(label.slot), label.pole_x, label.box
        if tile is not None:
            painter.setPen(QPen(QColor(theme.sheet_line), 1.0))
            top = box.bottom() if x > box.left() + 1.0 else box.top() + 2.0 * scale
            painter.drawLine(QLineF(x, top, x, tile.box.top()))
        painter.setPen(QColor(theme.accent if label.slot == look.chosen else theme.text))
        room = box.adjusted((MARK_PX + 9.0) * scale, 0.0, 2.0, 0.0)
        flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        painter.drawText(room, flags, label.text)
        _mark(painter, look, label.slot, QPointF(box.left() + 5.0 * scale, box.center().y()), scale)


def _mark(painter: QPainter, look: BeamLook, slot: Slot, left: QPointF, scale: float) -> None:
    """Draw the mark of a part's worst finding, its left edge's middle given."""
    level = look.levels.get(slot)
    if level is not None:
        side = MARK_PX * scale
        box = QRectF(left.x(), left.y() - side / 2.0, side, side)
        paint_mark(painter, box, level, level_colour(look.theme, level))


def _paint_chip(painter: QPainter, drawing: BeamLayout, tile: Tile, look: BeamLook) -> None:
    """Draw a part that stands beside the beam, or the place to add one."""
    scale, box = drawing.scale, tile.box
    painter.setBrush(_fill(tile, look))
    pen = _edge(tile, look)
    if tile.slot == ADD:
        pen.setDashPattern(_DASH)
    painter.setPen(pen)
    painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), 3.0, 3.0)
    words = tile.part.name if tile.part is not None else "+ Add a part"
    inset = (10.0 if tile.part is None else MARK_PX + 14.0) * scale
    room = box.adjusted(inset, 0.0, -8.0 * scale, 0.0)
    words = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(room.width()))
    painter.setPen(QColor(look.theme.accent if tile.slot == look.chosen else look.theme.text))
    painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
    _mark(painter, look, tile.slot, QPointF(box.left() + 8.0 * scale, box.center().y()), scale)


def _paint_seam(painter: QPainter, drawing: BeamLayout, look: BeamLook) -> None:
    """Show where a carried part comes: a bold line with a head at both ends."""
    assert look.seam is not None
    x, reach, head = look.seam, drawing.half + 4.0, 5.0 * drawing.scale
    painter.setPen(QPen(QColor(look.theme.accent), 3.0))
    painter.drawLine(QLineF(x, drawing.axis_y - reach, x, drawing.axis_y + reach))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(look.theme.accent))
    for end, way in ((drawing.axis_y - reach, 1.0), (drawing.axis_y + reach, -1.0)):
        tip = [QPointF(x - head, end), QPointF(x + head, end), QPointF(x, end + way * head)]
        painter.drawPolygon(QPolygonF(tip))
