"""Pictures of the window for the README and for looking at: `python -m app.screenshot`.

The window opens on the demo plan in a folder of its own, so that nothing of the user's
is read or changed.
"""

import argparse
import os
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from app.window.workbench import Workbench

__all__ = ["main"]

_README = Path(__file__).resolve().parent.parent / "assets" / "screenshots" / "window.png"


def main(given: list[str] | None = None) -> int:
    """Open, wait for the sky, save what is seen; give the exit status."""
    words = argparse.ArgumentParser(prog="python -m app.screenshot", description=__doc__)
    words.add_argument("-o", "--output", type=Path, default=_README)
    words.add_argument("--size", default="1280x800", help="logical pixels, WxH")
    words.add_argument("--ratio", type=float, default=1.0, help="device pixels a logical one")
    words.add_argument("--theme", default="dark", choices=["dark", "light", "deep-red"])
    words.add_argument("--text", type=float, default=1.0, help="text size, 0.8 to 2")
    words.add_argument("--target", default="", help="go to this target first")
    words.add_argument("--room", default="sky", choices=["sky", "bench"])
    words.add_argument("--rig", default="", help="choose this rig of the plan first")
    words.add_argument("--part", default="", help="choose this part of the rig on the bench")
    asked = words.parse_args(given)
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    os.environ["QT_SCALE_FACTOR"] = str(asked.ratio)
    with tempfile.TemporaryDirectory(prefix="skysill-") as home:
        os.environ["SKYSILL_HOME"] = home
        return _take(asked)


def _take(asked: argparse.Namespace) -> int:
    """Take the picture in a fresh home."""
    from PySide6.QtCore import QTimer

    from app.shared.application import application
    from app.shared.theme import THEMES
    from app.window.opening import open_everything
    from app.window.places import user_places
    from app.window.settings import Settings
    from app.window.shell import Shell

    app = application()
    places = user_places()
    settings = Settings(places)
    settings.theme, settings.text_scale = THEMES[asked.theme], asked.text
    shell = Shell(settings)
    shell.resize(*map(int, asked.size.split("x")))
    shell.furnished.connect(lambda: _settle(shell, asked))
    shell.show()
    shell.show_sky(open_everything(places, None), places)
    QTimer.singleShot(0, shell.furnish)
    QTimer.singleShot(60_000, lambda: app.exit(1))
    return app.exec()


def _go(bench: "Workbench", asked: argparse.Namespace) -> None:
    """Go to the target, the rig and the room that were asked for."""
    from app.words import rig_actions
    from core.catalogue.resolve import resolve

    session = bench.session
    if asked.target:
        session.show_target(resolve(asked.target, session.targets))
    if asked.rig:
        ids = {planned.rig.name: planned.id for planned in session.plan.rigs}
        rig_actions.choose(session, ids[asked.rig])
    if asked.room == "bench":
        session.open_bench()
        assert bench.bench is not None
        bench.bench.parts.go_to(asked.part)


def _settle(shell: object, asked: argparse.Namespace) -> None:
    """Go to the target, wait until no picture is on its way, then save."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from app.window.shell import Shell

    assert isinstance(shell, Shell)
    bench = shell.workbench
    assert bench is not None
    _go(bench, asked)

    def look() -> None:
        if bench.loader.busy:
            QTimer.singleShot(100, look)
            return
        asked.output.parent.mkdir(parents=True, exist_ok=True)
        saved = shell.grab().save(str(asked.output))
        shell.close()
        QApplication.exit(0 if saved else 1)

    QTimer.singleShot(600, look)


if __name__ == "__main__":
    sys.exit(main())
