"""Work beside the window: anything over 50 ms runs here and can be given up.

One job a lane: a new job in a lane gives the one before it up. Results come back in
the window's own thread; a job that nobody waits for any more says nothing.
"""

import sys
import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from core.errors import Cancelled

__all__ = ["Answers", "Job", "Lane"]

#: How long a job may compute in Python before the window gets its turn, in seconds. The
#: window takes many short turns; at the 5 ms that is usual it would be held up by each.
_TURN_S = 0.0005


@dataclass(frozen=True)
class Answers:
    """What to call, in the window's thread, as a job gets on."""

    done: Callable[[Any], None]
    failed: Callable[[Exception], None]
    progress: Callable[[float | None, int], None] | None = None


class Job(QRunnable):
    """A piece of work and the token that gives it up.

    Parameters
    ----------
    lane : Lane
        Where to tell how it gets on.
    work : callable
        Called with the job; asks `cancelled()` and tells `progress(...)` as it goes.
    answers : Answers
    """

    def __init__(self, lane: "Lane", work: Callable[["Job"], Any], answers: Answers) -> None:
        super().__init__()
        self.setAutoDelete(False)
        self.answers = answers
        self._lane = lane
        self._work = work
        self._given_up = threading.Event()

    def run(self) -> None:
        """Do the work in a thread of the pool."""
        lane = self._lane
        try:
            result = self._work(self)
        except Cancelled:
            lane.ended.emit(self)
        except Exception as error:
            lane.failed.emit(self, error)
        else:
            lane.done.emit(self, result)

    def give_up(self) -> None:
        """Nobody waits for this any more."""
        self._given_up.set()

    def cancelled(self) -> bool:
        """Tell whether the job was given up."""
        return self._given_up.is_set()

    def progress(self, fraction: float | None, count: int) -> None:
        """Tell how far the work is: a fraction where known, and a count."""
        if not self.cancelled():
            self._lane.progressed.emit(self, fraction, count)


class Lane(QObject):
    """A queue of length one: the newest wish wins."""

    done = Signal(object, object)
    failed = Signal(object, object)
    progressed = Signal(object, object, int)
    ended = Signal(object)
    idle = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._jobs: set[Job] = set()
        self.done.connect(self._on_done)
        self.failed.connect(self._on_failed)
        self.progressed.connect(self._on_progress)
        self.ended.connect(self._forget)

    @property
    def busy(self) -> bool:
        """Tell whether a job runs or waits."""
        return bool(self._jobs)

    def start(self, work: Callable[[Job], Any], answers: Answers) -> Job:
        """Give up what runs in the lane and start another piece of work."""
        sys.setswitchinterval(_TURN_S)
        self.give_up()
        job = Job(self, work, answers)
        self._jobs.add(job)
        self._pool.start(job)
        return job

    def give_up(self) -> None:
        """Give up whatever runs or waits in the lane."""
        for job in self._jobs:
            job.give_up()

    def finish(self, wait_ms: int = 5000) -> None:
        """Give everything up and wait for the thread, at the end of the program."""
        self.give_up()
        if self._pool.waitForDone(wait_ms):
            self._jobs.clear()

    def _on_done(self, job: Job, result: Any) -> None:
        self._forget(job)
        if not job.cancelled():
            job.answers.done(result)

    def _on_failed(self, job: Job, error: Exception) -> None:
        self._forget(job)
        if not job.cancelled():
            job.answers.failed(error)

    def _on_progress(self, job: Job, fraction: float | None, count: int) -> None:
        if job.answers.progress is not None and not job.cancelled():
            job.answers.progress(fraction, count)

    def _forget(self, job: Job) -> None:
        """Let a job go when its thread is through with it."""
        self._jobs.discard(job)
        if not self._jobs:
            self.idle.emit()
