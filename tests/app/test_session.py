"""The session: one history, one place for the view, no lost edit."""

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from app.session import Session
from core.gear.rig import rig_from_numbers
from core.gear.shelf.shelf import Shelf
from core.pictures.marks import Marks
from core.pictures.picture import Picture, PictureFrame
from core.pictures.surveys import SURVEYS
from core.plan import edits
from core.plan.document import Plan, SheetView
from core.sky.tangent_plane import TangentPlane

pytestmark = pytest.mark.gui


def test_undo_leaves_the_view_where_the_person_looks(session: Session) -> None:
    session.change_view(mirrored=True)
    looked = session.plan.view.model_copy(update={"ra_deg": 100.0, "width_deg": 9.0})
    session.set_view(looked)
    session.history.undo()
    assert session.plan.view.mirrored is False
    assert (session.plan.view.ra_deg, session.plan.view.width_deg) == (100.0, 9.0)


def test_views_are_gone_back_and_forth(session: Session) -> None:
    first = session.plan.view
    second = first.model_copy(update={"ra_deg": 50.0})
    third = first.model_copy(update={"ra_deg": 60.0})
    session.set_view(second)
    session.set_view(third)
    session.step_view(back=True)
    session.step_view(back=True)
    assert session.plan.view == first
    session.step_view(back=True)
    assert session.plan.view == first
    session.step_view(back=False)
    assert session.plan.view == second
    session.set_view(first)
    session.step_view(back=False)
    assert session.plan.view == first


def test_equal_keys_in_a_row_make_one_step(session: Session) -> None:
    before = session.plan.framings
    rig = session.rig.id
    for pa in (10.0, 20.0, 30.0):
        framing = session.framing(rig).model_copy(update={"pa_deg": pa})
        session.edit("turn", edits.with_framing(session.plan, framing), key=f"turn {rig}")
    assert session.history.count() == 1
    session.history.undo()
    assert session.plan.framings == before


def test_an_edit_that_changes_nothing_is_no_step(session: Session) -> None:
    session.edit("nothing", session.plan.but(title=session.plan.title))
    assert session.history.count() == 0


def test_a_preview_changes_no_plan_until_it_is_let_go(session: Session) -> None:
    rig, before = session.rig.id, session.plan
    moved = session.framing(rig).model_copy(update={"pa_deg": 77.0})
    session.preview(moved)
    assert session.framing(rig) == moved
    assert session.plan == before
    session.preview(None)
    assert session.framing(rig) != moved
    session.preview(moved)
    session.commit_preview("turn")
    assert session.plan.framings[-1] == moved
    assert session.history.count() == 1


def test_opening_a_plan_can_be_undone(session: Session) -> None:
    before = session.plan
    session.open_plan(Plan(title="Another"), "open a plan")
    assert session.plan.title == "Another"
    session.history.undo()
    assert session.plan.rigs == before.rigs


def test_going_to_a_target_brings_the_sheet_there(session: Session, targets) -> None:
    session.show_target(targets.find("M 13"))
    assert session.target.id == "M 13"
    assert session.plan.view.ra_deg == pytest.approx(session.target.ra_deg)
    session.history.undo()
    assert session.target.id != "M 13"


def test_a_frame_kept_for_one_target_is_there_when_one_comes_back(
    session: Session, targets
) -> None:
    home, rig = session.target, session.rig.id
    turned = session.framing(rig).model_copy(update={"pa_deg": 12.5})
    session.edit("turn", edits.with_framing(session.plan, turned))
    session.show_target(targets.find("M 13"))
    assert session.framing(rig).pa_deg != 12.5
    session.edit("back", edits.with_target(session.plan, home))
    assert session.framing(rig).pa_deg == 12.5


def test_an_unknown_survey_in_a_plan_is_the_drawn_sky(session: Session, stars, targets) -> None:
    asked = session.plan.view.model_copy(update={"picture": "CDS/P/no/such"})
    plan = edits.with_view(session.plan, asked)
    assert Session(plan, stars, targets).plan.view.picture == "chart"
    session.open_plan(plan, "open a plan")
    assert session.plan.view.picture == "chart"
    known = edits.with_view(plan, asked.model_copy(update={"picture": SURVEYS[0].id}))
    assert Session(known, stars, targets).plan.view.picture == SURVEYS[0].id


def test_going_back_to_a_place_keeps_how_the_sky_is_shown(session: Session) -> None:
    """Mirror, names and picture have their own steps in the undo history."""
    first = session.plan.view
    session.set_view(first.model_copy(update={"ra_deg": 50.0, "dec_deg": -3.0, "width_deg": 9.0}))
    session.change_view(mirrored=True, labels=())
    session.step_view(back=True)
    now = session.plan.view
    assert (now.ra_deg, now.dec_deg, now.width_deg) == (
        first.ra_deg,
        first.dec_deg,
        first.width_deg,
    )
    assert now.mirrored
    assert now.labels == ()


def test_only_the_last_sixty_places_are_kept(session: Session) -> None:
    first = session.plan.view
    for step in range(100):
        session.set_view(first.model_copy(update={"ra_deg": 100.0 + step}))
    seen = set()
    for _ in range(120):
        session.step_view(back=True)
        seen.add(session.plan.view.ra_deg)
    assert first.ra_deg not in seen
    assert len(seen) == 61


def test_a_preview_is_of_one_rig_alone(session: Session) -> None:
    one, other = session.plan.rigs[:2]
    before = session.framing(other.id)
    session.preview(session.framing(one.id).model_copy(update={"pa_deg": 77.0}))
    assert session.in_hand
    assert session.framing(other.id) == before
    assert session.footprint(one.id).pa_deg == 77.0
    assert session.footprint(other.id).pa_deg == before.pa_deg


