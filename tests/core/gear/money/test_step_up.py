"""The step to the next rig: nothing is lost or counted twice, and what it costs."""

from collections import Counter
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.gear.money.prices import difference, exact, rig_total, total_of
from core.gear.money.step_up import Step, step_up
from core.gear.parts import Part, identity
from core.gear.rig import Rig
from tests.core.gear.small_shelf import camera, mount, other, telescope

prices = st.none() | st.decimals(0, 9999, places=2).map(float)


def small() -> Rig:
    return Rig(
        name="small",
        telescope=telescope("short", 250, 700.0),
        camera=camera("small eye", 3000, 600.0),
        mount=mount("legs", 10, 1000.0),
        others=(other("bag", 40.0),),
    )


def large(**changes: object) -> Rig:
    parts = {
        "telescope": telescope("tube", 500, 1500.0),
        "camera": camera("eye", 6000, 2000.0),
        "mount": mount("legs", 10, 1000.0),
        "others": (other("bag", 40.0), other("guide scope", 260.0, kind="guiding")),
    }
    return Rig(name="large", **parts | changes)


def names(parts: tuple[Part, ...]) -> list[str]:
    return [part.name for part in parts]


def test_a_step_by_hand() -> None:
    """Buy 1500 + 2000; the short tube and its camera guide, so 260 are spared, none sold."""
    step = step_up(small(), large(), currency="EUR")
    assert names(step.kept) == ["legs", "bag"]
    assert names(step.moved) == ["short", "small eye"]
    assert names(step.bought) == ["tube", "eye"]
    assert names(step.spared) == ["guide scope"]
    assert step.sold == ()
    assert step.cost == 3500
    assert step.cost_words.replace("\xa0", " ") == "buying: 3 500 €; nothing is sold"


def test_what_is_sold_brings_the_fraction_that_is_given() -> None:
    """Focal length 1200 mm: nothing guides, so 700 + 600 are sold: 0.6 x 1300 = 780."""
    goal = large(telescope=telescope("long tube", 1200, 1500.0, mass_kg=5.0))
    step = step_up(small(), goal, currency="EUR", resale_fraction=0.6)
    assert names(step.sold) == ["short", "small eye"]
    assert names(step.bought) == ["long tube", "eye", "guide scope"]
    assert step.proceeds == 780
    assert step.cost == 1500 + 2000 + 260 - 780
    assert step.cost_words.replace("\xa0", " ") == (
        "buying: 3 760 €; selling: 780 €; the step costs 2 980 €"
    )


def test_without_a_fraction_the_cost_is_not_known_and_none_is_assumed() -> None:
    goal = large(telescope=telescope("long tube", 1200, 1500.0))
    step = step_up(small(), goal, currency="EUR")
    assert (step.proceeds, step.cost) == (None, None)
    assert step.cost_words.replace("\xa0", " ") == (
        "buying: 3 760 €; selling: not known, say what fraction of its price a sale brings"
    )


def test_a_sold_part_without_a_price_leaves_the_cost_unknown() -> None:
    start = small().but(telescope=telescope("short", 250, None))
    goal = large(telescope=telescope("long tube", 1200, 1500.0))
    step = step_up(start, goal, currency="EUR", resale_fraction=0.5)
    assert (step.proceeds, step.cost) == (None, None)
    assert step.cost_words.replace("\xa0", " ").endswith(
        "selling: a fraction of at least 600 €, 1 price not known; the cost is not known"
    )


def test_a_bought_part_without_a_price_leaves_the_cost_unknown() -> None:
    goal = large(telescope=telescope("long tube", 1200, None))
    step = step_up(small(), goal, currency="EUR", resale_fraction=0.5)
    assert step.cost is None
    assert step.cost_words.replace("\xa0", " ") == (
        "buying: at least 2 260 €, 1 price not known; selling: 650 €; the cost is not known"
    )


def test_a_step_down_brings_money() -> None:
    goal = small()
    step = step_up(large(), goal, currency="EUR", resale_fraction=1.0)
    assert names(step.sold) == ["tube", "eye", "guide scope"]
    assert step.cost == 1300 - 3760
    assert step.cost_words.replace("\xa0", " ").endswith("the step brings 2 460 €")


def test_a_step_to_the_same_rig_costs_nothing_whatever_the_fraction() -> None:
    step = step_up(large(), large(), currency="EUR")
    assert step.kept == large().parts
    assert (step.moved, step.bought, step.sold, step.spared) == ((), (), (), ())
    assert (step.cost, step.changes, step.duties) == (0, (), ())


