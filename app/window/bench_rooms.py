"""The rig bench with all its pages, built when it is first opened."""

from app.rig_editor.bench import RigBench
from app.rig_money.nights import NightsPage
from app.rig_money.step import StepPage
from app.rig_money.swaps import SwapsPage
from app.session import Session
from app.shared.theme import Theme

__all__ = ["furnished_bench"]


def furnished_bench(session: Session, theme: Theme, scale: float) -> RigBench:
    """Build the bench and put the pages of the other rooms on it."""
    bench = RigBench(session, theme, scale)
    bench.add_page("Swaps", SwapsPage(session, theme, scale))
    bench.add_page("Next step", StepPage(session, theme, scale))
    bench.add_page("Nights", NightsPage(session, theme, scale))
    return bench
