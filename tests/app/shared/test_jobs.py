"""Work beside the window: the newest wish wins, in the window's own thread."""

import threading

import pytest
from PySide6.QtCore import QThread
from pytestqt.qtbot import QtBot

from app.shared.jobs import Answers, Job, Lane
from core.errors import Cancelled, PictureError

pytestmark = pytest.mark.gui


@pytest.fixture
def lane(qtbot: QtBot):
    made = Lane()
    yield made
    made.finish()


class Ears:
    """Collects what a job tells, and the thread it was told in."""

    def __init__(self) -> None:
        self.done: list[object] = []
        self.failed: list[Exception] = []
        self.steps: list[tuple[float | None, int]] = []
        self.threads: list[QThread] = []

    def answers(self) -> Answers:
        return Answers(self._done, self.failed.append, lambda f, n: self.steps.append((f, n)))

    def _done(self, result: object) -> None:
        self.threads.append(QThread.currentThread())
        self.done.append(result)


def test_results_come_back_in_the_window_s_thread(lane: Lane, qtbot: QtBot) -> None:
    ears, workers = Ears(), []
    with qtbot.waitSignal(lane.idle):
        lane.start(lambda job: workers.append(threading.get_ident()) or 42, ears.answers())
    assert ears.done == [42]
    assert ears.threads == [QThread.currentThread()]
    assert workers != [threading.get_ident()]


def test_a_failure_is_told_once(lane: Lane, qtbot: QtBot) -> None:
    ears = Ears()

    def fail(job: Job) -> None:
        raise PictureError("the service is away")

    with qtbot.waitSignal(lane.idle):
        lane.start(fail, ears.answers())
    assert [str(error) for error in ears.failed] == ["the service is away"]
    assert ears.done == []


def test_a_newer_wish_silences_the_older(lane: Lane, qtbot: QtBot) -> None:
    old, new, go = Ears(), Ears(), threading.Event()

    def slow(job: Job) -> str:
        go.wait(5.0)
        job.progress(1.0, 10)
        return "old"

    lane.start(slow, old.answers())
    lane.start(lambda job: "new", new.answers())
    with qtbot.waitSignal(lane.idle):
        go.set()
    assert (old.done, old.steps, new.done) == ([], [], ["new"])


def test_a_job_that_was_given_up_hears_of_it_and_says_nothing(lane: Lane, qtbot: QtBot) -> None:
    ears, begun = Ears(), threading.Event()

    def patient(job: Job) -> None:
        begun.set()
        while not job.cancelled():
            QThread.msleep(1)
        raise Cancelled

    lane.start(patient, ears.answers())
    assert begun.wait(5.0)
    with qtbot.waitSignal(lane.idle):
        lane.give_up()
    assert (ears.done, ears.failed, lane.busy) == ([], [], False)


def test_progress_is_told_in_order(lane: Lane, qtbot: QtBot) -> None:
    ears = Ears()

    def work(job: Job) -> None:
        for step in range(4):
            job.progress(step / 4, step)

    with qtbot.waitSignal(lane.idle):
        lane.start(work, ears.answers())
    assert ears.steps == [(0.0, 0), (0.25, 1), (0.5, 2), (0.75, 3)]
