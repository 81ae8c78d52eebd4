"""What the bench does to the chosen rig, each as one step to undo with its words."""

from app.session import Session
from core.gear.rig import Rig
from core.plan import edits

__all__ = ["apply", "rename_rig"]


def apply(session: Session, words: str, rig: Rig, *, key: str = "") -> None:
    """Put a rig in the place of the chosen one."""
    planned = session.rig
    if planned is not None:
        said = f"{words} of {session.letter(planned.id)}"
        session.edit(said, edits.with_rig_changed(session.plan, planned.id, rig), key=key)


def rename_rig(session: Session, name: str) -> None:
    """Call the chosen rig something else; BadValueError when that is no name."""
    planned = session.rig
    if planned is not None:
        apply(session, "name", planned.rig.but(name=name))
