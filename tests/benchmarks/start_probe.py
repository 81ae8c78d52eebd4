"""One start of a window in a process of its own, timed from before the spawn.

Run as ``python start_probe.py bare|window|sky SPAWNED`` with the parent's monotonic
clock; prints one JSON object. `bare` is a plain PySide6 window, `window` stops at our
first painted window, `sky` goes on until the demo's sky with its frames is painted and
tells the longest silence of the event loop on the way.
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
    from app import startup

    app = startup.application()
    places = startup.user_places()
    shell = startup.Shell(startup.Settings(places))
    if KIND == "window":
        shell.painted.connect(report)
        shell.show()
        app.exec()
        return
    opener = startup.Opener(places, None)
    opener.opened.connect(lambda opened: shell.furnish(opened, places))
    beats = watch()
    shell.painted.connect(lambda: (beats.clear(), opener.start()))
    shell.furnished.connect(lambda: wait_for_sky(shell, beats))
    shell.show()
    app.exec()


def watch() -> list[float]:
    """A timer that fires whenever the event loop is free, noting when."""
    from PySide6.QtCore import QTimer

    beats: list[float] = []
    timer = QTimer(interval=1)
    timer.timeout.connect(lambda: beats.append(time.monotonic()))
    timer.start()
    watch.timer = timer
    return beats


def wait_for_sky(shell, beats: list[float]) -> None:
    """Report when the sheet has painted its first chart."""
    from PySide6.QtCore import QTimer

    bench = shell.workbench

    def look() -> None:
        if bench.session.chart is None or not bench.sheet.isVisible():
            QTimer.singleShot(2, look)
        else:
            bench.sheet.repaint()
            beats.append(time.monotonic())
            gaps = [b - a for a, b in itertools.pairwise(beats)]
            report(silence_ms=max(gaps) * 1e3, beats=len(beats))

    look()


bare() if KIND == "bare" else ours()
