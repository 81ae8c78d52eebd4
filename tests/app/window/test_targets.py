"""The targets of the plan, by menu and by key."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from core.plan.document import Plan
from core.plan.store import save_plan
from tests.app.window.hands import CTRL, entries

pytestmark = pytest.mark.gui


def test_keys_go_round_the_targets_of_the_plan(open_window) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    ids = [target.id for target in session.plan.targets]
    start = ids.index(session.target.id)
    QTest.keyClick(shell, Qt.Key.Key_PageDown, CTRL)
    assert session.target.id == ids[(start + 1) % len(ids)]
    QTest.keyClick(shell, Qt.Key.Key_PageUp, CTRL)
    QTest.keyClick(shell, Qt.Key.Key_PageUp, CTRL)
    assert session.target.id == ids[start - 1]


def test_the_targets_menu_goes_there_and_takes_one_out(open_window) -> None:
    shell = open_window(settle=False)
    session, menu = shell.workbench.session, shell.workbench.menus.targets
    menu.fill()
    other = session.plan.targets[-1]
    next(a for a in menu.actions() if a.text().startswith(other.id)).trigger()
    assert session.target == other
    menu.fill()
    next(a for a in menu.actions() if a.text().startswith("Take ")).trigger()
    assert other not in session.plan.targets
    session.history.undo()
    assert other in session.plan.targets


def test_the_menu_lists_the_targets_as_they_are_when_it_opens(open_window, targets) -> None:
    shell = open_window(settle=False)
    session, menu = shell.workbench.session, shell.workbench.menus.targets
    session.show_target(targets.find("M 81"))
    menu.aboutToShow.emit()
    words = [words for words in entries(menu) if words.startswith("M 81")]
    assert len(words) == 1
    assert [w for w, a in entries(menu).items() if a.isChecked()] == words


def test_taking_a_target_out_brings_the_sheet_to_the_next(open_window) -> None:
    shell = open_window(settle=False)
    session, menu = shell.workbench.session, shell.workbench.menus.targets
    menu.fill()
    next(a for w, a in entries(menu).items() if w.startswith("Take ")).trigger()
    assert session.target is not None
    assert session.plan.view.ra_deg == session.target.ra_deg


def test_a_plan_without_targets_says_so_and_its_keys_do_nothing(open_window, tmp_path) -> None:
    save_plan(Plan(title="Empty"), tmp_path / "empty.json")
    shell = open_window(str(tmp_path / "empty.json"), settle=False)
    before = shell.workbench.session.plan
    for key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp, Qt.Key.Key_Home, Qt.Key.Key_0):
        QTest.keyClick(shell, key, CTRL)
    assert shell.workbench.session.plan == before
    menu = shell.workbench.menus.targets
    menu.fill()
    assert not entries(menu)["No target in this plan yet"].isEnabled()
    assert not [words for words in entries(menu) if words.startswith("Take ")]
