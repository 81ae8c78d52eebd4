"""By keyboard and by menu: every entry does what its words say, every tick is true."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox

from app.window.places import Places
from core.catalogue.target import TargetKind
from core.pictures.surveys import SURVEYS
from core.plan import edits
from core.plan.document import Plan
from core.plan.store import load_plan, save_plan
from tests.app.window.hands import CTRL, entries

pytestmark = pytest.mark.gui


def test_a_person_types_a_name_turns_and_undoes_by_keys_alone(open_window) -> None:
    shell = open_window()
    session = shell.workbench.session
    QTest.keyClick(shell, Qt.Key.Key_L, CTRL)
    field = QApplication.focusWidget()
    QTest.keyClicks(field, "ngc7000")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert session.target.id == "NGC 7000"
    assert "North America" in shell.windowTitle()
    sheet = shell.workbench.sheet
    sheet.setFocus()
    before = session.framing(session.rig.id).pa_deg
    QTest.keyClick(sheet, Qt.Key.Key_Left, CTRL)
    assert session.framing(session.rig.id).pa_deg != before
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert session.framing(session.rig.id).pa_deg == before
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert session.target.id != "NGC 7000"


@pytest.mark.parametrize(
    ("key", "field"), [(Qt.Key.Key_U, "camera_up"), (Qt.Key.Key_M, "mirrored"),
                       (Qt.Key.Key_G, "graticule")]
)  # fmt: skip
def test_a_key_switches_the_view_and_undo_switches_it_back(open_window, key, field) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    before = getattr(session.plan.view, field)
    QTest.keyClick(shell, key, CTRL)
    assert getattr(session.plan.view, field) is not before
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert getattr(session.plan.view, field) is before


def test_names_go_and_come_by_kind(open_window) -> None:
    shell = open_window()
    session = shell.workbench.session
    QTest.keyClick(shell, Qt.Key.Key_N, CTRL)
    assert session.plan.view.labels == ()
    names = {action.text(): action for action in shell.workbench.menus.view.actions()}
    kinds = {a.text(): a for a in names["Names and outlines"].menu().actions()}
    kinds["Galaxy"].trigger()
    assert session.plan.view.labels == ("galaxy",)
    assert kinds["Galaxy"].isChecked()


@pytest.mark.parametrize(
    ("key", "held"),
    [(Qt.Key.Key_Z, CTRL | Qt.KeyboardModifier.ShiftModifier), (Qt.Key.Key_Y, CTRL)],
)
def test_either_key_does_again_what_was_undone(open_window, key, held) -> None:
    shell = open_window(settle=False)
    history = shell.workbench.session.history
    words = entries(shell.workbench.menus.plan)
    assert not words["Undo"].isEnabled()
    QTest.keyClick(shell, Qt.Key.Key_M, CTRL)
    assert words["Undo"].text() == "Undo mirror the sheet"
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert words["Redo"].text() == "Redo mirror the sheet"
    QTest.keyClick(shell, key, held)
    assert history.index() == 1
    assert shell.workbench.session.plan.view.mirrored


def test_closer_farther_and_back_and_forth(open_window) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    first = session.plan.view
    QTest.keyClick(shell, Qt.Key.Key_Plus, CTRL)
    closer = session.plan.view
    assert closer.width_deg < first.width_deg
    QTest.keyClick(shell, Qt.Key.Key_BracketLeft, CTRL)
    assert session.plan.view == first
    QTest.keyClick(shell, Qt.Key.Key_BracketRight, CTRL)
    assert session.plan.view == closer
    QTest.keyClick(shell, Qt.Key.Key_Minus, CTRL)
    assert session.plan.view.width_deg > closer.width_deg


def test_back_to_the_target_and_all_of_the_frame(open_window) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    away = {"ra_deg": 200.0, "dec_deg": -30.0, "width_deg": 1.0}
    session.set_view(session.plan.view.model_copy(update=away))
    QTest.keyClick(shell, Qt.Key.Key_Home, CTRL)
    assert session.plan.view.ra_deg == session.target.ra_deg
    assert session.plan.view.width_deg == session.comfortable_width_deg()
    session.edit("choose", edits.with_current_rig(session.plan, session.plan.rigs[0].id))
    QTest.keyClick(shell, Qt.Key.Key_0, CTRL)
    diagonal_deg = session.rig.rig.diagonal_deg
    assert diagonal_deg < session.plan.view.width_deg < 2 * diagonal_deg


def test_whole_screen_and_back_to_the_size_before(open_window) -> None:
    shell = open_window(settle=False)
    shell.showMaximized()
    QTest.keyClick(shell, Qt.Key.Key_F11)
    assert shell.isFullScreen()
    QTest.keyClick(shell, Qt.Key.Key_F11)
    assert not shell.isFullScreen()
    assert shell.isMaximized()


def test_the_keys_are_told(open_window) -> None:
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_F1)
    box = shell.findChild(QMessageBox)
    assert box.isVisible()
    assert "Arrow keys" in box.informativeText()
    assert "On the rig bench:\nLeft and right walk" in box.informativeText()
    box.close()


def test_find_a_target_puts_the_keyboard_into_the_box(open_window) -> None:
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_L, CTRL)
    assert QApplication.focusWidget() is shell.workbench.target_box


def test_the_key_to_close_closes_and_keeps_the_plan(open_window, places: Places) -> None:
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_M, CTRL)
    QTest.keyClick(shell, Qt.Key.Key_Q, CTRL)
    assert not shell.isVisible()
    assert load_plan(places.open_plan) == shell.workbench.session.plan


def test_the_demo_comes_back(open_window, tmp_path) -> None:
    save_plan(Plan(title="Empty"), tmp_path / "empty.json")
    shell = open_window(str(tmp_path / "empty.json"), settle=False)
    entries(shell.workbench.menus.plan)["Begin again with the demo plan"].trigger()
    assert len(shell.workbench.session.plan.rigs) >= 5


# Ticks --------------------------------------------------------------------------


def test_the_ticks_of_the_view_are_those_of_the_plan(open_window) -> None:
    shell = open_window(settle=False)
    session, view = shell.workbench.session, entries(shell.workbench.menus.view)
    fields = {"Camera up": "camera_up", "Mirrored": "mirrored", "Graticule": "graticule"}

    def true_ticks() -> bool:
        return all(
            view[words].isChecked() == getattr(session.plan.view, field)
            for words, field in fields.items()
        )

    assert true_ticks()
    for words in fields:
        view[words].trigger()
        assert true_ticks()
        session.history.undo()
        assert true_ticks()


def test_the_ticks_of_a_plan_that_was_left_are_there_at_the_start(open_window) -> None:
    first = open_window(settle=False)
    first.workbench.session.change_view(labels=("galaxy",), mirrored=True)
    first.close()
    view = entries(open_window(settle=False).workbench.menus.view)
    kinds = entries(view["Names and outlines"].menu())
    assert [words for words, action in kinds.items() if action.isChecked()] == ["Galaxy"]
    assert view["Mirrored"].isChecked()


def test_a_kind_goes_and_comes_and_all_come_at_once(open_window) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    kinds = entries(entries(shell.workbench.menus.view)["Names and outlines"].menu())
    session.change_view(labels=("galaxy", "star"))
    kinds["Galaxy"].trigger()
    assert session.plan.view.labels == ("star",)
    assert not kinds["Galaxy"].isChecked()
    kinds["All"].trigger()
    every = {kind.value for kind in TargetKind}
    assert set(session.plan.view.labels) == every - {"position", "other"}


def test_the_sky_menu_chooses_the_picture_and_the_bar_says_which(open_window) -> None:
    shell = open_window(settle=False)
    shell.workbench.loader.finish()
    session, sky = shell.workbench.session, entries(shell.workbench.menus.sky)
    bar = shell.workbench.bar.sky
    assert "drawn from catalogues" in bar.text()
    for survey in SURVEYS[:3]:
        sky[survey.name].trigger()
        assert session.plan.view.picture == survey.id
        assert survey.name in bar.text()
        assert [w for w, a in sky.items() if a.isChecked()] == [survey.name]
        assert sky[survey.name].toolTip() == survey.coverage
    assert shell.workbench.menus.sky.toolTipsVisible()
    session.history.undo()
    assert sky[SURVEYS[1].name].isChecked()
    next(action for words, action in sky.items() if words.startswith("Drawn")).trigger()
    assert session.plan.view.picture == "chart"


def test_the_bar_says_at_the_start_whose_sky_it_is(open_window) -> None:
    first = open_window(settle=False)
    first.workbench.session.change_view(picture=SURVEYS[2].id)
    first.close()
    second = open_window(settle=False)
    assert SURVEYS[2].name in second.workbench.bar.sky.text()
