"""What a plan may hold, and the demo plan that comes with the program."""

import math

import pytest

from assets.build.build_demo import build
from core.catalogue.target import Target, TargetKind
from core.catalogue.targets import TargetTable
from core.errors import BadValueError
from core.gear.shelf.shelf import Shelf
from core.plan.document import Plan, SheetView, flag_of, planned_target
from core.plan.edits import framing_of
from core.plan.store import demo_plan
from tests.core.plan.plans import small_plan

MARKED = Target(
    "NGC 1",
    "",
    TargetKind.GALAXY,
    1.5,
    2.5,
    30.0,
    10.0,
    77.0,
    status="partly",
    angle_status="computed",
)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"current_target": "M 99"}, 'current target "M 99": names no target of the plan'),
        ({"current_rig": "none"}, 'current rig "none": names no rig of the plan'),
        ({"targets": small_plan().targets * 2}, 'targets, id "M 31": must be there only once'),
        ({"rigs": small_plan().rigs * 2}, 'rigs, id "wide": must be there only once'),
        ({"framings": small_plan().framings * 2}, 'framings, id "mid on M 31": .* only once'),
        ({"rigs": ()}, 'current rig "mid": names no rig'),
        ({"rigs": (), "current_rig": None}, 'framing 1, rig "mid": names no rig of the plan'),
        ({"targets": (), "current_target": None}, 'framing 1, target "M 31": names no target'),
        ({"currency": "kr"}, 'currency "kr": must be three capital letters'),
        ({"title": ""}, 'title "": must not be empty'),
        ({"format": "other"}, 'format "other": must be one of'),
        ({"version": 2}, 'version "2": must be one of'),
        ({"rigs": [1]}, 'rigs "a list": must be a list'),
    ],
)
def test_a_plan_holds_together_or_is_refused(changes: dict[str, object], message: str) -> None:
    with pytest.raises(BadValueError, match=message):
        small_plan().but(**changes)


@pytest.mark.parametrize(
    ("field", "value", "message"),
    [
        ("ra_deg", 360.0, r'right ascension "360 degrees": must be less than 360 degrees'),
        ("ra_deg", -0.1, "at least 0 degrees"),
        ("dec_deg", 91.0, r'declination "91 degrees": must be at most 90 degrees'),
        ("dec_deg", math.nan, "must be a finite number"),
        ("major_arcmin", 0.0, r'major diameter "0 arcmin": must be more than 0 arcmin'),
        ("major_arcmin", 10_800.0, "at most 5400 arcmin"),
        ("minor_arcmin", 179.0, r'minor diameter "179 arcmin": must not be more than the major'),
        ("pa_deg", 180.0, r'position angle "180 degrees": must be less than 180 degrees'),
        ("kind", "nebula", "kind \"nebula\": must be one of 'galaxy', 'open cluster'"),
        ("angle_trusted", 1, 'angle trusted "1": must be true or false'),
    ],
)
def test_a_target_out_of_range_is_refused(field: str, value: object, message: str) -> None:
    with pytest.raises(BadValueError, match=message):
        small_plan().targets[0].but(**{field: value})


def test_a_smaller_diameter_alone_is_refused() -> None:
    with pytest.raises(BadValueError, match="minor diameter"):
        small_plan().targets[1].but(minor_arcmin=3.0)


@pytest.mark.parametrize(
    ("field", "value", "message"),
    [
        ("width_deg", 0.0, "width .*more than 0 degrees"),
        ("width_deg", 181.0, "width .*at most 180 degrees"),
        ("labels", ("star", "ufo"), 'labels "ufo": must be one of galaxy'),
        ("labels", "star", 'labels "star": must be a list'),
        ("picture", "", "picture .*must not be empty"),
    ],
)
def test_a_view_out_of_range_is_refused(field: str, value: object, message: str) -> None:
    with pytest.raises(BadValueError, match=message):
        SheetView().but(**{field: value})


@pytest.mark.parametrize(("field", "value"), [("colour", 8), ("colour", -1), ("dash", 4)])
def test_a_look_that_does_not_exist_is_refused(field: str, value: int) -> None:
    with pytest.raises(BadValueError, match=field):
        small_plan().rigs[0].but(**{field: value})


def test_flags_follow_the_order_and_go_on_after_z() -> None:
    assert [small_plan().flag(rig) for rig in ("wide", "mid", "far")] == ["A", "B", "C"]
    assert [flag_of(place) for place in (0, 25, 26, 51, 52, 701, 702)] == [
        *("A", "Z", "AA", "AZ", "BA", "ZZ", "AAA")
    ]


def test_a_target_takes_its_doubts_into_the_plan() -> None:
    planned = planned_target(MARKED, note="bring a warm hat")
    assert planned.name == "NGC 1"  # the designation, where there is no name
    assert planned.approximate
    assert not planned.angle_trusted
    assert (planned.major_arcmin, planned.minor_arcmin, planned.pa_deg) == (30.0, 10.0, 77.0)
    assert planned.note == "bring a warm hat"


def test_every_target_of_the_table_can_be_planned() -> None:
    table = TargetTable.load()
    for index in range(0, len(table), 37):
        target = table.target(index)
        planned = planned_target(target)
        assert (planned.ra_deg, planned.dec_deg) == (target.ra_deg, target.dec_deg)
    largest = planned_target(table.find("Scene Magellanic Clouds"))
    assert largest.major_arcmin is not None
    assert largest.major_arcmin > 1800.0


def test_an_unknown_id_is_named() -> None:
    with pytest.raises(BadValueError, match='rig "x": is not in the plan'):
        small_plan().rig("x")
    with pytest.raises(BadValueError, match='target "x": is not in the plan'):
        small_plan().target("x")


def test_the_demo_runs_from_wide_to_narrow_and_large_to_small() -> None:
    plan = demo_plan()
    fields = [planned.rig.width_deg for planned in plan.rigs]
    assert len(fields) >= 6
    assert max(fields) > 10.0
    assert min(fields) < 0.5
    sizes = [target.major_arcmin or 0.0 for target in plan.targets]
    assert len(sizes) >= 4
    assert max(sizes) > 180.0
    assert 0.0 < min(sizes) < 5.0
    assert len({target.kind for target in plan.targets}) >= 4
    assert len({planned.colour for planned in plan.rigs}) == len(plan.rigs)


def test_the_demo_knows_masses_and_prices_and_overloads_no_mount() -> None:
    for planned in demo_plan().rigs:
        assert planned.rig.price is not None
        assert planned.rig.load_fraction is not None
        assert planned.rig.load_fraction < 0.8


def test_the_demo_can_frame_every_target_with_every_rig() -> None:
    plan = demo_plan()
    for planned in plan.rigs:
        for target in plan.targets:
            assert framing_of(plan, planned.id, target.id).target == target.id


def test_the_demo_is_what_its_script_builds() -> None:
    """When it is not: python -m assets.build.build_demo."""
    assert build(Shelf.load(), TargetTable.load()) == demo_plan()


def test_an_empty_plan_is_a_plan() -> None:
    assert Plan().rigs == ()
    assert Plan().view == SheetView()
