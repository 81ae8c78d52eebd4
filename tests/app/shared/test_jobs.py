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
        return Answers(self._done, self._failed, self._step)

    def _done(self, result: object) -> None:
        self.threads.append(QThread.currentThread())
        self.done.append(result)

    def _failed(self, error: Exception) -> None:
        self.threads.append(QThread.currentThread())
        self.failed.append(error)

    def _step(self, fraction: float | None, count: int) -> None:
        self.threads.append(QThread.currentThread())
        self.steps.append((fraction, count))


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
    assert ears.threads == [QThread.currentThread()]
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
    assert set(ears.threads) == {QThread.currentThread()}


def test_one_job_at_a_time(lane: Lane, qtbot: QtBot) -> None:
    first_out, together = threading.Event(), []

    def first(job: Job) -> None:
        while not job.cancelled():
            QThread.msleep(1)
        QThread.msleep(30)
        first_out.set()

    lane.start(first, Ears().answers())
    with qtbot.waitSignal(lane.idle):
        lane.start(lambda job: together.append(not first_out.is_set()), Ears().answers())
    assert together == [False]


def test_what_a_job_told_before_it_was_given_up_is_not_heard_after(
    lane: Lane, qtbot: QtBot
) -> None:
    """Its words are still on their way to the window's thread when it is given up."""
    ears, told, go = Ears(), threading.Event(), threading.Event()

    def work(job: Job) -> str:
        job.progress(0.5, 5)
        told.set()
        go.wait(5.0)
        return "late"

    lane.start(work, ears.answers())
    assert told.wait(5.0)
    lane.give_up()
    with qtbot.waitSignal(lane.idle):
        go.set()
    assert (ears.done, ears.steps, ears.failed) == ([], [], [])


def test_a_failure_of_a_job_that_was_given_up_is_not_told(lane: Lane, qtbot: QtBot) -> None:
    ears, go = Ears(), threading.Event()

    def work(job: Job) -> None:
        go.wait(5.0)
        raise PictureError("too late")

    lane.start(work, ears.answers())
    lane.give_up()
    with qtbot.waitSignal(lane.idle):
        go.set()
    assert ears.failed == []


def test_the_end_waits_until_the_thread_is_through(lane: Lane) -> None:
    begun, through = threading.Event(), []

    def work(job: Job) -> None:
        begun.set()
        while not job.cancelled():
            QThread.msleep(1)
        QThread.msleep(20)
        through.append(True)

    lane.start(work, Ears().answers())
    assert begun.wait(5.0)
    lane.finish()
    assert through == [True]
