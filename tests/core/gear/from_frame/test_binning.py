"""Whether a header's pixel size counts the binning: what decides, and what is asked.

That XPIXSZ is "after binning" for many writers is what comments of their headers say
("Pixel Width in microns (after binning)"): common practice, no published standard.
"""

from pathlib import Path
from typing import Any

import pytest

from tests.core.gear.from_frame.frames import WHOLE, read, value

BINNED = {**WHOLE, "XBINNING": 2, "YBINNING": 2}
#: Of 80/400 with 3.76 µm binned twice: 3.877778 arcsec a pixel of the picture.
SKY = {"CTYPE1": "RA---TAN", "CTYPE2": "DEC--TAN", "CDELT1": -3.877778 / 3600.0,
       "CDELT2": 3.877778 / 3600.0}  # fmt: skip


@pytest.mark.parametrize(("told", "verb"), [(7.52, "counts"), (3.76, "does not count")])
def test_the_scale_on_the_sky_decides_either_way(tmp_path: Path, told: float, verb: str) -> None:
    figures = read(tmp_path, **{**BINNED, **SKY, "XPIXSZ": told})
    pixel = figures.figure("pixel_um")
    assert pixel is not None
    assert (pixel.value, pixel.sure) == (3.76, True)
    assert pixel.remark == f"{verb} the binning: with FOCALLEN that gives the scale on the sky"
    assert value(figures, "focal_length_mm") == 400.0


def test_the_sky_overrules_the_comment(tmp_path: Path) -> None:
    figures = read(tmp_path, **{**BINNED, **SKY, "XPIXSZ": (3.76, "after binning")})
    assert value(figures, "pixel_um") == 3.76


@pytest.mark.parametrize(
    ("cards", "pixel_um", "why"),
    [
        ({"XPIXSZ": 7.52, "PIXSIZE1": 3.76}, 3.76, "it is PIXSIZE1 times XBINNING"),
        ({"XPIXSZ": 3.76, "PIXSIZE1": 3.76}, 3.76, "PIXSIZE1 is the same"),
        ({"XPIXSZ": (7.52, "[um] Pixel width (after binning)")}, 3.76, "says its comment"),
        ({"XPIXSZ": (7.52, "X binned pixel size")}, 3.76, "says its comment"),
        ({"XPIXSZ": (3.76, "unbinned pixel size")}, 3.76, "says its comment"),
        ({"XPIXSZ": (3.76, "width before binning")}, 3.76, "says its comment"),
    ],
)
def test_other_cards_and_comments_decide(
    tmp_path: Path, cards: dict[str, Any], pixel_um: float, why: str
) -> None:
    pixel = read(tmp_path, **{**BINNED, **cards}).figure("pixel_um")
    assert pixel is not None
    assert (pixel.value, pixel.sure) == (pixel_um, True)
    assert why in pixel.remark


def test_where_nothing_decides_the_binning_is_taken_to_be_counted_and_it_is_asked(
    tmp_path: Path,
) -> None:
    figures = read(tmp_path, **{**BINNED, "XPIXSZ": 7.52})
    pixel = figures.figure("pixel_um")
    assert pixel is not None
    assert (pixel.value, pixel.sure, pixel.source) == (3.76, False, "XPIXSZ / XBINNING")
    assert "if yours does not, the pitch is 7.52 µm" in pixel.remark
    (choice,) = figures.choices
    assert [(option.key, option.value) for option in choice.options] == [
        ("binned", 3.76), ("plain", 7.52)]  # fmt: skip
    chosen = figures.choose("pixel_um", "plain").figure("pixel_um")
    assert chosen is not None
    assert (chosen.value, chosen.sure, chosen.source) == (7.52, True, "XPIXSZ")


def test_a_scale_that_fits_neither_reading_decides_nothing(tmp_path: Path) -> None:
    figures = read(tmp_path, **{**BINNED, **SKY, "XPIXSZ": 7.52, "FOCALLEN": 480.0})
    pixel = figures.figure("pixel_um")
    assert pixel is not None
    assert not pixel.sure


def test_a_picture_that_is_not_binned_asks_nothing(tmp_path: Path) -> None:
    for cards in ({}, {"XBINNING": 1, "YBINNING": 1}):
        figures = read(tmp_path, **WHOLE, **cards)
        assert (value(figures, "pixel_um"), figures.choices) == (3.76, ())
        assert value(figures, "binning") is None


def test_sensor_is_the_picture_times_the_binning(tmp_path: Path) -> None:
    figures = read(tmp_path, **{**BINNED, "YBINNING": 3, "XPIXSZ": 7.52, "YPIXSZ": 11.28})
    assert (value(figures, "columns"), value(figures, "rows")) == (80, 90)
    assert value(figures, "binning") == "2 × 3"
    assert figures.remarks == ()


def test_binning_is_also_read_as_observatories_write_it(tmp_path: Path) -> None:
    assert value(read(tmp_path, **WHOLE, CCDSUM="2 4"), "binning") == "2 × 4"
    assert value(read(tmp_path, **WHOLE, CCDSUM="none"), "binning") is None


def test_pixels_that_are_not_square_are_told(tmp_path: Path) -> None:
    figures = read(tmp_path, **{**WHOLE, "XPIXSZ": 8.6, "YPIXSZ": 8.3})
    assert len(figures.remarks) == 1
    assert "8.6 µm and YPIXSZ 8.3 µm: the pixels are not square" in figures.remarks[0]
