"""The merge behind the star files: motions, close pairs, and when Hipparcos wins."""

import math
import zipfile
from pathlib import Path

import numpy as np
import pytest

from assets.build.stars_merge import merge
from assets.build.stars_sources import Hipparcos, StarRows, read_hipparcos, read_tycho2

NONE = math.nan


def _rows(*stars: tuple[float, ...]) -> StarRows:
    """Rows of (RA, Dec, epoch, pm east, pm north, V, B-V, HIP)."""
    columns = np.array(stars, dtype=np.float64).T.copy()
    hip = columns[7].astype(np.int64)
    flags = np.zeros(hip.size, dtype=bool)
    return StarRows(*columns[:7], hip=hip, photocentre=flags.copy(), is_hp=flags.copy())


def _hipparcos(*stars: tuple[float, ...]) -> Hipparcos:
    """Rows of (HIP, RA, Dec, pm east, pm north, Hp, B-V)."""
    columns = np.array(stars or [(199_999, 0.0, 0.0, 0.0, 0.0, 9.0, 0.5)]).T.copy()
    return Hipparcos(columns[0].astype(np.int64), *columns[1:], repaired_colours=0)


def test_each_row_moves_from_its_own_epoch() -> None:
    """3600 mas/yr for 26 and for 34.5 years are 26 and 34.5 arcsec."""
    merged = merge(
        _rows(
            (10.0, 0.0, 2000.0, 0.0, 3600.0, 9.0, 0.5, 0),
            (20.0, 0.0, 1991.5, 0.0, -3600.0, 9.0, 0.5, 0),
        ),
        _hipparcos(),
    )
    assert merged.stars.dec_deg * 1000.0 == pytest.approx([26.0, -34.5], abs=1e-4)


def test_motion_east_grows_in_right_ascension_towards_the_pole() -> None:
    merged = merge(_rows((10.0, 60.0, 2016.0, 3600.0, 0.0, 9.0, 0.5, 0)), _hipparcos())
    assert merged.stars.ra_deg[0] == pytest.approx(
        10.0 + 0.01 / math.cos(math.radians(60.0)), abs=1e-6
    )


def test_a_close_pair_becomes_one_star_with_the_light_of_both() -> None:
    """Two equal stars are 2.5 log10(2) = 0.753 mag brighter than one."""
    arcsec = 1.0 / 3600.0
    merged = merge(
        _rows(
            (359.99999, 5.0, 2026.0, NONE, NONE, 9.0, 0.4, 0),
            (0.00005, 5.0, 2026.0, NONE, NONE, 9.0, 0.4, 7),
            (30.0, 5.0, 2026.0, NONE, NONE, 9.0, 0.4, 0),
            (30.0, 5.0 + 0.9 * arcsec, 2026.0, NONE, NONE, 9.0, 0.4, 0),
        ),
        _hipparcos(),
    )
    assert sorted(merged.stars.v_mag) == pytest.approx([9.0 - 0.7526, 9.0, 9.0], abs=1e-4)
    bright = int(np.argmin(merged.stars.v_mag))
    assert merged.stars.b_v[bright] == pytest.approx(0.4)
    assert merged.stars.hip[bright] == 7


def test_a_star_without_motion_takes_place_and_motion_but_not_light_from_hipparcos() -> None:
    merged = merge(
        _rows((50.001, 0.0, 1991.5, NONE, NONE, 11.0, 1.8, 70890)),
        _hipparcos((70890, 50.0, 0.0, 0.0, 1000.0, 10.7, 1.8)),
    )
    stars = merged.stars
    assert (stars.ra_deg[0], stars.pm_dec[0], stars.v_mag[0]) == (pytest.approx(50.0), 1000.0, 11.0)
    assert stars.dec_deg[0] * 3600.0 == pytest.approx(34.75, abs=1e-4)


def test_a_bright_star_takes_its_light_from_hipparcos() -> None:
    """V - Hp at B-V 0 is the constant of the fit, -0.0118."""
    merged = merge(
        _rows((50.0, 0.0, 2000.0, 0.0, 0.0, 5.3, 0.3, 5)),
        _hipparcos((5, 50.0, 0.0, 0.0, 0.0, 5.0, 0.0)),
    )
    assert merged.stars.v_mag[0] == pytest.approx(5.0 - 0.0118)
    assert merged.stars.b_v[0] == 0.0


