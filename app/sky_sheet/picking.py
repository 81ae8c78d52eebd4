"""What lies under the pointer, and which gesture a press begins.

A press on the flag turns, on the chosen frame moves it, on another frame's line
chooses that frame and moves it, on the sky pans; the middle button always
pans, and so does a press inside a chosen frame larger than the sheet, which has no sky
beside it. A click without a way chooses the smallest frame there, then the next.
"""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt

from app.sky_sheet.frame_shape import FrameShape, Part
from app.sky_sheet.gestures import Gesture, MoveFrame, Pan, TurnFrame
from core.plan import edits

if TYPE_CHECKING:
    from app.sky_sheet.sheet import SkySheet

__all__ = ["begin", "choose", "choose_again", "click", "cursor_at", "is_click", "point_frame_at"]

_CLICK_PX = 4.0


def begin(sheet: "SkySheet", point: QPointF, button: Qt.MouseButton) -> Gesture | None:
    """Begin the gesture that belongs to a press; none for the button of the menu."""
    if button not in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
        return None
    session, transform = sheet.session, sheet.transform
    if button == Qt.MouseButton.LeftButton:
        rig_id, part = _grabbed(sheet, point)
        if rig_id and rig_id != session.plan.current_rig:
            choose(sheet, rig_id)
        if part is Part.STALK:
            return TurnFrame(session, transform)
        if part is not Part.NOTHING:
            return MoveFrame(session, transform, point)
    return Pan(session, transform, point)


def click(sheet: "SkySheet", point: QPointF, button: Qt.MouseButton) -> None:
    """Choose the smallest frame under a click, or the next larger one."""
    if button != Qt.MouseButton.LeftButton:
        return
    shapes = sorted(_shapes(sheet), key=lambda shape: shape.area)
    flagged = [s.rig_id for s in shapes if s.hit(point) is Part.STALK]
    under = flagged or [s.rig_id for s in shapes if s.hit(point) is not Part.NOTHING]
    if not under:
        return
    chosen = sheet.session.plan.current_rig
    place = under.index(chosen) + 1 if chosen in under else 0
    choose(sheet, under[place % len(under)])


def choose(sheet: "SkySheet", rig_id: str) -> None:
    """Make a rig the chosen one."""
    session = sheet.session
    plan = edits.with_current_rig(session.plan, rig_id)
    session.edit(f"choose {session.letter(rig_id)}", plan, key="choose rig")


def choose_again(sheet: "SkySheet", rig_id: str | None) -> None:
    """Go back to the rig that was chosen before a click, if it is still there."""
    if rig_id is not None and rig_id in {rig.id for rig in sheet.session.plan.rigs}:
        choose(sheet, rig_id)


def point_frame_at(sheet: "SkySheet", point: QPointF) -> None:
    """Bring the chosen frame's centre to a point."""
    session = sheet.session
    rig = session.rig
    if rig is None:
        return
    ra_deg, dec_deg = sheet.transform.to_sky(point)
    moved = session.framing(rig.id).model_copy(update={"ra_deg": ra_deg, "dec_deg": dec_deg})
    session.edit(f"move {session.letter(rig.id)}", edits.with_framing(session.plan, moved))


def is_click(press: QPointF, release: QPointF) -> bool:
    """Tell whether the pointer hardly moved between press and release."""
    way = release - press
    return abs(way.x()) < _CLICK_PX and abs(way.y()) < _CLICK_PX


def cursor_at(sheet: "SkySheet", point: QPointF) -> Qt.CursorShape:
    """Say by the cursor what a press would do."""
    _, part = _grabbed(sheet, point)
    if part is Part.STALK:
        return Qt.CursorShape.PointingHandCursor
    if part is Part.NOTHING:
        return Qt.CursorShape.OpenHandCursor
    return Qt.CursorShape.SizeAllCursor


def _grabbed(sheet: "SkySheet", point: QPointF) -> tuple[str, Part]:
    """Which frame a press takes hold of, and where; ("", NOTHING) for the sky."""
    shapes = _shapes(sheet)
    for shape in shapes:
        if shape.hit(point) is Part.STALK:
            return shape.rig_id, Part.STALK
    chosen = sheet.session.plan.current_rig
    for shape in shapes:
        part = shape.hit(point)
        if shape.rig_id == chosen and part is not Part.NOTHING:
            covers_all = part is Part.BODY and shape.hides(sheet.sky_rect)
            return ("", Part.NOTHING) if covers_all else (shape.rig_id, part)
    for shape in shapes:
        if shape.hit(point) is Part.EDGE:
            return shape.rig_id, Part.EDGE
    return "", Part.NOTHING


def _shapes(sheet: "SkySheet") -> list[FrameShape]:
    """The frames on the screen, the chosen one first."""
    return list(sheet.layers.shapes(sheet.transform).values())
