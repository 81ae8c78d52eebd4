"""A side panel on the screen with the demo plan."""

import pytest

from app.session import Session
from app.shared.theme import Theme
from app.side_panel.panel import SidePanel
from tests.app.seeing import Host


@pytest.fixture
def panel(session: Session, host: Host, dark: Theme) -> SidePanel:
    panel = SidePanel(session, dark)
    panel.live.delay_ms = 0
    host(panel, width=330, height=1100)
    return panel
