"""The page of parts by hand and by key; what is asserted is the plan."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.rig_editor.beam_layout import ADD
from app.rig_editor.parts_page import PartsPage
from app.session import Session
from core.gear.slots import Slot
from core.plan import edits
from tests.app.rig_editor.hands import KEY, beam_order, choose, click, drag_to, take, type_figure

pytestmark = pytest.mark.gui
CAMERA, SPACER, PRISM, WHEEL = Slot("camera"), *(Slot("others", n) for n in range(3))


def test_a_click_on_a_part_brings_its_figures(page: PartsPage) -> None:
    click(page, CAMERA)
    assert page.slot == CAMERA
    assert page.desk.heading.text() == "sensor"
    assert page.desk.form.fields["pixel_um"].text() == "3.76"
    click(page, WHEEL)
    assert page.desk.form.fields["length_mm"].text() == "20"
    assert "pixel_um" not in page.desk.form.fields


def test_a_figure_is_taken_at_enter_and_undone(page: PartsPage, session: Session, rig_now) -> None:
    click(page, SPACER)
    type_figure(page, "length_mm", "12.5")
    assert rig_now().others[0].length_mm == 12.5
    assert session.history.undoText() == "length of spacer of H"
    session.history.undo()
    assert rig_now().others[0].length_mm == 10.0
    assert page.desk.form.fields["length_mm"].text() == "10"
    session.history.redo()
    assert rig_now().others[0].length_mm == 12.5


def test_a_figure_is_taken_when_the_field_is_left(page: PartsPage, rig_now) -> None:
    click(page, CAMERA)
    type_figure(page, "flange_mm", "18", enter=False)
    assert rig_now().camera.flange_mm == 17.5
    QTest.keyClick(page.desk.form.fields["flange_mm"], KEY.Key_Tab)
    assert rig_now().camera.flange_mm == 18.0


def test_empty_text_makes_a_figure_unknown_and_a_needed_one_is_asked_for(
    page: PartsPage, rig_now
) -> None:
    click(page, SPACER)
    type_figure(page, "length_mm", "")
    assert rig_now().others[0].length_mm is None
    assert page.desk.form.fields["length_mm"].placeholderText() == "not known"
    click(page, CAMERA)
    type_figure(page, "columns", "")
    line = page.desk.form.fields["columns"]
    assert line.complaint.text() == 'Columns "": must be a number; a rig cannot be without it'
    assert rig_now().camera.columns == 6248


@pytest.mark.parametrize(
    ("slot", "field", "text", "sentence"),
    [
        (CAMERA, "flange_mm", "17,5", "write a point for the comma: 17.5"),
        (CAMERA, "flange_mm", "-3", "must be at least 0 mm"),
        (CAMERA, "columns", "12.5", "must be a whole number"),
        (CAMERA, "pixel_um", "wide", "must be a number"),
        (CAMERA, "peak_qe", "80", "must be at most 1"),
        (CAMERA, "flange_mm", "1e999", "must be a finite number"),
        (CAMERA, "name", "", "must not be empty"),
        (CAMERA, "link", "http://a", "has characters that do not belong there"),
        (Slot("telescope"), "obstruction_mm", "90", "must be less than the aperture of 80 mm"),
        (Slot("telescope"), "focal_length_mm", "10", "must lie between f/0.5 and f/1000"),
    ],
)
def test_a_figure_that_cannot_be_is_refused_with_one_sentence_beside_it(
    page: PartsPage, rig_now, slot: Slot, field: str, text: str, sentence: str
) -> None:
    before = rig_now()
    click(page, slot)
    type_figure(page, field, text)
    line = page.desk.form.fields[field]
    assert sentence in line.complaint.text()
    assert line.complaint.isVisible()
    assert line.text() == text
    assert rig_now() == before
    QTest.keyClick(line, KEY.Key_Escape)
    assert not line.complaint.isVisible()


def test_a_unit_may_stand_behind_the_number(page: PartsPage, rig_now) -> None:
    click(page, SPACER)
    type_figure(page, "length_mm", "11.25 mm")
    assert rig_now().others[0].length_mm == 11.25


def test_findings_follow_each_letter_and_the_plan_waits_for_enter(
    page: PartsPage, bench, rig_now
) -> None:
    click(page, SPACER)
    assert page.beam.look.levels[Slot("corrector")] == "good"
    type_figure(page, "length_mm", "5", enter=False)
    assert page.beam.look.levels[Slot("corrector")] == "caution"
    assert any("add a spacer of 5.0 mm" in finding.message for finding in page.rest.shown)
    assert "add a spacer of 5.0 mm" in bench.header.verdict.words
    assert rig_now().others[0].length_mm == 10.0
    QTest.keyClick(page.desk.form.fields["length_mm"], KEY.Key_Escape)
    assert page.beam.look.levels[Slot("corrector")] == "good"
    assert rig_now().others[0].length_mm == 10.0


def test_what_cannot_be_a_figure_is_not_looked_at(page: PartsPage) -> None:
    click(page, SPACER)
    type_figure(page, "length_mm", "5,", enter=False)
    assert page.beam.look.levels[Slot("corrector")] == "good"


def test_kinds_and_yes_or_no_are_chosen_from_lists(
    page: PartsPage, session: Session, rig_now
) -> None:
    click(page, CAMERA)
    choose(page, "sensor", "colour")
    assert rig_now().camera.sensor == "colour"
    session.history.undo()
    assert page.desk.form.choices["sensor"].currentText() == "mono"
    session.history.redo()
    assert page.desk.form.choices["sensor"].currentText() == "colour"
    choose(page, "cooled", "yes")
    assert rig_now().camera.cooled is True
    choose(page, "cooled", "not known")
    assert rig_now().camera.cooled is None
    click(page, SPACER)
    choose(page, "kind", "filter drawer")
    assert type(rig_now().others[0]).__name__ == "FilterPart"
    assert rig_now().others[0].length_mm == 10.0
    assert "glass_mm" in page.desk.form.fields


def test_the_mount_is_used_with_and_without_a_counterweight(page: PartsPage, rig_now) -> None:
    click(page, Slot("mount"))
    weight = page.desk.counterweight
    assert weight.isVisible()
    weight.setFocus()
    QTest.keyClick(weight, KEY.Key_Down)
    QTest.keyClick(weight, KEY.Key_Down)
    assert rig_now().counterweight is False
    click(page, CAMERA)
    assert not weight.isVisible()


def test_a_part_is_dragged_to_another_place_in_the_beam(
    page: PartsPage, session: Session, rig_now
) -> None:
    assert beam_order(page) == ["spacer", "prism", "wheel"]
    wheel = page.beam.drawing.tile(WHEEL)
    drag_to(page, SPACER, wheel.box.right() - 2)
    assert beam_order(page) == ["prism", "wheel", "spacer"]
    assert [part.name for part in rig_now().others] == ["prism", "wheel", "spacer", "small tube"]
    assert page.slot == WHEEL
    assert page.desk.heading.text() == "spacer"
    session.history.undo()
    assert beam_order(page) == ["spacer", "prism", "wheel"]


def test_escape_gives_a_drag_up(page: PartsPage, session: Session, rig_now) -> None:
    before = rig_now()
    drag_to(page, WHEEL, page.beam.drawing.rear_x, drop=False)
    assert page.beam.look.seam is not None
    QTest.keyClick(page.beam.handle(WHEEL), KEY.Key_Escape)
    assert page.beam.look.seam is None
    assert rig_now() == before
    assert not session.bench_open


def test_delete_takes_a_part_out_and_undo_brings_it_back(
    page: PartsPage, session: Session, rig_now
) -> None:
    before = rig_now()
    page.beam.take_focus(PRISM)
    QTest.keyClick(page.beam.handle(PRISM), KEY.Key_Delete)
    assert [part.name for part in rig_now().others] == ["spacer", "wheel", "small tube"]
    click(page, Slot("corrector"))
    QTest.mouseClick(page.desk.remove, Qt.MouseButton.LeftButton)
    assert rig_now().corrector is None
    session.history.undo()
    session.history.undo()
    assert rig_now() == before


@pytest.mark.parametrize("slot", [Slot("telescope"), CAMERA])
def test_telescope_and_camera_cannot_be_taken_out_and_it_is_said(
    page: PartsPage, session: Session, rig_now, slot: Slot
) -> None:
    before, said = rig_now(), []
    session.said.connect(lambda words, level: said.append((words, level)))
    page.beam.take_focus(slot)
    QTest.keyClick(page.beam.handle(slot), KEY.Key_Delete)
    assert rig_now() == before
    assert "put another in its place instead" in said[0][0]
    assert said[0][1] == "caution"
    assert not page.desk.remove.isEnabled()


def test_a_part_from_the_shelf_comes_before_the_chosen_one(page: PartsPage, rig_now) -> None:
    click(page, WHEEL)
    take(page, "spacer", "M54 18")
    assert beam_order(page) == ["spacer", "prism", "spacer M54, 18 mm", "wheel"]
    assert page.slot == WHEEL
    assert page.desk.heading.text() == "spacer M54, 18 mm"
    assert not page.chooser.isVisible()


def test_another_camera_takes_the_place_and_says_beforehand_what_follows(
    page: PartsPage, session: Session, rig_now
) -> None:
    click(page, CAMERA)
    QTest.mouseClick(page.desk.replace, Qt.MouseButton.LeftButton)
    chooser = page.chooser
    assert chooser.isVisible()
    assert chooser.model.rowCount() == len(session.shelf.cameras)
    QTest.keyClicks(chooser.narrow, "61 mp mono")
    assert chooser.model.rowCount() == 1
    effect = chooser.model.effect_of(chooser.model.parts[0])
    QTest.keyClick(chooser.narrow, KEY.Key_Return)
    assert rig_now().camera.name == "full frame 61 MP 3.76 µm, mono"
    worst = [*page.about.shown, *page.rest.shown]
    assert effect.full in [finding.message for finding in worst]


def test_escape_leaves_the_shelf_and_changes_nothing(page: PartsPage, rig_now) -> None:
    before = rig_now()
    click(page, ADD)
    QTest.keyClick(page.chooser.narrow, KEY.Key_Escape)
    assert not page.chooser.isVisible()
    assert rig_now() == before


def test_a_finding_goes_to_its_part(page: PartsPage) -> None:
    click(page, CAMERA)
    row = next(row for row in page.rest.rows if row.finding and row.finding.part == "reducer")
    QTest.mouseClick(row, Qt.MouseButton.LeftButton)
    assert page.slot == Slot("corrector")
    assert {finding.part for finding in page.about.shown} == {"reducer"}
    assert "reducer" not in {finding.part for finding in page.rest.shown}


def test_another_rig_is_shown_from_its_telescope_on(page: PartsPage, session: Session) -> None:
    click(page, CAMERA)
    other = session.plan.rigs[1]
    session.edit("choose", edits.with_current_rig(session.plan, other.id))
    assert page.slot == Slot("telescope")
    assert page.desk.heading.text() == other.rig.telescope.name


def test_prices_of_another_currency_are_not_taken_over(
    page: PartsPage, session: Session, rig_now
) -> None:
    session.set_shelf(session.shelf.but(currency="SEK"))
    take(page, "tripod", "steel")
    assert rig_now().others[-1].name == "tripod, steel"
    assert rig_now().others[-1].price is None
