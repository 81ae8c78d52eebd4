"""From figures to a rig: what is missing is named, what is given stands, what is chosen too."""

from pathlib import Path

import pytest

from core.errors import BadValueError, InvalidRigError
from core.gear.from_frame.figures import TAKEN
from core.gear.from_frame.frame_file import FrameError
from core.gear.rig import Rig, rig_from_numbers
from tests.core.gear.from_frame.frames import WHOLE, read, value


def a_rig(*, factor: float = 1.0) -> Rig:
    return rig_from_numbers("mine", focal_length_mm=1000.0, aperture_mm=200.0, factor=factor,
                            pixel_um=2.9, columns=4000, rows=3000)  # fmt: skip


def test_a_whole_frame_makes_a_rig(tmp_path: Path) -> None:
    """1.938889 arcsec a pixel: the worked example of the image scale."""
    rig = read(tmp_path, **WHOLE, BAYERPAT="RGGB", **{"SET-TEMP": -10.0}).to_rig("it")
    assert (rig.name, rig.telescope.name, rig.camera.name) == ("it", "tube", "eye")
    assert rig.scale_arcsec_px == pytest.approx(1.938889, rel=1e-6)
    assert (rig.focal_ratio, rig.camera.sensor, rig.camera.cooled) == (5.0, "colour", True)
    assert (rig.camera.columns, rig.camera.rows) == (40, 30)
    assert rig.mount is None


def test_parts_without_names_are_called_by_their_numbers(tmp_path: Path) -> None:
    rig = read(tmp_path, FOCALLEN=400.0, APTDIA=80.0, XPIXSZ=3.76).to_rig("it")
    assert (rig.telescope.name, rig.camera.name) == ("refractor 80/400", "sensor 40 × 30 px")
    assert (rig.camera.sensor, rig.camera.cooled) == (None, None)


def test_a_rig_without_a_name_is_called_by_its_numbers(tmp_path: Path) -> None:
    assert read(tmp_path, **WHOLE).to_rig().name == "80/400 with 40 × 30 px"


def test_what_is_left_does_not_go_into_a_rig(tmp_path: Path) -> None:
    figures = read(tmp_path, **WHOLE, BAYERPAT="RGGB")
    rig = figures.to_rig("it", leaving=("camera", "sensor"))
    assert (rig.telescope.name, rig.camera.name) == ("tube", "sensor 40 × 30 px")
    assert rig.camera.sensor is None
    with pytest.raises(FrameError, match="does not tell the pixel pitch that a rig needs"):
        figures.to_rig("it", leaving=("pixel_um",))


@pytest.mark.parametrize(
    ("without", "words"),
    [
        (("APTDIA",), "the aperture"),
        (("APTDIA", "XPIXSZ", "YPIXSZ"), "the aperture and the pixel pitch"),
        (("FOCALLEN", "APTDIA", "XPIXSZ"), "the focal length, the aperture and the pixel pitch"),
    ],
)
def test_what_is_missing_is_named(tmp_path: Path, without: tuple[str, ...], words: str) -> None:
    cards = {word: worth for word, worth in WHOLE.items() if word not in without}
    figures = read(tmp_path, **cards)
    with pytest.raises(FrameError) as caught:
        figures.to_rig("it")
    expected = f"light.fits does not tell {words} that a rig needs; give that too"
    assert str(caught.value) == expected


def test_what_is_given_stands_in_place_of_the_frame_s(tmp_path: Path) -> None:
    figures = read(tmp_path, FOCALLEN=400.0).given(
        aperture_mm=80.0, pixel_um=3.76, focal_length_mm=500.0, columns=60, rows=50
    )
    rig = figures.to_rig("it")
    assert (rig.focal_length_mm, rig.aperture_mm, rig.camera.pixel_um) == (500.0, 80.0, 3.76)
    assert (rig.camera.columns, rig.camera.rows) == (60, 50)
    focal = figures.figure("focal_length_mm")
    assert focal is not None
    assert focal.source == "given"


