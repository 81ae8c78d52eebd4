"""The bench's modules are imported while nobody waits, in turns with the window."""

import sys

import pytest
from pytestqt.qtbot import QtBot

from app.window import warming
from app.window.warming import Warming

pytestmark = pytest.mark.gui


def test_modules_come_one_a_turn_after_a_rest(qapp, qtbot: QtBot, monkeypatch) -> None:
    seen: list[str] = []
    monkeypatch.setattr(warming, "import_module", seen.append)
    monkeypatch.setattr(warming, "_REST_MS", 0)
    one = Warming(qapp)
    one.left = ["a", "b", "c"]
    one.start()
    assert seen == []
    qtbot.waitUntil(lambda: seen == ["a"])
    assert one.left == ["b", "c"]
    qtbot.waitUntil(lambda: seen == ["a", "b", "c"])
    assert one.left == []


def test_it_can_be_stopped(qapp, qtbot: QtBot, monkeypatch) -> None:
    seen: list[str] = []
    monkeypatch.setattr(warming, "import_module", seen.append)
    monkeypatch.setattr(warming, "_REST_MS", 0)
    one = Warming(qapp)
    one.start()
    one.stop()
    qtbot.wait(60)
    assert seen == []


def test_every_module_is_there_and_the_bench_is_among_them(qapp) -> None:
    for name in Warming(qapp).left:
        __import__(name)
    assert "app.rig_editor.bench" in sys.modules