def test_a_second_piece_of_one_part_is_bought() -> None:
    ring = other("spacer 10 mm", 15.0)
    start, goal = small().but(others=(ring,)), small().but(others=(ring, ring, ring))
    step = step_up(start, goal, currency="EUR")
    assert names(step.bought) == ["spacer 10 mm"] * 2
    assert step.cost == 30


def test_the_figures_that_change_come_with_the_step() -> None:
    """250 to 500 mm with one pitch: 3.1022 to 1.5511 arcsec/px (206.2648 x 3.76 / f)."""
    step = step_up(small(), large(), currency="EUR")
    (scale,) = [change for change in step.changes if change.figure == "scale_arcsec_px"]
    assert (scale.before, scale.after) == (
        pytest.approx(3.102223, rel=1e-6),
        pytest.approx(1.551111, rel=1e-6),
    )


@st.composite
def rigs(draw: st.DrawFn) -> Rig:
    """Rigs of a few names, so that two of them often share parts."""
    tag = st.sampled_from("abc")
    scopes = {"a": 200, "b": 450, "c": 1200}
    scope, eye, legs = draw(tag), draw(tag), draw(tag)
    rest = draw(st.lists(st.tuples(tag, st.sampled_from(["guiding", "other"])), max_size=3))
    return Rig(
        name="any",
        telescope=telescope(f"scope {scope}", scopes[scope], draw(prices)),
        camera=camera(f"eye {eye}", 3000, draw(prices)),
        mount=mount(f"legs {legs}", 12, draw(prices)),
        others=tuple(other(f"{kind} {n}", draw(prices), kind=kind) for n, kind in rest),
    )


def count(*groups: tuple[Part, ...]) -> Counter[tuple[str, str]]:
    return Counter(identity(part) for group in groups for part in group)


@given(rigs(), rigs(), st.none() | st.sampled_from([0.0, 0.25, 0.6, 1.0]))
@settings(max_examples=120, deadline=None)
def test_every_part_is_told_once(start: Rig, goal: Rig, fraction: float | None) -> None:
    step = step_up(start, goal, currency="EUR", resale_fraction=fraction)
    assert count(step.kept, step.moved, step.sold) == count(start.parts)
    assert count(step.kept, step.bought, step.spared) == count(goal.parts)
    assert not count(step.bought) & count(step.sold), "nothing is bought and sold at once"
    assert step.cost is None or step.cost == step.buying.known - (step.proceeds or 0)


def money_of(step: Step) -> Decimal | None:
    """Goal's total less the start's, without what moved and was spared, by another way."""
    without = difference(rig_total(step.goal, "EUR"), total_of(step.spared, "EUR"))
    start = difference(rig_total(step.start, "EUR"), total_of(step.moved, "EUR"))
    return None if without is None or start is None else without - start


@given(rigs(), rigs())
@settings(max_examples=60, deadline=None)
def test_sold_at_full_price_a_step_costs_the_difference_of_totals(start: Rig, goal: Rig) -> None:
    """Shared parts have one price here, so what is kept falls out."""
    known = {identity(part): part for part in start.parts}
    priced = goal.but(
        telescope=known.get(identity(goal.telescope), goal.telescope),
        camera=known.get(identity(goal.camera), goal.camera),
        mount=known.get(identity(goal.mount), goal.mount),
        others=tuple(known.get(identity(part), part) for part in goal.others),
    )
    step = step_up(start, priced, currency="EUR", resale_fraction=1.0)
    if all(part.price is not None for part in (*start.parts, *priced.parts)):
        assert step.cost == money_of(step)
        back = step_up(start, priced, currency="EUR", resale_fraction=0.25)
        assert back.proceeds == step.selling.known * exact(0.25)


@pytest.mark.parametrize("fraction", [-0.01, 1.01, 50.0, float("nan"), float("inf")])
def test_a_fraction_that_cannot_be_is_refused(fraction: float) -> None:
    with pytest.raises(BadValueError, match=r"^resale fraction .*: must lie between 0 and 1$"):
        step_up(small(), large(), currency="EUR", resale_fraction=fraction)


def test_a_step_in_no_currency_is_refused() -> None:
    with pytest.raises(BadValueError, match=r"^currency .*: must be three capital letters"):
        step_up(small(), large(), currency="Euro")
