"""The beam behind the optics, by hand: diagonal plus distance over focal ratio."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import BadValueError
from core.gear.accessories import FilterPart
from core.gear.optics.beam import beam_diameter_mm, moved_in_beam, sensor_diagonal_mm, stretches
from core.gear.parts import OtherPart
from core.gear.slots import Slot
from tests.core.gear.check_kits import guide_scope, kit, off_axis, spacer, wheel

MOTOR, POWER = (OtherPart(name=name, mass_kg=0.3) for name in ("motor", "power"))


def test_the_beam_is_the_diagonal_at_the_sensor_and_widens_by_the_ratio() -> None:
    """APS-C 23.492 x 15.702 mm: 28.257 mm (Pythagoras); 55 mm at f/5 add 11."""
    rig = kit()
    assert sensor_diagonal_mm(rig) == pytest.approx(28.2567, abs=1e-4)
    assert beam_diameter_mm(rig, 0.0) == sensor_diagonal_mm(rig)
    assert beam_diameter_mm(rig, 55.0) == pytest.approx(28.2567 + 11.0, abs=1e-4)


def test_stretches_are_in_the_order_of_the_light_with_their_slots() -> None:
    one = FilterPart(name="red", glass_mm=2.0, glass_index=1.5)
    rig = kit(guide_scope(), spacer(length_mm=None), off_axis(clear_diameter_mm=None), wheel(), one)
    found = stretches(rig)
    assert [s.slot for s in found] == [*(Slot("others", n) for n in (1, 2, 3, 4)), Slot("camera")]
    assert [s.length_mm for s in found] == [None, 0.0, 20.0, 0.0, 17.5]
    assert [s.bore_mm for s in found] == [50.0, None, 50.0, None, None]
    assert [s.inside for s in found] == [False, False, False, True, False]


def test_two_equal_parts_have_two_slots() -> None:
    twice = spacer()
    for pair in ((spacer(), spacer()), (twice, twice)):
        assert [s.slot.place for s in stretches(kit(*pair))] == [0, 1, None]


@given(index=st.integers(-2, 6), which=st.integers(0, 2))
@settings(max_examples=40)
def test_a_part_moves_along_the_beam_and_what_stands_beside_stays(index: int, which: int) -> None:
    rig = kit(guide_scope(), spacer(), MOTOR, off_axis(), wheel(), POWER)
    row = ["spacer", "prism", "wheel"]
    name = row.pop(which)
    row.insert(min(max(index, 0), 2), name)
    place = [part.name for part in rig.others].index(name)
    after, at = moved_in_beam(rig, place, index)
    assert after.others[at].name == name
    assert [s.part.name for s in stretches(after)[:-1]] == row
    beside = [part.name for part in after.others if part.name not in row]
    assert beside == ["small tube", "motor", "power"]


def test_only_what_the_light_passes_by_itself_moves_along_the_beam() -> None:
    held = FilterPart(name="red", glass_mm=2.0, glass_index=1.5)
    rig = kit(guide_scope(), wheel(), held)
    for place in (0, 2, 7):
        with pytest.raises(BadValueError, match="is not in the beam by itself"):
            moved_in_beam(rig, place, 0)
    assert moved_in_beam(rig, 1, 5) == (rig, 1)
