"""The log file, and what becomes of a mistake of the program."""

import logging
import logging.handlers
import sys
from collections.abc import Callable
from types import TracebackType

from PySide6.QtCore import QtMsgType, qInstallMessageHandler

from app.window.places import Places

__all__ = ["start_log"]


def start_log(places: Places, tell: Callable[[str], None]) -> None:
    """Send warnings and mistakes to a file of limited size, Qt's among them.

    Parameters
    ----------
    places : Places
        Where the file lies.
    tell : callable
        Called with one line when the program made a mistake.
    """
    handler: logging.Handler
    try:
        places.data.mkdir(parents=True, exist_ok=True)
        handler = logging.handlers.RotatingFileHandler(
            places.log, maxBytes=1_000_000, backupCount=1, encoding="utf-8"
        )
    except OSError:
        handler = logging.StreamHandler()
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    root = logging.getLogger()  # basicConfig would do nothing where somebody logs already
    root.addHandler(handler)
    root.setLevel(logging.WARNING)
    qInstallMessageHandler(_qt_message)

    def mistake(
        kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        logging.getLogger("skysill").critical("a mistake", exc_info=(kind, error, trace))
        tell(f"{kind.__name__}: {error}")

    sys.excepthook = mistake


def _qt_message(kind: QtMsgType, _context: object, text: str) -> None:
    """Qt's own words go to the log."""
    quiet = kind in (QtMsgType.QtDebugMsg, QtMsgType.QtInfoMsg)
    logging.getLogger("qt").log(logging.DEBUG if quiet else logging.WARNING, text)
