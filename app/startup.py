"""From the command to the open window.

The first window is painted before numpy and the catalogues are imported; these come in
a thread, and the window is furnished when they are there.
"""

import logging
import logging.handlers
import os
import sys
import threading
from types import TracebackType
from typing import TYPE_CHECKING

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from PySide6.QtCore import QObject, Qt, QtMsgType, Signal, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from app.places import Places, user_places
from app.settings import Settings
from app.shell import Shell
from app.theme import load_fonts

if TYPE_CHECKING:
    from app.opening import Opened

__all__ = ["Opener", "application", "run"]

_log = logging.getLogger(__name__)


class Opener(QObject):
    """Imports the workshop and reads catalogues and plan, beside the window."""

    opened = Signal(object)
    failed = Signal(str)

    def __init__(self, places: Places, plan_path: str | None) -> None:
        super().__init__()
        self._places = places
        self._plan_path = plan_path
        self._thread = threading.Thread(target=self._open, name="opening", daemon=True)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def _open(self) -> None:
        try:
            from app.opening import open_everything

            opened: Opened = open_everything(self._places, self._plan_path)
        except Exception as error:
            _log.exception("the program could not be opened")
            self.failed.emit(str(error))
        else:
            self.opened.emit(opened)


def application() -> QApplication:
    """Give Qt's application object, made once, with the typeface loaded."""
    existing = QApplication.instance()
    if isinstance(existing, QApplication):
        return existing
    app = QApplication(sys.argv[:1])
    app.setApplicationName("skysill")
    app.setApplicationDisplayName("Skysill")
    app.setStyle("Fusion")
    load_fonts()
    return app


def run(plan_path: str | None = None) -> int:
    """Open the window on a plan, on the last one, or on the demo; give the exit status."""
    app = application()
    places = user_places()
    _start_log(places)
    shell = Shell(Settings(places))
    opener = Opener(places, plan_path)
    opener.opened.connect(lambda opened: shell.furnish(opened, places))
    opener.failed.connect(shell.tell_failure)
    shell.painted.connect(opener.start, Qt.ConnectionType.SingleShotConnection)
    shell.show()
    return app.exec()


def _start_log(places: Places) -> None:
    """Send warnings and mistakes to a file of limited size, Qt's among them."""
    handler: logging.Handler
    try:
        places.data.mkdir(parents=True, exist_ok=True)
        handler = logging.handlers.RotatingFileHandler(
            places.log, maxBytes=1_000_000, backupCount=1, encoding="utf-8"
        )
    except OSError:
        handler = logging.StreamHandler()
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    logging.basicConfig(level=logging.WARNING, handlers=[handler])
    qInstallMessageHandler(_qt_message)
    sys.excepthook = _mistake


def _qt_message(kind: QtMsgType, _context: object, text: str) -> None:
    """Qt's own words go to the log."""
    quiet = kind in (QtMsgType.QtDebugMsg, QtMsgType.QtInfoMsg)
    logging.getLogger("qt").log(logging.DEBUG if quiet else logging.WARNING, text)


def _mistake(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    """Write a mistake of the program to the log and say so once."""
    if issubclass(kind, KeyboardInterrupt):
        sys.__excepthook__(kind, error, trace)
        return
    logging.getLogger("skysill").critical("a mistake", exc_info=(kind, error, trace))
    for window in QApplication.topLevelWidgets():
        if isinstance(window, Shell):
            window.tell_mistake(f"{kind.__name__}: {error}")