def test_components_that_share_a_number_keep_their_places_and_take_its_motion() -> None:
    merged = merge(
        _rows(
            (50.0, 0.0, 2026.0, NONE, NONE, 2.0, 0.1, 36850),
            (50.001, 0.0, 2026.0, NONE, NONE, 3.0, 0.1, 36850),
        ),
        _hipparcos((36850, 50.0005, 0.0, -200.0, -150.0, 1.6, 0.1)),
    )
    assert merged.stars.ra_deg.tolist() == pytest.approx([50.0, 50.001])
    assert merged.stars.pm_ra.tolist() == [-200.0, -200.0]
    assert merged.stars.v_mag.tolist() == [2.0, 3.0]


#: Two records as the Tycho-2 files print them: TYC 1-13-1, and Proxima without a mean place.
_MAIN = (
    "0001 00013 1| |  1.12558209|  2.26739400|   27.7|   -0.5|  9| 12| 1.2| 1.2|1990.76|1989.25| 8|"
    "1.0|0.8|1.0|0.7|10.488|0.038| 8.670|0.015|999|T|         |  1.12551889|  2.26739556|1.81|1.52|"
    "  9.3| 12.7| |-0.2\n"
    "9010 04949 1|X|            |            |       |       |   |   |    |    |       |       |  |"
    "   |   |   |   |13.286|0.287|11.187|0.069|999| | 70890   |217.44829556|-62.68126417|1.54|1.64|"
    " 60.5| 53.7| | 0.0\n"
)
#: The record of Sirius in supplement 1, which prints Hp.
_SUPPLEMENT = (
    "5949 02777 1|H|101.28854105|-16.71314306| -546.0|-1223.1|  1.2|  1.0|  1.3|  1.2|H|"
    "      |     |-1.088|0.002|999| | 32349 \n"
)


def test_tycho_records_are_read_by_their_columns(tmp_path: Path) -> None:
    """V = VT - 0.090 (BT-VT) and B-V = 0.850 (BT-VT), note 7 of the ReadMe."""
    import io
    import tarfile

    archive = tmp_path / "tycho2.tar.xz"
    with tarfile.open(archive, "w:xz") as tar:
        for name, text in (("tyc2.dat.00", _MAIN), ("suppl_1.dat", _SUPPLEMENT)):
            entry = tarfile.TarInfo(name)
            entry.size = len(text)
            tar.addfile(entry, io.BytesIO(text.encode()))
    rows = read_tycho2(archive)
    assert rows.ra_deg.tolist() == [1.12558209, 217.44829556, 101.28854105]
    assert rows.dec_deg.tolist() == [2.26739400, -62.68126417, -16.71314306]
    assert rows.epoch_year.tolist() == pytest.approx([2000.0, 1991.59, 1991.25])
    assert rows.pm_ra.tolist() == pytest.approx([27.7, NONE, -546.0], nan_ok=True)
    assert rows.v_mag.tolist() == pytest.approx([8.670 - 0.09 * 1.818, 10.998, -1.088], abs=1e-3)
    assert rows.b_v.tolist() == pytest.approx([0.85 * 1.818, 0.85 * 2.099, NONE], nan_ok=True)
    assert rows.hip.tolist() == [0, 70890, 32349]
    assert rows.is_hp.tolist() == [False, False, True]


#: The first record of hip2.dat.
_HIP_1 = (
    "     1   5 0 1  0.0000159148  0.0190068680    4.55    -4.55    -1.19   1.29   0.66   1.33"
    "   1.25   0.75  90  0.91  0    0.0    0  9.2043 0.0020 0.017 0  0.482 0.025  0.550"
)


def test_hipparcos_records_are_read_by_their_columns(tmp_path: Path) -> None:
    wheel = tmp_path / "hipparcos.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        archive.writestr("data/hip2.dat", (_HIP_1.ljust(276) + "\n") * 12)
    stars = read_hipparcos(wheel)
    assert stars.hip[0] == 1
    assert math.radians(stars.ra_deg[0]) == pytest.approx(0.0000159148)
    assert math.radians(stars.dec_deg[0]) == pytest.approx(0.0190068680)
    values = (stars.pm_ra[0], stars.pm_dec[0], stars.hp_mag[0], stars.b_v[0])
    assert values == (-4.55, -1.19, 9.2043, 0.482)


def test_a_colour_printed_as_zero_is_taken_from_v_minus_i(tmp_path: Path) -> None:
    unknown = _HIP_1.replace(" 0.482", " 0.000")
    wheel = tmp_path / "hipparcos.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        lines = [_HIP_1] * 12 + [unknown]
        archive.writestr("hip2.dat", "".join(line.ljust(276) + "\n" for line in lines))
    stars = read_hipparcos(wheel)
    assert stars.b_v[-1] == pytest.approx(0.482)
    assert stars.repaired_colours == 1
