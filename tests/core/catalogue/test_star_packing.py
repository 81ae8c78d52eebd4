"""What is packed comes back within the bounds that the format promises."""

from pathlib import Path

import numpy as np
import pytest

from assets.build.stars_pack import MOVING_MAS_YR, pack
from assets.build.stars_sources import StarRows
from core.catalogue import star_format as fmt
from core.catalogue.stars import StarCatalogue
from core.sky.sphere import separation_rad

#: Half a step in Dec is 0.110 arcsec, in RA at most 0.230 (three bins around a pole, at 89 deg).
_PLACE_ARCSEC = 0.26


def _rows(ra: list[float], dec: list[float], v_mag: list[float], b_v: list[float]) -> StarRows:
    """Stars at the epoch of the file, without motion."""
    count = len(ra)
    return StarRows(
        ra_deg=np.array(ra),
        dec_deg=np.array(dec),
        epoch_year=np.full(count, fmt.EPOCH_YEAR),
        pm_ra=np.full(count, np.nan),
        pm_dec=np.full(count, np.nan),
        v_mag=np.array(v_mag),
        b_v=np.array(b_v),
        hip=np.zeros(count, dtype=np.int64),
        photocentre=np.zeros(count, dtype=bool),
        is_hp=np.zeros(count, dtype=bool),
    )


def _random_rows(count: int) -> StarRows:
    """Stars all over the sky, poles, seam and cell edges among them; one in five moves."""
    rng = np.random.default_rng(20260101)
    ra, dec = rng.uniform(0.0, 360.0, count), np.degrees(np.arcsin(rng.uniform(-1.0, 1.0, count)))
    ra[:6] = [0.0, 359.999999999, 0.0, 120.0, 240.0, 359.9999]
    dec[:6] = [90.0, -90.0, 0.0, 89.0, -89.0, 45.0]
    rows = _rows(ra.tolist(), dec.tolist(), [0.0] * count, [0.0] * count)
    rows.v_mag[:] = rng.uniform(-1.9, 11.999, count)
    rows.v_mag[6:10] = [8.0, 10.5, 7.9999, 10.4999]
    rows.b_v[:] = rng.uniform(-0.25, 2.5, count)
    moving = rng.random(count) < 0.2
    rows.pm_ra[moving] = rng.uniform(-9000.0, 9000.0, np.count_nonzero(moving))
    rows.pm_dec[moving] = rng.uniform(-5000.0, 5000.0, np.count_nonzero(moving))
    return rows


def test_places_magnitudes_and_colours_come_back_within_half_a_step(tmp_path: Path) -> None:
    packed = pack(_random_rows(20_000), tmp_path)
    read = StarCatalogue.open(tmp_path).cone(0.0, 0.0, 180.0)
    apart = separation_rad(*np.radians([packed.ra_deg, packed.dec_deg, read.ra_deg, read.dec_deg]))
    assert 0.05 < np.degrees(apart.max()) * 3600.0 < _PLACE_ARCSEC
    for tier in fmt.TIERS:
        chosen = (packed.v_mag >= tier.bright_mag) & (packed.v_mag < tier.faint_mag)
        error = np.abs(read.v_mag - packed.v_mag)[chosen]
        assert error.max() <= tier.step_mag / 2.0 + 1e-9
        assert read.v_mag[chosen].max() < tier.faint_mag
    colours = np.array(fmt.COLOURS)
    nearest = np.abs(packed.b_v[:, None] - colours).min(axis=1)
    assert np.allclose(np.abs(read.b_v - packed.b_v), nearest)


def test_every_packed_star_is_found_by_a_cone_just_wide_enough(tmp_path: Path) -> None:
    packed = pack(_random_rows(1_000), tmp_path)
    catalogue = StarCatalogue.open(tmp_path)
    for ra, dec in zip(packed.ra_deg.tolist(), packed.dec_deg.tolist(), strict=True):
        assert len(catalogue.cone(ra, dec, _PLACE_ARCSEC / 3600.0)) == 1


