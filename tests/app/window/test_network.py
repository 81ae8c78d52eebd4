"""The sky by network, with good and bad weather, as the whole window shows it."""

import threading
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.window.places import Places
from core.pictures.cache import PictureCache
from core.pictures.surveys import SURVEYS
from tests.app.window.hands import (
    CTRL,
    choose_survey,
    message,
    stop_button,
    use_service,
    wait_for_pictures,
)
from tests.core.pictures.cutout_server import serving, well_mannered

pytestmark = pytest.mark.gui


def test_a_survey_comes_and_is_credited(open_window, qtbot: QtBot) -> None:
    shell = open_window()
    with serving() as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
    session = shell.workbench.session
    assert session.survey is not None
    assert session.credit == SURVEYS[0].credit
    assert server.questions[-1]["hips"] == SURVEYS[0].id
    assert SURVEYS[0].name in shell.workbench.bar.sky.text()


def test_a_survey_picture_lies_right_way_round_on_the_sheet(open_window, qtbot: QtBot) -> None:
    """The loopback's pattern: red grows to the east, green to the north."""
    shell = open_window()
    with serving() as (address, _):
        use_service(shell, address)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
    sheet = shell.workbench.sheet
    session = shell.workbench.session
    session.edit("bare", session.plan.but(rigs=(), framings=(), current_rig=None))
    session.change_view(labels=(), graticule=False)
    wait_for_pictures(shell, qtbot)
    image, middle = sheet.grab().toImage(), sheet.sky_rect.center()

    def at(dx: int, dy: int):
        return image.pixelColor((middle + QPointF(dx, dy)).toPoint())

    assert at(-200, 30).red() > at(200, 30).red() + 30
    assert at(30, -150).green() > at(30, 150).green() + 30


@pytest.mark.parametrize(
    ("manners", "word"),
    [
        (lambda h, q: h.answer(b'{"title":"Bad","description":"no such survey"}', 404), "no such"),
        (lambda h, q: h.answer(b"<html>oops</html>", 500, "text/html"), "500"),
        (lambda h, q: h.answer(b"\xff\xd8\xff not a picture"), ""),
        (lambda h, q: h.answer(b""), ""),
    ],
    ids=["refused", "broken", "garbage", "empty"],
)
def test_a_rude_survey_service_leaves_the_chart_and_one_line(
    open_window, qtbot: QtBot, manners, word: str
) -> None:
    shell = open_window()
    chart = shell.workbench.session.chart
    with serving(manners) as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
        qtbot.wait(700)
        assert len(server.questions) == 1, "a refusal is not asked for again by itself"
        QTest.keyClick(shell, Qt.Key.Key_F5)
        qtbot.waitUntil(lambda: len(server.questions) == 2, timeout=10_000)
        wait_for_pictures(shell, qtbot)
    session = shell.workbench.session
    assert session.survey is None
    assert session.chart is chart
    assert "catalogues" in session.credit
    assert SURVEYS[0].name in message(shell)
    assert "drawn sky" in message(shell)
    assert word in message(shell)


def test_an_absent_service_leaves_the_chart_and_one_line(open_window, qtbot: QtBot) -> None:
    shell = open_window()
    use_service(shell, "http://127.0.0.1:9/cutout")
    choose_survey(shell)
    wait_for_pictures(shell, qtbot)
    assert shell.workbench.session.survey is None
    assert "drawn sky" in message(shell)


def test_a_slow_service_can_be_stopped_and_the_window_answers_meanwhile(
    open_window, qtbot: QtBot
) -> None:
    held = threading.Event()

    def slow(handler, question) -> None:
        held.wait(10.0)
        well_mannered(handler, question)

    shell = open_window()
    bench = shell.workbench
    with serving(slow) as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        stop = stop_button(shell)
        assert stop.isVisible()
        before = bench.session.framing(bench.session.rig.id).pa_deg
        QTest.keyClick(bench.sheet, Qt.Key.Key_Left, CTRL)
        assert bench.session.framing(bench.session.rig.id).pa_deg != before
        QTest.mouseClick(stop, Qt.MouseButton.LeftButton)
        wait_for_pictures(shell, qtbot)
        held.set()
    assert bench.session.survey is None
    assert not stop.isVisible()


def test_a_picture_brought_once_is_there_without_a_network(
    open_window, qtbot: QtBot, tmp_path: Path
) -> None:
    shell = open_window()
    cache = PictureCache(tmp_path / "pictures", limit_bytes=10**8)
    session = shell.workbench.session
    with serving() as (address, _):
        use_service(shell, address, cache)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
    first = session.survey
    session.change_view(picture="chart")
    wait_for_pictures(shell, qtbot)
    assert session.survey is None
    use_service(shell, "http://127.0.0.1:9/cutout", cache)
    choose_survey(shell)
    wait_for_pictures(shell, qtbot)
    assert np.array_equal(session.survey.pixels, first.pixels)


def test_cutouts_are_kept_among_the_user_s_pictures(open_window, places: Places) -> None:
    cache = open_window(settle=False).workbench.loader.service.cache
    assert cache is not None
    assert cache.folder == places.pictures


def test_closing_gives_up_what_is_on_its_way(open_window, qtbot: QtBot) -> None:
    shell = open_window(settle=False)
    with serving() as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        shell.close()
        qtbot.wait(600)  # a view is asked for when it has rested 450 ms
    assert server.questions == []
