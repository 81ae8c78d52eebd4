"""One start of a window in a process of its own, timed from before the spawn.

Run as ``python start_probe.py bare|window|sky SPAWNED`` with the parent's monotonic
clock; prints one JSON object. `bare` is a plain PySide6 window, `window` stops at our
first painted window, `sky` goes on until the demo's sky with its frames is painted and
every room built, and tells the longest silence of the event loop on the way.
"""

import itertools
import json
import os
import sys
import time

KIND, SPAWNED = sys.argv[1], float(sys.argv[2])


def peak_kb() -> int:
    """VmHWM, which unlike ru_maxrss does not inherit the parent's peak."""
    with open("/proc/self/status") as status:
        return next(int(line.split()[1]) for line in status if line.startswith("VmHWM"))


def report(**more: float) -> None:
    """Print what was measured and leave at once."""
    print(json.dumps({"ms": (time.monotonic() - SPAWNED) * 1e3, "kb": peak_kb(), **more}))
    sys.stdout.flush()
    os._exit(0)


def bare() -> None:
    from PySide6.QtCore import QTimer
    from PySide6.QtGui import QPainter
    from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

    class Plain(QWidget):
        def paintEvent(self, event) -> None:
            painter = QPainter(self)
            painter.drawText(20, 20, "A window")
            painter.end()
            QTimer.singleShot(0, report)

    app = QApplication(sys.argv[:1])
    window = QMainWindow()
    window.setCentralWidget(Plain())
    window.resize(1280, 800)
    window.show()
    app.exec()


def ours() -> None:
    from app.shared.application import application
    from app.window import startup

    app = application()
    places = startup.user_places()
    shell = startup.Shell(startup.Settings(places))
    if KIND == "window":
        shell.painted.connect(report)
        shell.show()
        app.exec()
        return
    opener = startup.connected(shell, startup.Opener(places, None), places)
    opener.opened.connect(lambda: wait_for_sky(shell, beats, figures))
    figures: dict[str, float] = {}
    shell.furnished.connect(lambda: report_all(beats, figures))
    beats = watch()
    shell.painted.connect(lambda: (beats.clear(), opener.start()))
    shell.show()
    app.exec()


def watch() -> list[float]:
    """A timer that fires whenever the event loop is free, noting when."""
    from PySide6.QtCore import QTimer

    beats: list[float] = []
    timer = QTimer(interval=4)
    timer.timeout.connect(lambda: beats.append(time.monotonic()))
    timer.start()
    watch.timer = timer
    return beats


def wait_for_sky(shell, beats: list[float], figures: dict[str, float]) -> None:
    """Note when the sheet has painted its first chart with the frames on it."""
    from PySide6.QtCore import QTimer

    bench = shell.workbench

    def look() -> None:
        if bench.session.chart is None or not bench.sheet.isVisible():
            QTimer.singleShot(2, look)
        else:
            bench.sheet.repaint()
            figures["sky_ms"] = (time.monotonic() - SPAWNED) * 1e3
            if shell.is_furnished:
                report_all(beats, figures)

    look()


def report_all(beats: list[float], figures: dict[str, float]) -> None:
    """Report once the sky is seen and every room is built."""
    if "sky_ms" in figures:
        beats.append(time.monotonic())
        gaps = [b - a for a, b in itertools.pairwise(beats)]
        report(**figures, silence_ms=max(gaps) * 1e3, beats=len(beats))


bare() if KIND == "bare" else ours()
