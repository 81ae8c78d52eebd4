"""Taking a shelf or a rig in: what is new, the same and different is told, nothing is lost."""

from pathlib import Path

import pytest

from core.errors import BadValueError, CoreError
from core.gear.shelf.edits import with_part_changed
from core.gear.shelf.files import load_gear, load_rig, save_rig, save_shelf
from core.gear.shelf.merge import merged, shelf_of_rig, with_rig
from core.gear.shelf.shelf import Shelf
from core.plan.store import demo_plan
from tests.core.gear.small_shelf import shelf_of

OWN = Shelf.load()
RIG = OWN.rig("150 mm Newtonian, colour")
EMPTY = Shelf(currency="EUR")


def cheaper(shelf: Shelf = OWN) -> Shelf:
    """The same shelf with another price for one mount."""
    mount = shelf.mount("equatorial 15 kg").but(price=900.0)
    return with_part_changed(shelf, mount.name, mount)


def test_everything_is_new_on_an_empty_shelf_and_the_same_on_an_equal_one() -> None:
    first = merged(EMPTY, OWN)
    assert first.shelf == OWN
    assert len(first.new) == len(OWN.parts) + len(OWN.rigs)
    assert (first.same, first.differing) == ((), ())
    again = merged(OWN, OWN)
    assert again.shelf == OWN
    assert len(again.same) == len(first.new)
    assert again.new == again.differing == ()


def test_what_differs_comes_beside_and_its_rigs_go_with_it() -> None:
    merge = merged(OWN, cheaper())
    ours, theirs = merge.shelf.mount("equatorial 15 kg"), merge.shelf.mount("equatorial 15 kg (2)")
    assert (ours.price, theirs.price) == (1420.0, 900.0)
    assert merge.shelf.rig(RIG.name).mount == ours
    assert merge.shelf.rig(f"{RIG.name} (2)").mount == theirs
    assert [d.name for d in merge.differing] == [
        "equatorial 15 kg", "80 mm refractor, mono with filters", RIG.name,
    ]  # fmt: skip
    assert merge.differing[0].words == (
        "equatorial 15 kg is there with other figures (price): both stay, the newcomer as "
        '"equatorial 15 kg (2)".'
    )
    assert len(merge.same) == len(OWN.parts) + len(OWN.rigs) - 3
    assert merge.words == (
        f"0 new, {len(merge.same)} the same, 3 with other figures: both stay, the newcomer with a "
        "number (equatorial 15 kg, 80 mm refractor, mono with filters, 150 mm Newtonian, colour)."
    )
    assert set(OWN.parts) < set(merge.shelf.parts)
    assert set(OWN.rigs) < set(merge.shelf.rigs)


def test_taking_the_same_in_twice_does_not_grow_the_shelf() -> None:
    once = merged(OWN, cheaper()).shelf
    twice = merged(once, cheaper())
    assert twice.shelf == once
    assert twice.new == twice.differing == ()


def test_what_differs_takes_the_place_only_when_asked_and_is_told() -> None:
    merge = merged(OWN, cheaper(), replace=True)
    assert merge.shelf == cheaper()
    told = "1 with other figures: the newcomer took the place (equatorial 15 kg)."
    assert merge.words.endswith(told)
    assert [d.words for d in merge.differing] == [
        "equatorial 15 kg is there with other figures (price): the newcomer took its place."
    ]


def test_a_free_name_is_free_on_both_sides() -> None:
    second = OWN.mount("equatorial 15 kg").but(name="equatorial 15 kg (2)", price=7.0)
    coming = cheaper()
    coming = coming.but(mounts=(*coming.mounts, second))
    shelf = merged(OWN, coming).shelf
    assert shelf.mount("equatorial 15 kg (2)").price == 7.0
    assert shelf.mount("equatorial 15 kg (3)").price == 900.0


def test_the_longest_name_leaves_room_for_a_number() -> None:
    ours = shelf_of(mounts=[OWN.mount("equatorial 15 kg").but(name="x" * 120)])
    theirs = shelf_of(mounts=[OWN.mount("equatorial 15 kg").but(name="x" * 120, price=1.0)])
    names = [mount.name for mount in merged(ours, theirs).shelf.mounts]
    assert names == ["x" * 120, "x" * 116 + " (2)"]


