"""Draws the ruler of the back focus: what the optics need against what the chain has.

Two bands on one scale begin at the last optical surface: the length needed, glass counted,
and the length present, part by part. What is missing or too much is hatched, said in mm and
in words, and marked by the shape of its finding.
"""

from itertools import pairwise

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from app.rig_editor.beam_layout import BeamLayout
from app.shared.theme import Theme, scaled_font
from app.words.finding_mark import level_colour, paint_mark
from core.gear.rig import Rig

__all__ = ["difference_words", "needed_words", "paint_ruler", "present_words", "ruler_steps"]

#: Between two ticks, and between two numbers, at least.
_TICK_PX, _NUMBER_PX = 5.0, 30.0
_LEFT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
_RIGHT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight


def needed_words(drawing: BeamLayout) -> str:
    """Say what the optics need behind them."""
    optics = drawing.rig.corrector or drawing.rig.telescope
    if optics.back_focus_mm is None:
        free = getattr(optics, "back_focus_fixed", None) is False
        return "the focuser sets it" if free else "not known"
    required = drawing.focus.required_mm
    if required is None:
        return f"{optics.back_focus_mm:g} mm and the glass, not known"
    glass = required - optics.back_focus_mm
    more = f", {glass:.1f} for glass" if glass >= 0.05 else ""
    return f"{required:.1f} mm{more}"


def present_words(drawing: BeamLayout) -> str:
    """Say what the chain has."""
    present = drawing.focus.present_mm
    return "not known: a length is missing" if present is None else f"{present:.1f} mm"


def difference_words(drawing: BeamLayout) -> str:
    """Say what is missing or too much; "" where that is not known."""
    missing = drawing.focus.missing_mm
    if missing is None:
        return ""
    if abs(missing) < 0.05:
        return "exact"
    return f"{abs(missing):.1f} mm {'missing' if missing > 0.0 else 'too long'}"


def paint_ruler(painter: QPainter, drawing: BeamLayout, theme: Theme, level: str | None) -> None:
    """Draw scale, bands and the difference.

    Parameters
    ----------
    painter : QPainter
    drawing : BeamLayout
    theme : Theme
    level : str or None
        Of the finding about the back focus; None without one.
    """
    scale, box = drawing.scale, drawing.ruler
    line = 17.0 * scale
    needed = QRectF(0.0, box.top() + 17.0 * scale, drawing.width, line)
    present = needed.translated(0.0, line + 3.0 * scale)
    painter.setFont(scaled_font(scale, size_px=11))
    rig = drawing.rig
    _caption(painter, drawing, theme, needed, "Back focus needed")
    _caption(painter, drawing, theme, present, "present")
    if drawing.focus.required_mm is not None:
        end = drawing.x_of(drawing.focus.required_mm)
        _band(painter, QRectF(drawing.rear_x, needed.top(), end - drawing.rear_x, line), theme)
    _say(painter, drawing, theme, needed, needed_words(drawing))
    _paint_present(painter, drawing, theme, present)
    room = drawing.sensor_x - drawing.rear_x - 12.0 * scale
    said = present_words(drawing)
    if painter.fontMetrics().horizontalAdvance(said) <= room or drawing.focus.missing_mm is None:
        _say(painter, drawing, theme, present, said)
    if drawing.focus.missing_mm is not None and not _free(rig):
        _paint_difference(painter, drawing, theme, (present, level or "good"))
    _paint_scale(painter, drawing, theme, present.bottom() + 2.0 * scale)
    painter.setFont(scaled_font(scale))


def _free(rig: Rig) -> bool:
    """Tell whether the focuser sets the distance."""
    return rig.corrector is None and rig.telescope.back_focus_mm is None


def _caption(painter: QPainter, drawing: BeamLayout, theme: Theme, row: QRectF, words: str) -> None:
    """Name a band, to its left."""
    painter.setPen(QColor(theme.quiet))
    room = QRectF(0.0, row.top(), drawing.rear_x - 8.0 * drawing.scale, row.height())
    painter.drawText(room, _RIGHT, words)


def _say(painter: QPainter, drawing: BeamLayout, theme: Theme, row: QRectF, words: str) -> None:
    """Write into a band; behind its end where it is too short for the words."""
    painter.setPen(QColor(theme.text))
    inset = 6.0 * drawing.scale
    left, needed = drawing.rear_x + inset, drawing.focus.required_mm
    end = drawing.x_of(needed) if needed is not None else drawing.width
    if painter.fontMetrics().horizontalAdvance(words) > end - left - inset:
        left = end + inset
    room = QRectF(left, row.top(), drawing.width - left, row.height())
    right = Qt.TextElideMode.ElideRight
    painter.drawText(room, _LEFT, painter.fontMetrics().elidedText(words, right, int(room.width())))


