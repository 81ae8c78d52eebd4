"""The six classes of complete rig, built on the bench figure by figure.

What is asked of each is what the sums by hand say in tests/core/gear/test_six_classes.py:
the same rig, the same totals, the same findings, and a way back to where it began.
"""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.rig_editor.bench import RigBench
from app.session import Session
from core.gear.checks import Conditions, findings
from core.gear.slots import Slot
from core.plan import edits
from tests.app.rig_editor.building import begin_blank, build
from tests.app.rig_editor.hands import KEY, add_blank, click, take, type_figure
from tests.core.gear.test_six_classes import six

pytestmark = pytest.mark.gui

#: The first of the seven filters of f.
FILTER = Slot("others", 3)
#: Beyond good, by hand: see the same table with its sums in tests/core/gear.
BEYOND_GOOD = {
    "a": {"sampling": "note"},
    "b": {"load": "note"},
    "c": {"sampling": "note", "load": "note"},
    "d": {"guide-scale": "note"},
    "e": {"load": "note", "guide-scale": "note"},
    "f": {},
}
#: Focal length in mm, mass on the mount and rated load in kg.
SUMS = {
    "a": (180.0, 2.05, 5.0),
    "b": (250.0, 2.55, 5.0),
    "c": (250.0, 2.85, 5.0),
    "d": (490.0, 3.85, 8.0),
    "e": (490.0, 4.10, 8.0),
    "f": (462.08, 6.47, 13.0),
}


@pytest.mark.parametrize("letter", list(SUMS))
def test_each_of_the_six_is_built_with_its_sums_and_findings(
    letter: str, bench: RigBench, session: Session, rig_now
) -> None:
    page, wanted = bench.parts, six()[letter]
    begin_blank(session)
    began, steps = session.plan, session.history.index()
    build(page, session, wanted)
    bench.header.name.setFocus()
    bench.header.name.selectAll()
    QTest.keyClicks(bench.header.name, wanted.name)
    QTest.keyClick(bench.header.name, KEY.Key_Return)
    built = rig_now()
    assert built == wanted
    focal_mm, mass_kg, rated_kg = SUMS[letter]
    assert built.focal_length_mm == pytest.approx(focal_mm)
    assert built.mass_kg == pytest.approx(mass_kg)
    assert built.load_fraction == pytest.approx(mass_kg / rated_kg)
    assert session.plan.nights == Conditions()
    shown = [*page.about.shown, *page.rest.shown]
    assert {f.rule: f.severity for f in shown if f.severity != "good"} == BEYOND_GOOD[letter]
    assert sorted(f.message for f in shown) == sorted(f.message for f in findings(wanted))
    while session.history.index() > steps:
        session.history.undo()
    assert session.plan == began


@pytest.mark.parametrize("by_key", [False, True])
def test_a_part_that_is_added_is_the_chosen_one(
    bench: RigBench, session: Session, by_key: bool
) -> None:
    """Hiding the shelf lends the keyboard to the part before; its figures stayed on the desk."""
    page = bench.parts
    begin_blank(session)
    click(page, Slot("camera"))
    if by_key:
        take(page, "tripod", "steel")
    else:
        add_blank(page, "tripod")
    assert page.slot == Slot("others", 0)
    assert page.desk.heading.text() == ("tripod, steel" if by_key else "new tripod")
    assert page.beam.handle(page.slot).hasFocus()


@pytest.mark.parametrize("by", ["delete", "swap"])
def test_what_was_refused_for_a_part_goes_with_it(
    bench: RigBench, session: Session, by: str
) -> None:
    """No price of f is known; a refused text stood in the next one's field."""
    page = bench.parts
    session.edit("add", edits.with_rig(session.plan, six()["f"]))
    click(page, FILTER)
    assert page.desk.heading.text() == "filter 0"
    type_figure(page, "price", "7,5")
    assert page.desk.form.fields["price"].wrong
    if by == "delete":
        QTest.mouseClick(page.desk.remove, Qt.MouseButton.LeftButton)
    else:
        QTest.mouseClick(page.desk.replace, Qt.MouseButton.LeftButton)
        QTest.mouseClick(page.chooser.blank, Qt.MouseButton.LeftButton)
    assert page.slot == FILTER
    assert page.desk.heading.text() == ("filter 1" if by == "delete" else "new filter")
    assert not page.desk.form.fields["price"].wrong
    assert not page.desk.form.fields["price"].text()


def test_a_counterweight_chosen_on_the_desk_lowers_the_load_of_e(
    bench: RigBench, session: Session, rig_now
) -> None:
    """4.1 kg of 8.0 is past the half; of 13.0 it is 31.5 %."""
    page = bench.parts
    begin_blank(session)
    build(page, session, six()["e"])
    click(page, Slot("mount"))
    load = next(f for f in [*page.about.shown, *page.rest.shown] if f.rule == "load")
    assert (load.severity, load.value) == ("note", pytest.approx(4.1 / 8.0))
    weight = page.desk.counterweight
    weight.setFocus()
    QTest.keyClick(weight, KEY.Key_Down)
    assert weight.currentText() == "with a counterweight"
    QApplication.processEvents()
    assert rig_now().counterweight is True
    load = next(f for f in [*page.about.shown, *page.rest.shown] if f.rule == "load")
    assert (load.severity, load.value) == ("good", pytest.approx(4.1 / 13.0))
