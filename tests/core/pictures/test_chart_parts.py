"""How faint a chart goes, its colours, its tone, its glow, and its words."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.stars import StarCatalogue
from core.catalogue.targets import TargetTable
from core.pictures import chart_glow
from core.pictures.chart import CHART_CREDIT, chart_light, draw_chart
from core.pictures.chart_glow import glow_between, glow_map
from core.pictures.chart_stars import (
    LUMINANCE,
    faintest_drawn,
    flux_of,
    star_rgb,
    temperature_kelvin,
)
from core.pictures.chart_tone import GROUND, develop
from core.pictures.picture import PictureFrame
from core.sky.tangent_plane import TangentPlane
from tests.core.pictures.synthetic import FewStars, FewTargets


def frame_at(ra_deg, dec_deg, width_deg, size_px=(300, 200), **more):
    return PictureFrame.of_width(TangentPlane(ra_deg, dec_deg), width_deg, size_px, **more)


def glow_of(ra_deg, dec_deg, width_deg, **more):
    frame = frame_at(ra_deg, dec_deg, width_deg, **more)
    return chart_light(frame, FewStars(), FewTargets())[0]


# Stars -------------------------------------------------------------------------


@given(st.floats(1e-4, 40000), st.floats(1e-4, 40000))
def test_wider_fields_never_go_fainter(one, other):
    small, large = sorted((one, other))
    assert faintest_drawn(large, 12.0) <= faintest_drawn(small, 12.0) <= 12.0


def test_three_by_two_degrees_show_all_and_sixty_by_forty_show_some_thousands():
    assert faintest_drawn(6.0, 12.0) == 12.0
    assert faintest_drawn(60.0, 10.5) == 10.5
    limit = faintest_drawn(2100.0, 12.0)
    stars = StarCatalogue.open().cone(0.0, 0.0, 180.0, faintest=limit)
    assert len(stars) * 2100.0 / 41253.0 == pytest.approx(2500, rel=0.15)


def test_sun_is_5778_kelvin_and_vega_10100():
    """Ballesteros 2012: his formula gives the Sun (B-V 0.65) its 5778 K."""
    assert temperature_kelvin(0.65) == pytest.approx(5778, abs=10)
    assert temperature_kelvin(0.0) == pytest.approx(10100, rel=0.01)


@given(st.floats(-1, 4))
def test_colour_never_changes_brightness(b_v):
    rgb = star_rgb([b_v])
    assert float(rgb[0] @ LUMINANCE) == pytest.approx(1.0)
    assert rgb.min() > 0


def test_blue_stars_are_blue_red_stars_red_and_the_sun_is_white():
    blue, sun, red, unknown = star_rgb([-0.2, 0.65, 1.6, np.nan])
    assert blue[2] > 1.3 * blue[0]
    assert red[0] > 1.3 * red[2]
    assert sun == pytest.approx([1.0, 1.0, 1.0])
    assert unknown == pytest.approx(sun)


def test_only_the_brightest_9000_of_too_many_stars_are_drawn():
    rng = np.random.default_rng(5)
    places = rng.uniform(-0.35, 0.35, (9500, 2))
    v_mag = rng.permutation(np.r_[np.full(9000, 8.0), np.full(500, 11.0)])
    stars = FewStars(np.c_[places, v_mag, np.full(9500, 0.5)])
    light, count = chart_light(frame_at(0, 0, 1.2), stars, FewTargets())
    assert count == 9000
    total = np.tensordot(LUMINANCE, light.astype(float), axes=1).sum()
    assert total == pytest.approx(9000 * float(flux_of(8.0)), rel=1e-3)


# Tone --------------------------------------------------------------------------


def test_unlit_sky_is_the_ground():
    pixels = develop(np.zeros((3, 80, 90), np.float32), soft=1.0, white=100.0)
    assert np.abs(pixels.astype(int) - GROUND).max() <= 1
    assert pixels.reshape(-1, 3).mean(axis=0) == pytest.approx(GROUND, abs=0.5)


def test_more_light_is_never_darker_and_reaches_white():
    ramp = np.geomspace(1e-3, 1e4, 400, dtype=np.float32)
    light = np.broadcast_to(ramp, (3, 64, 400)).copy()
    pixels = develop(light, soft=1.0, white=100.0).astype(float).mean(axis=0)
    assert (np.diff(pixels, axis=0) > -0.6).all()
    assert pixels[ramp >= 101.0].min() == 255.0
    assert pixels[ramp <= 30.0].max() < 225.0


def test_colour_of_faint_light_is_kept():
    light = np.ones((3, 64, 64), np.float32) * np.array([2.0, 1.0, 0.5], np.float32)[:, None, None]
    above = develop(light, soft=1.0, white=1000.0).reshape(-1, 3).mean(axis=0) - GROUND
    above /= 255.0 - np.array(GROUND)
    assert above[0] / above[1] == pytest.approx(2.0, rel=0.03)
    assert above[1] / above[2] == pytest.approx(2.0, rel=0.05)


# Glow --------------------------------------------------------------------------


def test_glow_follows_the_milky_way():
    """Galactic plane in Cygnus and Carina against the north galactic pole (192.86, +27.13)."""
    pole = glow_of(192.86, 27.13, 20.0).sum()
    assert glow_of(305.0, 40.0, 20.0).sum() > 50 * max(pole, 1e-12)
    assert glow_of(160.0, -59.0, 20.0).sum() > 50 * max(pole, 1e-12)


def test_narrow_fields_have_no_glow_and_it_comes_up_smoothly():
    assert glow_of(305.0, 40.0, 4.9).max() == 0.0
    levels = [glow_of(305, 40, w).mean() / w**2 for w in (5.5, 8, 12, 18, 25)]
    assert all(a < b for a, b in itertools.pairwise(levels))
    assert levels[0] < 0.05 * levels[-1]


@pytest.mark.parametrize("dec_deg", [62.0, 0.0])
def test_glow_has_no_step_at_the_seam(dec_deg):
    glow = glow_of(0.0, dec_deg, 40.0)[1].astype(float)
    steps = np.abs(np.diff(glow, axis=1)).max(axis=0)
    assert steps[145:155].max() <= 1.2 * steps.max()
    assert steps.max() < 0.05 * glow.max() + 1e-12


def test_map_is_read_at_its_centres_and_halfway_between_them_over_the_seam():
    density = np.random.default_rng(7).random((180, 360))
    middles = np.radians(np.arange(360) + 0.5)
    for row in (0, 90, 179):
        dec = np.radians(row - 89.5)
        assert glow_between(density, middles, dec) == pytest.approx(density[row])
        halfway = glow_between(density, np.radians(np.arange(360.0)), dec)
        assert halfway == pytest.approx((density[row] + np.roll(density[row], 1)) / 2)
    above = glow_between(density, middles, np.radians(1.0))
    assert above == pytest.approx((density[90] + density[91]) / 2)
    assert glow_between(density, middles, np.radians(90.0)) == pytest.approx(density[179])


def test_glow_is_turned_and_mirrored_with_the_picture():
    plain = glow_of(300, 30, 40, size_px=(192, 192))
    half_turn = glow_of(300, 30, 40, size_px=(192, 192), up_pa_deg=180)
    mirror = glow_of(300, 30, 40, size_px=(192, 192), mirrored=True)
    scale = float(plain.max())
    assert half_turn[:, ::-1, ::-1] == pytest.approx(plain, abs=0.02 * scale)
    assert mirror[:, :, ::-1] == pytest.approx(plain, abs=0.02 * scale)
    assert np.abs(mirror - plain).max() > 0.1 * scale


def test_missing_or_damaged_glow_leaves_it_out(tmp_path, monkeypatch):
    assert glow_map(tmp_path / "none.npy") is None
    damaged = tmp_path / "damaged.npy"
    damaged.write_bytes(b"not an array")
    assert glow_map(damaged) is None
    np.save(tmp_path / "small.npy", np.zeros((3, 4), np.uint8))
    assert glow_map(tmp_path / "small.npy") is None
    np.save(tmp_path / "objects.npy", np.array([{}], dtype=object), allow_pickle=True)
    assert glow_map(tmp_path / "objects.npy") is None
    monkeypatch.setattr(chart_glow, "glow_map", lambda: None)
    assert glow_of(305.0, 40.0, 60.0).max() == 0.0


# The whole ---------------------------------------------------------------------


@pytest.fixture(scope="module")
def sky():
    return StarCatalogue.open(), TargetTable.load()


def test_chart_says_what_it_is_drawn_from(sky):
    picture = draw_chart(frame_at(10.7, 41.3, 3.0), *sky)
    assert picture.source == "chart"
    assert picture.credit == CHART_CREDIT
    assert picture.credit.startswith("Drawn from catalogues")
    for name in ("Tycho-2", "Hipparcos", "OpenNGC", "CC-BY-SA"):
        assert name in picture.credit
    assert picture.note == ""


def test_small_field_without_stars_says_so(sky):
    """A 0.38 by 0.25 degree field on M 51 holds no star of V < 12 (counted)."""
    picture = draw_chart(frame_at(202.47, 47.2, 0.38), *sky)
    assert picture.note == "No star here: the catalogue ends at magnitude 12."
    assert picture.pixels.max() > 60


def test_polaris_is_the_brightest_thing_near_the_pole(sky):
    """Hipparcos 11767: 37.9529, +89.2641 (J1991.25), V 1.97 (ESA 1997)."""
    frame = frame_at(0.0, 90.0, 6.0)
    light, _ = chart_light(frame, *sky)
    row, column = np.unravel_index(np.argmax(light.sum(axis=0)), light.shape[1:])
    wanted = frame.to_pixels(*frame.plane.forward(np.radians(37.9529), np.radians(89.2641)))
    assert (column, row) == pytest.approx([float(part) for part in wanted], abs=1.0)


def test_andromeda_galaxy_is_brighter_along_its_axis_than_across(sky):
    """Position angle 35 degrees (RC3)."""
    frame = frame_at(10.685, 41.269, 3.0)
    light, _ = chart_light(frame, FewStars(), sky[1])
    angle = np.radians(np.array([35.0, 125.0, 215.0, 305.0]))
    column, row = frame.to_pixels(np.radians(0.8) * np.sin(angle), np.radians(0.8) * np.cos(angle))
    along, across, back, over = light[1][np.rint(row).astype(int), np.rint(column).astype(int)]
    assert min(along, back) > 5 * max(across, over)
