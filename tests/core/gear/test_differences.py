"""Which findings become better or worse from one rig to another."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.checks.differences import FindingChange, changes_of, finding_changes
from core.gear.checks.finding import SEVERITIES, Finding, Severity
from core.gear.nights import Conditions
from core.gear.parts import OtherPart
from tests.core.gear.check_kits import (
    equatorial,
    finding,
    guide_camera,
    guide_scope,
    kit,
    sensor,
    spacer,
    wheel,
)


def told(severity: Severity, rule: str = "load", part: str = "") -> Finding:
    return Finding(rule=rule, severity=severity, message=f"{severity}.", source="s", part=part)


def words(changes: tuple[FindingChange, ...]) -> list[str]:
    return [change.words for change in changes]


findings_of_any = st.lists(
    st.builds(
        told,
        st.sampled_from(SEVERITIES),
        st.sampled_from(["load", "threads"]),
        st.sampled_from(["", "a", "b"]),
    ),
    max_size=5,
)


def test_a_larger_mount_makes_the_load_better_and_says_what_it_is_then() -> None:
    """4.1 + 7.9 kg of 15 and of 30: 80 % and 40 %."""
    load = OtherPart(name="load", mass_kg=7.9)
    small = kit(spacer(), load, guide_scope(), guide_camera())
    large = small.but(mount=equatorial(load_balanced_kg=30.0))
    changes = finding_changes(small, large)
    assert words(changes.better) == ["load: caution → good"]
    assert changes.worse == ()
    assert changes.better[0].message == finding("load", large).message
    back = finding_changes(large, small)
    assert words(back.worse) == ["load: good → caution"]
    assert back.better == ()


def test_a_rule_that_falls_silent_is_better_and_one_that_speaks_up_is_worse() -> None:
    bare, guided = kit(), kit(spacer(), wheel(), guide_scope(), guide_camera())
    changes = finding_changes(bare, guided)
    assert "unguided: caution → –" in words(changes.better)
    (silent,) = (c for c in changes.better if c.rule == "unguided")
    assert silent.message == finding("unguided", bare).message
    assert "unguided: – → caution" in words(finding_changes(guided, bare).worse)


def test_the_nights_count() -> None:
    bare, guided = kit(), kit(spacer(), wheel(), guide_scope(), guide_camera())
    short = Conditions(exposure_s=5.0)
    assert "unguided" not in {c.rule for c in finding_changes(bare, guided, short).better}


def test_a_figure_that_gets_lost_is_worse() -> None:
    lost = kit(camera=sensor(flange_mm=None))
    assert "back focus: good → unknown" in words(finding_changes(kit(), lost).worse)


def test_parts_that_are_the_same_meet_and_the_rest_meets_worst_with_worst() -> None:
    before = [told("caution", part="a"), told("note", part="b"), told("note", part="c")]
    after = [told("stop", part="x"), told("caution", part="b"), told("good", part="y")]
    changes = changes_of(before, after)
    assert [(c.before, c.after) for c in changes.worse] == [
        (before[0], after[0]),
        (before[1], after[1]),
    ]
    assert [(c.before, c.after) for c in changes.better] == [(before[2], after[2])]


def test_two_parts_that_change_places_are_told_apart() -> None:
    before = [told("stop", part="a"), told("note", part="b")]
    after = [told("stop", part="b"), told("note", part="a")]
    changes = changes_of(before, after)
    assert [(c.before, c.after) for c in changes.better] == [(before[0], after[1])]
    assert [(c.before, c.after) for c in changes.worse] == [(before[1], after[0])]


def test_the_worst_stands_first() -> None:
    after = [told("stop", "threads"), told("caution", "load"), told("note", "sampling")]
    assert [c.rule for c in changes_of([], after).worse] == ["threads", "load", "sampling"]
    assert [c.rule for c in changes_of(after, []).better] == ["threads", "load", "sampling"]


@given(before=findings_of_any, after=findings_of_any)
@settings(max_examples=100)
def test_the_way_back_turns_better_into_worse(before: list[Finding], after: list[Finding]) -> None:
    order = lambda one: SEVERITIES.index(one.severity)  # noqa: E731
    before, after = sorted(before, key=order), sorted(after, key=order)
    there, back = changes_of(before, after), changes_of(after, before)
    assert len(there.better) == len(back.worse)
    assert sum(c.steps for c in (*there.better, *there.worse)) == -sum(
        c.steps for c in (*back.better, *back.worse)
    )


@given(found=findings_of_any)
@settings(max_examples=50)
def test_a_rig_does_not_differ_from_itself(found: list[Finding]) -> None:
    assert not changes_of(found, found)


@pytest.mark.parametrize("severity", SEVERITIES)
def test_every_step_counts_by_severity(severity: Severity) -> None:
    steps = FindingChange(None, told(severity)).steps
    assert steps == SEVERITIES.index("good") - SEVERITIES.index(severity)
