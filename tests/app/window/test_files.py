"""Plan files and pictures: read, written, refused, dropped; and whose file a plan is."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from app.window.places import Places
from app.window.shell import Shell
from core.plan.document import Plan
from core.plan.store import load_plan, save_plan
from tests.app.window.hands import CTRL, message

pytestmark = pytest.mark.gui

SHIFT = Qt.KeyboardModifier.ShiftModifier


def on_file(folder: Path, title: str) -> str:
    save_plan(Plan(title=title), folder / f"{title}.json")
    return str(folder / f"{title}.json")


def test_save_and_open_bring_the_plan_back(open_window, tmp_path: Path) -> None:
    shell = open_window()
    session, files = shell.workbench.session, shell.workbench.menus.files
    QTest.keyClick(shell.workbench.sheet, Qt.Key.Key_Left, CTRL)
    saved = session.plan
    files.save_to(str(tmp_path / "mine.json"))
    files.open_demo()
    assert session.plan != saved
    files.open(str(tmp_path / "mine.json"))
    assert session.plan == saved
    session.history.undo()
    assert session.plan.framings != saved.framings or session.plan.rigs != saved.rigs


@pytest.mark.parametrize(
    ("content", "word"),
    [
        (b'{"format": "skysill-plan", "version": 1, "title"', "cut off"),
        (b'{"format": "skysill-plan", "version": 7}', "later version"),
        (b"GIF89a", "not JSON"),
        (b'{"format": "skysill-plan", "version": 1, "rigs": 3}', "rigs"),
    ],
)
def test_a_bad_plan_file_is_one_sentence_and_nothing_is_lost(
    open_window, tmp_path: Path, content: bytes, word: str
) -> None:
    shell = open_window(settle=False)
    before = shell.workbench.session.plan
    bad = tmp_path / "bad.json"
    bad.write_bytes(content)
    shell.workbench.menus.files.open(str(bad))
    assert word in message(shell)
    assert "bad.json" in message(shell)
    assert shell.workbench.session.plan == before


def test_saving_where_nothing_can_be_written_says_so(open_window) -> None:
    shell = open_window(settle=False)
    shell.workbench.menus.files.save_to("/nowhere/at/all/plan.json")
    assert "/nowhere/at/all" in message(shell)


def test_the_sheet_is_saved_as_a_picture_with_its_credit(open_window, tmp_path: Path) -> None:
    shell = open_window()
    shell.workbench.menus.files.save_picture(str(tmp_path / "sheet"))
    image = QImage(str(tmp_path / "sheet.png"))
    size = shell.workbench.sheet.size()
    assert (image.width(), image.height()) == (2 * size.width(), 2 * size.height())
    ground = image.pixel(4, image.height() - 4)
    written = {
        image.pixel(x, y) != ground
        for x in range(image.width() - 300, image.width() - 60)
        for y in range(image.height() - 34, image.height() - 6)
    }
    assert True in written


def test_a_refusal_ends_before_the_next_sentence_begins(open_window, tmp_path: Path) -> None:
    shell = open_window(settle=False)
    (tmp_path / "bad.json").write_text("")
    shell.workbench.menus.files.open(str(tmp_path / "bad.json"))
    assert message(shell) == "■ bad.json is empty. The open plan stays as it was."


@pytest.mark.parametrize(
    ("name", "file"),
    [("m31 1.5 deg", "m31 1.5 deg.png"), ("Sheet.PNG", "Sheet.PNG")],
)
def test_a_picture_keeps_the_whole_of_its_name(open_window, tmp_path, name, file) -> None:
    shell = open_window(settle=False)
    shell.workbench.menus.files.save_picture(str(tmp_path / name))
    assert [found.name for found in tmp_path.glob("*.[pP]*")] == [file]
    assert message(shell) == f"● Saved the sheet to {tmp_path / file}."


def test_a_picture_that_cannot_be_written_is_said(open_window) -> None:
    shell = open_window(settle=False)
    shell.workbench.menus.files.save_picture("/nowhere/at/all.png")
    assert message(shell) == "■ The picture cannot be written to /nowhere/at/all.png."


# Asking -------------------------------------------------------------------------


def test_the_keys_ask_for_a_file_and_take_the_answer(open_window, asked, tmp_path: Path) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    asked.answer = on_file(tmp_path, "Asked")
    QTest.keyClick(shell, Qt.Key.Key_O, CTRL)
    assert session.plan.title == "Asked"
    assert message(shell) == f"● Opened {asked.answer}."
    asked.answer = str(tmp_path / "elsewhere.json")
    QTest.keyClick(shell, Qt.Key.Key_S, CTRL | SHIFT)
    assert load_plan(asked.answer).title == "Asked"
    assert message(shell) == f"● Saved to {asked.answer}."
    asked.answer = str(tmp_path / "sheet.png")
    QTest.keyClick(shell, Qt.Key.Key_P, CTRL)
    assert not QImage(asked.answer).isNull()
    save, read = QFileDialog.AcceptMode.AcceptSave, QFileDialog.AcceptMode.AcceptOpen
    assert asked == [
        ("Open a plan", read, ""),
        ("Save the plan", save, "json"),
        ("Save the sheet as a picture", save, "png"),
    ]


def test_giving_a_question_up_changes_nothing(open_window, asked) -> None:
    shell = open_window(settle=False)
    before, words = shell.workbench.session.plan, message(shell)
    for key, held in ((Qt.Key.Key_O, CTRL), (Qt.Key.Key_S, CTRL | SHIFT), (Qt.Key.Key_P, CTRL)):
        QTest.keyClick(shell, key, held)
    assert len(asked) == 3
    assert shell.workbench.session.plan == before
    assert message(shell) == words


# Whose file ---------------------------------------------------------------------


def test_saving_goes_to_the_file_the_plan_came_from(open_window, asked, tmp_path: Path) -> None:
    """Regression: a plan named on the command line was saved over the last one's file."""
    other = on_file(tmp_path, "Other")
    first = open_window(settle=False)
    first.workbench.menus.files.open(other)
    first.close()
    mine = on_file(tmp_path, "Mine")
    shell = open_window(mine, settle=False)
    QTest.keyClick(shell, Qt.Key.Key_G, CTRL)
    QTest.keyClick(shell, Qt.Key.Key_S, CTRL)
    assert asked == []
    assert load_plan(mine) == shell.workbench.session.plan
    assert load_plan(other).title == "Other"


