"""The image scale out of the coordinates of a header, held against WCSLIB."""

import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from astropy.io import fits
from astropy.wcs import WCS
from astropy.wcs.utils import proj_plane_pixel_scales
from hypothesis import given
from hypothesis import strategies as st

from core.gear.from_frame.fits_cards import FitsHeader
from core.gear.from_frame.sky_scale import SkyScale, sky_scale
from core.gear.from_frame.told import Told
from tests.core.gear.from_frame.frames import WHOLE, read, value

SKY = {"CTYPE1": "RA---TAN", "CTYPE2": "DEC--TAN", "CRVAL1": 10.0, "CRVAL2": 41.0,
       "CRPIX1": 20.5, "CRPIX2": 15.5}  # fmt: skip
PER_DEG = 3600.0


def as_header(cards: dict[str, Any]) -> FitsHeader:
    return FitsHeader({key: Told(key, worth) for key, worth in cards.items()}, 40, 30, ())


def ours(cards: dict[str, Any]) -> tuple[SkyScale | None, list[str]]:
    remarks: list[str] = []
    return sky_scale(as_header(cards), remarks), remarks


def theirs(cards: dict[str, Any]) -> np.ndarray:
    scales: np.ndarray = proj_plane_pixel_scales(WCS(fits.Header(cards))) * PER_DEG
    return scales


def turned(scale_deg: float, turn_deg: float) -> dict[str, float]:
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return {"1_1": -scale_deg * cos, "1_2": scale_deg * sin, "2_1": scale_deg * sin,
            "2_2": scale_deg * cos}  # fmt: skip


@given(
    scale_arcsec=st.floats(0.05, 600.0),
    turn_deg=st.floats(0.0, 360.0),
    squeeze=st.floats(0.5, 2.0),
    written=st.sampled_from(["CD", "PC"]),
)
def test_scale_is_that_of_wcslib_however_it_is_written(
    scale_arcsec: float, turn_deg: float, squeeze: float, written: str
) -> None:
    scale_deg = scale_arcsec / PER_DEG
    if written == "CD":
        matrix = {f"CD{place}": number for place, number in turned(scale_deg, turn_deg).items()}
        matrix["CD1_2"], matrix["CD2_2"] = matrix["CD1_2"] * squeeze, matrix["CD2_2"] * squeeze
    else:
        matrix = {f"PC{place}": number for place, number in turned(1.0, turn_deg).items()}
        matrix |= {"CDELT1": scale_deg, "CDELT2": scale_deg * squeeze}
    cards = SKY | matrix
    scale, remarks = ours(cards)
    assert scale is not None
    assert remarks == []
    found = (scale.x_arcsec_px, scale.y_arcsec_px)
    assert found == pytest.approx(theirs(cards), rel=1e-9)


def test_scale_of_a_written_frame_gives_its_focal_length_back_within_1e_6(tmp_path: Path) -> None:
    """1.938889 arcsec a pixel at 3.76 µm are 400 mm (206.264806 p / f, textbook)."""
    wcs = WCS(naxis=2)
    wcs.wcs.ctype, wcs.wcs.crval = ["RA---TAN", "DEC--TAN"], [314.5, 44.3]
    wcs.wcs.crpix = [20.5, 15.5]
    wcs.wcs.cdelt = [-206.264806 * 3.76 / 400.0 / PER_DEG, 206.264806 * 3.76 / 400.0 / PER_DEG]
    cards = {**WHOLE, **dict(wcs.to_header())}
    del cards["FOCALLEN"]
    figures = read(tmp_path, **cards)
    assert value(figures, "scale_arcsec_px") == pytest.approx(1.938889, rel=1e-6)
    assert value(figures, "focal_length_mm") == pytest.approx(400.0, rel=1e-6)
    assert figures.to_rig("it").scale_arcsec_px == pytest.approx(1.938889, rel=1e-6)


def test_missing_elements_have_the_standard_s_defaults() -> None:
    """PC: 1 on the diagonal, 0 off it; CD: 0 where another is given."""
    steps = {"CDELT1": -0.001, "CDELT2": 0.002}
    for cards in (
        SKY | steps,
        SKY | steps | {"PC1_2": 0.5},
        SKY | {"CD1_1": -0.001, "CD2_2": 0.002},
        SKY | {"CD1_2": 0.001, "CD2_1": 0.002},
    ):
        scale, _ = ours(cards)
        assert scale is not None
        assert (scale.x_arcsec_px, scale.y_arcsec_px) == pytest.approx(theirs(cards), rel=1e-12)


@pytest.mark.parametrize(("unit", "worth"), [("deg", 3600.0), ("arcmin", 60.0), ("arcsec", 1.0),
                                             ("rad", 206264.806247)])  # fmt: skip
def test_units_of_the_axes_count(unit: str, worth: float) -> None:
    scale, _ = ours(
        SKY | {"CUNIT1": unit, "CUNIT2": unit, "CDELT1": 2 / worth, "CDELT2": 2 / worth}
    )
    assert scale is not None
    assert scale.x_arcsec_px == pytest.approx(2.0, rel=1e-9)


@pytest.mark.parametrize(
    "cards",
    [
        {**SKY, "CTYPE1": "LINEAR", "CDELT1": 0.1, "CDELT2": 0.1},
        {"CDELT1": 0.1, "CDELT2": 0.1},
        {**SKY, "CDELT1": 0.1},
    ],
    ids=["not the sky", "no types", "half"],
)
def test_what_is_not_the_sky_gives_no_scale_and_no_remark(cards: dict[str, Any]) -> None:
    assert ours(cards) == (None, [])


@pytest.mark.parametrize(
    "matrix",
    [
        {"CD1_1": 0.0, "CD2_2": 0.001},
        {"CD1_1": 0.001, "CD1_2": 0.001, "CD2_1": 0.001, "CD2_2": 0.001},
        {"CD1_1": 1e300, "CD2_2": 1e300},
        {"CD1_1": "x", "CD2_2": 0.001},
        {"CDELT1": 0.001, "CDELT2": 0.001, "CUNIT1": "Hz"},
        {"CDELT1": 0.001, "CDELT2": 10**400},
    ],
    ids=["zero", "singular", "absurd", "text", "unit", "huge"],
)
def test_coordinates_that_cannot_be_are_left_out_with_a_remark(matrix: dict[str, Any]) -> None:
    scale, remarks = ours(SKY | matrix)
    assert scale is None
    assert len(remarks) == 1
    assert remarks[0].endswith("give no scale that can be; left out")
