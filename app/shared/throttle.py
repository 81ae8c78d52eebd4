"""Calls at most once in a while: at the first wish at once, and once more after the last.

Delays in milliseconds. A delay of 0 calls at every wish, which tests use.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer

__all__ = ["Throttle"]


class Throttle(QObject):
    """Thins out a stream of wishes without losing the last one.

    Parameters
    ----------
    call : callable
        What is wished for.
    delay_ms : int
        Least time between two calls; 0 switches the throttle off.
    parent : QObject
        Owner of the timer.
    """

    def __init__(self, call: Callable[[], None], delay_ms: int, parent: QObject) -> None:
        super().__init__(parent)
        self.delay_ms = delay_ms
        self._call = call
        self._waiting = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._rested)

    @property
    def waiting(self) -> bool:
        """Tell whether a call is still to come."""
        return self._waiting

    def ask(self) -> None:
        """Wish for a call."""
        if self.delay_ms <= 0:
            self._call()
        elif self._timer.isActive():
            self._waiting = True
        else:
            self._timer.start(self.delay_ms)
            self._call()

    def drop(self) -> None:
        """Forget a wish that something else has fulfilled."""
        self._waiting = False

    def _rested(self) -> None:
        """Call once more if wishes came meanwhile."""
        if self._waiting:
            self._waiting = False
            self._timer.start(self.delay_ms)
            self._call()
