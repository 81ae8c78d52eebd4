"""Edits of a plan: what they change, and that they change nothing else."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue.target import Target, TargetKind
from core.errors import BadValueError
from core.gear.nights import Conditions
from core.plan.document import Framing, Plan, SheetView
from core.plan.edits import (
    framing_of,
    with_current_rig,
    with_framing,
    with_nights,
    with_rig,
    with_rig_changed,
    with_rig_copied,
    with_rig_look,
    with_rig_moved,
    with_rig_shown,
    with_target,
    with_title,
    with_view,
    without_framing,
    without_rig,
    without_target,
)
from tests.core.plan.plans import framings_for, plans, rigs, small_plan, targets

M13 = Target("M 13", "Hercules", TargetKind.GLOBULAR_CLUSTER, 250.4, 36.5, 20.0, 20.0)


def same_but(old: Plan, new: Plan, *changed: str) -> bool:
    """Tell whether all fields but some are the very same objects."""
    return all(
        getattr(old, field) is getattr(new, field) or getattr(old, field) == getattr(new, field)
        for field in Plan.model_fields
        if field not in changed
    )


def test_a_new_target_comes_last_and_becomes_current() -> None:
    plan = with_target(small_plan(), M13)
    assert [target.id for target in plan.targets] == ["M 31", "dark", "M 13"]
    assert plan.current_target == "M 13"
    assert same_but(small_plan(), plan, "targets", "current_target")


def test_a_target_that_is_there_keeps_its_facts_and_becomes_current() -> None:
    again = Target("dark", "other facts", TargetKind.GALAXY, 99.0, 9.0)
    plan = with_target(small_plan(), again)
    assert plan.current_target == "dark"
    assert plan.targets == small_plan().targets


def test_the_nights_change_and_nothing_else() -> None:
    """An error of 5 arcmin is what a plan begins with."""
    nights = Conditions(seeing_arcsec=4.0, polar_error_arcmin=20.0)
    plan = with_nights(small_plan(), nights)
    assert plan.nights is nights
    assert same_but(small_plan(), plan, "nights")
    assert small_plan().nights == Conditions()
    assert small_plan().nights.polar_error_arcmin == 5.0


def test_a_rig_that_goes_takes_its_framings_and_hands_on_the_choice() -> None:
    plan = without_rig(small_plan(), "mid")
    assert [rig.id for rig in plan.rigs] == ["wide", "far"]
    assert [framing.rig for framing in plan.framings] == ["far"]
    assert plan.current_rig == "far"
    assert without_rig(plan, "far").current_rig == "wide"
    assert without_rig(without_rig(plan, "far"), "wide").current_rig is None


def test_a_target_that_goes_takes_its_framings_and_hands_on_the_choice() -> None:
    plan = without_target(small_plan(), "M 31")
    assert [target.id for target in plan.targets] == ["dark"]
    assert [framing.target for framing in plan.framings] == ["dark"]
    assert plan.current_target == "dark"
    assert without_target(plan, "dark").current_target is None
    assert without_target(small_plan(), "dark").current_target == "M 31"


def test_a_new_rig_gets_an_id_and_a_look_of_its_own() -> None:
    plan = small_plan()
    for number in range(9):
        plan = with_rig(plan, plan.rigs[0].rig)
        assert plan.current_rig == ("wide (2)" if number == 0 else f"wide ({number + 2})")
    looks = [(planned.colour, planned.dash) for planned in plan.rigs]
    assert len(set(looks)) == len(looks) == 12


@pytest.mark.parametrize(
    ("place", "order"),
    [
        (0, "far wide mid"),
        (1, "wide far mid"),
        (2, "wide mid far"),
        (9, "wide mid far"),
        (-3, "far wide mid"),
    ],
)
def test_a_rig_moves_to_a_place_and_the_flags_follow(place: int, order: str) -> None:
    plan = with_rig_moved(small_plan(), "far", place)
    assert [planned.id for planned in plan.rigs] == order.split()
    assert plan.flag("far") == "ABC"[order.split().index("far")]
    assert same_but(small_plan(), plan, "rigs")


def test_hiding_and_colouring_touch_one_rig_only() -> None:
    hidden = with_rig_shown(small_plan(), "mid", shown=False)
    assert [planned.shown for planned in hidden.rigs] == [True, False, True]
    looked = with_rig_look(hidden, "far", colour=7, dash=3)
    assert [(planned.colour, planned.dash) for planned in looked.rigs] == [(0, 0), (1, 0), (7, 3)]
    assert with_rig_look(looked, "far", dash=0).rig("far").colour == 7
    assert looked.rigs[0] == small_plan().rigs[0]
    assert looked.rigs[0] is hidden.rigs[0]


def test_a_framing_replaces_the_one_of_the_same_pair_only() -> None:
    new = Framing(target="M 31", rig="mid", ra_deg=11.0, dec_deg=42.0, pa_deg=0.0)
    plan = with_framing(small_plan(), new)
    assert framing_of(plan, "mid") == new
    assert len(plan.framings) == 2
    assert framing_of(plan, "far", "dark").pa_deg == 300.0
    assert without_framing(plan, "mid", "M 31").framings == (small_plan().framings[1],)


def test_without_a_stored_framing_the_suggested_one_is_given() -> None:
    """M 31 at PA 35, a landscape sensor: up at PA 125, on the target's centre."""
    framing = framing_of(small_plan(), "wide")
    assert (framing.ra_deg, framing.dec_deg, framing.pa_deg) == (10.685, 41.269, 125.0)
    assert framing_of(small_plan(), "wide", "dark").pa_deg == 0.0
    stored = framing_of(small_plan(), "mid")
    assert (stored.ra_deg, stored.dec_deg, stored.pa_deg) == (10.0, 41.0, 40.0)


