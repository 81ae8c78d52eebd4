"""Pictures on their way to the sheet: always the newest wish, never in the window's way."""

import logging
import threading
from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QSize, QTimer
from pytestqt.qtbot import QtBot

import app.picture_loader
from app.picture_loader import PictureLoader, SurveyService
from app.session import Session
from app.shared.theme import THEMES
from app.sky_sheet.sheet import SkySheet
from core.pictures.fetch import Servers
from core.pictures.surveys import SURVEYS
from core.plan import edits
from tests.core.pictures.cutout_server import serving, well_mannered

pytestmark = pytest.mark.gui


class Sheet(SkySheet):
    """A sheet on a screen of any fineness, not shown."""

    ratio = 1.0

    def devicePixelRatioF(self) -> float:
        return self.ratio


@pytest.fixture
def sheet(session: Session, qtbot: QtBot) -> Sheet:
    made = Sheet(session, THEMES["dark"])
    qtbot.addWidget(made)
    made.resize(420, 300)
    return made


@pytest.fixture
def loader(session: Session, sheet: Sheet, qtbot: QtBot) -> Iterator[PictureLoader]:
    made = PictureLoader(session, sheet)
    made.words = []
    made.progressed.connect(made.words.append)
    made.refresh()
    settle(made, qtbot)
    yield made
    made.finish()


def settle(loader: PictureLoader, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not loader.busy, timeout=20_000)


def look(session: Session, **fields: object) -> None:
    session.set_view(session.plan.view.model_copy(update=fields))


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


@pytest.fixture
def heart(qtbot: QtBot) -> Iterator[Callable[[], None]]:
    """Wait until the window's thread has answered some times."""
    beats: list[int] = []
    timer = QTimer(interval=2)
    timer.timeout.connect(lambda: beats.append(1))
    timer.start()

    def beat() -> None:
        seen = len(beats)
        qtbot.waitUntil(lambda: len(beats) >= seen + 5)

    yield beat
    timer.stop()


# The chart -----------------------------------------------------------------------


def test_the_window_answers_while_the_sky_is_drawn(
    session, loader, qtbot: QtBot, heart, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, let_go, in_time, threads = threading.Event(), threading.Event(), [], []
    draw = app.picture_loader.draw_chart

    def slow(*args, **options):
        threads.append(threading.get_ident())
        begun.set()
        in_time.append(let_go.wait(8.0))
        return draw(*args, **options)

    monkeypatch.setattr(app.picture_loader, "draw_chart", slow)
    look(session, ra_deg=83.8, dec_deg=-5.4)
    qtbot.waitUntil(begun.is_set, timeout=10_000)
    heart()
    let_go.set()
    settle(loader, qtbot)
    assert in_time == [True], "drawing held the window up"
    assert threading.get_ident() not in threads


def test_another_view_another_size_other_names_are_drawn_anew(
    session, sheet, loader, qtbot: QtBot
) -> None:
    look(session, ra_deg=83.8, dec_deg=-5.4)
    settle(loader, qtbot)
    assert session.chart.frame.plane.ra_deg == 83.8
    assert session.chart.frame == loader.wanted_frame()
    small = session.chart.frame
    sheet.resize(600, 300)
    session.sheet_resized.emit()
    settle(loader, qtbot)
    assert session.chart.frame == loader.wanted_frame() != small
    assert session.marks.outlines
    session.change_view(labels=())
    settle(loader, qtbot)
    assert not session.marks.outlines


def test_the_view_that_came_while_the_sky_was_drawn_is_drawn_next(
    session, loader, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn, begun, let_go = [], threading.Event(), threading.Event()
    draw = app.picture_loader.draw_chart

    def slow(frame, *args, **options):
        drawn.append(frame.plane.ra_deg)
        begun.set()
        let_go.wait(8.0)
        return draw(frame, *args, **options)

    monkeypatch.setattr(app.picture_loader, "draw_chart", slow)
    look(session, ra_deg=10.0)
    qtbot.waitUntil(begun.is_set, timeout=10_000)
    for ra_deg in (11.0, 12.0, 13.0):
        look(session, ra_deg=ra_deg)
    let_go.set()
    settle(loader, qtbot)
    assert drawn == [10.0, 13.0]
    assert session.chart.frame.plane.ra_deg == 13.0


def test_nothing_is_drawn_anew_for_what_the_sheet_has_already(
    session, loader, qtbot: QtBot
) -> None:
    chart = session.chart
    session.edit("hide", edits.with_rig_shown(session.plan, session.rig.id, shown=False))
    settle(loader, qtbot)
    assert session.chart is chart


def test_the_picture_is_as_fine_as_the_screen_and_a_little_wider(loader, sheet) -> None:
    """Two device pixels a logical one: twice the pixels, each half as wide."""
    one = loader.wanted_frame()
    view = sheet.transform.frame
    assert one.scale_rad_px == view.scale_rad_px
    assert 1.2 < one.width_px / view.width_px < 1.3
    sheet.ratio = 2.0
    two = loader.wanted_frame()
    assert two.scale_rad_px == one.scale_rad_px / 2
    assert abs(two.width_px - 2 * one.width_px) <= 4
    sheet.resize(QSize(4000, 3000))
    assert loader.wanted_frame().width_px == 4096


def test_a_mistake_in_drawing_is_said_and_logged(
    session, loader, qtbot: QtBot, monkeypatch, caplog
) -> None:
    said = []
    session.said.connect(lambda words, level: said.append((words, level)))
    monkeypatch.setattr(app.picture_loader, "draw_chart", lambda *_, **__: 1 // 0)
    with caplog.at_level(logging.ERROR):
        look(session, ra_deg=50.0)
        settle(loader, qtbot)
    assert [level for _, level in said] == ["bad"]
    assert "log" in said[0][0]
    assert any(record.exc_info[0] is ZeroDivisionError for record in caplog.records)


def test_after_the_end_nothing_is_drawn(session, loader, qtbot: QtBot) -> None:
    chart = session.chart
    look(session, ra_deg=50.0)
    loader.finish()
    assert not loader.busy
    qtbot.wait(60)
    assert session.chart is chart


# The survey ----------------------------------------------------------------------


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
