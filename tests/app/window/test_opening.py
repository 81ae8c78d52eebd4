"""Opened as a person opens it, left and opened again, with whatever lies on the disk."""

from pathlib import Path

import pytest
from PySide6.QtCore import QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.window import opening, workbench
from app.window.places import Places
from app.window.settings import Settings
from app.window.shell import Shell
from core.errors import StorageError
from core.plan.document import Plan
from core.plan.store import load_plan, save_plan
from tests.app.window.hands import CTRL, message

pytestmark = pytest.mark.gui


def test_the_first_start_shows_the_demo_with_its_frames(open_window) -> None:
    bench = open_window().workbench
    session = bench.session
    assert session.target is not None
    assert len(session.plan.rigs) >= 5
    assert session.chart is not None
    assert "catalogues" in session.credit
    assert len(bench.sheet.layers.shapes(bench.sheet.transform)) == len(session.plan.rigs)


def test_what_was_left_is_there_at_the_next_start(open_window, places: Places) -> None:
    first = open_window()
    session = first.workbench.session
    QTest.keyClick(first.workbench.sheet, Qt.Key.Key_Left, CTRL)
    session.change_view(mirrored=True)
    left = session.plan
    first.close()
    assert load_plan(places.open_plan) == left
    assert open_window().workbench.session.plan == left


def test_a_change_is_kept_without_closing(open_window, places: Places, qtbot: QtBot) -> None:
    shell = open_window()
    QTest.keyClick(shell.workbench.sheet, Qt.Key.Key_Left, CTRL)
    changed = shell.workbench.session.plan
    qtbot.waitUntil(
        lambda: places.open_plan.exists() and load_plan(places.open_plan) == changed, timeout=5000
    )


def test_a_damaged_plan_is_set_aside_and_said_and_the_demo_opens(
    open_window, places: Places
) -> None:
    places.data.mkdir(parents=True)
    places.open_plan.write_text('{"format": "skysill-plan", "version": 1, "ri')
    shell = open_window()
    assert "damaged-1" in message(shell)
    assert (places.data / "open-plan.damaged-1.json").read_text().endswith('"ri')
    assert shell.workbench.session.plan.rigs


def test_a_plan_file_that_is_none_is_named_and_the_last_plan_opens(
    open_window, tmp_path: Path
) -> None:
    bad = tmp_path / "holiday.json"
    bad.write_text("[]")
    shell = open_window(str(bad))
    assert "holiday.json" in message(shell)
    assert shell.workbench.session.plan.rigs