def test_alternatives_follow_what_came_in_under_another_name() -> None:
    small = cheaper().mount("equatorial 10 kg").but(alternatives=("equatorial 15 kg",), price=1.0)
    shelf = merged(OWN, with_part_changed(cheaper(), small.name, small)).shelf
    assert shelf.mount("equatorial 10 kg (2)").alternatives == ("equatorial 15 kg (2)",)
    assert shelf.mount("equatorial 10 kg").alternatives == ()
    again = merged(shelf, with_part_changed(cheaper(), small.name, small))
    assert again.shelf == shelf


@pytest.mark.parametrize("planned", demo_plan().rigs, ids=lambda planned: planned.id)
def test_a_rig_put_on_the_shelf_is_the_same_rig_there(planned) -> None:
    merge = with_rig(OWN, planned.rig, currency="EUR")
    assert merge.shelf.rig(planned.rig.name) == planned.rig
    assert merge.new == (planned.rig.name,)
    assert with_rig(merge.shelf, planned.rig, currency="EUR").shelf == merge.shelf


def test_two_parts_of_one_name_in_a_rig_get_two_names() -> None:
    spacer = OWN.other("spacer M42, 1 mm")
    others = (spacer, spacer.but(length_mm=2.0), spacer, spacer.but(length_mm=3.0))
    shelf = shelf_of_rig(RIG.but(others=others), "EUR")
    assert shelf.rigs[0].others == (
        spacer.name, f"{spacer.name} (2)", spacer.name, f"{spacer.name} (3)",
    )  # fmt: skip
    lengths = [part.length_mm for part in shelf.rig(RIG.name).others]
    assert lengths == [1.0, 2.0, 1.0, 3.0]


@pytest.mark.parametrize("coming", [OWN.but(currency="SEK"), Shelf(currency="USD")])
def test_another_currency_is_refused(coming: Shelf) -> None:
    rule = f'^currency of what comes in "{coming.currency}": must be that of the shelf, EUR; no'
    with pytest.raises(BadValueError, match=rule):
        merged(OWN, coming)
    with pytest.raises(BadValueError, match=rule):
        with_rig(OWN, RIG, currency=coming.currency)


# Files --------------------------------------------------------------------------


def test_a_rig_file_holds_all_of_a_rig_and_comes_back(tmp_path: Path) -> None:
    save_rig(RIG, tmp_path / "rig.json", currency="EUR")
    assert load_rig(tmp_path / "rig.json").rig == RIG
    shelf = load_gear(tmp_path / "rig.json")
    assert shelf.rig(RIG.name) == RIG
    assert shelf.currency == "EUR"
    assert merged(OWN, shelf).shelf == OWN


def test_a_shelf_file_is_read_as_it_is(tmp_path: Path) -> None:
    save_shelf(cheaper(), tmp_path / "shelf.json")
    assert load_gear(tmp_path / "shelf.json") == cheaper()
    with pytest.raises(CoreError, match=r'^shelf\.json is .*its format is not "skysill-rig"$'):
        load_rig(tmp_path / "shelf.json")


def test_neither_a_shelf_nor_a_rig_is_told_both_formats(tmp_path: Path) -> None:
    (tmp_path / "x.json").write_text('{"format": "skysill-plan", "version": 1}')
    with pytest.raises(CoreError, match=r'its format is not "skysill-shelf" or "skysill-rig"$'):
        load_gear(tmp_path / "x.json")
    (tmp_path / "y.json").write_text('{"format": ["skysill-rig"], "version": 1}')
    with pytest.raises(CoreError, match=r"^y\.json is JSON of another kind"):
        load_gear(tmp_path / "y.json")


def test_a_rig_keeps_its_currency_in_a_file(tmp_path: Path) -> None:
    save_rig(RIG, tmp_path / "small.json", currency="SEK")
    assert load_rig(tmp_path / "small.json").currency == "SEK"
    with pytest.raises(BadValueError, match='currency of what comes in "SEK"'):
        merged(OWN, load_gear(tmp_path / "small.json"))
