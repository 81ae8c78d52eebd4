"""The rig bench with all its pages, built when it is first opened."""

from app.rig_editor.bench import RigBench
from app.session import Session
from app.shared.theme import Theme

__all__ = ["furnished_bench"]


def furnished_bench(session: Session, theme: Theme, scale: float) -> RigBench:
    """Build the bench and put the pages of the other rooms on it."""
    return RigBench(session, theme, scale)
