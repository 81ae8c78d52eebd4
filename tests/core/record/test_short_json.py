"""Shelf and rig files as people read them: short, and the same when they are read back."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.accessories import FilterPart
from core.gear.parts import Camera, Mount, Telescope
from core.gear.rig import Rig
from core.gear.shelf.files import RigFile, load_rig, save_rig, save_shelf
from core.gear.shelf.shelf import Shelf
from core.plan.store import demo_plan
from core.record.short_json import short_json

OWN = Shelf.load()
TEXT = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=20).filter(
    str.strip
)
FIGURE = st.one_of(
    st.none(), st.floats(0.5, 10_000.0), st.integers(1, 10_000), st.sampled_from([1e-3, 0.1, 1e4])
)


@st.composite
def shelves(draw: st.DrawFn) -> Shelf:
    """Draw a shelf with a telescope, a filter and a mount of any figures."""
    tube = Telescope(name=draw(TEXT), aperture_mm=100.0, focal_length_mm=draw(
        st.floats(60.0, 90_000.0)), mass_kg=draw(FIGURE), note=draw(st.text(
            st.characters(exclude_categories=["Cs"]), max_size=30)))  # fmt: skip
    glass = FilterPart(name=draw(TEXT), band_nm=draw(FIGURE), alternatives=tuple(
        draw(st.lists(TEXT, max_size=3))), on_mount=draw(st.booleans()))  # fmt: skip
    mount = Mount(name=draw(TEXT), price=draw(FIGURE))
    return Shelf(currency="EUR", telescopes=(tube,), others=(glass,), mounts=(mount,))


@settings(max_examples=80)
@given(shelves())
def test_a_shelf_is_the_same_when_it_is_read_back(shelf: Shelf) -> None:
    text = short_json(shelf)
    assert Shelf.from_json(text) == shelf
    assert json.loads(text)["format"] == "skysill-shelf"


@pytest.mark.parametrize("planned", demo_plan().rigs, ids=lambda planned: planned.id)
def test_a_rig_is_the_same_when_it_is_read_back(planned) -> None:
    file = RigFile(currency="EUR", rig=planned.rig)
    assert RigFile.from_json(short_json(file)) == file


def test_a_part_is_one_line_and_so_is_a_rig_of_a_shelf(tmp_path: Path) -> None:
    """Two lines of braces, three of the head, two for each of six lists, one for each thing."""
    save_shelf(OWN, tmp_path / "shelf.json")
    lines = (tmp_path / "shelf.json").read_text("utf-8").splitlines()
    assert len(lines) == 2 + 3 + 2 * 6 + len(OWN.parts) + len(OWN.rigs)
    (line,) = (line for line in lines if '"name": "equatorial 15 kg"' in line)
    assert json.loads(line.rstrip(","))["load_balanced_kg"] == 15


def test_what_is_not_known_is_left_out_and_letters_stay_letters() -> None:
    text = short_json(OWN)
    assert "null" not in text
    assert '""' not in text
    assert "3.76 µm" in text
    assert '"focal_length_mm": 480,' in text


def test_what_is_not_the_usual_is_never_left_out() -> None:
    """A kind tells which figures a part may have; false and 0 are known."""
    part = FilterPart(name="a", glass_mm=0.0, on_mount=False)
    content = json.loads(short_json(part))
    assert content == {
        "name": "a", "kind": "filter", "glass_mm": 0, "on_mount": False,
    }  # fmt: skip


def test_a_rig_file_has_a_line_a_part(tmp_path: Path) -> None:
    rig: Rig = OWN.rig(OWN.rigs[2].name)
    save_rig(rig, tmp_path / "rig.json", currency="EUR")
    lines = (tmp_path / "rig.json").read_text("utf-8").splitlines()
    for part in rig.parts:
        assert (
            sum(f'"name": {json.dumps(part.name, ensure_ascii=False)}' in at for at in lines) == 1
        )
    assert load_rig(tmp_path / "rig.json").rig == rig


def test_the_largest_and_smallest_figures_come_back() -> None:
    camera = Camera(name="a", columns=1, rows=200_000, pixel_um=0.1, full_well_e=1e8, price=1e9,
                    read_noise_e=5e-324)  # fmt: skip
    assert Camera.from_json(short_json(camera)) == camera
