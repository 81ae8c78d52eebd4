"""From the command to the window: the sky first, what fails is said, and the log."""

import contextlib
import gc
import logging
import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QThread, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.window import log, startup
from app.window.places import Places
from app.window.settings import Settings
from app.window.shell import Shell
from core.errors import CatalogueError
from core.plan.document import Plan
from core.plan.store import save_plan
from tests.app.seeing import count_of

pytestmark = pytest.mark.gui

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture
def shell(qtbot: QtBot, places: Places, undressed: None) -> Iterator[Shell]:
    made = Shell(Settings(places))
    yield made
    made.close()
    made.deleteLater()


@contextlib.contextmanager
def fresh_log() -> Iterator[None]:
    """Let `start_log` find a process that logs nowhere; give back what it takes over."""
    root = logging.getLogger()
    handlers, level, hook = root.handlers, root.level, sys.excepthook
    root.handlers = []
    try:
        yield
    finally:
        for handler in root.handlers:
            handler.close()
        root.handlers, sys.excepthook = handlers, hook
        root.setLevel(level)
        qInstallMessageHandler(None)


# The sky first --------------------------------------------------------------------


def test_the_sky_is_charted_before_the_other_rooms_are_imported(
    shell: Shell, places: Places, quick_catalogues, qtbot: QtBot, monkeypatch
) -> None:
    monkeypatch.setattr(startup, "_SKY_FIRST_S", 20.0)
    seen: list[bool] = []
    threads: list[QThread] = []
    opener = startup.connected(shell, startup.Opener(places, None), places)

    def ready() -> None:
        seen.append(shell.workbench.session.chart is not None and not shell.is_furnished)

    opener.ready.connect(ready)
    opener.opened.connect(lambda _: threads.append(QThread.currentThread()))
    shell.show()
    with qtbot.waitSignal(shell.furnished, timeout=15_000):
        opener.start()
    assert seen == [True]
    assert threads == [shell.thread()]
    assert gc.isenabled()


def test_the_rooms_come_one_by_one_and_the_window_answers_between(
    shell: Shell, places: Places, quick_catalogues, qtbot: QtBot
) -> None:
    opener = startup.connected(shell, startup.Opener(places, None), places)
    with qtbot.waitSignal(opener.ready, timeout=15_000):
        opener.start()
    assert not shell.is_furnished, "all of it in one go"
    qtbot.waitUntil(lambda: shell.is_furnished)


def test_a_missing_catalogue_is_said_on_the_empty_window(
    shell: Shell, places: Places, qtbot: QtBot, monkeypatch, caplog
) -> None:
    def missing():
        raise CatalogueError("the star catalogue lacks its file stars.bin")

    monkeypatch.setattr("app.window.opening.StarCatalogue.open", missing)
    opener = startup.connected(shell, startup.Opener(places, None), places)
    shell.show()
    qtbot.waitExposed(shell)
    qtbot.wait(50)  # until it is painted as far as it is
    ink = shell.settings.theme.quiet
    before = count_of(shell, ink)
    with (
        caplog.at_level(logging.ERROR),
        qtbot.waitSignals([opener.failed, shell.centralWidget().painted], timeout=15_000),
    ):
        opener.start()
    assert shell.centralWidget().text.endswith("lacks its file stars.bin")
    assert count_of(shell, ink) > before
    assert any(record.exc_info for record in caplog.records)
    assert shell.workbench is None
    assert gc.isenabled()


def test_a_failure_after_the_sky_is_said_in_the_title(
    shell: Shell, places: Places, quick_catalogues, qtbot: QtBot, monkeypatch
) -> None:
    """Regression: it was said on a page that was gone."""
    monkeypatch.setitem(sys.modules, "app.window.rooms", None)
    monkeypatch.setattr(startup, "_SKY_FIRST_S", 0.0)
    opener = startup.connected(shell, startup.Opener(places, None), places)
    with qtbot.waitSignal(opener.failed, timeout=15_000):
        opener.start()
    qtbot.waitUntil(lambda: "could not be opened" in shell.windowTitle())


def test_a_mistake_before_the_sky_is_said_on_the_empty_window(shell: Shell) -> None:
    """Regression: the window said that it was opening, for ever."""
    shell.tell_mistake("KeyError: 'x'")
    assert shell.centralWidget().text == "The sky could not be opened: KeyError: 'x'"


def test_the_first_painting_begins_the_opening_and_no_other(shell: Shell, qtbot: QtBot) -> None:
    begun: list[int] = []
    shell.painted.connect(lambda: begun.append(1))
    shell.show()
    qtbot.waitUntil(lambda: bool(begun))
    for width in (800, 820, 840):
        shell.resize(width, 560)
        shell.centralWidget().repaint()
    qtbot.wait(20)
    assert begun == [1]


