"""The rig sheet from the window: written beside it, shown on its way, stopped, refused."""

import threading
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QToolButton

from core.plan.document import Plan
from core.plan.edits import with_rig
from tests.app.window.hands import entries, message
from tests.core.sheets.sheets import small_rig

pytestmark = pytest.mark.gui


@pytest.fixture
def two_rigs(open_window):
    """A window on a plan of two small rigs, without a target."""
    shell = open_window(settle=False)
    plan = with_rig(with_rig(Plan(title="Club"), small_rig("first")), small_rig("second"))
    shell.workbench.session.edit("two rigs", plan)
    return shell


def stop_of_sheet(shell) -> QToolButton:
    buttons = shell.workbench.status.findChildren(QToolButton)
    return next(one for one in buttons if one.accessibleName() == "Stop: Rig sheet on its way")


def wait_until_written(shell, qtbot) -> None:
    qtbot.waitUntil(lambda: not shell.workbench.rig_sheet.busy, timeout=60_000)


def test_the_menu_asks_for_a_file_and_every_rig_of_the_plan_is_on_it(
    two_rigs, qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, asked = tmp_path / "club.pdf", []

    def run(dialog: QFileDialog) -> int:
        asked.append((dialog.windowTitle(), dialog.acceptMode(), dialog.defaultSuffix()))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", run)
    monkeypatch.setattr(QFileDialog, "selectedFiles", lambda _: [str(file)])
    entries(two_rigs.workbench.menus.plan)["Rig sheet ..."].trigger()
    wait_until_written(two_rigs, qtbot)
    assert asked == [("Write a rig sheet", QFileDialog.AcceptMode.AcceptSave, "pdf")]
    assert message(two_rigs) == f"● Wrote the rig sheet to {file}."
    document = pdfium.PdfDocument(file.read_bytes())
    words = [page.get_textpage().get_text_range() for page in document]
    document.close()
    assert len(words) == 3
    assert "A · first" in words[1]
    assert "B · second" in words[2]


def test_it_tells_which_rig_it_is_at_and_the_stop_button_goes_with_it(
    two_rigs, qtbot, tmp_path: Path
) -> None:
    bench, told = two_rigs.workbench, []
    bench.rig_sheet.progressed.connect(told.append)
    bench.rig_sheet.write_to(str(tmp_path / "a.csv"))
    assert stop_of_sheet(two_rigs).isVisible()
    wait_until_written(two_rigs, qtbot)
    wanted = [
        "Rig sheet: 1 of 2, first",
        "Rig sheet: 2 of 2, second",
        "Rig sheet: writing the file",
    ]
    assert list(dict.fromkeys(told)) == [*wanted, ""]
    assert not stop_of_sheet(two_rigs).isVisible()


def test_it_can_be_stopped_while_the_window_answers_and_no_file_is_left(
    two_rigs, qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from core.sheets.rig_sheet import build

    begun, held, inside = threading.Event(), threading.Event(), []
    real = build.findings

    def slow(*args):
        inside.append(threading.current_thread() is threading.main_thread())
        begun.set()
        assert held.wait(20.0)
        return real(*args)

    monkeypatch.setattr(build, "findings", slow)
    bench, file = two_rigs.workbench, tmp_path / "a.pdf"
    bench.rig_sheet.write_to(str(file))
    qtbot.waitUntil(begun.is_set, timeout=20_000)
    assert not bench.session.plan.view.graticule
    entries(bench.menus.view)["Graticule"].trigger()
    assert bench.session.plan.view.graticule, "the window answers"
    QTest.mouseClick(stop_of_sheet(two_rigs), Qt.MouseButton.LeftButton)
    assert message(two_rigs) == "▲ The rig sheet is given up; nothing was written."
    held.set()
    wait_until_written(two_rigs, qtbot)
    assert inside == [False], "not in the window's thread, and not for the second rig"
    assert not file.exists()
    assert message(two_rigs) == "▲ The rig sheet is given up; nothing was written."


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("a.doc", 'rig sheet "a.doc": must be a file whose name ends in .pdf, .html or .csv.'),
        ("no/a.csv", "no such file or directory."),
    ],
)
def test_a_bad_file_is_one_sentence(two_rigs, qtbot, tmp_path: Path, name, words) -> None:
    two_rigs.workbench.rig_sheet.write_to(str(tmp_path / name))
    wait_until_written(two_rigs, qtbot)
    assert message(two_rigs).startswith("■ The rig sheet is not written: ")
    assert message(two_rigs).endswith(words)


def test_a_plan_without_rigs_says_so_and_asks_for_no_file(open_window) -> None:
    shell = open_window(settle=False)
    shell.workbench.session.edit("empty", Plan())
    shell.workbench.rig_sheet.ask()
    assert message(shell) == "▲ The plan has no rigs to put on a sheet."


def test_closing_the_window_gives_the_sheet_up(two_rigs, qtbot, tmp_path: Path) -> None:
    file = tmp_path / "a.pdf"
    two_rigs.workbench.rig_sheet.write_to(str(file))
    two_rigs.close()
    assert not two_rigs.workbench.rig_sheet.busy
    assert not list(tmp_path.glob(".skysill*"))
