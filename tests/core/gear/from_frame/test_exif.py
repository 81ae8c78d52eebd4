"""What a camera's tags tell of a rig; the tags are written by Pillow, as Exif 2.3 numbers them."""

import math
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image

from core.gear.from_frame.exif_tags import _TAGS
from core.gear.from_frame.read import figures_of
from tests.core.gear.from_frame.frames import camera_picture, value

FOCAL, F_NUMBER, FILM, WIDTH, HEIGHT = 0x920A, 0x829D, 0xA405, 0xA002, 0xA003
PLANE_X, PLANE_Y, UNIT, ISO, TIME, SENSING, LENS = (
    0xA20E, 0xA20F, 0xA210, 0x8827, 0x829A, 0xA217, 0xA434)  # fmt: skip
#: 6000 x 4000 px over 23.46 mm: 255.76 px a mm, 3.91 µm; 135 mm at f/2.8.
WHOLE: dict[int, Any] = {FOCAL: 135.0, F_NUMBER: 2.8, WIDTH: 6000, HEIGHT: 4000,
                         PLANE_X: 6000 / 23.46 * 25.4, UNIT: 2, ISO: 1600, TIME: 0.25}  # fmt: skip


def test_tags_are_those_of_the_standard() -> None:
    """As Pillow's own table has them; the newer names of two tags are Exif 2.3's."""
    renamed = {"PhotographicSensitivity": "ISOSpeedRatings", "PixelXDimension": "ExifImageWidth",
               "PixelYDimension": "ExifImageHeight"}  # fmt: skip
    for number, name in _TAGS.items():
        assert ExifTags.TAGS[number] == renamed.get(name, name)


@pytest.mark.parametrize("ending", ["jpg", "tif"])
def test_every_tag_becomes_its_figure(tmp_path: Path, ending: str) -> None:
    path = camera_picture(tmp_path / f"m.{ending}", {**WHOLE, SENSING: 2, LENS: "glass"},
                          size=(6000, 4000) if ending == "tif" else (60, 40),
                          **{"0x10f": "Maker", "0x110": "Maker One"})  # fmt: skip
    figures = figures_of(path)
    found = {figure.field: figure.value for figure in figures.figures}
    assert found.pop("pixel_um") == pytest.approx(3.91, rel=1e-5)
    assert found.pop("aperture_mm") == pytest.approx(135.0 / 2.8, rel=1e-6)
    assert found.pop("focal_ratio") == pytest.approx(2.8, rel=1e-6)
    assert found == {"focal_length_mm": 135.0, "columns": 6000, "rows": 4000, "sensor": "colour",
                     "camera": "Maker One", "telescope": "glass", "exposure_s": 0.25,
                     "iso": 1600.0}  # fmt: skip
    assert (figures.form, figures.missing) == ("EXIF", ())
    rig = figures.to_rig("it")
    assert (rig.telescope.kind, rig.camera.sensor) == ("lens", "colour")
    assert rig.camera.width_mm == pytest.approx(23.46, rel=1e-5)


@pytest.mark.parametrize(
    ("unit", "per_mm"), [(2, 25.4), (3, 10.0), (4, 1.0), (5, 0.001), (None, 25.4)]
)
def test_the_unit_of_the_focal_plane_counts_and_is_inch_where_unsaid(
    tmp_path: Path, unit: int | None, per_mm: float
) -> None:
    tags = {PLANE_X: 250.0 * per_mm} | ({} if unit is None else {UNIT: unit})
    pixel_um = value(figures_of(camera_picture(tmp_path / "m.jpg", tags)), "pixel_um")
    assert pixel_um == pytest.approx(4.0, rel=1e-4)


def test_without_focal_plane_the_film_s_focal_length_gives_the_pitch_but_not_surely(
    tmp_path: Path,
) -> None:
    """A diagonal 1.5 times smaller than the 43.27 mm of film, over 7211 px: 4.0 µm."""
    tags = {FOCAL: 100.0, FILM: 150, WIDTH: 6000, HEIGHT: 4000}
    figure = figures_of(camera_picture(tmp_path / "m.jpg", tags)).figure("pixel_um")
    assert figure is not None
    assert figure.value == pytest.approx(43.2666 / 1.5 / math.hypot(6, 4), rel=1e-5)
    assert not figure.sure


