"""The chart before it is developed: photometry, places and shapes on invented skies."""

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import SkyCoord
from astropy.wcs import WCS

from core.catalogue.target import Target, TargetKind
from core.pictures.chart import chart_light, draw_chart
from core.pictures.chart_shapes import local_axes
from core.pictures.chart_stars import LUMINANCE
from core.pictures.picture import PictureFrame
from core.sky.tangent_plane import TangentPlane
from tests.core.pictures.synthetic import FewStars, FewTargets

GALAXY, GLOBULAR = TargetKind.GALAXY, TargetKind.GLOBULAR_CLUSTER
VIEWS = [(0.0, False), (0.0, True), (57.0, False), (200.0, True)]


def luminance(frame, stars=(), targets=(), **more):
    """Light of invented stars and objects; the glow of the real Milky Way is taken off."""
    light, count = chart_light(frame, FewStars(stars), FewTargets(list(targets)), **more)
    assert np.isfinite(light).all()
    glow, _ = chart_light(frame, FewStars(), FewTargets())
    return np.tensordot(LUMINANCE, light.astype(float) - glow, axes=1), count


def frame_at(ra_deg, dec_deg, width_deg, size_px=(300, 200), **more):
    return PictureFrame.of_width(TangentPlane(ra_deg, dec_deg), width_deg, size_px, **more)


def fits_pixel(frame, ra_deg, dec_deg):
    """Where WCSLIB puts a place, as column and row from the top."""
    x, y = WCS(frame.wcs_header()).wcs_world2pix(ra_deg, dec_deg, 1)
    return np.asarray(x) - 1.0, frame.height_px - np.asarray(y)


def moments(plane):
    rows, columns = np.mgrid[: plane.shape[0], : plane.shape[1]]
    total = plane.sum()
    x, y = (plane * columns).sum() / total, (plane * rows).sum() / total
    dx, dy = columns - x, rows - y
    spread = [[(plane * a * b).sum() / total for b in (dx, dy)] for a in (dx, dy)]
    return float(total), (float(x), float(y)), np.array(spread)


@pytest.mark.parametrize(("v_mag", "b_v"), [(-1.0, 0.0), (4.0, 1.6), (9.3, -0.2), (12.0, 0.65)])
def test_star_holds_the_flux_of_its_magnitude_whatever_its_colour(v_mag, b_v):
    """Pogson: flux 10^(-0.4 V)."""
    plane, count = luminance(frame_at(10, 41, 3), [(10, 41, v_mag, b_v)])
    assert count == 1
    assert plane.sum() == pytest.approx(10 ** (-0.4 * v_mag), rel=1e-4)


def test_five_magnitudes_are_a_hundredfold():
    plane, _ = luminance(frame_at(10, 0, 3), [(10.7, 0, 6.0, 0.2), (9.3, 0, 11.0, 1.2)])
    assert plane[:, :150].sum() / plane[:, 150:].sum() == pytest.approx(100.0, rel=1e-3)


@pytest.mark.parametrize(("up_pa_deg", "mirrored"), VIEWS)
@pytest.mark.parametrize(
    ("ra_deg", "dec_deg", "width_deg"),
    [(0.0, 0.0, 3.0), (359.9, 89.6, 2.0), (200.0, -90.0, 5.0), (83.0, -5.0, 60.0), (1, 40, 0.1)],
)
def test_star_stands_where_wcslib_puts_it(ra_deg, dec_deg, width_deg, up_pa_deg, mirrored):
    frame = frame_at(ra_deg, dec_deg, width_deg, up_pa_deg=up_pa_deg, mirrored=mirrored)
    rng = np.random.default_rng(8)
    for column, row in rng.uniform((20, 20), (280, 180), (4, 2)):
        place = np.degrees(frame.plane.inverse(*frame.to_plane(column, row)))
        plane, _ = luminance(frame, [(*place, 4.0, 0.5)])
        _, found, _ = moments(plane)
        assert found == pytest.approx(fits_pixel(frame, *place), abs=0.02)


def test_stars_on_both_sides_of_the_seam_are_drawn():
    frame = frame_at(0.0, 10.0, 1.0)
    plane, count = luminance(frame, [(359.8, 10, 5, 0.5), (0.2, 10, 5, 0.5)])
    assert count == 2
    assert plane[:, :150].sum() == pytest.approx(plane[:, 150:].sum(), rel=1e-6)


def test_star_outside_reaches_in_with_its_wing_alone():
    frame = frame_at(0.0, 0.0, 1.0)
    outside = (0.5 + 6 / 300, 0.0, 0.0, 0.5)
    plane, count = luminance(frame, [outside])
    assert count == 0
    assert 0.0 < plane.sum() < 0.1
    assert plane[:, :20].sum() == pytest.approx(plane.sum(), rel=0.05)


