"""A survey's picture on its way: what is left, stopped or refused never comes late."""

import threading

import pytest
from pytestqt.qtbot import QtBot

from app.picture_loader import PictureLoader, SurveyService
from app.session import Session
from core.pictures.fetch import Servers
from core.pictures.surveys import SURVEYS
from core.plan import edits
from tests.app.picture_loader.hands import look, settle
from tests.core.pictures.cutout_server import serving, well_mannered

pytestmark = pytest.mark.gui


def ask(loader: PictureLoader, session: Session, address: str, place: int = 0) -> None:
    loader.service = SurveyService(Servers((address,)))
    session.change_view(picture=SURVEYS[place].id)


class Holding:
    """A service that keeps each answer back until it is told."""

    def __init__(self) -> None:
        self.let_go = threading.Event()
        self.in_time: list[bool] = []

    def __call__(self, handler, question) -> None:
        self.in_time.append(self.let_go.wait(8.0))
        well_mannered(handler, question)


def test_the_window_answers_while_a_slow_service_is_asked(
    session, loader, qtbot: QtBot, heart
) -> None:
    slow = Holding()
    with serving(slow) as (address, server):
        ask(loader, session, address)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        heart()
        slow.let_go.set()
        settle(loader, qtbot)
    assert slow.in_time == [True], "asking held the window up"
    assert session.survey is not None


def test_what_is_on_its_way_is_told_until_it_is_there(session, loader, qtbot: QtBot) -> None:
    with serving() as (address, _):
        ask(loader, session, address)
        settle(loader, qtbot)
    assert SURVEYS[0].name in " ".join(loader.words)
    assert any("MB" in words for words in loader.words)
    assert loader.words[-1] == ""


def test_after_a_refusal_nothing_is_on_its_way_and_only_a_wish_asks_again(
    session, loader, qtbot: QtBot
) -> None:
    with serving(lambda h, q: h.answer(b"", 500)) as (address, server):
        ask(loader, session, address)
        settle(loader, qtbot)
        assert loader.words[-1] == ""
        loader.refresh()
        session.edit("hide", edits.with_rig_shown(session.plan, session.rig.id, shown=False))
        assert not loader.busy
        loader.ask_again()
        settle(loader, qtbot)
    assert len(server.questions) == 2


def test_another_survey_takes_the_picture_of_the_one_before_away_at_once(
    session, loader, qtbot: QtBot
) -> None:
    with serving() as (address, _):
        ask(loader, session, address)
        settle(loader, qtbot)
        assert session.survey.source == SURVEYS[0].id
        ask(loader, session, address, place=1)
        assert session.survey is None
        settle(loader, qtbot)
    assert session.survey.source == SURVEYS[1].id


def test_the_drawn_sky_takes_the_survey_away_and_gives_up_what_is_on_its_way(
    session, loader, qtbot: QtBot
) -> None:
    slow = Holding()
    with serving(slow) as (address, server):
        ask(loader, session, address)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        session.change_view(picture="chart")
        assert loader.words[-1] == ""
        slow.let_go.set()
        settle(loader, qtbot)
        assert session.survey is None
        ask(loader, session, address)
        settle(loader, qtbot)
        session.change_view(picture="chart")
        assert session.survey is None


def test_what_was_stopped_does_not_come_late_nor_by_itself(session, loader, qtbot: QtBot) -> None:
    slow = Holding()
    with serving(slow) as (address, server):
        ask(loader, session, address)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        loader.stop_fetching()
        assert loader.words[-1] == ""
        slow.let_go.set()
        settle(loader, qtbot)
        assert session.survey is None
        loader.refresh()
        assert not loader.busy
        look(session, ra_deg=12.0)
        settle(loader, qtbot)
        assert session.survey.frame.plane.ra_deg == 12.0


def test_stopping_before_the_question_is_asked_asks_none(session, loader, qtbot: QtBot) -> None:
    with serving() as (address, server):
        ask(loader, session, address)
        loader.stop_fetching()
        settle(loader, qtbot)
        qtbot.wait(600)  # a view is asked for when it has rested 450 ms
    assert server.questions == []


def test_a_picture_of_a_place_left_meanwhile_is_not_shown(session, loader, qtbot: QtBot) -> None:
    slow, shown = Holding(), []
    session.picture_changed.connect(
        lambda: shown.append(session.survey.frame.plane.ra_deg) if session.survey else None
    )
    with serving(slow) as (address, server):
        ask(loader, session, address)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        look(session, ra_deg=12.0)
        slow.let_go.set()
        settle(loader, qtbot)
    assert set(shown) == {12.0}


def test_going_back_gives_up_the_picture_of_the_place_one_leaves(
    session, loader, qtbot: QtBot
) -> None:
    """Regression: the picture of the other place came late and took this one's place."""
    slow = Holding()
    slow.let_go.set()
    with serving(slow) as (address, server):
        ask(loader, session, address)
        settle(loader, qtbot)
        here = session.survey
        slow.let_go.clear()
        look(session, ra_deg=12.0)
        qtbot.waitUntil(lambda: len(server.questions) == 2, timeout=10_000)
        session.step_view(back=True)
        assert loader.words[-1] == ""
        slow.let_go.set()
        settle(loader, qtbot)
        qtbot.wait(50)
    assert session.survey is here
    assert len(server.questions) == 2


def test_turning_a_frame_does_not_ask_anew_for_the_picture_on_its_way(
    session, loader, qtbot: QtBot
) -> None:
    """Regression: each step of a frame threw the half-brought picture away."""
    slow = Holding()
    with serving(slow) as (address, server):
        ask(loader, session, address)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        session.edit("hide", edits.with_rig_shown(session.plan, session.rig.id, shown=False))
        slow.let_go.set()
        settle(loader, qtbot)
    assert len(server.questions) == 1
    assert session.survey is not None
