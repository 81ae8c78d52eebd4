"""Names above the parts of the beam: in three lines, none over another."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF

from core.gear.slots import Slot

__all__ = ["MARK_PX", "Label", "placed_labels"]

#: Side of the mark before a name, at text size 1.
MARK_PX = 10.0
_LINES, _LINE, _WIDEST, _NARROWEST = 3, 16.0, 190.0, 34.0


@dataclass(frozen=True)
class Label:
    """A name, where it stands, and from where a line leads down to its part."""

    slot: Slot
    text: str
    box: QRectF
    foot_x: float


def placed_labels(
    named: Sequence[tuple[Slot, str, QRectF]],
    right: float,
    scale: float,
    metrics: QFontMetricsF,
) -> tuple[list[Label], float]:
    """Place names over their parts.

    Parameters
    ----------
    named : sequence of (Slot, str, QRectF)
        Parts from left to right.
    right : float
        Where the drawing ends.
    scale : float
        The user's text size.
    metrics : QFontMetricsF
        Of the letters.

    Returns
    -------
    labels : list of Label
        A name is cut where there is little room, and left out where there is none. The
        first line is the lowest.
    height : float
        Of the lines that are used.
    """
    ends = [0.0] * _LINES
    found: list[tuple[Slot, str, int, QRectF, float]] = []
    mark, gap = (MARK_PX + 4.0) * scale, 8.0 * scale
    for slot, name, box in named:
        wide = min(metrics.horizontalAdvance(name) + 1.0, _WIDEST * scale) + mark
        wanted = min(max(box.center().x() - wide / 2.0, 0.0), right - wide)
        line = next((n for n in range(_LINES) if ends[n] + gap <= wanted), None)
        if line is None:
            line = min(range(_LINES), key=lambda n: ends[n])
            wanted = ends[line] + gap
        wide = min(wide, right - wanted)
        if wide < _NARROWEST * scale:
            continue
        ends[line] = wanted + wide
        text = metrics.elidedText(name, Qt.TextElideMode.ElideRight, wide - mark)
        foot_x = min(max(box.center().x(), wanted), wanted + wide)
        found.append((slot, text, line, QRectF(wanted, 0.0, wide, _LINE * scale), foot_x))
    used = max((line for _, _, line, _, _ in found), default=-1) + 1
    labels = [
        Label(slot, text, box.translated(0.0, (used - 1 - line) * _LINE * scale), foot_x)
        for slot, text, line, box, foot_x in found
    ]
    return labels, used * _LINE * scale