def test_stars_at_and_beyond_the_limit_are_not_packed(tmp_path: Path) -> None:
    moving = _rows([1.0, 2.0, 3.0], [0.0] * 3, [11.999, 12.0, 13.0], [0.5] * 3)
    moving.pm_ra[:] = moving.pm_dec[:] = MOVING_MAS_YR
    assert pack(moving, tmp_path).ra_deg.tolist() == [1.0]


def test_motion_is_stored_from_the_limit_up(tmp_path: Path) -> None:
    rows = _rows([1.0, 2.0, 3.0], [0.0] * 3, [6.0] * 3, [0.5] * 3)
    rows.pm_ra[:], rows.pm_dec[:] = [99.9, 100.0, -60.0], [0.0, 0.0, 80.0]
    pack(rows, tmp_path)
    catalogue = StarCatalogue.open(tmp_path)
    assert catalogue.files.moving.tolist() == [1, 2]
    assert catalogue.files.motions.tolist() == [[100, 0], [-60, 80]]


@pytest.mark.filterwarnings("ignore:.*dubious year")  # leap seconds of later years
@pytest.mark.parametrize("years", [-100.0, -10.0, 9.0, 200.0])
def test_moved_places_agree_with_astropy(tmp_path: Path, years: float) -> None:
    """Reference: SkyCoord.apply_space_motion at 10 parsec without radial velocity."""
    from astropy import units as u
    from astropy.coordinates import SkyCoord
    from astropy.time import Time

    packed = pack(_random_rows(2_000), tmp_path)
    catalogue = StarCatalogue.open(tmp_path)
    still = catalogue.cone(0.0, 0.0, 180.0)
    read = catalogue.cone(0.0, 0.0, 180.0, year=fmt.EPOCH_YEAR + years)
    moving = np.flatnonzero(np.hypot(packed.pm_ra, packed.pm_dec) >= MOVING_MAS_YR)
    moving = moving[np.abs(packed.dec_deg[moving]) < 89.9]
    expected = SkyCoord(
        still.ra_deg[moving] * u.deg,
        still.dec_deg[moving] * u.deg,
        pm_ra_cosdec=np.rint(packed.pm_ra[moving]) * u.mas / u.yr,
        pm_dec=np.rint(packed.pm_dec[moving]) * u.mas / u.yr,
        distance=10.0 * u.pc,
        obstime=Time(fmt.EPOCH_YEAR, format="jyear", scale="tt"),
    ).apply_space_motion(dt=years * u.yr)
    found = SkyCoord(read.ra_deg[moving] * u.deg, read.dec_deg[moving] * u.deg)
    assert found.separation(expected).arcsec.max() < 0.005
    rest = np.setdiff1d(np.arange(len(read)), moving)
    rest = rest[~(np.hypot(packed.pm_ra[rest], packed.pm_dec[rest]) >= MOVING_MAS_YR)]
    assert np.array_equal(read.ra_deg[rest], still.ra_deg[rest])


def test_a_star_that_moves_into_the_cone_is_found_there_and_only_there(tmp_path: Path) -> None:
    """The star starts in another zone of cells than the one it comes to."""
    rows = _rows([10.0, 200.0], [19.9, 50.0], [9.0, 9.0], [1.0, 1.0])
    rows.pm_ra[0], rows.pm_dec[0] = 0.0, 10_000.0
    pack(rows, tmp_path)
    catalogue = StarCatalogue.open(tmp_path)
    north = 19.9 + 100.0 * 10.0 / 3600.0
    assert len(catalogue.cone(10.0, north, 0.01)) == 0
    assert len(catalogue.cone(10.0, north, 0.01, year=2126.0)) == 1
    assert len(catalogue.cone(10.0, 19.9, 0.01)) == 1
    assert len(catalogue.cone(10.0, 19.9, 0.01, year=2126.0)) == 0
