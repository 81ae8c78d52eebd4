"""The pages of money and nights, each on the screen with the demo plan."""

from collections.abc import Iterator

import pytest

from app.rig_money.nights import NightsPage
from app.rig_money.step import StepPage
from app.rig_money.swaps import SwapsPage
from app.session import Session
from app.shared.theme import Theme
from tests.app.rig_money.hands import choose
from tests.app.seeing import Host


@pytest.fixture
def nights(session: Session, host: Host, dark: Theme) -> NightsPage:
    page = NightsPage(session, dark)
    host(page, width=960, height=700)
    return page


@pytest.fixture
def swaps(session: Session, host: Host, dark: Theme) -> Iterator[SwapsPage]:
    """The page of the third rig, whose cheapest is found quickly."""
    choose(session, 2)
    page = SwapsPage(session, dark)
    host(page, width=1000, height=900)
    yield page
    page.search.give_up()


@pytest.fixture
def step(session: Session, host: Host, dark: Theme) -> StepPage:
    choose(session, 2)
    page = StepPage(session, dark)
    host(page, width=960, height=900)
    return page
