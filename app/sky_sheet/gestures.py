"""What a hand does on the sheet: pan, move a frame, turn it by its stalk.

A gesture begins with a press, follows the pointer and either finishes, as one step
to undo, or is given up with Escape and leaves everything as it was.
"""

import math
from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QPointF, Qt

from app.session import Session
from app.sky_sheet.transform import SheetTransform
from core.framing.fit import suggested_pa
from core.framing.snap import snap_pa
from core.plan.document import Framing, SheetView
from core.sky.tangent_plane import TangentPlane

__all__ = ["Gesture", "Grip", "MoveFrame", "Pan", "TurnFrame", "along_target_deg"]


class Gesture(Protocol):
    """A drag that is going on."""

    def follow(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the pointer."""

    def finish(self) -> None:
        """Let go."""

    def give_up(self) -> None:
        """Leave everything as it was."""


@dataclass
class Grip:
    """A button held down on the sheet.

    Parameters
    ----------
    button : Qt.MouseButton
    point : QPointF
        Where it went down.
    chosen : str or None
        The rig that was chosen before.
    chose : bool
        The press chose another rig, and so did all that a click would do.
    dragged : bool
        The pointer has gone farther than a trembling hand goes.
    """

    button: Qt.MouseButton
    point: QPointF
    chosen: str | None
    chose: bool
    dragged: bool = False


class Pan:
    """Drag the sky."""

    def __init__(self, session: Session, transform: SheetTransform, start: QPointF) -> None:
        self._session = session
        self._transform = transform
        self._start = start
        self._before: SheetView = session.plan.view
        self._moved = False

    def follow(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Keep the sky that was grabbed under the pointer."""
        view = self._transform.panned(self._start, point)
        self._session.set_view(view, remember=not self._moved)
        self._moved = True

    def finish(self) -> None:
        """Stay where the hand left the sky."""

    def give_up(self) -> None:
        """Go back to the view before."""
        self._session.set_view(self._before, remember=False)


class MoveFrame:
    """Drag a frame to another centre."""

    def __init__(self, session: Session, transform: SheetTransform, start: QPointF) -> None:
        rig = session.rig
        assert rig is not None
        self._session = session
        self._transform = transform
        self._start = start
        self._framing: Framing = session.framing(rig.id)
        self._words = f"move {session.letter(rig.id)}"
        x, y = transform.sky_to_screen(self._framing.ra_deg, self._framing.dec_deg)[0]
        self._centre = QPointF(x, y)

    def follow(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Move the centre as far as the pointer went."""
        ra_deg, dec_deg = self._transform.to_sky(self._centre + (point - self._start))
        moved = self._framing.model_copy(update={"ra_deg": ra_deg, "dec_deg": dec_deg})
        self._session.preview(moved)

    def finish(self) -> None:
        """Keep the new centre."""
        self._session.commit_preview(self._words)

    def give_up(self) -> None:
        """Put the frame back."""
        self._session.preview(None)


class TurnFrame:
    """Turn a frame by its stalk; Shift snaps."""

    def __init__(self, session: Session, transform: SheetTransform) -> None:
        rig = session.rig
        assert rig is not None
        self._session = session
        self._transform = transform
        self._framing: Framing = session.framing(rig.id)
        self._words = f"turn {session.letter(rig.id)}"
        self._also = along_target_deg(session)
        plane = TangentPlane(self._framing.ra_deg, self._framing.dec_deg)
        self._east, self._north, _ = plane.basis.tolist()

    def follow(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Point the sensor's up at the pointer."""
        pa_deg = self._pa_deg(point)
        if keys & Qt.KeyboardModifier.ShiftModifier:
            pa_deg = snap_pa(pa_deg, also_deg=self._also)
        self._session.preview(self._framing.model_copy(update={"pa_deg": pa_deg}))

    def _pa_deg(self, point: QPointF) -> float:
        """Position angle of the pointer seen from the centre, which does not move."""
        direction = self._transform.direction(point)
        east = sum(a * b for a, b in zip(self._east, direction, strict=True))
        north = sum(a * b for a, b in zip(self._north, direction, strict=True))
        return math.degrees(math.atan2(east, north)) % 360.0 % 360.0

    def finish(self) -> None:
        """Keep the new angle."""
        self._session.commit_preview(self._words)

    def give_up(self) -> None:
        """Turn the frame back."""
        self._session.preview(None)


def along_target_deg(session: Session) -> tuple[float, ...]:
    """Give the angles at which the chosen frame lies along the target, both ways up."""
    rig, target = session.rig, session.target
    if rig is None or target is None or not target.angle_trusted:
        return ()
    best = suggested_pa(target, rig.rig.width_deg, rig.rig.height_deg)
    return (best, best + 180.0)
