"""The shelf: what it holds, and how a damaged one is told."""

import json
from pathlib import Path

import pytest

from core.errors import BadValueError, CoreError
from core.gear.shelf.shelf import Shelf
from core.paths import ASSETS

SHELF = ASSETS / "shelf" / "shelf.json"

#: Nominal formats in mm and the pixel counts of the shelf that should come to them.
#: Sources: 44 x 33, full frame, APS-C, four thirds, one-inch and 2/3 type are the
#: nominal sizes of sensor format tables (36 x 24: ISO 1007 film gate; 17.3 x 13.0: the
#: Four Thirds standard; the inch types by common practice).
FORMATS = {
    "medium format": (43.8, 32.8),
    "full frame": (36.0, 24.0),
    "APS-C": (23.6, 15.7),
    "four thirds": (17.3, 13.0),
    "one-inch type": (13.2, 8.8),
    "1/1.2 type": (11.1, 6.3),
    "2/3 type": (8.8, 6.6),
}


def test_the_shelf_holds_enough_of_every_kind() -> None:
    shelf = Shelf.load()
    assert len(shelf.telescopes) >= 14
    assert len(shelf.cameras) >= 12
    assert len(shelf.mounts) >= 6
    assert len(shelf.correctors) >= 4
    every = (*shelf.telescopes, *shelf.correctors, *shelf.cameras, *shelf.mounts, *shelf.others)
    assert all(part.mass_kg and part.price for part in every)


@pytest.mark.parametrize("camera", Shelf.load().cameras, ids=lambda camera: camera.name)
def test_each_sensor_has_the_size_of_the_format_in_its_name(camera: object) -> None:
    """Pixels times pitch come to the nominal format within 2 mm on the long side.

    One type is wider than the others: 4144 x 4.63 µm = 19.2 mm, sold as four thirds.
    """
    sensor = Shelf.load().camera(camera.name)  # type: ignore[attr-defined]
    for name, (width_mm, height_mm) in FORMATS.items():
        if sensor.name.startswith(name + " "):
            assert sensor.width_mm == pytest.approx(width_mm, abs=2.0)
            assert sensor.height_mm == pytest.approx(height_mm, abs=1.2)
            break
    else:
        assert sensor.name.startswith(("1/2.8 type", "one-inch square"))


def test_the_name_of_a_telescope_tells_its_figures() -> None:
    for tube in Shelf.load().telescopes:
        figures = tube.name.split()[-1]
        if figures.startswith("f/"):
            ratio = tube.focal_length_mm / tube.aperture_mm
            assert ratio == pytest.approx(float(figures[2:]), abs=0.02)
        else:
            aperture, focal = (float(figure) for figure in figures.split("/"))
            assert (tube.aperture_mm, tube.focal_length_mm) == (aperture, focal)


def test_parts_are_found_by_name_and_a_missing_one_is_named() -> None:
    shelf = Shelf.load()
    assert shelf.telescope("refractor 80/480").aperture_mm == 80.0
    assert shelf.corrector("flattener 1.0x, small").factor == 1.0
    assert shelf.mount("equatorial 15 kg").load_balanced_kg == 15.0
    assert shelf.other("battery 500 Wh").on_mount is False
    with pytest.raises(BadValueError, match='camera "none such": is not on the shelf'):
        shelf.camera("none such")


@pytest.mark.parametrize(
    ("place", "value", "message"),
    [
        (("telescopes", 3, "aperture_mm"), -1, r'telescope 4, aperture "-1 mm": must be at least'),
        (("cameras", 0, "columns"), "many", 'camera 1, columns "many": must be a whole number'),
        (("mounts", 1, "kind"), "crane", 'mount 2, kind "crane": must be one of'),
        (("others", 2, "wheels"), 4, 'other part 3, wheels "4": is not a field that belongs'),
        (("correctors", 0, "name"), "reducer 0.8x, small", "correctors, name .* only once"),
        (("currency",), "Euro", 'currency "Euro": must be three capital letters'),
        (("currency",), "ÄÖÜ", 'currency "ÄÖÜ": must be three capital letters'),
    ],
)
def test_a_fault_on_the_shelf_is_told_by_file_place_value_and_rule(
    tmp_path: Path, place: tuple[str | int, ...], value: object, message: str
) -> None:
    content = json.loads(SHELF.read_bytes())
    inner = content
    for step in place[:-1]:
        inner = inner[step]
    inner[place[-1]] = value
    path = tmp_path / "mine.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    with pytest.raises(CoreError, match=f"^mine.json: {message}"):
        Shelf.load(path)


def test_a_plan_is_no_shelf() -> None:
    with pytest.raises(CoreError, match='its format is not "skysill-shelf"'):
        Shelf.load(ASSETS / "demo" / "plan.json")
