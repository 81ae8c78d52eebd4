"""Names above the parts of the beam, like flags on poles: no pole crosses a name.

A name begins at its pole, which stands on its part. From the right to the left each takes
the lowest line where there is room, so that poles stand left of all names below.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF

from core.gear.slots import Slot

__all__ = ["MARK_PX", "Label", "placed_labels"]

#: Side of the mark before a name, at text size 1.
MARK_PX = 10.0
_LINES, _LINE, _WIDEST, _NARROWEST = 4, 16.0, 200.0, 34.0
#: From the left edge of a part to its pole, at most.
_INSET = 12.0


@dataclass(frozen=True)
class Label:
    """A name, where it stands, and where its pole does."""

    slot: Slot
    text: str
    box: QRectF
    pole_x: float


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
        From left to right. A name is cut where there is little room, and left out where
        there is none.
    height : float
        Of the lines that are used.
    """
    starts = [right + 8.0 * scale] * _LINES
    mark, gap = (MARK_PX + 9.0) * scale, 8.0 * scale
    found: list[tuple[Slot, str, int, QRectF, float]] = []
    poles = [box.left() + min(_INSET * scale, box.width() / 2.0) for _, _, box in named]
    before_last = poles[-2] + gap if len(poles) > 1 else 0.0
    for (slot, name, _), pole in reversed(list(zip(named, poles, strict=True))):
        full = min(metrics.horizontalAdvance(name) + 1.0, _WIDEST * scale) + mark
        left = pole if found else min(pole, max(right - full, before_last))
        rooms = [start - gap - left for start in starts]
        line = next((n for n, room in enumerate(rooms) if room >= full), None)
        if line is None:
            line = rooms.index(max(rooms))
        wide = min(full, rooms[line])
        if wide < _NARROWEST * scale:
            continue
        starts[: line + 1] = [left] * (line + 1)
        text = metrics.elidedText(name, Qt.TextElideMode.ElideRight, wide - mark)
        found.append((slot, text, line, QRectF(left, 0.0, wide, _LINE * scale), pole))
    used = max((line for _, _, line, _, _ in found), default=-1) + 1
    labels = [
        Label(slot, text, box.translated(0.0, (used - 1 - line) * _LINE * scale), pole)
        for slot, text, line, box, pole in reversed(found)
    ]
    return labels, used * _LINE * scale