def test_a_given_pixel_settles_the_question_and_moves_the_measured_focal_length(
    tmp_path: Path,
) -> None:
    sky = {"CTYPE1": "RA---TAN", "CTYPE2": "DEC--TAN", "CDELT1": 0.001, "CDELT2": 0.001}
    figures = read(tmp_path, XPIXSZ=7.52, XBINNING=2, **sky)
    assert value(figures, "focal_length_mm") == pytest.approx(206.264806 * 7.52 / 3.6, rel=1e-6)
    settled = figures.given(pixel_um=2.0)
    assert settled.choices == ()
    assert value(settled, "focal_length_mm") == pytest.approx(206.264806 * 4.0 / 3.6, rel=1e-6)
    other = figures.choose("pixel_um", "plain")
    assert value(other, "focal_length_mm") == pytest.approx(206.264806 * 15.04 / 3.6, rel=1e-6)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"focal_length_mm": 0.0}, 'focal length "0 mm": must lie between 1 and 1e+06 mm'),
        ({"aperture_mm": float("nan")}, 'aperture "nan mm": must lie between 0.1 and 50000 mm'),
        ({"columns": 0}, 'columns "0 px": must lie between 1 and 200000 px'),
        ({"colour": 1.0}, 'figure "colour": must be one of focal_length_mm'),
    ],
)
def test_what_cannot_be_given_is_refused(
    tmp_path: Path, given: dict[str, float], sentence: str
) -> None:
    with pytest.raises(BadValueError) as caught:
        read(tmp_path, **WHOLE).given(**given)
    assert str(caught.value).startswith(sentence)


def test_a_choice_that_is_none_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadValueError, match="there is nothing to choose from"):
        read(tmp_path, **WHOLE).choose("pixel_um", "plain")


def test_figures_that_cannot_belong_together_are_refused(tmp_path: Path) -> None:
    figures = read(tmp_path, **{**WHOLE, "APTDIA": 5000.0})
    with pytest.raises(InvalidRigError, match=r"focal ratio .f/0.08"):
        figures.to_rig("it")


def test_a_rig_is_changed_by_what_is_taken_and_by_nothing_else(tmp_path: Path) -> None:
    figures, rig = read(tmp_path, **WHOLE, BAYERPAT="RGGB"), a_rig()
    assert figures.changed(rig, ()) == rig
    assert figures.changed(rig, ("filter", "scale_arcsec_px")) == rig
    pixel = figures.changed(rig, ("pixel_um",))
    assert pixel == rig.but(camera=rig.camera.but(pixel_um=3.76))
    whole = figures.changed(rig, TAKEN)
    assert (whole.telescope.name, whole.camera.name, whole.name) == ("tube", "eye", "mine")
    assert (whole.focal_length_mm, whole.aperture_mm, whole.camera.columns) == (400.0, 80.0, 40)
    assert whole.camera.sensor == "colour"


def test_the_focal_length_of_a_frame_is_that_behind_the_corrector(tmp_path: Path) -> None:
    """f_eff = m f (thin lens): 400 mm behind a reducer of 0.8 are 500 mm before it."""
    rig = read(tmp_path, **WHOLE).changed(a_rig(factor=0.8), TAKEN)
    assert rig.focal_length_mm == pytest.approx(400.0, rel=1e-12)
    assert rig.telescope.focal_length_mm == pytest.approx(500.0, rel=1e-12)


def test_filling_leaves_what_is_known(tmp_path: Path) -> None:
    figures, rig = read(tmp_path, **WHOLE, BAYERPAT="RGGB", **{"SET-TEMP": -10.0}), a_rig()
    filled = figures.filled(rig)
    assert (filled.camera.sensor, filled.camera.cooled) == ("colour", True)
    assert filled.but(camera=rig.camera) == rig
    mono = rig.but(camera=rig.camera.but(sensor="mono", cooled=False))
    assert figures.filled(mono) == mono
