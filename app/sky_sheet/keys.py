"""The sheet by keyboard: everything a hand can do, in measured steps."""

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from app.session import Session
from app.sky_sheet.picking import choose
from core.plan import edits
from core.sky.angles import wrap_360

if TYPE_CHECKING:
    from app.sky_sheet.sheet import SkySheet

__all__ = ["HELP", "press", "turn", "zoom", "zoom_in_middle"]

HELP = (
    "Arrow keys move the chosen frame, with Shift in fine steps, with Alt they move the sky. "
    "Ctrl with left or right turns the frame by 1 degree, with Shift as well by 0.1 degree. "
    "A letter chooses the frame with that flag, the space bar shows or hides it. "
    "Plus and minus zoom, Home brings the target back, Escape gives a drag up."
)

_ARROWS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0),
    Qt.Key.Key_Down: (0.0, 1.0),
}
_ZOOMS = {
    Qt.Key.Key_Plus: 0.82,
    Qt.Key.Key_Equal: 0.82,
    Qt.Key.Key_Minus: 1 / 0.82,
    Qt.Key.Key_Underscore: 1 / 0.82,
}


def press(sheet: "SkySheet", event: QKeyEvent) -> bool:
    """Do what a key asks for; False when it asks for nothing here."""
    key = Qt.Key(event.key())
    if key in _ARROWS:
        return _arrow(sheet, key, event.modifiers())
    if key in _ZOOMS:
        zoom_in_middle(sheet, _ZOOMS[key])
    elif key == Qt.Key.Key_Home:
        sheet.session.look_at_target()
    elif key == Qt.Key.Key_Space:
        return _show_or_hide(sheet.session)
    else:
        return _letter(sheet, event)
    return True


def turn(session: Session, degrees: float) -> None:
    """Turn the chosen frame, counterclockwise on the sky for more than 0."""
    rig = session.rig
    if rig is None or session.target is None:
        return
    framing = session.framing(rig.id)
    pa_deg = wrap_360(round(framing.pa_deg + degrees, 6))
    turned = framing.model_copy(update={"pa_deg": pa_deg})
    plan = edits.with_framing(session.plan, turned)
    session.edit(f"turn {session.letter(rig.id)}", plan, key=f"turn {rig.id}")


def zoom(sheet: "SkySheet", factor: float, at: QPointF) -> None:
    """Show that many times as much sky, the point under the pointer staying there."""
    sheet.session.set_view(sheet.transform.zoomed(factor, at))


def zoom_in_middle(sheet: "SkySheet", factor: float) -> None:
    """Zoom with the middle of the sheet staying where it is."""
    zoom(sheet, factor, sheet.sky_rect.center())


def _arrow(sheet: "SkySheet", key: Qt.Key, held: Qt.KeyboardModifier) -> bool:
    """Move or turn the frame, or move the sky."""
    dx, dy = _ARROWS[key]
    fine = bool(held & Qt.KeyboardModifier.ShiftModifier)
    if held & Qt.KeyboardModifier.ControlModifier:
        if dx:
            turn(sheet.session, -dx * (0.1 if fine else 1.0))
        return bool(dx)
    rect = sheet.sky_rect
    if held & Qt.KeyboardModifier.AltModifier:
        step = rect.width() * (0.02 if fine else 0.1)
        middle = rect.center()
        moved = sheet.transform.panned(middle, middle - QPointF(dx, dy) * step)
        sheet.session.set_view(moved)
        return True
    return _nudge(sheet, dx, dy, fine=fine)


def _nudge(sheet: "SkySheet", dx: float, dy: float, *, fine: bool) -> bool:
    """Move the chosen frame by a fortieth of its height, or a tenth of that."""
    session, transform = sheet.session, sheet.transform
    rig = session.rig
    if rig is None or session.target is None:
        return False
    framing = session.framing(rig.id)
    height_px = math.radians(rig.rig.height_deg) * transform.px_per_rad
    step = height_px / (400.0 if fine else 40.0)
    x, y = transform.sky_to_screen(framing.ra_deg, framing.dec_deg)[0].tolist()
    if not math.isfinite(x):
        return False
    ra_deg, dec_deg = transform.to_sky(QPointF(x + dx * step, y + dy * step))
    moved = framing.model_copy(update={"ra_deg": ra_deg, "dec_deg": dec_deg})
    plan = edits.with_framing(session.plan, moved)
    session.edit(f"move {session.letter(rig.id)}", plan, key=f"nudge {rig.id}")
    return True


def _show_or_hide(session: Session) -> bool:
    """Show or hide the chosen frame."""
    rig = session.rig
    if rig is None:
        return False
    words = f"{'hide' if rig.shown else 'show'} {session.letter(rig.id)}"
    session.edit(words, edits.with_rig_shown(session.plan, rig.id, shown=not rig.shown))
    return True


def _letter(sheet: "SkySheet", event: QKeyEvent) -> bool:
    """Choose the frame whose flag carries the letter typed."""
    typed = event.text().upper()
    if event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier:
        return False
    for rig in sheet.session.plan.rigs:
        if typed and sheet.session.letter(rig.id) == typed:
            choose(sheet, rig.id)
            return True
    return False