def test_the_file_is_remembered_at_the_next_start(open_window, asked, tmp_path: Path) -> None:
    mine = on_file(tmp_path, "Mine")
    first = open_window(settle=False)
    first.workbench.menus.files.save_to(mine)
    first.close()
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_G, CTRL)
    QTest.keyClick(shell, Qt.Key.Key_S, CTRL)
    assert asked == []
    assert load_plan(mine) == shell.workbench.session.plan


@pytest.mark.parametrize("leave", ["demo", "undo"])
def test_another_plan_is_not_saved_over_the_file_of_the_last(
    open_window, asked, tmp_path: Path, leave: str
) -> None:
    """Regression: the demo, or the plan before, was saved over the file that was open."""
    mine = on_file(tmp_path, "Mine")
    shell = open_window(settle=False)
    files = shell.workbench.menus.files
    files.open(mine)
    if leave == "demo":
        files.open_demo()
    else:
        shell.workbench.session.history.undo()
    assert shell.workbench.session.plan.title != "Mine"
    QTest.keyClick(shell, Qt.Key.Key_S, CTRL)
    assert load_plan(mine).title == "Mine"
    assert [title for title, *_ in asked] == ["Save the plan"]


def test_undo_of_a_step_on_the_plan_keeps_its_file(open_window, asked, tmp_path: Path) -> None:
    mine = on_file(tmp_path, "Mine")
    shell = open_window(settle=False)
    shell.workbench.menus.files.open(mine)
    QTest.keyClick(shell, Qt.Key.Key_G, CTRL)
    shell.workbench.session.history.undo()
    QTest.keyClick(shell, Qt.Key.Key_S, CTRL)
    assert asked == []


def test_the_demo_in_place_of_a_damaged_plan_has_no_file(
    open_window, asked, places: Places, tmp_path: Path
) -> None:
    mine = on_file(tmp_path, "Mine")
    first = open_window(settle=False)
    first.workbench.menus.files.open(mine)
    first.close()
    places.open_plan.write_text("damaged")
    QTest.keyClick(open_window(settle=False), Qt.Key.Key_S, CTRL)
    assert load_plan(mine).title == "Mine"
    assert len(asked) == 1


# Dropped ------------------------------------------------------------------------


def drop(shell: Shell, *paths: Path) -> bool:
    """Drag files in and let them go; tell whether the window takes them."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    copy = Qt.DropAction.CopyAction
    entering = QDragEnterEvent(QPoint(5, 5), copy, data, left, none)
    QApplication.sendEvent(shell, entering)
    QApplication.sendEvent(shell, QDropEvent(QPointF(5, 5), copy, data, left, none))
    return entering.isAccepted()


@pytest.mark.parametrize("name", ["dropped.json", "DROPPED.JSON"])
def test_a_dropped_plan_is_opened(open_window, tmp_path: Path, name: str) -> None:
    save_plan(Plan(title="Dropped"), tmp_path / name)
    shell = open_window(settle=False)
    assert shell.acceptDrops()
    assert drop(shell, tmp_path / name)
    assert shell.workbench.session.plan.title == "Dropped"


def test_pictures_and_heaps_are_not_taken(open_window, tmp_path: Path) -> None:
    shell = open_window(settle=False)
    one, two = (Path(on_file(tmp_path, name)) for name in ("One", "Two"))
    before = shell.workbench.session.plan
    assert not drop(shell, tmp_path / "photo.jpg")
    assert not drop(shell, one, two)
    assert not drop(shell)
    assert shell.workbench.session.plan == before
