"""Putting parts in, taking them out, moving them; kinds and blank parts."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError, InvalidRigError
from core.gear.accessories import FilterPart, Spacer, Tripod
from core.gear.kinds import KINDS, OTHER_KINDS, blank_part, class_of_kind, of_kind
from core.gear.parts import Mount, OtherPart
from core.gear.rig import Rig
from core.gear.slots import Slot, inserted, moved, slots_of, with_part, without_part
from tests.core.gear.check_kits import guide_scope, kit, off_axis, reducer, spacer, wheel


def ring(name: str) -> Spacer:
    return spacer().but(name=name)


LONG = kit(ring(name="one"), wheel(), off_axis(), guide_scope(), ring(name="two"))


def names(rig: Rig) -> list[str]:
    return [part.name for part in rig.others]


def test_an_empty_slot_is_filled_and_a_filled_one_gets_another_part() -> None:
    bare = kit(corrector=None, mount=None)
    assert with_part(bare, Slot("corrector"), reducer()).corrector == reducer()
    assert with_part(bare, Slot("mount"), Mount(name="m")).mount == Mount(name="m")
    assert names(with_part(bare, Slot("others", 2), ring(name="x"))) == ["spacer", "wheel", "x"]
    assert names(with_part(bare, Slot("others", 0), ring(name="x"))) == ["x", "wheel"]
    with pytest.raises(BadValueError, match='slot "others 5": is empty in "kit"'):
        with_part(bare, Slot("others", 4), spacer())
    with pytest.raises(InvalidRigError, match="mount"):
        with_part(bare, Slot("mount"), spacer())


def test_telescope_and_camera_stay_and_say_why() -> None:
    rule = 'telescope "tube": a rig has a telescope; put another in its place instead'
    with pytest.raises(BadValueError, match=rule):
        without_part(LONG, Slot("telescope"))
    with pytest.raises(BadValueError, match="a rig has a camera"):
        without_part(LONG, Slot("camera"))
    with pytest.raises(BadValueError, match='"others 9": is empty'):
        without_part(LONG, Slot("others", 8))
    with pytest.raises(BadValueError, match='"others 9": is empty'):
        moved(LONG, 8, 0)


def test_what_is_taken_out_is_gone_and_nothing_else() -> None:
    assert without_part(LONG, Slot("corrector")) == LONG.but(corrector=None)
    assert without_part(LONG, Slot("mount")).mount is None
    assert names(without_part(LONG, Slot("others", 1))) == ["one", "prism", "small tube", "two"]


@given(place=st.integers(0, 4), to=st.integers(-3, 9))
@settings(max_examples=40)
def test_a_move_keeps_every_part_and_the_order_of_the_rest(place: int, to: int) -> None:
    rig = moved(LONG, place, to)
    at = min(max(to, 0), 4)
    assert rig.others[at] is LONG.others[place]
    rest = [name for n, name in enumerate(names(LONG)) if n != place]
    assert [name for n, name in enumerate(names(rig)) if n != at] == rest
    assert moved(rig, at, place) == LONG


@given(place=st.integers(-2, 9))
@settings(max_examples=20)
def test_what_is_put_in_and_taken_out_again_leaves_the_rig_as_it_was(place: int) -> None:
    at = min(max(place, 0), len(LONG.others))
    fuller = inserted(LONG, place, ring(name="new"))
    assert fuller.others[at].name == "new"
    assert Counter(names(fuller)) == Counter([*names(LONG), "new"])
    assert without_part(fuller, Slot("others", at)) == LONG


@given(slot=st.sampled_from(sorted(slots_of(LONG), key=str)))
def test_putting_a_part_where_it_is_changes_nothing(slot: Slot) -> None:
    assert with_part(LONG, slot, slots_of(LONG)[slot]) == LONG


def test_every_kind_has_a_class_that_knows_it_and_a_blank_part() -> None:
    assert set(OTHER_KINDS) < set(KINDS)
    for kind in OTHER_KINDS:
        blank = blank_part(kind)
        assert isinstance(blank, OtherPart)
        assert (blank.kind, type(blank)) == (kind, class_of_kind(kind))
        assert (blank.mass_kg, blank.price, blank.length_mm) == (None, None, None)
    assert class_of_kind("adapter") is Spacer
    assert class_of_kind("power") is OtherPart
    with pytest.raises(BadValueError, match='kind "wand": must be one of filter, '):
        blank_part("wand")


def test_another_kind_keeps_the_figures_that_both_have() -> None:
    as_wheel = of_kind(spacer(price=20.0), "filter wheel")
    assert isinstance(as_wheel, FilterPart)
    assert (as_wheel.length_mm, as_wheel.clear_diameter_mm, as_wheel.price) == (17.5, 50.0, 20.0)
    assert as_wheel.glass_mm is None
    legs = of_kind(as_wheel, "tripod")
    assert isinstance(legs, Tripod)
    assert not legs.on_mount
    assert of_kind(spacer(), "adapter").but(kind="spacer") == spacer()