def _band(painter: QPainter, box: QRectF, theme: Theme) -> None:
    """Draw one band."""
    painter.setPen(QPen(QColor(theme.sheet_line), 1.0))
    painter.setBrush(QColor(theme.field))
    painter.drawRect(box)


def _paint_present(painter: QPainter, drawing: BeamLayout, theme: Theme, row: QRectF) -> None:
    """Draw the lengths that are there, a line between two parts."""
    edges = [drawing.rear_x]
    for tile in drawing.tiles:
        if tile.role == "beam":
            edges.append(tile.box.right())
    edges.append(drawing.sensor_x)
    _band(painter, QRectF(edges[0], row.top(), edges[-1] - edges[0], row.height()), theme)
    pen = QPen(QColor(theme.sheet_line), 1.0)
    if drawing.focus.present_mm is None:
        pen.setDashPattern([4.0, 3.0])
    painter.setPen(pen)
    for _, edge in pairwise(edges):
        painter.drawLine(QLineF(edge, row.top(), edge, row.bottom()))


def _paint_difference(
    painter: QPainter, drawing: BeamLayout, theme: Theme, what: tuple[QRectF, str]
) -> None:
    """Hatch what is missing or too much, and say it with its mark."""
    row, level = what
    focus, scale = drawing.focus, drawing.scale
    assert focus.required_mm is not None
    assert focus.present_mm is not None
    colour = QColor(level_colour(theme, level))
    start, end = sorted((drawing.x_of(focus.required_mm), drawing.x_of(focus.present_mm)))
    gap = QRectF(start, row.top(), max(end - start, 1.0), row.height())
    painter.setPen(QPen(colour, 1.5))
    painter.setBrush(QBrush(colour, Qt.BrushStyle.BDiagPattern))
    painter.drawRect(gap)
    side = 10.0 * scale
    left = end + 6.0 * scale
    mark = QRectF(left, row.center().y() - side / 2.0, side, side)
    paint_mark(painter, mark, level, colour.name())
    painter.setPen(colour)
    room = QRectF(left + side + 4.0 * scale, row.top(), drawing.width - left, row.height())
    words = difference_words(drawing)
    if level == "good" and words != "exact":
        words = f"fits to {words.split(' ')[0]} mm"
    painter.drawText(room, _LEFT, words)


def ruler_steps(px_mm: float) -> tuple[int, int]:
    """Choose how many millimetres stand between two ticks, and between two numbers.

    Parameters
    ----------
    px_mm : float
        Pixels a millimetre, at text size 1.

    Examples
    --------
    >>> ruler_steps(9.0), ruler_steps(2.0), ruler_steps(0.05)
    ((1, 10), (5, 20), (100, 1000))
    """
    sizes = [mantissa * 10**power for power in range(16) for mantissa in (1, 2, 5)]
    ticks = (size for size in sizes if size * px_mm >= _TICK_PX and str(size)[0] != "2")
    step = next(ticks, sizes[-1])
    numbers = (size for size in sizes if size >= 10 and size * px_mm >= _NUMBER_PX)
    return step, next(numbers, step)


def _paint_scale(painter: QPainter, drawing: BeamLayout, theme: Theme, top: float) -> None:
    """Draw millimetres under the bands, a number at every tenth or more."""
    scale = drawing.scale
    last = (drawing.width - 30.0 * scale - drawing.rear_x) / drawing.px_mm
    step, named = ruler_steps(drawing.px_mm / scale)
    reach = max(
        drawing.focus.required_mm or 0.0, (drawing.sensor_x - drawing.rear_x) / drawing.px_mm
    )
    painter.setPen(QPen(QColor(theme.quiet), 1.0))
    for mm in range(0, int(min(last, reach + step)) + 1, step):
        x = drawing.x_of(mm)
        high = 6.0 if mm % named == 0 else 3.0
        painter.drawLine(QLineF(x, top, x, top + high * scale))
        if mm % named == 0:
            room = QRectF(x - 30.0 * scale, top + 6.0 * scale, 60.0 * scale, 14.0 * scale)
            words = f"{mm} mm" if mm == 0 else f"{mm}"
            painter.drawText(room, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop, words)