def test_an_unreadable_plan_is_set_aside_too(
    open_window, places: Places, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Regression: the demo was written over a plan that the disk refused to read."""

    def refuse(path):
        raise StorageError(f"cannot read {path}: input/output error")

    places.data.mkdir(parents=True)
    places.open_plan.write_text("my plan")
    monkeypatch.setattr(opening, "load_plan", refuse)
    shell = open_window(settle=False)
    assert "input/output error" in message(shell)
    shell.close()
    assert (places.data / "open-plan.damaged-1.json").read_text() == "my plan"


def test_a_plan_named_on_the_command_line_is_opened_and_said(open_window, tmp_path: Path) -> None:
    save_plan(Plan(title="Named"), tmp_path / "named.json")
    shell = open_window(str(tmp_path / "named.json"), settle=False)
    assert shell.workbench.session.plan.title == "Named"
    assert shell.windowTitle() == "Named"
    assert message(shell) == f"● Opened {tmp_path / 'named.json'}."


def test_a_plan_named_from_its_folder_is_found_from_any_other(
    open_window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save_plan(Plan(title="Named"), tmp_path / "named.json")
    monkeypatch.chdir(tmp_path)
    shell = open_window("named.json", settle=False)
    assert shell.settings.plan_path == str(tmp_path / "named.json")


def test_a_plan_that_the_disk_refuses_is_said_too(
    open_window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path):
        raise StorageError(f"cannot read {path}: permission denied")

    monkeypatch.setattr(opening, "load_plan", refuse)
    shell = open_window(str(tmp_path / "mine.json"), settle=False)
    assert "mine.json: permission denied. Here is the demo plan." in message(shell)


def test_two_things_to_say_are_two_sentences(open_window, places: Places, tmp_path: Path) -> None:
    places.data.mkdir(parents=True)
    places.open_plan.write_text("[]")
    shell = open_window(str(tmp_path / "gone.json"), settle=False)
    words = message(shell)
    assert f"there is no file {tmp_path / 'gone.json'}. The plan as it was left" in words
    assert words.endswith("damaged-1.json. Here is the demo plan.")
    assert ".." not in words


def test_a_plan_without_targets_or_rigs_opens_and_says_so(open_window, tmp_path: Path) -> None:
    save_plan(Plan(title="Empty"), tmp_path / "empty.json")
    shell = open_window(str(tmp_path / "empty.json"), settle=False)
    assert shell.workbench.session.target is None
    assert not shell.grab().isNull()


# The window ---------------------------------------------------------------------


def test_the_window_comes_back_with_the_size_it_was_left_with(open_window) -> None:
    first = open_window(settle=False)
    first.resize(780, 561)
    first.close()
    assert open_window(settle=False).size() == QSize(780, 561)


def test_the_first_window_is_no_larger_than_the_screen(qtbot: QtBot, places: Places) -> None:
    """Regression: it was 1280 x 800 on any screen, its last line below the edge."""
    shell = Shell(Settings(places))
    qtbot.addWidget(shell)
    room = shell.screen().availableSize()
    assert shell.width() == min(1280, room.width())
    assert room.height() - 50 <= shell.height() <= room.height() - 24


def test_the_keyboard_is_on_the_sheet_at_the_start(open_window) -> None:
    shell = open_window(settle=False)
    assert QApplication.focusWidget() is shell.workbench.sheet


def test_a_mistake_of_the_program_is_said_and_the_plan_kept(open_window) -> None:
    shell = open_window(settle=False)
    before = shell.workbench.session.plan
    shell.tell_mistake("ZeroDivisionError: division by zero")
    assert "plan is kept" in message(shell)
    assert shell.workbench.session.plan == before


# Keeping the plan ---------------------------------------------------------------


def test_the_plan_is_kept_by_another_thread(
    open_window, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    import threading

    threads: list[int] = []
    shell = open_window(settle=False)
    monkeypatch.setattr(workbench, "save_plan", lambda *_: threads.append(threading.get_ident()))
    QTest.keyClick(shell, Qt.Key.Key_G, CTRL)
    qtbot.waitUntil(lambda: bool(threads), timeout=5000)
    assert threading.get_ident() not in threads


def test_where_one_looks_is_kept_without_closing(open_window, places: Places, qtbot: QtBot) -> None:
    shell = open_window(settle=False)
    shell.workbench._save_rest.stop()
    session = shell.workbench.session
    session.set_view(session.plan.view.model_copy(update={"ra_deg": 77.0}))
    qtbot.waitUntil(
        lambda: places.open_plan.exists() and load_plan(places.open_plan).view.ra_deg == 77.0,
        timeout=5000,
    )


def spoil(places: Places) -> None:
    """Put a file where the folder of the plan ought to be."""
    places.data.parent.mkdir(parents=True, exist_ok=True)
    places.data.write_text("in the way")


def test_a_plan_that_cannot_be_kept_is_said(open_window, places: Places, qtbot: QtBot) -> None:
    spoil(places)
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_G, CTRL)
    qtbot.waitUntil(lambda: "The plan is not kept" in message(shell), timeout=5000)
    assert str(places.data) in message(shell)
    places.data.unlink()


def test_the_window_does_not_close_over_an_unkept_plan_before_it_is_said(
    open_window, places: Places
) -> None:
    """Regression: what could not be saved at the end was lost without a word."""
    shell = open_window(settle=False)
    spoil(places)
    assert not shell.close()
    assert shell.isVisible()
    assert "close once more" in message(shell)
    QTest.keyClick(shell, Qt.Key.Key_G, CTRL)
    assert not shell.close(), "a plan that changed since is another plan to lose"
    assert shell.close()
    places.data.unlink()


def test_settings_that_cannot_be_kept_stop_nothing(tmp_path: Path) -> None:
    """Regression: the program did not start where its folder cannot be made."""
    (tmp_path / "file").write_text("in the way")
    folder = tmp_path / "file" / "below"
    settings = Settings(Places(folder, folder, folder))
    assert settings.theme.key == "dark"
    assert settings.text_scale == 1.0


@pytest.mark.parametrize(
    ("line", "theme", "scale"),
    [
        ("theme=purple", "dark", 1.0),
        ("text_scale=huge", "dark", 1.0),
        ("text_scale=40", "dark", 1.0),
        ("text_scale=nan", "dark", 1.0),
        ("geometry=17", "dark", 1.0),
        ("theme=light\ntext_scale=1.3", "light", 1.3),
    ],
)
def test_settings_that_cannot_be_are_as_good_as_none(
    qtbot: QtBot, places: Places, line: str, theme: str, scale: float
) -> None:
    places.config.mkdir(parents=True)
    places.settings.write_text(f"[General]\n{line}\n")
    settings = Settings(places)
    assert (settings.theme.key, settings.text_scale) == (theme, scale)
    shell = Shell(settings)
    qtbot.addWidget(shell)
    assert shell.width() == min(1280, shell.screen().availableSize().width())