def test_a_focal_plane_that_speaks_against_the_film_leaves_a_choice(tmp_path: Path) -> None:
    """As when an editor halved the picture and left the resolution as it was."""
    tags = {**WHOLE, FILM: 203, WIDTH: 3000, HEIGHT: 2000}
    figures = figures_of(camera_picture(tmp_path / "m.jpg", tags))
    figure = figures.figure("pixel_um")
    assert figure is not None
    assert not figure.sure
    chosen = value(figures.choose("pixel_um", "film"), "pixel_um")
    assert chosen == pytest.approx(2 * 3.99, rel=0.01)
    alike = figures_of(camera_picture(tmp_path / "m.jpg", {**WHOLE, FILM: 203}))
    assert alike.choices == ()


def test_a_picture_made_smaller_is_told_and_its_tags_count(tmp_path: Path) -> None:
    figures = figures_of(camera_picture(tmp_path / "m.jpg", WHOLE))
    assert figures.remarks == (
        "the picture has 60 × 40 px, its tags say 6000 × 4000: it was cut or made smaller; "
        "the tags count",
    )
    turned = camera_picture(tmp_path / "m.jpg", {WIDTH: 40, HEIGHT: 60})
    assert figures_of(turned).remarks == ()


def test_without_tags_the_picture_s_own_size_counts(tmp_path: Path) -> None:
    figures = figures_of(camera_picture(tmp_path / "m.jpg", {}))
    assert [(figure.field, figure.value) for figure in figures.figures] == [
        ("columns", 60), ("rows", 40)]  # fmt: skip
    assert figures.missing == ("focal length", "aperture", "pixel pitch")


def test_the_small_picture_of_a_raw_file_has_no_size_that_counts(tmp_path: Path) -> None:
    Image.new("RGB", (16, 12)).save(tmp_path / "raw.tif", tiffinfo={0xFE: 1})
    assert figures_of(tmp_path / "raw.tif").figures == ()


ODD = {
    "FocalLength is 0, as where it was never set; left out": {FOCAL: 0.0},
    "FNumber is 0, as where it was never set; left out": {F_NUMBER: 0.0},
    "FocalPlaneResolutionUnit is neither inch nor cm; left out": {PLANE_X: 100.0, UNIT: 9},
    "FocalPlaneXResolution gives pixels of 1.27e+04 µm; left out": {PLANE_X: 2.0},
    "FocalPlaneXResolution and FocalPlaneYResolution differ; the first counts": {
        PLANE_X: 6500.0, PLANE_Y: 6000.0},
    "FocalLengthIn35mmFilm is 0, as where it was never set; left out": {FILM: 0},
    "PhotographicSensitivity is 0, as where it was never set; left out": {ISO: 0},
    "PixelXDimension is 4000000, not between 1 and 200000 px; left out": {WIDTH: 4_000_000},
}  # fmt: skip


@pytest.mark.parametrize("sentence", ODD)
def test_what_cannot_be_is_told(tmp_path: Path, sentence: str) -> None:
    figures = figures_of(camera_picture(tmp_path / "m.jpg", ODD[sentence]))
    assert sentence in figures.remarks


def test_maker_and_model_are_one_name_without_saying_the_maker_twice(tmp_path: Path) -> None:
    for names, joined in (
        ({"0x10f": "Maker", "0x110": "One"}, "Maker One"),
        ({"0x10f": "Maker", "0x110": "MAKER One"}, "MAKER One"),
        ({"0x10f": "Maker"}, "Maker"),
        ({"0x110": "On\x07e\x00"}, "On e"),
    ):
        path = camera_picture(tmp_path / "m.jpg", {}, **names)
        assert value(figures_of(path), "camera") == joined


def test_tags_that_are_spoilt_leave_the_picture_readable(tmp_path: Path) -> None:
    """Pillow warns of a directory that claims more than is there, and gives what it has."""
    path = camera_picture(tmp_path / "m.jpg", {FOCAL: 135.0}, **{"0x110": "One"})
    content = path.read_bytes()
    model = content.index(b"\x01\x10\x00\x02")
    path.write_bytes(content[: model + 4] + b"\x00\x00\xff\xff" + content[model + 8 :])
    assert value(figures_of(path), "columns") == 60
