"""From the command to the open window.

The first window is painted before numpy and the catalogues are imported; these come in
a thread, and the window is furnished when they are there. Nothing slow is imported at
the top of this module, nor of those it imports.
"""

import gc
import os
import threading
from typing import TYPE_CHECKING

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")

from PySide6.QtCore import QObject, Signal

from app.shared.application import application
from app.window.places import Places, user_places
from app.window.settings import Settings
from app.window.shell import Shell

if TYPE_CHECKING:
    from app.window.opening import Opened

__all__ = ["Opener", "connected", "run"]

#: The rooms beside the sheet wait for its first picture, but not longer than this.
_SKY_FIRST_S = 2.0


class Opener(QObject):
    """Imports the workshop and reads catalogues and plan, beside the window.

    Parameters
    ----------
    places : Places
    plan_path : str or None
        A plan file named by the user.
    """

    opened = Signal(object)
    ready = Signal()
    failed = Signal(str)

    def __init__(self, places: Places, plan_path: str | None) -> None:
        super().__init__()
        self._places = places
        self._plan_path = plan_path
        self._seen = threading.Event()
        self._thread = threading.Thread(target=self._open, name="opening", daemon=True)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def sky_is_seen(self) -> None:
        """Go on with the other rooms: the first picture lies on the sheet."""
        self._seen.set()

    def _open(self) -> None:
        gc.disable()  # nothing that is imported becomes rubbish: do not look for any meanwhile
        try:
            from app.window.opening import open_everything

            opened: Opened = open_everything(self._places, self._plan_path)
            self.opened.emit(opened)
            self._seen.wait(_SKY_FIRST_S)
            import app.window.rooms  # noqa: F401  (the window builds them when they are here)
        except Exception as error:
            import logging

            logging.getLogger(__name__).exception("the program could not be opened")
            self.failed.emit(str(error))
        else:
            self.ready.emit()
        finally:
            gc.freeze()
            gc.enable()


def connected(shell: Shell, opener: Opener, places: Places) -> Opener:
    """Let the window follow what is opened beside it: the sky first, then the rooms."""

    def show_sky(opened: "Opened") -> None:
        shell.show_sky(opened, places)
        assert shell.workbench is not None
        shell.workbench.session.picture_changed.connect(opener.sky_is_seen)

    opener.opened.connect(show_sky)
    opener.ready.connect(shell.furnish)
    opener.failed.connect(shell.tell_failure)
    return opener


def run(plan_path: str | None = None) -> int:
    """Open the window on a plan, on the last one, or on the demo; give the exit status."""
    app = application()
    places = user_places()
    shell = Shell(Settings(places))
    opener = connected(shell, Opener(places, plan_path), places)

    def begin() -> None:
        from app.window.log import start_log

        start_log(places, shell.tell_mistake)
        opener.start()

    shell.painted.connect(begin)
    shell.show()
    return app.exec()