def test_an_angle_that_is_not_sure_suggests_no_turn() -> None:
    plan = small_plan()
    doubtful = plan.targets[0].but(angle_trusted=False)
    assert framing_of(plan.but(targets=(doubtful, plan.targets[1])), "wide").pa_deg == 0.0


def test_without_a_target_there_is_no_framing() -> None:
    empty = small_plan().but(current_target=None)
    with pytest.raises(BadValueError, match="choose a target first"):
        framing_of(empty, "wide")


@pytest.mark.parametrize(
    "edit",
    [
        lambda plan: without_target(plan, "x"),
        lambda plan: without_rig(plan, "x"),
        lambda plan: with_current_rig(plan, "x"),
        lambda plan: with_rig_shown(plan, "x", shown=True),
        lambda plan: with_rig_look(plan, "x", colour=1),
        lambda plan: with_rig_moved(plan, "x", 0),
        lambda plan: with_framing(
            plan, Framing(target="M 31", rig="x", ra_deg=0.0, dec_deg=0.0, pa_deg=0.0)
        ),
        lambda plan: with_framing(
            plan, Framing(target="x", rig="mid", ra_deg=0.0, dec_deg=0.0, pa_deg=0.0)
        ),
        lambda plan: with_rig_changed(plan, "x", plan.rigs[0].rig),
        lambda plan: with_rig_copied(plan, "x"),
        lambda plan: without_framing(plan, "x", "M 31"),
        lambda plan: without_framing(plan, "mid", "x"),
        lambda plan: framing_of(plan, "x"),
        lambda plan: framing_of(plan, "mid", "x"),
    ],
)
def test_an_unknown_id_is_refused_and_named(edit: object) -> None:
    with pytest.raises(BadValueError, match='"x": '):
        edit(small_plan())  # type: ignore[operator]


@given(plan=plans(), data=st.data())
@settings(max_examples=40)
def test_no_edit_loses_what_it_does_not_concern(plan: Plan, data: st.DataObject) -> None:
    rig_id = data.draw(st.sampled_from([planned.id for planned in plan.rigs]))
    target_id = data.draw(st.sampled_from([target.id for target in plan.targets]))
    framing = data.draw(framings_for(target_id, rig_id))
    shown = data.draw(st.booleans())
    assert same_but(plan, with_framing(plan, framing), "framings")
    assert same_but(plan, with_title(plan, "another"), "title")
    assert same_but(plan, with_view(plan, SheetView(width_deg=1.0)), "view")
    assert same_but(plan, with_current_rig(plan, rig_id), "current_rig")
    assert same_but(plan, with_rig_moved(plan, rig_id, data.draw(st.integers(-1, 9))), "rigs")
    changed = with_rig_shown(plan, rig_id, shown=shown)
    assert same_but(plan, changed, "rigs")
    assert changed.rig(rig_id) == plan.rig(rig_id).but(shown=shown)
    others = [planned for planned in plan.rigs if planned.id != rig_id]
    assert [planned for planned in changed.rigs if planned.id != rig_id] == others
    kept = [f for f in plan.framings if (f.rig, f.target) != (rig_id, target_id)]
    assert list(with_framing(plan, framing).framings) == [*kept, framing]