def test_everybody_hears_of_a_preview_and_of_its_end(session: Session) -> None:
    heard: list[object] = []
    session.framing_previewed.connect(heard.append)
    moved = session.framing(session.rig.id).model_copy(update={"pa_deg": 77.0})
    session.preview(moved)
    assert heard == [moved]
    session.commit_preview("turn")
    assert heard == [moved, None]
    session.commit_preview("turn")
    assert heard == [moved, None]
    session.preview(None)
    assert heard == [moved, None, None]


def test_opening_a_plan_lets_a_frame_in_the_hand_go_and_looks_where_the_plan_looks(
    session: Session,
) -> None:
    session.preview(session.framing(session.rig.id).model_copy(update={"pa_deg": 77.0}))
    other = Plan(title="Another", view=SheetView(ra_deg=200.0, dec_deg=-30.0, width_deg=3.0))
    before = session.plan.view
    session.open_plan(other, "open a plan")
    assert not session.in_hand
    assert session.plan.view == other.view
    session.step_view(back=True)
    assert session.plan.view.ra_deg == before.ra_deg


def test_the_plan_before_and_after_are_told(session: Session) -> None:
    heard: list[tuple[str, str]] = []
    session.plan_changed.connect(lambda before, after: heard.append((before.title, after.title)))
    title = session.plan.title
    session.edit("name", session.plan.but(title="Winter"))
    session.history.undo()
    assert heard == [(title, "Winter"), ("Winter", title)]


def test_a_changed_view_is_told_once_and_an_equal_one_not(session: Session) -> None:
    heard: list[int] = []
    session.view_changed.connect(lambda: heard.append(1))
    session.edit("name", session.plan.but(title="Winter"))
    assert heard == []
    session.set_view(session.plan.view)
    assert heard == []
    session.set_view(session.plan.view.model_copy(update={"ra_deg": 50.0}))
    assert len(heard) == 1
    session.change_view(mirrored=True)
    assert len(heard) == 2
    session.history.undo()
    assert len(heard) == 3


def picture(source: str, credit: str) -> Picture:
    frame = PictureFrame(TangentPlane(10.0, 40.0), 4, 3, 1e-4)
    return Picture(np.zeros((3, 4, 3), dtype=np.uint8), frame, credit, source)


def test_the_survey_lies_over_the_chart_and_is_the_one_credited(session: Session) -> None:
    heard: list[int] = []
    session.picture_changed.connect(lambda: heard.append(1))
    assert session.credit == ""
    chart, survey = picture("chart", "catalogues"), picture("s", "survey")
    session.set_chart(chart, Marks(chart.frame.plane, (), ()))
    assert (session.credit, len(heard)) == ("catalogues", 1)
    session.set_survey(survey)
    assert (session.credit, len(heard)) == ("survey", 2)
    assert session.pictures == (chart, survey)
    session.set_survey(survey)
    assert len(heard) == 2
    session.set_survey(None)
    assert (session.credit, len(heard)) == ("catalogues", 3)


def only(session: Session, *widths: float) -> None:
    """Show rigs whose fields have about these widths, and no other."""
    plan = session.plan
    for rig in plan.rigs:
        plan = edits.with_rig_shown(plan, rig.id, shown=rig.rig.width_deg in widths)
    session.edit("these", plan)


def test_the_sheet_is_as_wide_as_the_target_or_the_middle_frame_needs(
    session: Session, targets
) -> None:
    fields = sorted(rig.rig.width_deg for rig in session.plan.rigs)
    session.show_target(targets.find("M 57"))
    assert session.target.major_arcmin < 5.0
    only(session, *fields)
    assert session.comfortable_width_deg() == pytest.approx(1.6 * fields[len(fields) // 2])
    only(session, fields[0], fields[1], fields[-1])
    assert session.comfortable_width_deg() == pytest.approx(1.6 * fields[1])
    session.show_target(targets.find("M 31"))
    only(session, fields[0])
    assert session.comfortable_width_deg() == pytest.approx(1.7 * session.target.major_arcmin / 60)
    only(session)
    assert session.comfortable_width_deg() > 3.0


def test_looking_at_a_frame_wider_than_the_sheet_can_be_stops_at_120_degrees(
    session: Session,
) -> None:
    rig = rig_from_numbers(
        "Wide", focal_length_mm=14.0, aperture_mm=5.0, pixel_um=6.0, columns=6000, rows=4000
    )
    plan = edits.with_rig(session.plan, rig)
    session.edit("wide", edits.with_current_rig(plan, plan.rigs[-1].id))
    assert 1.5 * session.rig.rig.diagonal_deg > 130.0
    session.look_at_frame()
    assert session.plan.view.width_deg == 120.0


def test_the_shelf_is_read_at_its_first_use_and_only_then(session: Session) -> None:
    reads = []

    def read() -> Shelf:
        reads.append(1)
        return Shelf(currency="EUR")

    session.read_shelf = read
    assert reads == []
    assert session.shelf == session.shelf == Shelf(currency="EUR")
    assert reads == [1]


def test_another_shelf_is_told_once(session: Session, qtbot: QtBot) -> None:
    shelf = Shelf(currency="CHF")
    with qtbot.waitSignal(session.shelf_changed):
        session.set_shelf(shelf)
    assert session.shelf is shelf
    with qtbot.assertNotEmitted(session.shelf_changed):
        session.set_shelf(Shelf(currency="CHF"))
