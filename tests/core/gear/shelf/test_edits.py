"""Changing a shelf: nothing that is in use vanishes, and rigs follow new names."""

import pytest

from core.errors import BadValueError
from core.gear.accessories import Spacer
from core.gear.shelf.edits import (
    used_by,
    with_part,
    with_part_changed,
    without_part,
    without_rig,
)
from core.gear.shelf.shelf import Shelf

OWN = Shelf.load()
NEWTON = "150 mm Newtonian, colour"


def test_a_part_that_no_rig_uses_is_taken_off() -> None:
    left = without_part(OWN, "telescope", "Cassegrain 300/2400")
    assert len(left.telescopes) == len(OWN.telescopes) - 1
    assert left.rigs == OWN.rigs


@pytest.mark.parametrize(
    ("kind", "name", "message"),
    [
        (
            "telescope",
            "refractor 80/480",
            r'^telescope "refractor 80/480": is used by the rig "80 mm refractor, mono with '
            r'filters" and stays on the shelf; change or remove the rig first$',
        ),
        ("mount", "equatorial 15 kg", 'by the rigs "80 mm .*" and "150 mm Newtonian, colour" and'),
        ("other", "tripod, steel", '^other part "tripod, steel": is used by the rigs'),
        ("camera", "none", '^camera "none": is not on the shelf$'),
        ("camera", "APS-C 26 MP 3.76um, mono", "did you mean .*APS-C 26 MP 3.76 µm, mono"),
        ("eyepiece", "x", '^kind of part "eyepiece": must be one of telescope, corrector, camera'),
    ],
)
def test_a_part_in_use_stays_and_the_rigs_are_named(kind: str, name: str, message: str) -> None:
    with pytest.raises(BadValueError, match=message):
        without_part(OWN, kind, name)


def test_a_part_can_go_when_its_rigs_have_gone() -> None:
    left = without_rig(OWN, NEWTON)
    assert len(left.rigs) == len(OWN.rigs) - 1
    assert left.parts == OWN.parts
    assert len(without_part(left, "telescope", "Newtonian 150/600").parts) == len(OWN.parts) - 1


def test_a_part_that_goes_is_no_alternative_any_more() -> None:
    tube = OWN.telescope("lens 50 f/2.8").but(alternatives=("lens 24 f/2.8", "lens 85 f/2.8"))
    shelf = with_part_changed(OWN, tube.name, tube)
    left = without_part(shelf, "telescope", "lens 24 f/2.8")
    assert left.telescope("lens 50 f/2.8").alternatives == ("lens 85 f/2.8",)


def test_a_rig_that_is_not_there_cannot_go() -> None:
    with pytest.raises(BadValueError, match=r'^rig "150 mm newtonian": .*; did you mean "150 mm'):
        without_rig(OWN, "150 mm newtonian")


def test_a_new_part_comes_on_and_the_same_once_more_changes_nothing() -> None:
    tube = Spacer(name="spacer M42, 7 mm", length_mm=7.0)
    shelf = with_part(OWN, tube)
    assert shelf.other("spacer M42, 7 mm") == tube
    assert with_part(shelf, tube) is shelf


def test_another_part_by_a_name_in_use_is_refused() -> None:
    mount = OWN.mount("equatorial 15 kg").but(price=1.0)
    with pytest.raises(BadValueError, match=r'^mount "equatorial 15 kg": is on the shelf with'):
        with_part(OWN, mount)


def test_a_new_name_is_followed_by_rigs_and_alternatives() -> None:
    other = OWN.mount("equatorial 10 kg").but(alternatives=("equatorial 15 kg",))
    shelf = with_part_changed(OWN, other.name, other)
    mount = shelf.mount("equatorial 15 kg").but(name="my mount", price=900.0)
    shelf = with_part_changed(shelf, "equatorial 15 kg", mount)
    assert used_by(shelf, "mounts", "my mount") == ("80 mm refractor, mono with filters", NEWTON)
    assert shelf.rig(NEWTON).mount == mount
    assert shelf.mount("equatorial 10 kg").alternatives == ("my mount",)
    assert [m.name for m in shelf.mounts].index("my mount") == 3


def test_a_new_name_is_followed_in_every_place_of_the_other_parts() -> None:
    tripod = OWN.other("tripod, steel").but(name="old tripod")
    shelf = with_part_changed(OWN, "tripod, steel", tripod)
    rig, before = shelf.rigs[2], OWN.rigs[2]
    assert [n for n in rig.others if n not in before.others] == ["old tripod"]
    assert rig.others.index("old tripod") == before.others.index("tripod, steel")


def test_a_name_that_is_taken_is_refused() -> None:
    mount = OWN.mount("equatorial 15 kg").but(name="equatorial 10 kg")
    with pytest.raises(BadValueError, match=r'mounts, name "equatorial 10 kg": .*only once'):
        with_part_changed(OWN, "equatorial 15 kg", mount)


def test_a_figure_that_a_rig_could_not_bear_is_refused() -> None:
    """150/600 is f/4; f/0.6 with a corrector of 0.75 would be f/0.45."""
    slow = OWN.corrector("coma corrector 1.0x").but(factor=0.75)
    shelf = with_part_changed(OWN, slow.name, slow)
    tube = OWN.telescope("Newtonian 150/600").but(focal_length_mm=90.0)
    with pytest.raises(BadValueError, match=r'rig 5, focal ratio "f/0\.45.*"150 mm Newtonian'):
        with_part_changed(shelf, tube.name, tube)