def test_sky_behind_is_never_drawn():
    frame = frame_at(0.0, 0.0, 120.0)
    plane, count = luminance(
        frame,
        [(180, 0, 0, 0), (90, 0, 0, 0), (175, 5, 0, 0)],
        [Target("far", "far", GALAXY, 180.0, 0.0, 600.0, 300.0, 20.0, 3.0)],
    )
    assert count == 0
    assert plane[80:120, 130:170].max() < 1e-3


@pytest.mark.parametrize(("up_pa_deg", "mirrored"), VIEWS)
@pytest.mark.parametrize(
    ("ra_deg", "dec_deg", "off_deg"), [(10, 41, 0), (0, 0, 0), (77, 88.5, 1), (300, -20, 15)]
)
def test_galaxy_lies_along_its_position_angle(ra_deg, dec_deg, off_deg, up_pa_deg, mirrored):
    """Reference: a step along the position angle by astropy, projected by WCSLIB."""
    middle = SkyCoord(ra_deg, dec_deg, unit="deg").directional_offset_by(
        70 * u.deg, off_deg * u.deg
    )
    width_deg = max(3.0, 4.0 * off_deg)
    frame = frame_at(
        middle.ra.deg, middle.dec.deg, width_deg, up_pa_deg=up_pa_deg, mirrored=mirrored
    )
    major = 20.0 * width_deg / 3.0
    galaxy = Target("g", "g", GALAXY, ra_deg, dec_deg, major, major / 4, 35.0, 6.0)
    total, found, spread = moments(luminance(frame, targets=[galaxy])[0])
    at = SkyCoord(ra_deg, dec_deg, unit="deg")
    ends = [at.directional_offset_by(pa * u.deg, 1 * u.arcmin) for pa in (35, 215)]
    columns, rows = fits_pixel(frame, [end.ra.deg for end in ends], [end.dec.deg for end in ends])
    wanted = np.degrees(np.arctan2(np.diff(rows), np.diff(columns)))[0]
    vectors = np.linalg.eigh(spread)[1]
    measured = np.degrees(np.arctan2(vectors[1, 1], vectors[0, 1]))
    assert (measured - wanted + 90) % 180 - 90 == pytest.approx(0, abs=1.5)
    assert found == pytest.approx(fits_pixel(frame, ra_deg, dec_deg), abs=0.15)
    assert total == pytest.approx(10 ** (-0.4 * 6.0), rel=5e-3)


def test_blue_magnitude_is_drawn_as_the_brighter_visual_one():
    """B-V 0.8 for a usual galaxy: common practice."""
    figures = (GALAXY, 10, 41, 30.0, 12.0, 0.0, 6.0)
    frame = frame_at(10, 41, 3)
    visual, _ = luminance(frame, targets=[Target("g", "g", *figures, "V")])
    blue, _ = luminance(frame, targets=[Target("g", "g", *figures, "B")])
    assert blue.sum() / visual.sum() == pytest.approx(10**0.32, rel=1e-3)


def test_galaxy_is_as_flat_as_its_diameters():
    galaxy = Target("g", "g", GALAXY, 10, 41, 30.0, 12.0, 0.0, 6.0)
    _, _, spread = moments(luminance(frame_at(10, 41, 3), targets=[galaxy])[0])
    small, large = np.linalg.eigvalsh(spread)
    assert np.sqrt(small / large) == pytest.approx(0.4, abs=0.03)


def test_galaxy_twice_as_large_spreads_the_same_flux_twice_as_wide():
    found = []
    for major in (15.0, 30.0):
        galaxy = Target("g", "g", GALAXY, 10, 41, major, major, None, 6.0)
        total, _, spread = moments(luminance(frame_at(10, 41, 3), targets=[galaxy])[0])
        assert total == pytest.approx(10 ** (-0.4 * 6.0), rel=5e-3)
        found.append(np.sqrt(spread[0, 0]))
    assert found[1] / found[0] == pytest.approx(2.0, rel=0.05)


def test_galaxy_without_an_angle_is_round_with_the_same_area():
    galaxy = Target("g", "g", GALAXY, 10, 41, 30.0, 7.5, None, 6.0)
    like = Target("g", "g", GALAXY, 10, 41, 15.0, 15.0, 0.0, 6.0)
    frame = frame_at(10, 41, 3)
    _, _, spread = moments(luminance(frame, targets=[galaxy])[0])
    _, _, round_ = moments(luminance(frame, targets=[like])[0])
    assert spread == pytest.approx(round_, rel=1e-3, abs=1e-2)


