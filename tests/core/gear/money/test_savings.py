"""All savings of a rig taken together; the sums by hand."""

from decimal import Decimal

from core.gear.money.savings import all_savings, picture_slots
from core.gear.money.swaps import swaps_for
from tests.core.gear.small_shelf import camera, mount, rig_of, shelf_of, telescope

SHELF = shelf_of(
    telescopes=[telescope("t", 400.0, 500.0), telescope("t2", 400.0, 450.0),
                telescope("t3", 400.0, 300.0)],
    cameras=[camera("c", 6000, 900.0), camera("c2", 6000, 850.0)],
    mounts=[mount("m", 10.0, 700.0), mount("m2", 10.0, 800.0)],
)  # fmt: skip


def test_the_largest_saving_of_each_slot_counts_once() -> None:
    """t3 saves 200 (t2 only 50), c2 saves 50, m2 costs more: 250."""
    rig = rig_of(SHELF)
    swaps = swaps_for(rig, SHELF, currency="EUR", passes=lambda _: True)
    found = all_savings(rig, swaps, lambda _: True)
    assert [swap.new.name for swap in found.swaps] == ["t3", "c2"]
    assert (found.saving, found.passes) == (Decimal(250), True)


def test_swaps_that_pass_alone_may_not_pass_together() -> None:
    rig = rig_of(SHELF)
    own = {"t", "c"}

    def keeps_one(other) -> bool:
        return bool(own & {other.telescope.name, other.camera.name})

    swaps = swaps_for(rig, SHELF, currency="EUR", passes=keeps_one)
    assert not all_savings(rig, swaps, keeps_one).passes


def test_what_does_not_pass_by_itself_is_left_out() -> None:
    rig = rig_of(SHELF)
    swaps = swaps_for(rig, SHELF, currency="EUR", passes=lambda r: r.telescope.name != "t3")
    names = [swap.new.name for swap in all_savings(rig, swaps, lambda _: True).swaps]
    assert names == ["t2", "c2"]


def test_nothing_to_save_saves_nothing() -> None:
    assert all_savings(rig_of(SHELF), (), lambda _: True).saving == 0


def test_the_picture_is_made_by_telescope_and_camera_not_by_the_mount() -> None:
    assert [slot.field for slot in picture_slots(rig_of(SHELF))] == ["telescope", "camera"]
