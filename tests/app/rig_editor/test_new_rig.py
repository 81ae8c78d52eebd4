"""A new rig: picked from lists, blank, or whole from the shelf; and a plan without any."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from app.rig_editor.bench import RigBench
from app.session import Session
from core.gear.shelf.shelf import ShelfRig
from core.plan import edits
from tests.app.rig_editor.hands import KEY

pytestmark = pytest.mark.gui


def test_a_rig_is_made_of_a_telescope_and_a_camera_picked_by_typing(
    bench: RigBench, session: Session, rig_now
) -> None:
    count = len(session.plan.rigs)
    bench.ask_new_rig()
    new = bench.new_rig
    assert new.name.hasFocus()
    QTest.keyClicks(new.name, "Mine")
    QTest.keyClicks(new.telescopes.narrow, "90/500")
    QTest.keyClicks(new.cameras.narrow, "61 colour")
    new.cameras.narrow.clear()
    QTest.keyClicks(new.cameras.narrow, "one-inch square")
    QTest.keyClick(new.cameras.narrow, KEY.Key_Return)
    rig = rig_now()
    assert len(session.plan.rigs) == count + 1
    assert (rig.name, rig.telescope.aperture_mm) == ("Mine", 90.0)
    assert rig.camera.name.startswith("one-inch square")
    assert (rig.corrector, rig.mount, rig.others) == (None, None, ())
    assert bench.header.name.text() == "Mine"
    assert bench.parts.isVisible()
    session.history.undo()
    assert len(session.plan.rigs) == count


def test_blank_parts_are_offered_at_the_end_of_the_lists(
    bench: RigBench, session: Session, rig_now
) -> None:
    bench.ask_new_rig()
    new = bench.new_rig
    for one in (new.telescopes, new.cameras):
        QTest.keyClicks(one.narrow, "blank")
    QTest.mouseClick(new.make, Qt.MouseButton.LeftButton)
    rig = rig_now()
    assert rig.telescope.name == "new telescope"
    assert rig.camera.name == "new camera"
    assert rig.name == "new telescope with new camera"
    assert rig.camera.flange_mm is None


def test_without_a_pick_one_sentence_says_what_is_needed(bench: RigBench, session) -> None:
    count = len(session.plan.rigs)
    bench.ask_new_rig()
    QTest.keyClicks(bench.new_rig.cameras.narrow, "no such thing")
    QTest.keyClick(bench.new_rig.cameras.narrow, KEY.Key_Return)
    assert bench.new_rig.complaint.text().startswith("Pick a telescope and a camera")
    assert len(session.plan.rigs) == count


def test_a_whole_rig_comes_from_the_shelf(bench: RigBench, session: Session, rig_now) -> None:
    rig = session.plan.rigs[1].rig
    session.set_shelf(session.shelf.but(rigs=(ShelfRig.of(rig),)))
    bench.ask_new_rig()
    assert bench.new_rig.rigs.isVisible()
    QTest.mouseClick(bench.new_rig.take, Qt.MouseButton.LeftButton)
    assert rig_now().name == rig.name
    assert rig_now().others[0].name == rig.others[0].name


def test_escape_leaves_it_and_the_rig_is_there_as_before(bench: RigBench, session, rig_now) -> None:
    before = rig_now()
    session.open_bench()
    bench.ask_new_rig()
    QTest.keyClick(QApplication.focusWidget(), KEY.Key_Escape)
    assert session.bench_open
    assert bench.parts.isVisible()
    assert rig_now() == before


def test_a_plan_without_rigs_asks_for_one(bench: RigBench, session: Session, rig_now) -> None:
    plan = session.plan
    for planned in plan.rigs:
        plan = edits.without_rig(plan, planned.id)
    session.edit("clear", plan)
    new = bench.new_rig
    assert new.isVisible()
    assert not new.leave.isVisible()
    QTest.keyClick(new.name, KEY.Key_Return)
    assert rig_now().telescope == session.shelf.telescopes[0]
    assert bench.parts.isVisible()


def test_pages_are_walked_by_arrows_and_by_keys(bench: RigBench, session: Session) -> None:
    second = QLabel("second")
    bench.add_page("Second", second)
    QApplication.processEvents()
    assert not second.isVisible()
    bench.switch.buttons[0].setFocus()
    QTest.keyClick(bench.switch.buttons[0], KEY.Key_Right)
    assert second.isVisible()
    assert bench.switch.buttons[1].hasFocus()
    QTest.keyClick(bench.switch.buttons[1], KEY.Key_PageUp, Qt.KeyboardModifier.ControlModifier)
    assert bench.parts.isVisible()
    bench.show_page("Second")
    assert second.isVisible()
    done = []
    bench.add_action("Do it", lambda: done.append(1)).click()
    assert done == [1]
