"""A set of rigs priced at once, and what single swaps save, against sums by another way."""

from collections import Counter
from decimal import Decimal

from hypothesis import event, given, settings
from hypothesis import strategies as st

from core.gear.checks import Conditions
from core.gear.money import offers, savings
from core.gear.money.offers import Question, single_offers
from core.gear.money.prices import difference, exact, rig_total, set_total
from core.gear.money.swaps import saving_of, swapped, swaps_for
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from tests.core.gear.small_shelf import camera, mount, other, rig_of, shelf_of, telescope

_known = st.decimals(0, 9999, places=2).map(float)
prices = st.one_of(_known, _known, _known, st.none())


@st.composite
def sets(draw: st.DrawFn) -> list[Rig]:
    """Up to five rigs of one small stock, so that they share parts; one may lack a price."""
    tubes = [telescope(name, 400, draw(prices)) for name in ("t1", "t2")]
    eyes = [camera(name, 3000, draw(prices)) for name in ("c1", "c2")]
    stands = [mount(name, 9, draw(prices)) for name in ("m1", "m2")]
    small = [other(name, draw(prices)) for name in ("t1", "bar", "ring")]  # "t1" is a name twice
    rig = st.builds(
        Rig,
        name=st.just("rig"),
        telescope=st.sampled_from(tubes),
        camera=st.sampled_from(eyes),
        mount=st.none() | st.sampled_from(stands),
        others=st.lists(st.sampled_from(small), max_size=5).map(tuple),
    )
    return draw(st.lists(rig, min_size=1, max_size=5))


def pieces_of(rigs: list[Rig]) -> dict[tuple[str, str], tuple[int, float | None]]:
    """Count by hand: class and name, how many one rig needs at most, the price."""
    found: dict[tuple[str, str], tuple[int, float | None]] = {}
    for rig in rigs:
        rows = [(type(part).__name__, part.name, part.price) for part in rig.parts]
        for kind, name, price in rows:
            here = rows.count((kind, name, price))
            most, _ = found.get((kind, name), (0, None))
            found[kind, name] = (max(most, here), price)
    return found


@given(sets())
@settings(max_examples=150)
def test_a_set_is_the_most_of_each_part_that_one_rig_needs(rigs: list[Rig]) -> None:
    total, pieces = set_total(rigs, "EUR"), pieces_of(rigs)
    known = [exact(price) * most for most, price in pieces.values() if price is not None]
    assert total.known == sum(known, Decimal(0))
    missing = {key: most for key, (most, price) in pieces.items() if price is None}
    assert Counter(total.unpriced) == Counter(
        name for (_, name), most in missing.items() for _ in range(most)
    )


@given(sets(), st.randoms(use_true_random=False))
@settings(max_examples=60)
def test_a_set_costs_the_same_in_any_order_and_with_a_rig_twice(rigs, chance) -> None:
    total = set_total(rigs, "EUR")
    again = [*rigs, rigs[0]]
    chance.shuffle(again)
    mixed = set_total(again, "EUR")
    assert (mixed.known, Counter(mixed.unpriced)) == (total.known, Counter(total.unpriced))
    assert set_total(rigs[:1], "EUR").known == rig_total(rigs[0], "EUR").known


@given(sets(), _known)
@settings(max_examples=60)
def test_a_rig_that_differs_by_one_new_part_adds_just_its_price(rigs, price) -> None:
    new = rigs[0].but(camera=camera("new eye", 3000, price))
    before, after = set_total(rigs, "EUR"), set_total([*rigs, new], "EUR")
    assert difference(after, before) == exact(price)


#: All different, so that most swaps save or cost something.
_PRICES = (None, 0.0, 0.01, 19.95, 100.1, 250.0, 333.33, 480.0, 990.01, 1234.56, 9999.0)


@st.composite
def shelves(draw: st.DrawFn) -> Shelf:
    """Two or three of each kind, one of them or none without a price."""
    price = iter(draw(st.permutations(_PRICES)))
    return shelf_of(
        telescopes=[telescope(f"t{mm}", mm, next(price)) for mm in (400, 300, 650)],
        cameras=[camera(f"c{wide}", wide, next(price)) for wide in (6000, 3000)],
        mounts=[mount(f"m{kg}", kg, next(price)) for kg in (10, 5, 2)],
        others=[other(name, next(price), kind="power") for name in ("box", "pack")],
    )


@given(shelves())
@settings(max_examples=40, deadline=None)
def test_a_saving_is_the_difference_of_totals_or_as_unknown_as_it(shelf: Shelf) -> None:
    """Also where prices are missing, in the swapped part or elsewhere in the rig."""
    rig = rig_of(shelf).but(others=shelf.others[:1])
    before = rig_total(rig, "EUR")
    asked = Question(rig, shelf, "EUR", Conditions())
    found = tuple(single_offers(asked))
    assert len(found) == 2 + 1 + 2 + 1
    for offer in found:
        assert offer.saving == difference(before, rig_total(offer.rig, "EUR"))
    together = offers.all_savings(asked, found)
    passing = [offer.saving for offer in found if offer.passes]
    single = [saving for saving in passing if saving and saving > 0]
    assert (together is None) == (not single)
    if together is not None:
        assert together.saving == difference(before, rig_total(together.rig, "EUR"))
        assert together.saving >= max(single)


@given(shelves())
@settings(max_examples=120, deadline=None)
def test_all_savings_of_what_passes_are_the_difference_of_totals(shelf: Shelf) -> None:
    rig = rig_of(shelf).but(others=shelf.others[:1])

    def light(other: Rig) -> bool:  # 5 kg carry t400 (73 %), not t650; 2 kg carry neither
        return other.load_fraction is not None and other.load_fraction < 0.85

    found = savings.all_savings(rig, swaps_for(rig, shelf, currency="EUR", passes=light), light)
    made = swapped(rig, found.swaps)
    assert found.passes == light(made)
    assert all(swap.passes and swap.saving and swap.saving > 0 for swap in found.swaps)
    event(f"together they pass: {found.passes}")
    assert found.saving == difference(rig_total(rig, "EUR"), rig_total(made, "EUR"))
    assert found.saving == saving_of(found.swaps)