def test_galaxy_without_a_magnitude_or_unwanted_is_not_drawn():
    frame = frame_at(10, 41, 3)
    unknown = Target("g", "g", GALAXY, 10, 41, 30.0, 12.0, 0.0, None)
    assert luminance(frame, targets=[unknown])[0].max() == 0.0
    known = Target("g", "g", GALAXY, 10, 41, 30.0, 12.0, 0.0, 6.0)
    assert luminance(frame, targets=[known], kinds=(GLOBULAR,))[0].max() == 0.0
    assert luminance(frame, targets=[known], kinds=(GALAXY,))[0].max() > 0.0


@pytest.mark.parametrize("kind", [k for k in TargetKind if k not in (GALAXY, GLOBULAR)])
def test_no_other_kind_is_ever_drawn_as_light(kind):
    thing = Target("n", "n", kind, 10, 41, 60.0, 40.0, 30.0, 4.0)
    kinds = tuple(TargetKind)
    assert luminance(frame_at(10, 41, 3), targets=[thing], kinds=kinds)[0].max() == 0.0


def test_galaxy_of_unknown_size_is_a_point_of_its_flux():
    galaxy = Target("g", "g", GALAXY, 10, 41, None, None, None, 9.0)
    total, _, spread = moments(luminance(frame_at(10, 41, 3), targets=[galaxy])[0])
    assert total == pytest.approx(10 ** (-0.4 * 9.0), rel=1e-2)
    assert np.sqrt(spread[0, 0]) < 3.0


def test_globular_cluster_holds_its_flux_within_its_diameter():
    cluster = Target("M", "M", GLOBULAR, 250, 36, 20.0, 20.0, None, 5.8)
    frame = frame_at(250, 36, 1.0)
    plane, _ = luminance(frame, targets=[cluster])
    rows, columns = np.mgrid[:200, :300]
    within = np.hypot(columns - 149.5, rows - 99.5) <= 10.0 / 60.0 * 300
    assert plane.sum() == pytest.approx(10 ** (-0.4 * 5.8), rel=5e-3)
    assert plane[within].sum() / plane.sum() > 0.9
    core = np.hypot(columns - 149.5, rows - 99.5) <= 10.0 / 60.0 * 300 / 6.0
    assert plane[core].sum() / plane.sum() == pytest.approx(0.5, abs=0.06)


def test_disc_holds_four_fifths_of_its_light_within_its_diameter():
    """An exponential disc to 3.1 scale lengths: 1 - 4.1 exp(-3.1) = 0.815 (derived)."""
    galaxy = Target("g", "g", GALAXY, 10, 41, 30.0, 30.0, None, 6.0)
    plane, _ = luminance(frame_at(10, 41, 3), targets=[galaxy])
    rows, columns = np.mgrid[:200, :300]
    within = plane[np.hypot(columns - 149.5, rows - 99.5) <= 25.0].sum() / plane.sum()
    assert within == pytest.approx(0.2 + 0.8 * 0.815, abs=0.05)


def test_directions_behind_have_no_place_in_the_picture():
    frame = frame_at(10, 41, 100)
    column, row, axes = local_axes(frame, np.array([190.0, 10.0]), np.array([-41.0, 41.0]))
    assert np.isnan(column[0])
    assert np.isnan(row[0])
    assert np.isnan(axes[0]).all()
    assert (column[1], row[1]) == pytest.approx((149.5, 99.5))


def test_half_of_a_galaxy_beyond_the_edge_is_lost_and_no_more():
    frame = frame_at(0, 0, 3.0)
    edge = Target("g", "g", GALAXY, 1.5, 0.0, 40.0, 40.0, 0.0, 6.0)
    half = luminance(frame, targets=[edge])[0].sum() / 10 ** (-0.4 * 6.0)
    assert half == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize("width_deg", [0.1, 3.0, 40.0, 120.0])
@pytest.mark.parametrize("place", [(0, 90), (0, -90), (359.999, 0), (266, -29)])
def test_any_field_anywhere_is_a_whole_picture(width_deg, place):
    rng = np.random.default_rng(6)
    z = rng.uniform(-1, 1, 4000)
    ra, dec = rng.uniform(0, 360, z.size), np.degrees(np.arcsin(z))
    stars = np.stack([ra, dec, rng.uniform(-1, 12, z.size), rng.normal(0.7, 1, z.size)], axis=-1)
    galaxies = [
        Target("g", "g", GALAXY, float(a), float(d), 700.0, 1.0, 30.0, 2.0)
        for a, d in zip(ra[:40], dec[:40], strict=True)
    ]
    frame = frame_at(*place, width_deg, up_pa_deg=20)
    picture = draw_chart(frame, FewStars(stars), FewTargets(galaxies))
    light, _ = chart_light(frame, FewStars(stars), FewTargets(galaxies))
    assert np.isfinite(light).all()
    assert light.min() >= 0.0
    assert picture.pixels.shape == (200, 300, 3)
    assert picture.pixels.min() >= 4
