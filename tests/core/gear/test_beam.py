"""The beam behind the optics, by hand: diagonal plus distance over focal ratio."""

import pytest

from core.gear.accessories import FilterPart
from core.gear.beam import beam_diameter_mm, sensor_diagonal_mm, stretches
from core.gear.slots import Slot
from tests.core.gear.check_kits import guide_scope, kit, off_axis, spacer, wheel


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