@given(plan=plans(), data=st.data())
@settings(max_examples=40)
def test_what_is_added_and_taken_away_again_leaves_the_plan_as_it_was(
    plan: Plan, data: st.DataObject
) -> None:
    rig = data.draw(rigs("newcomer"))
    back = without_rig(with_rig(plan, rig), "newcomer").but(current_rig=plan.current_rig)
    assert back == plan
    target = data.draw(targets("newcomer"))
    back = without_target(with_target(plan, target), "newcomer")
    assert back.but(current_target=plan.current_target) == plan


def test_a_copy_stands_behind_its_rig_points_with_it_and_has_a_look_of_its_own() -> None:
    plan = with_rig_copied(small_plan(), "mid")
    assert [planned.rig.name for planned in plan.rigs] == ["wide", "mid", "mid (2)", "far"]
    assert plan.current_rig == plan.rigs[2].id
    assert framing_of(plan, plan.rigs[2].id, "M 31").pa_deg == 40.0
    looks = {(planned.colour, planned.dash) for planned in plan.rigs}
    assert len(looks) == 4


def test_a_copy_of_a_copy_takes_the_next_free_number_and_long_names_are_cut() -> None:
    plan = with_rig_copied(with_rig_copied(small_plan(), "mid"), "mid (2)")
    assert [planned.rig.name for planned in plan.rigs][1:4] == ["mid", "mid (2)", "mid (3)"]
    long = with_rig_changed(plan, "far", plan.rig("far").rig.but(name="x" * 120))
    assert with_rig_copied(long, "far").rigs[-1].rig.name == "x" * 116 + " (2)"


def test_a_changed_rig_keeps_id_look_and_framings() -> None:
    plan = small_plan()
    other = plan.rig("wide").rig.but(name="other")
    changed = with_rig_changed(plan, "mid", other)
    assert changed.rig("mid") == plan.rig("mid").but(rig=other)
    assert changed.framings == plan.framings
    assert changed.current_rig == "mid"


@given(plan=plans(), data=st.data())
@settings(max_examples=40)
def test_a_copy_taken_away_again_leaves_the_plan_as_it_was(plan: Plan, data: st.DataObject) -> None:
    rig_id = data.draw(st.sampled_from([planned.id for planned in plan.rigs]))
    copied = with_rig_copied(plan, rig_id)
    copy_id = copied.current_rig
    assert copied.rig(copy_id).rig == plan.rig(rig_id).rig.but(name=copied.rig(copy_id).rig.name)
    assert [p.rig.name for p in plan.rigs].count(copied.rig(copy_id).rig.name) == 0
    back = without_rig(copied, copy_id)
    assert back.but(current_rig=plan.current_rig) == plan


@given(plan=plans(), data=st.data())
@settings(max_examples=40)
def test_moving_a_rig_away_and_back_restores_the_order(plan: Plan, data: st.DataObject) -> None:
    rig_id = data.draw(st.sampled_from([planned.id for planned in plan.rigs]))
    away = with_rig_moved(plan, rig_id, data.draw(st.integers(0, 5)))
    assert sorted(planned.id for planned in away.rigs) == sorted(p.id for p in plan.rigs)
    assert with_rig_moved(away, rig_id, plan.place_of(rig_id)) == plan


@given(plan=plans())
@settings(max_examples=40)
def test_every_rig_has_a_framing_on_every_target(plan: Plan) -> None:
    for planned in plan.rigs:
        for target in plan.targets:
            framing = framing_of(plan, planned.id, target.id)
            assert framing_of(with_framing(plan, framing), planned.id, target.id) == framing
