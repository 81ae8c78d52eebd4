"""Takes the figures of a frame into the plan, as one step that can be undone."""

from collections.abc import Collection

from app.session import Session
from core.errors import BadValueError
from core.gear.from_frame.figure import FIELDS
from core.gear.from_frame.figures import FrameFigures
from core.gear.rig import Rig
from core.plan import edits

__all__ = ["add_as_rig", "change_rig", "now_of", "number_typed"]


def add_as_rig(session: Session, figures: FrameFigures, left: Collection[str]) -> None:
    """Add a rig and choose it.

    Parameters
    ----------
    session : Session
    figures : FrameFigures
    left : collection of str
        Fields not to take.

    Raises
    ------
    CoreError
        When the figures make no rig; nothing is changed.
    """
    rig = figures.to_rig(leaving=left)
    session.edit(f"rig from {figures.file}", edits.with_rig(session.plan, rig))
    session.say(f"{rig.name} is in the plan, from {figures.file}.", "good")


def change_rig(session: Session, figures: FrameFigures, taken: Collection[str]) -> None:
    """Put figures into the chosen rig; raises as `add_as_rig`."""
    planned = session.rig
    if planned is None:
        return
    rig = figures.changed(planned.rig, taken)
    if rig == planned.rig:
        session.say(f"{rig.name} has these figures already.")
        return
    words = f"figures of {figures.file} for {session.letter(planned.id)}"
    session.edit(words, edits.with_rig_changed(session.plan, planned.id, rig))
    listed = ", ".join(FIELDS[field][0] for field in FIELDS if field in taken)
    session.say(f"{rig.name} has from {figures.file}: {listed}.", "good")


def number_typed(field: str, text: str) -> float | int:
    """Read what was typed for a figure; a decimal comma and the unit are fine.

    Raises
    ------
    BadValueError
        When it is no number, or no whole one where pixels are counted.
    """
    words, unit = FIELDS[field]
    plain = text.strip().removesuffix(unit).strip().replace(",", ".")
    try:
        return int(plain) if field in ("columns", "rows") else float(plain)
    except ValueError:
        kind = "a whole number" if field in ("columns", "rows") else "a number"
        raise BadValueError(words, text, f"must be {kind} of {unit}") from None


def now_of(rig: Rig | None, field: str) -> str:
    """Say what a rig has for a figure; empty where there is no rig or it is not known."""
    if rig is None:
        return ""
    values = {
        "focal_length_mm": rig.focal_length_mm,
        "aperture_mm": rig.aperture_mm,
        "pixel_um": rig.camera.pixel_um,
        "columns": rig.camera.columns,
        "rows": rig.camera.rows,
        "sensor": rig.camera.sensor,
        "cooled": {True: "cooled", False: "not cooled", None: None}[rig.camera.cooled],
        "telescope": rig.telescope.name,
        "camera": rig.camera.name,
    }
    value = values[field]
    if value is None:
        return "not known"
    return value if isinstance(value, str) else f"{value:.6g} {FIELDS[field][1]}"
