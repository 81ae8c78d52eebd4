"""What a FITS header tells of a rig; headers are written by astropy, pixels never read."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from astropy.io import fits

from core.gear.from_frame.read import figures_of
from tests.core.gear.from_frame.frames import (
    SHAPE,
    WHOLE,
    frame,
    header,
    raw_frame,
    read,
    value,
)

EMPTY = np.zeros(SHAPE, np.int16)


def test_every_keyword_becomes_its_figure_with_its_source(tmp_path: Path) -> None:
    figures = read(
        tmp_path,
        **{"FOCALLEN": 400.0, "APTDIA": 80.0, "XPIXSZ": 3.76, "INSTRUME": "eye",
           "TELESCOP": "tube", "BAYERPAT": "RGGB", "FILTER": "Ha", "EGAIN": 0.78, "GAIN": 100,
           "EXPTIME": 120.0, "SET-TEMP": -10.0, "CCD-TEMP": -9.8, "SITELAT": "47 30 00"},
    )  # fmt: skip
    found = {figure.field: (figure.value, figure.source) for figure in figures.figures}
    assert found == {
        "focal_length_mm": (400.0, "FOCALLEN"),
        "aperture_mm": (80.0, "APTDIA"),
        "pixel_um": (3.76, "XPIXSZ"),
        "columns": (40, "NAXIS1"),
        "rows": (30, "NAXIS2"),
        "sensor": ("colour", "BAYERPAT"),
        "cooled": ("cooled", "SET-TEMP"),
        "telescope": ("tube", "TELESCOP"),
        "camera": ("eye", "INSTRUME"),
        "filter": ("Ha", "FILTER"),
        "exposure_s": (120.0, "EXPTIME"),
        "gain": (100.0, "GAIN"),
        "conversion_e_adu": (0.78, "EGAIN"),
        "temperature_c": (-9.8, "CCD-TEMP"),
        "latitude_deg": (47.5, "SITELAT"),
    }
    assert (figures.form, figures.missing, figures.remarks) == ("FITS", (), ())


@pytest.mark.parametrize(
    ("cards", "aperture_mm", "source"),
    [
        ({"APTDIA": 80.0, "FOCRATIO": 5.0}, 80.0, "APTDIA"),
        ({"FOCRATIO": 5.0}, 80.0, "FOCALLEN / FOCRATIO"),
        ({"FOCRATIO": "f/5"}, 80.0, "FOCALLEN / FOCRATIO"),
        ({"APTAREA": 5026.548245743669}, 80.0, "APTAREA"),
    ],
)
def test_aperture_comes_from_diameter_ratio_or_area(
    tmp_path: Path, cards: dict[str, Any], aperture_mm: float, source: str
) -> None:
    """N = f / D; a circle of 80 mm has an area of 1600 pi mm2."""
    figure = read(tmp_path, FOCALLEN=400.0, **cards).figure("aperture_mm")
    assert figure is not None
    assert figure.value == pytest.approx(aperture_mm, rel=1e-12)
    assert figure.source == source


def test_a_focal_ratio_that_does_not_fit_is_told(tmp_path: Path) -> None:
    (remark,) = read(tmp_path, **WHOLE, FOCRATIO=6.0).remarks
    assert remark == "FOCALLEN and APTDIA make f/5, FOCRATIO says f/6"
    assert read(tmp_path, **WHOLE, FOCRATIO=5.1).remarks == ()


@pytest.mark.parametrize(("focal_mm", "asked"), [(411.0, False), (389.0, False),
                                                 (413.0, True), (387.0, True)])  # fmt: skip
def test_the_sky_speaks_against_focallen_beyond_3_percent(
    tmp_path: Path, focal_mm: float, asked: bool
) -> None:
    sky = {"CTYPE1": "RA---TAN", "CTYPE2": "DEC--TAN",
           "CDELT1": -1.938889 / 3600, "CDELT2": 1.938889 / 3600}  # fmt: skip
    figures = read(tmp_path, **{**WHOLE, **sky, "FOCALLEN": focal_mm})
    focal = figures.figure("focal_length_mm")
    assert focal is not None
    assert "the sky shows 400 mm" in focal.remark
    if not asked:
        assert (focal.value, figures.choices) == (focal_mm, ())
        return
    assert focal.value == pytest.approx(400.0, rel=1e-6)
    assert not focal.sure
    assert [choice.field for choice in figures.choices] == ["focal_length_mm"]
    typed = figures.choose("focal_length_mm", "told").figure("focal_length_mm")
    assert typed is not None
    assert (typed.value, typed.sure) == (focal_mm, True)


ODD = {
    "FOCALLEN is 0, as where it was never set; left out": {"FOCALLEN": 0.0},
    "FOCALLEN is -400, not between 1 and 1000000 mm; left out": {"FOCALLEN": -400},
    "FOCALLEN is 0.4, not between 1 and 1000000 mm; left out": {"FOCALLEN": 0.4},
    'FOCALLEN is the text "400", read as 400': {"FOCALLEN": "400"},
    'FOCALLEN is the text "400,5", read as 400.5': {"FOCALLEN": "400,5"},
    'FOCALLEN is the text "long", not a number; left out': {"FOCALLEN": "long"},
    'FOCALLEN is the text "", not a number; left out': {"FOCALLEN": ""},
    "FOCALLEN is true or false, not a number; left out": {"FOCALLEN": True},
    "FOCALLEN is no value, not a number; left out": {"FOCALLEN": 1 + 2j},
    "XPIXSZ is 1000000, not between 0.1 and 1000 µm; left out": {"XPIXSZ": 1e6},
    "XBINNING is 1.5, not a whole number; left out": {"XBINNING": 1.5},
    "APTDIA is 1000000000, not between 0.1 and 50000 mm; left out": {"APTDIA": 1e9},
    "EXPTIME is -1, not between 0 and 1000000 seconds; left out": {"EXPTIME": -1.0},
    'BAYERPAT is "XYZ", no mosaic of two by two; left out': {"BAYERPAT": "XYZ"},
    "INSTRUME is no text; left out": {"INSTRUME": 7},
    "SITELAT is 95, not between -90 and 90 degrees; left out": {"SITELAT": 95.0},
}  # fmt: skip


@pytest.mark.parametrize("sentence", ODD)
def test_what_cannot_be_is_told_and_never_passed_over(tmp_path: Path, sentence: str) -> None:
    assert sentence in read(tmp_path, **ODD[sentence]).remarks


def test_a_latitude_that_is_none_is_told(tmp_path: Path) -> None:
    (remark,) = read(tmp_path, SITELAT="north").remarks
    assert remark.startswith('SITELAT "north": is not an angle')
    assert value(read(tmp_path, SITELAT="-33 52 10"), "latitude_deg") == pytest.approx(-33.869444)


def test_cards_that_break_the_standard_are_told(tmp_path: Path) -> None:
    path = raw_frame(tmp_path / "light.fits", "FOCALLEN=                  NaN",
                     "APTDIA  = 80,0 / mm", "INSTRUME= 'open", "TELESCOP=",
                     "XPIXSZ  = 1E999")  # fmt: skip
    assert figures_of(path).remarks == (
        'FOCALLEN is the text "NaN", not a number; left out',
        'APTDIA is the text "80,0", read as 80',
        "XPIXSZ is not a finite number; left out",
    )


def test_a_keyword_that_stands_there_twice_is_told_and_the_first_counts(tmp_path: Path) -> None:
    path = raw_frame(tmp_path / "light.fits", "FOCALLEN= 400.", "FOCALLEN= 500.")
    figures = figures_of(path)
    assert figures.remarks == ("FOCALLEN stands there twice with two values; the first counts",)
    assert value(figures, "focal_length_mm") == 400.0


def test_a_name_loses_what_does_not_show(tmp_path: Path) -> None:
    path = raw_frame(tmp_path / "light.fits", "INSTRUME= '\x1b[31m  my\x07 eye  '")
    assert value(figures_of(path), "camera") == "?[31m my? eye"


def test_a_long_name_goes_on_in_the_next_card(tmp_path: Path) -> None:
    """The CONTINUE convention, FITS Standard 4.0 section 4.2.1.2 (number from memory)."""
    name = "a name of many words " * 4
    assert value(read(tmp_path, INSTRUME=name), "camera") == name.strip()


@pytest.mark.parametrize("ending", ["fits", "fit", "fts", "fits.gz", "fits.fz", "jpg"])
def test_what_a_file_is_tells_its_beginning_and_not_its_ending(tmp_path: Path, ending: str) -> None:
    plain, there = tmp_path / "a.fits", tmp_path / f"light.{ending}"
    frame(tmp_path / "packed.fits.gz" if ending.endswith("gz") else plain, **WHOLE)
    (tmp_path / "packed.fits.gz" if ending.endswith("gz") else plain).rename(there)
    assert value(figures_of(there), "focal_length_mm") == 400.0


def test_the_first_extension_with_a_picture_counts_and_inherits(tmp_path: Path) -> None:
    first, path = fits.PrimaryHDU(header=header(FOCALLEN=400.0, APTDIA=80.0)), tmp_path / "m.fits"
    table = fits.BinTableHDU.from_columns([fits.Column("a", "J", array=np.arange(5000))])
    picture = fits.ImageHDU(EMPTY, header(APTDIA=90.0))
    other = fits.ImageHDU(np.zeros((7, 9)), header(FOCALLEN=1.0))
    fits.HDUList([first, table, picture, other]).writeto(path)
    figures = figures_of(path)
    assert (value(figures, "columns"), value(figures, "rows")) == (40, 30)
    assert value(figures, "aperture_mm") == 90.0
    focal = figures.figure("focal_length_mm")
    assert focal is not None
    assert (focal.value, focal.source) == (400.0, "FOCALLEN of the primary header")


def test_an_extension_may_refuse_to_inherit(tmp_path: Path) -> None:
    path, picture = tmp_path / "m.fits", fits.ImageHDU(EMPTY, header(INHERIT=False))
    fits.HDUList([fits.PrimaryHDU(header=header(FOCALLEN=400.0)), picture]).writeto(path)
    assert value(figures_of(path), "focal_length_mm") is None


@pytest.mark.parametrize("kind", ["RICE_1", "GZIP_1"])
def test_a_tiled_compressed_picture_has_the_size_of_what_is_in_it(
    tmp_path: Path, kind: str
) -> None:
    path = tmp_path / "m.fits.fz"
    packed = fits.CompImageHDU(EMPTY, header(**WHOLE), compression_type=kind)
    fits.HDUList([fits.PrimaryHDU(), packed]).writeto(path)
    figures = figures_of(path)
    assert (value(figures, "columns"), value(figures, "rows")) == (40, 30)
    assert value(figures, "focal_length_mm") == 400.0


def test_a_picture_of_three_colours_has_columns_and_rows_of_one(tmp_path: Path) -> None:
    path = tmp_path / "rgb.fits"
    fits.PrimaryHDU(np.zeros((3, *SHAPE), np.int16)).writeto(path)
    assert value(figures_of(path), "columns") == 40
    fits.PrimaryHDU(np.zeros((*SHAPE, 3), np.int16)).writeto(path, overwrite=True)
    assert figures_of(path).remarks[0].startswith("NAXIS1 is 3: colours may stand")


def test_a_part_of_a_sensor_is_told(tmp_path: Path) -> None:
    figures = read(tmp_path, **WHOLE, XORGSUBF=768, YORGSUBF=0)
    (remark,) = figures.remarks
    assert remark.startswith("XORGSUBF is 768: the picture begins at that column of the sensor")


def test_a_frame_cut_within_its_picture_is_read_and_told(tmp_path: Path) -> None:
    path = tmp_path / "light.fits"
    fits.PrimaryHDU(np.zeros((100, 100), np.int16), header(**WHOLE)).writeto(path)
    path.write_bytes(path.read_bytes()[:9000])
    figures = figures_of(path)
    assert value(figures, "focal_length_mm") == 400.0
    assert figures.remarks == ("the file ends before the picture does; its header is whole",)
