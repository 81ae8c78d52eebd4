"""The cheapest rig by the real checks, and its short cut, against trying every combination."""

import itertools

from hypothesis import event, given, settings
from hypothesis import strategies as st

from core.gear.accessories import FilterPart, Spacer
from core.gear.checks import Conditions
from core.gear.checks.threads import check_threads
from core.gear.money.cheapest import cheapest
from core.gear.money.no_worse import can_join, no_worse_than
from core.gear.money.offers import Question, cheapest_offer
from core.gear.money.prices import difference, rig_total
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.gear.slots import alternatives, slots_of, with_parts
from tests.core.gear.grid.shelves import cameras, correctors, others, telescopes
from tests.core.gear.small_shelf import camera, mount, rig_of, shelf_of, telescope

#: Two sizes, a side, and one that nobody has said.
threads = st.sampled_from(("M42x0.75", "M42x0.75 male", "M42 × 0.75 female", "M48x0.75", None))
mostly_fitting = st.sampled_from(("M42x0.75",) * 6 + ("M48x0.75", None))
#: Few, so that many combinations cost the same; None is not known.
prices = st.sampled_from((None, 480.0, 0.0, 10.5, 20.0, 35.25, 99.99, 100.0, 260.0, 990.0))


@st.composite
def threaded_rigs(draw: st.DrawFn) -> Rig:
    """Rigs with every kind of part in the beam, and whatever thread on it."""

    def with_threads(part):
        sides = [side for side in ("thread", "thread_front") if side in type(part).model_fields]
        return part.but(**{side: draw(threads) for side in sides})

    behind = draw(st.none() | correctors)
    return Rig(
        name="rig",
        telescope=with_threads(draw(telescopes)).but(focal_length_mm=399.0, aperture_mm=80.0),
        corrector=behind and with_threads(behind),
        camera=with_threads(draw(cameras)),
        others=tuple(with_threads(part) for part in draw(others)),
    )


@given(threaded_rigs())
@settings(max_examples=300, deadline=None)
def test_the_short_cut_refuses_just_what_the_threads_forbid(rig: Rig) -> None:
    stopped = any(found.severity == "stop" for found in check_threads(rig, Conditions()))
    assert can_join(slots_of(rig)) == (not stopped)
    if stopped:
        assert not no_worse_than(rig)(rig)
    event(f"threads forbid it: {stopped}")


@st.composite
def shelves(draw: st.DrawFn) -> Shelf:
    """Shelves on which threads, circles, back focus and loads forbid some and leave some."""

    def more(*, circle: bool = False) -> dict[str, object]:
        optics = {
            "image_circle_mm": draw(st.sampled_from((None, 12.0, 44.0, 44.0))),
            "back_focus_mm": draw(st.sampled_from((None, 55.0))),
        }
        return {"thread": draw(mostly_fitting)} | (optics if circle else {"flange_mm": 17.5})

    sizes = draw(st.lists(st.sampled_from((200.0, 400.0, 1200.0)), min_size=2, max_size=3))
    widths = draw(st.lists(st.sampled_from((1500, 6000)), min_size=2, max_size=3))
    loads = draw(st.lists(st.sampled_from((2.0, 5.0, 12.0)), min_size=2, max_size=3))
    bores = draw(
        st.lists(st.tuples(prices, mostly_fitting, mostly_fitting), min_size=1, max_size=2)
    )
    return shelf_of(
        telescopes=[
            telescope(f"t{n}", mm, draw(prices), **more(circle=True)) for n, mm in enumerate(sizes)
        ],
        cameras=[camera(f"c{n}", wide, draw(prices), **more()) for n, wide in enumerate(widths)],
        mounts=[mount(f"m{n}", kg, draw(prices)) for n, kg in enumerate(loads)],
        others=[
            Spacer(name=f"s{n}", length_mm=37.5, price=price, thread_front=front, thread=back)
            for n, (price, front, back) in enumerate(bores)
        ]
        + [FilterPart(name="glass", price=1.0, length_mm=0.0)],
    )


def start_of(shelf: Shelf) -> Rig:
    """Take the first part of each kind, the first spacer and the filter."""
    return rig_of(shelf).but(others=(shelf.others[0], shelf.others[-1]))


def allowed(rig: Rig, shelf: Shelf) -> list[Rig]:
    """Every rig of priced alternatives that is no worse; a part without price stays."""
    rows = []
    for own in slots_of(rig).values():
        choices = alternatives(own, shelf) if own.price is not None else ()
        rows.append([own, *(part for part in choices if part.price is not None)])
    slots, sure = list(slots_of(rig)), no_worse_than(rig)
    combined = itertools.product(*rows)
    rigs = (with_parts(rig, dict(zip(slots, row, strict=True))) for row in combined)
    return [made for made in rigs if sure(made)]


@given(shelves())
@settings(max_examples=120, deadline=None)
def test_the_cheapest_that_passes_the_checks_is_what_trying_all_finds(shelf: Shelf) -> None:
    rig = start_of(shelf)
    found = cheapest(rig, shelf, no_worse_than(rig), worth_making=can_join)
    every = allowed(rig, shelf)
    assert (found.rig is None) == (not every)
    event(f"{'none' if not every else 'some'} pass")
    if found.rig is not None:
        assert found.rig in every
        known = [rig_total(made, "EUR").known for made in every]
        assert rig_total(found.rig, "EUR").known == min(known)
        assert found.saving == difference(rig_total(rig, "EUR"), rig_total(found.rig, "EUR"))


@given(shelves())
@settings(max_examples=60, deadline=None)
def test_the_short_cut_changes_neither_the_answer_nor_what_was_tried(shelf: Shelf) -> None:
    rig = start_of(shelf)
    sure = no_worse_than(rig)
    assert cheapest(rig, shelf, sure, worth_making=can_join) == cheapest(rig, shelf, sure)


@given(shelves())
@settings(max_examples=60, deadline=None)
def test_what_the_cheapest_offer_saves_is_the_difference_of_totals(shelf: Shelf) -> None:
    rig, counts = start_of(shelf), list[int]()
    offer = cheapest_offer(Question(rig, shelf, "EUR", Conditions()), tried=counts.append)
    assert offer.saving == difference(rig_total(rig, "EUR"), rig_total(offer.rig, "EUR"))
    assert counts == list(range(len(counts))), "told of each, so that each may end the search"
    tried = cheapest(rig, shelf, no_worse_than(rig)).tried
    assert len(counts) == tried


def test_no_rig_is_made_of_what_is_not_worth_making() -> None:
    """The cheap telescope has another thread: it is counted, and never asked for."""
    shelf = shelf_of(
        telescopes=[
            telescope("dear", 400, 90, thread="M42x0.75"),
            telescope("cheap", 400, 10, thread="M48x0.75"),
        ],
        cameras=[camera("eye", 600, 1, thread="M42x0.75")],
        mounts=[mount("legs", 10, 1)],
    )
    asked: list[str] = []
    found = cheapest(
        rig_of(shelf),
        shelf,
        lambda rig: not asked.append(rig.telescope.name),
        worth_making=can_join,
    )
    assert (asked, found.tried, found.saving) == (["dear"], 2, 0)