# The command ----------------------------------------------------------------------


def test_run_opens_the_plan_and_starts_the_log(
    places: Places, quick_catalogues, undressed, qtbot: QtBot, tmp_path, monkeypatch
) -> None:
    with fresh_log():
        save_plan(Plan(title="Named"), tmp_path / "named.json")
        app = QApplication.instance()

        def until_furnished() -> int:
            shell = next(w for w in app.topLevelWidgets() if isinstance(w, Shell) and w.isVisible())
            qtbot.waitUntil(lambda: shell.is_furnished, timeout=20_000)
            shells.append(shell)
            return 5

        shells: list[Shell] = []
        monkeypatch.setattr(app, "exec", until_furnished)
        monkeypatch.setattr(startup, "application", lambda: app)
        assert startup.run(str(tmp_path / "named.json")) == 5
        (shell,) = shells
        assert shell.workbench.session.plan.title == "Named"
        assert places.log.exists()
        sys.excepthook(ValueError, ValueError("nonsense"), None)
        assert "ValueError: nonsense" in shell.workbench.status.text
        shell.close()
        shell.deleteLater()


def test_the_process_shows_its_window_and_keeps_the_plan(tmp_path: Path) -> None:
    """`python -m app PLAN.json`, closed by itself as soon as it is furnished."""
    save_plan(Plan(title="Named"), tmp_path / "named.json")
    script = (
        "import sys\n"
        "from app.window.shell import Shell\n"
        "from PySide6.QtCore import QTimer\n"
        "whole = Shell._furnished\n"
        "def furnished(shell):\n"
        "    whole(shell)\n"
        "    print(shell.windowTitle(), shell.workbench.status.text)\n"
        "    QTimer.singleShot(0, shell.close)\n"
        "Shell._furnished = furnished\n"
        "from app.__main__ import main\n"
        f"sys.argv = ['skysill', {str(tmp_path / 'named.json')!r}]\n"
        "sys.exit(main())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=ROOT,
        env={**os.environ, "SKYSILL_HOME": str(tmp_path / "home"), "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert (done.returncode, done.stderr.replace(_OFFSCREEN, "")) == (0, "")
    assert done.stdout.startswith("Named ● Opened ")
    assert (tmp_path / "home" / "data" / "open-plan.json").exists()


_OFFSCREEN = "This plugin does not support propagateSizeHints()\n"


# The log --------------------------------------------------------------------------


def test_a_mistake_is_logged_with_its_trace_and_told(places: Places) -> None:
    with fresh_log():
        told: list[str] = []
        log.start_log(places, told.append)
        try:
            int("1 // 0")
        except ValueError as error:
            sys.excepthook(type(error), error, error.__traceback__)
        assert told == ["ValueError: invalid literal for int() with base 10: '1 // 0'"]
        written = places.log.read_text()
        assert places.log.name == "skysill.log"
        assert "Traceback" in written
        assert 'int("1 // 0")' in written


def test_a_person_who_stops_the_program_made_no_mistake(places, capsys) -> None:
    with fresh_log():
        told: list[str] = []
        log.start_log(places, told.append)
        sys.excepthook(KeyboardInterrupt, KeyboardInterrupt(), None)
        assert told == []
        assert places.log.read_text() == ""


def test_qt_s_warnings_go_to_the_log_and_its_chatter_does_not(places) -> None:
    with fresh_log():
        from PySide6.QtCore import qDebug, qWarning

        log.start_log(places, print)
        qWarning("a cable is loose")
        qDebug("all is well")
        written = places.log.read_text()
        assert "a cable is loose" in written
        assert "all is well" not in written
        log._qt_message(QtMsgType.QtInfoMsg, None, "all is well")
        assert "all is well" not in places.log.read_text()


def test_without_a_place_for_the_log_mistakes_go_to_the_terminal(places: Places, capsys) -> None:
    with fresh_log():
        places.data.parent.mkdir(parents=True)
        places.data.write_text("in the way")
        told: list[str] = []
        log.start_log(places, told.append)
        sys.excepthook(ValueError, ValueError("nonsense"), None)
        assert told == ["ValueError: nonsense"]
        assert "nonsense" in capsys.readouterr().err


def test_opening_is_done_in_a_thread_of_its_own(places: Places, qtbot: QtBot, monkeypatch) -> None:
    threads: list[int] = []

    def note(*_):
        threads.append(threading.get_ident())
        raise CatalogueError("no sky")

    monkeypatch.setattr("app.window.opening.open_everything", note)
    opener = startup.Opener(places, None)
    with qtbot.waitSignal(opener.failed):
        opener.start()
    assert threads
    assert threading.get_ident() not in threads
