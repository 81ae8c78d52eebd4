"""The shelf in the window: put on, added, imported, exported, opened; closing keeps it."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QMenu, QToolButton

from app.window.places import Places
from app.window.shell import Shell
from core.errors import StorageError
from core.gear.shelf.edits import with_part_changed
from core.gear.shelf.files import load_rig, save_rig, save_shelf
from core.gear.shelf.shelf import Shelf
from core.plan import edits
from core.plan.document import Plan
from core.plan.store import save_plan
from tests.app.window.hands import CTRL, entries, message

pytestmark = pytest.mark.gui

OWN = Shelf.load()
NEWTON = "150 mm Newtonian, colour"


def press(menu: QMenu, *keys: Qt.Key) -> None:
    """Open a menu and press keys in it; a list that opens from it takes the next ones."""
    menu.popup(menu.parentWidget().mapToGlobal(menu.parentWidget().rect().center()))
    for key in keys:
        target = next((m for m in menu.findChildren(QMenu) if m.isVisible()), menu)
        QTest.keyClick(target, key)


def kept(places: Places) -> Shelf:
    return Shelf.load(places.shelf)


def cheaper() -> Shelf:
    mount = OWN.mount("equatorial 15 kg").but(price=900.0)
    return with_part_changed(OWN, mount.name, mount)


def test_the_bar_offers_the_shelf(open_window) -> None:
    shell = open_window(settle=False)
    buttons = {button.text(): button for button in shell.workbench.bar.findChildren(QToolButton)}
    assert buttons["Shelf ▾"].menu() is shell.workbench.menus.shelf
    assert buttons["Shelf ▾"].toolTip() == "Parts and rigs to choose from"


def test_nothing_of_the_shelf_is_read_before_it_is_asked_for(open_window) -> None:
    shell = open_window(settle=False)
    files = shell.workbench.menus.shelf.files
    assert files.keeper is None
    shell.workbench.menus.shelf.fill_rigs()
    assert files.keeper is not None


def test_a_key_puts_the_chosen_rig_on_the_shelf_and_closing_keeps_it(
    open_window, places: Places
) -> None:
    shell = open_window(settle=False)
    rig = shell.workbench.session.rig.rig
    QTest.keyClick(shell, Qt.Key.Key_B, CTRL)
    assert message(shell) == f"● {rig.name} is on the shelf: 1 new, {len(rig.parts)} the same."
    shell.close()
    assert kept(places).rig(rig.name) == rig
    again = open_window(settle=False)
    assert again.workbench.session.shelf.rig(rig.name) == rig


def test_arrow_keys_add_a_rig_of_the_shelf_to_the_plan_and_undo_takes_it_out(
    open_window, qtbot
) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    before = session.plan
    press(shell.workbench.menus.shelf, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Right,
          Qt.Key.Key_Down, Qt.Key.Key_Return)  # fmt: skip
    assert session.rig.rig == OWN.rig(OWN.rigs[1].name)
    assert session.plan.rigs[:-1] == before.rigs
    letter = session.letter(session.rig.id)
    assert message(shell) == f"{OWN.rigs[1].name} is in the plan as {letter}."
    assert session.history.undoText() == f"add {OWN.rigs[1].name}"
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert session.plan.rigs == before.rigs


def test_the_list_of_rigs_is_the_shelf_as_it_is_now(open_window) -> None:
    shell = open_window(settle=False)
    menu, session = shell.workbench.menus.shelf, shell.workbench.session
    menu.rigs.aboutToShow.emit()
    assert list(entries(menu.rigs)) == [rig.name for rig in OWN.rigs]
    session.set_shelf(OWN.but(rigs=(OWN.rigs[0].but(name="Black & white"),)))
    menu.rigs.aboutToShow.emit()
    assert list(entries(menu.rigs)) == ["Black && white"]
    entries(menu.rigs)["Black && white"].trigger()
    assert session.rig.rig.name == "Black & white"
    session.set_shelf(Shelf(currency="EUR"))
    menu.rigs.aboutToShow.emit()
    assert [(a.text(), a.isEnabled()) for a in menu.rigs.actions()] == [
        ("No rig on the shelf yet", False)
    ]


def test_another_currency_is_told_and_changes_nothing(open_window, tmp_path: Path) -> None:
    plan = edits.with_rig(Plan(currency="SEK"), OWN.rig(NEWTON))
    save_plan(plan, tmp_path / "crowns.json")
    shell = open_window(str(tmp_path / "crowns.json"), settle=False)
    session = shell.workbench.session
    shell.workbench.menus.shelf.files.add_to_plan(NEWTON)
    assert message(shell) == (
        '■ The rig is not added: currency of the shelf "EUR": must be that of the plan, SEK; no '
        "rate is known here."
    )
    QTest.keyClick(shell, Qt.Key.Key_B, CTRL)
    assert "is not put on the shelf: currency of what comes in" in message(shell)
    assert (session.plan.rigs, session.shelf) == (plan.rigs, OWN)


def test_a_plan_without_rigs_takes_the_currency_of_the_shelf(open_window, tmp_path: Path) -> None:
    save_plan(Plan(currency="SEK"), tmp_path / "empty.json")
    shell = open_window(str(tmp_path / "empty.json"), settle=False)
    shell.workbench.menus.shelf.files.add_to_plan(NEWTON)
    assert shell.workbench.session.plan.currency == "EUR"
    assert shell.workbench.session.rig.rig == OWN.rig(NEWTON)


def test_without_a_chosen_rig_its_entries_are_dead_and_the_key_says_why(
    open_window, tmp_path: Path
) -> None:
    save_plan(Plan(), tmp_path / "empty.json")
    shell = open_window(str(tmp_path / "empty.json"), settle=False)
    menu = shell.workbench.menus.shelf
    menu.aboutToShow.emit()
    words = entries(menu)
    assert not words["Put the chosen rig on the shelf"].isEnabled()
    assert not words["Export the chosen rig ..."].isEnabled()
    assert not words["Back to the usual shelf"].isEnabled()
    menu.files.put_chosen()
    assert message(shell) == "▲ Choose a rig first."


# Files --------------------------------------------------------------------------


def test_each_entry_asks_for_its_file(open_window, asked) -> None:
    shell = open_window(settle=False)
    words = entries(shell.workbench.menus.shelf)
    shell.workbench.menus.shelf.aboutToShow.emit()
    before, told = shell.workbench.session.shelf, message(shell)
    QTest.keyClick(shell, Qt.Key.Key_I, CTRL)
    for entry in ("Export the chosen rig ...", "Export the shelf ...", "Open a shelf file ..."):
        words[entry].trigger()
    read, save = QFileDialog.AcceptMode.AcceptOpen, QFileDialog.AcceptMode.AcceptSave
    assert asked == [
        ("Import a rig or a shelf", read, ""),
        ("Export the chosen rig", save, "json"),
        ("Export the shelf", save, "json"),
        ("Open a shelf", read, ""),
    ]
    assert (shell.workbench.session.shelf, message(shell)) == (before, told)


def test_a_rig_goes_out_and_comes_in_with_its_parts(open_window, asked, tmp_path: Path) -> None:
    shell = open_window(settle=False)
    session, menu = shell.workbench.session, shell.workbench.menus.shelf
    asked.answer = str(tmp_path / "rig.json")
    entries(menu)["Export the chosen rig ..."].trigger()
    assert message(shell) == f"● Exported {session.rig.rig.name} to {asked.answer}."
    assert load_rig(asked.answer).rig == session.rig.rig
    session.set_shelf(Shelf(currency="EUR"))
    QTest.keyClick(shell, Qt.Key.Key_I, CTRL)
    assert session.shelf.rig(session.rig.rig.name) == session.rig.rig
    assert message(shell) == (
        f"● Imported rig.json: {len(session.rig.rig.parts) + 1} new, 0 the same."
    )


def test_what_differs_comes_in_beside_and_is_told(open_window, asked, tmp_path: Path) -> None:
    shell = open_window(settle=False)
    save_shelf(cheaper(), tmp_path / "theirs.json")
    asked.answer = str(tmp_path / "theirs.json")
    QTest.keyClick(shell, Qt.Key.Key_I, CTRL)
    mounts = shell.workbench.session.shelf.mounts
    prices = [m.price for m in mounts if m.name.startswith("equatorial 15 kg")]
    assert prices == [1420.0, 900.0]
    assert message(shell).startswith("▲ Imported theirs.json: 0 new, ")
    assert "3 with other figures: both stay, the newcomer with a number (equatorial 15" in message(
        shell
    )


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ('{"format": "skysill-shelf", "ver', "bad.json is cut off"),
        ('{"format": "skysill-plan", "version": 1}', "bad.json is JSON of another kind"),
        ('{"format": "skysill-shelf", "version": 1, "currency": "CHF"}', 'comes in "CHF": must'),
    ],
)
def test_a_bad_file_is_one_sentence_and_the_shelf_stays(
    open_window, asked, tmp_path: Path, content: str, told: str
) -> None:
    shell = open_window(settle=False)
    (tmp_path / "bad.json").write_text(content)
    asked.answer = str(tmp_path / "bad.json")
    QTest.keyClick(shell, Qt.Key.Key_I, CTRL)
    assert told in message(shell)
    assert message(shell).endswith(". The shelf stays as it was.")
    assert shell.workbench.session.shelf == OWN


def test_what_cannot_be_written_is_said(open_window) -> None:
    shell = open_window(settle=False)
    files = shell.workbench.menus.shelf.files
    files.export("/nowhere/at/all/shelf.json")
    assert message(shell).startswith("■ The shelf is not exported: cannot write /nowhere/at/all")
    files.export_rig("/nowhere/at/all/rig.json")
    assert message(shell).startswith("■ The rig is not exported: cannot write /nowhere/at/all")


def test_an_opened_shelf_is_kept_in_its_file_also_at_the_next_start(
    open_window, asked, places: Places, tmp_path: Path
) -> None:
    club = tmp_path / "club.json"
    save_shelf(Shelf(currency="EUR"), club)
    shell = open_window(settle=False)
    asked.answer = str(club)
    entries(shell.workbench.menus.shelf)["Open a shelf file ..."].trigger()
    assert message(shell) == f"● The shelf is {club} from now on."
    QTest.keyClick(shell, Qt.Key.Key_B, CTRL)
    shell.close()
    name = shell.workbench.session.rig.rig.name
    assert [rig.name for rig in Shelf.load(club).rigs] == [name]
    assert not places.shelf.exists()
    again = open_window(settle=False)
    assert [rig.name for rig in again.workbench.session.shelf.rigs] == [name]
    menu = again.workbench.menus.shelf
    menu.aboutToShow.emit()
    entries(menu)["Back to the usual shelf"].trigger()
    assert again.workbench.session.shelf == OWN
    assert message(again) == f"● The shelf is {places.shelf} from now on."


def test_a_rig_file_cannot_be_opened_as_a_shelf(open_window, asked, tmp_path: Path) -> None:
    save_rig(OWN.rig(NEWTON), tmp_path / "rig.json", currency="EUR")
    shell = open_window(settle=False)
    asked.answer = str(tmp_path / "rig.json")
    entries(shell.workbench.menus.shelf)["Open a shelf file ..."].trigger()
    assert message(shell) == (
        '■ rig.json is JSON of another kind: its format is not "skysill-shelf". The shelf stays '
        "as it was."
    )
    assert shell.workbench.session.shelf == OWN


# Closing ------------------------------------------------------------------------


def test_a_shelf_that_cannot_be_kept_is_told_once_before_the_window_closes(
    open_window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise StorageError("the disk is full")

    monkeypatch.setattr("app.shelf_file.keeper.write", refuse)
    shell: Shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_B, CTRL)
    shell.close()
    assert shell.isVisible()
    assert message(shell) == (
        "■ The shelf is not kept: the disk is full. Export it elsewhere, or close once more to "
        "lose it."
    )
    shell.close()
    assert not shell.isVisible()


def test_another_programs_change_reaches_the_open_window(
    open_window, places: Places, qtbot
) -> None:
    shell = open_window(settle=False)
    assert shell.workbench.session.shelf == OWN
    save_shelf(cheaper(), places.shelf)
    qtbot.waitUntil(lambda: shell.workbench.session.shelf == cheaper(), timeout=10_000)
    assert message(shell) == "● Another program changed the shelf: 0 new, 1 changed, 0 gone."
