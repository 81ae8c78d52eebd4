"""The session: one history, one place for the view, no lost edit."""

import pytest

from app.session import Session
from core.pictures.surveys import SURVEYS
from core.plan import edits
from core.plan.document import Plan

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
