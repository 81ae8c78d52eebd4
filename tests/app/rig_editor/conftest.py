"""The bench in a window of its own, on a rig whose every figure is known."""

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QApplication

from app.rig_editor.bench import RigBench
from app.rig_editor.parts_page import PartsPage
from app.session import Session
from app.shared.theme import Theme
from core.gear.rig import Rig
from core.plan import edits
from tests.app.seeing import Host
from tests.core.gear.check_kits import guide_scope, kit, off_axis, spacer, wheel


@pytest.fixture
def bench(session: Session, host: Host, dark: Theme) -> RigBench:
    """A bench on 55 mm of spacer, prism, wheel and camera behind a reducer."""
    rig = kit(spacer(length_mm=10.0), off_axis(length_mm=7.5), wheel(), guide_scope())
    session.edit("add", edits.with_rig(session.plan, rig))
    bench = RigBench(session, dark)
    bench.parts.live.delay_ms = 0
    host(bench, width=1000, height=900)
    return bench


@pytest.fixture
def page(bench: RigBench) -> PartsPage:
    return bench.parts


@pytest.fixture
def rig_now(session: Session) -> Callable[[], Rig]:
    """Give the chosen rig as the plan has it."""

    def now() -> Rig:
        QApplication.processEvents()
        assert session.rig is not None
        return session.rig.rig

    return now
