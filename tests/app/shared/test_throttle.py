"""The throttle: the first wish at once, the last one never lost."""

from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.shared.throttle import Throttle


def test_the_first_wish_is_fulfilled_at_once(qtbot: QtBot) -> None:
    owner, calls = QObject(), []
    throttle = Throttle(lambda: calls.append(1), 10_000, owner)
    throttle.ask()
    assert len(calls) == 1
    throttle.ask()
    assert len(calls) == 1
    assert throttle.waiting


def test_many_wishes_become_the_first_and_the_last(qtbot: QtBot) -> None:
    owner, seen, value = QObject(), [], [0]
    throttle = Throttle(lambda: seen.append(value[0]), 15, owner)
    for number in range(50):
        value[0] = number
        throttle.ask()
    qtbot.waitUntil(lambda: not throttle.waiting)
    assert seen == [0, 49]


def test_a_dropped_wish_is_not_fulfilled(qtbot: QtBot) -> None:
    owner, calls = QObject(), []
    throttle = Throttle(lambda: calls.append(1), 5, owner)
    throttle.ask()
    throttle.ask()
    throttle.drop()
    qtbot.wait(30)
    assert len(calls) == 1


def test_a_delay_of_nothing_switches_the_throttle_off(qtbot: QtBot) -> None:
    owner, calls = QObject(), []
    throttle = Throttle(lambda: calls.append(1), 0, owner)
    for _ in range(3):
        throttle.ask()
    assert len(calls) == 3
