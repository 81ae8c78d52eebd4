"""The drawn sky on its way to the sheet: always the newest wish, never in the window's way."""

import logging
import threading

import pytest
from PySide6.QtCore import QSize
from pytestqt.qtbot import QtBot

import app.picture_loader
from core.plan import edits
from tests.app.picture_loader.hands import look, settle

pytestmark = pytest.mark.gui


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
