"""The deep-sky table against published places, sizes and names, and its own promises."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import SkyCoord

from core.catalogue.target import Target, TargetKind
from core.catalogue.targets import TargetTable
from core.errors import UnknownTargetError

TABLE = TargetTable.load()
KINDS = tuple(TargetKind)
TOP = Path(__file__).parents[3]
INPUTS = TOP / "assets" / "build" / "data"
REFERENCE = TOP / "tests" / "reference"

#: J2000 places to 0.1 min and 1', as NGC 2000.0 (Sinnott 1988) prints them; from memory,
#: but for M 31 and M 33, which the astropy documentation prints (SkyCoord.from_name).
PUBLISHED = {
    "M 1": "05 34.5 +22 01", "M 3": "13 42.2 +28 23", "M 5": "15 18.6 +02 05",
    "M 13": "16 41.7 +36 28", "M 15": "21 30.0 +12 10", "M 22": "18 36.4 -23 54",
    "M 27": "19 59.6 +22 43", "M 31": "00 42.7 +41 16", "M 33": "01 33.9 +30 39",
    "M 42": "05 35.4 -05 27", "M 51": "13 29.9 +47 12", "M 57": "18 53.6 +33 02",
    "M 63": "13 15.8 +42 02", "M 64": "12 56.7 +21 41", "M 77": "02 42.7 -00 01",
    "M 81": "09 55.6 +69 04", "M 82": "09 55.8 +69 41", "M 83": "13 37.0 -29 52",
    "M 87": "12 30.8 +12 24", "M 92": "17 17.1 +43 08", "M 97": "11 14.8 +55 01",
    "M 101": "14 03.2 +54 21", "M 104": "12 40.0 -11 37", "M 106": "12 19.0 +47 18",
    "M 110": "00 40.4 +41 41",
}  # fmt: skip
#: Winnecke 4: 12h22m12.5s +58d05'00" (SIMBAD, from memory); a pair of stars.
M40 = (185.552, 58.083)
#: Some of Moore's Caldwell list (1995), from memory.
CALDWELL = {
    1: "NGC 188", 4: "NGC 7023", 9: "Sh2-155", 11: "NGC 7635", 12: "NGC 6946", 13: "NGC 457",
    20: "NGC 7000", 23: "NGC 891", 27: "NGC 6888", 33: "NGC 6992", 34: "NGC 6960",
    38: "NGC 4565", 41: "Mel 25", 46: "NGC 2261", 49: "NGC 2237", 55: "NGC 7009",
    63: "NGC 7293", 65: "NGC 253", 77: "NGC 5128", 80: "NGC 5139", 92: "NGC 3372",
    103: "NGC 2070", 106: "NGC 104", 109: "NGC 3195",
}  # fmt: skip


def _apart_arcmin(target: Target, ra_deg: float, dec_deg: float) -> float:
    there = SkyCoord(ra_deg, dec_deg, unit="deg")
    return float(SkyCoord(target.ra_deg, target.dec_deg, unit="deg").separation(there).arcmin)


@pytest.mark.parametrize("number", range(1, 111))
def test_every_messier_number_finds_an_object_that_carries_it(number: int) -> None:
    target = TABLE.find(f"M{number}")
    assert f"M {number}" in target.aliases
    assert target.id == ("M 101" if number == 102 else f"M {number}")


@pytest.mark.parametrize("name", PUBLISHED)
def test_messier_objects_lie_where_they_are_published(name: str) -> None:
    place = SkyCoord(PUBLISHED[name], unit=("hourangle", "deg"))
    tolerance = 5.0 if name == "M 42" else 1.5  # its centre is a matter of choice
    assert _apart_arcmin(TABLE.find(name), place.ra.deg, place.dec.deg) < tolerance


def test_messier_40_is_the_double_star_winnecke_4() -> None:
    target = TABLE.find("M 40")
    assert target.kind is TargetKind.STAR
    assert target.name == "Winnecke 4"
    assert _apart_arcmin(target, *M40) < 1.0


@pytest.mark.parametrize("number", range(1, 110))
def test_every_caldwell_number_finds_an_object_that_carries_it(number: int) -> None:
    target = TABLE.find(f"Caldwell {number}")
    assert f"C {number}" in target.aliases
    if number in CALDWELL:
        assert CALDWELL[number] in target.aliases


@pytest.mark.parametrize("name", ["Sirius", "Vega", "Sadr", "Deneb", "Betelgeuse", "Mirach"])
def test_named_stars_lie_where_hipparcos_has_them(name: str) -> None:
    target = TABLE.find(name)
    hip = next(alias for alias in target.aliases if alias.startswith("HIP "))
    with (REFERENCE / "hipparcos2_hp6.csv").open(encoding="utf-8") as lines:
        stars = {
            f"HIP {row['hip']}": row for row in csv.DictReader(x for x in lines if x[0] != "#")
        }
    star = stars[hip]
    assert target.kind is TargetKind.STAR
    assert _apart_arcmin(target, float(star["ra_deg"]), float(star["dec_deg"])) < 0.5


def _checked() -> list[dict[str, str]]:
    with (INPUTS / "nebula-overrides.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", _checked(), ids=lambda row: row["id"])
def test_checked_figures_reach_the_table_with_their_status_and_source(row: dict[str, str]) -> None:
    target = TABLE.find(row["id"])
    expected = [float(row[f]) if row[f] else None for f in ("major_arcmin", "minor_arcmin")]
    assert target.id == row["id"]
    assert [target.major_arcmin, target.minor_arcmin] == pytest.approx(expected)
    assert target.status == row["status"]
    assert target.source == row["source"]
    assert target.pa_deg == (float(row["pa_deg"]) if row["pa_deg"] else None)
    assert target.angle_status == row["angle"]
    assert (target.ra_deg, target.dec_deg) == (float(row["ra_deg"]), float(row["dec_deg"]))


#: Diameters in arcminutes, major and minor, and position angle: (a) NGC 2000.0 for nebulae
#: as quoted in the checked table; (b) RC3 (de Vaucouleurs et al. 1991) D25 and angle from
#: memory, which differ between handbooks by a tenth.
SIZES = [
    ("M 31", 190, 60, 35, 0.2), ("M 33", 70.8, 41.7, 23, 0.2), ("M 81", 26.9, 14.1, 157, 0.25),
    ("M 82", 11.2, 4.3, 65, 0.2), ("M 101", 28.8, 26.9, None, 0.25),
    ("M 104", 8.7, 3.5, None, 0.41), ("NGC 891", 13.5, 2.5, 22, 0.25),
    ("NGC 4565", 15.8, 2.1, 136, 0.4), ("NGC 253", 27.5, 6.8, 52, 0.05),
    ("M 42", 90, 60, None, 0.01), ("NGC 7000", 120, 100, None, 0.01),
    ("IC 1396", 170, 140, None, 0.01), ("NGC 2024", 30, 30, None, 0.01),
    ("M 44", 95, 95, None, 0.2), ("NGC 104", 30.9, 30.9, None, 0.1),
    ("NGC 6888", 20, 10, None, 0.01), ("NGC 1499", 160, 40, None, 0.15),
    ("M 108", 8.7, 2.2, 80, 0.02), ("M 13", 20, 20, None, 0.05), ("M 7", 80, 80, None, 0.05),
]  # fmt: skip


@pytest.mark.parametrize(("name", "major", "minor", "pa", "share"), SIZES)
def test_sizes_of_famous_objects_are_those_published(
    name: str, major: float, minor: float, pa: float | None, share: float
) -> None:
    target = TABLE.find(name)
    assert target.major_arcmin == pytest.approx(major, rel=share)
    assert target.minor_arcmin == pytest.approx(minor, rel=max(share, 0.2))
    if pa is not None:
        assert target.pa_deg == pytest.approx(pa, abs=2.0)
        assert target.angle_trusted


def test_a_size_left_blank_on_purpose_stays_unknown() -> None:
    target = TABLE.find("NGC 2238")
    assert not target.size_known
    assert target.size_words == "size not known"
    assert not target.angle_known


@pytest.mark.parametrize("name", ["Soul Nebula", "Lagoon Nebula", "Cygnus Loop", "NGC 2264"])
def test_an_angle_computed_described_or_remembered_suggests_no_rotation(name: str) -> None:
    target = TABLE.find(name)
    assert target.angle_known
    assert not target.angle_trusted
    assert "about" in target.angle_words


def test_the_filler_of_90_degrees_is_never_trusted() -> None:
    filler = TABLE.pa_deg == 90.0
    galaxies = TABLE.kind_code == KINDS.index(TargetKind.GALAXY)
    assert 30 < filler.sum() < 150
    assert np.all(galaxies[filler])
    assert not any(TABLE.target(int(row)).angle_trusted for row in np.flatnonzero(filler))


def test_round_shapes_carry_no_angle_and_unknown_sizes_neither() -> None:
    angled = np.isfinite(TABLE.pa_deg)
    assert np.all(TABLE.minor_arcmin[angled] < TABLE.major_arcmin[angled])
    assert not np.any(angled & np.isnan(TABLE.major_arcmin))
    assert np.all((TABLE.pa_deg[angled] >= 0.0) & (TABLE.pa_deg[angled] < 180.0))


def test_dark_nebulae_and_nebulae_outside_messier_carry_no_magnitude_of_a_star() -> None:
    kinds = [KINDS.index(kind) for kind in (TargetKind.DARK_NEBULA, TargetKind.BRIGHT_NEBULA)]
    rows = np.flatnonzero(np.isin(TABLE.kind_code, kinds) & np.isfinite(TABLE.magnitude))
    assert rows.size < 15
    assert all(TABLE.target(int(row)).id.startswith("M ") for row in rows)


def test_nothing_is_drawn_where_there_is_nothing() -> None:
    other = TABLE.kind_code == KINDS.index(TargetKind.OTHER)
    assert other.sum() > 1000
    drawn = [TABLE.target(int(row)).id for row in np.flatnonzero(other & TABLE.drawn)]
    assert drawn == ["M 73"]
    assert np.all(TABLE.drawn[~other])


def test_rank_falls_along_the_table_and_begins_with_what_everybody_knows() -> None:
    assert len(TABLE) > 25_000
    assert np.all(np.diff(TABLE.rank) <= 0.0)
    first = {TABLE.target(row).id for row in range(40)}
    assert {"M 31", "M 42", "M 45", "NGC 7000", "M 13"} <= first


@pytest.mark.parametrize(
    ("wrong", "name"),
    [
        ("IC 434", "Flame Nebula"), ("NGC 2244", "Rosette Nebula"),
        ("IC 1396", "Elephant's Trunk Nebula"), ("Sh2-292", "Seagull Nebula"),
        ("NGC 6979", "Pickering's Triangle"), ("NGC 6611", "Eagle Nebula"),
        ("NGC 3627", "Leo Triplet"), ("NGC 6960", "Veil Nebula"),
    ],
)  # fmt: skip
def test_names_mistaken_in_the_sources_sit_on_the_right_object(wrong: str, name: str) -> None:
    assert name not in TABLE.find(wrong).common_names
    assert TABLE.find(name).id != TABLE.find(wrong).id


def test_designations_dropped_by_the_source_find_their_object() -> None:
    with (INPUTS / "designation-joins.csv").open(encoding="utf-8", newline="") as lines:
        for record in csv.DictReader(lines):
            if record["object"] or record["ra_deg"]:
                found = TABLE.find(record["designation"])
                assert record["designation"] in found.aliases
                if record["object"]:
                    assert found == TABLE.find(record["object"])
    for number in (80, 95, 97, 179, 266):
        with pytest.raises(UnknownTargetError):
            TABLE.find(f"Sh2-{number}")


@pytest.mark.parametrize(
    ("ra", "dec", "radius"),
    [(10.7, 41.3, 2.0), (0.05, -30.0, 3.0), (200.0, 89.5, 1.0), (83.8, -5.4, 180.0), (5, 5, 0)],
)
def test_a_cone_holds_what_astropy_finds_there(ra: float, dec: float, radius: float) -> None:
    everything = SkyCoord(TABLE.ra_deg * u.deg, TABLE.dec_deg * u.deg)
    expected = np.flatnonzero(everything.separation(SkyCoord(ra, dec, unit="deg")).deg <= radius)
    assert TABLE.in_cone(ra, dec, radius).tolist() == expected.tolist()


def test_a_cone_can_leave_out_small_objects() -> None:
    everything = TABLE.in_cone(187.0, 12.5, 2.0)
    large = TABLE.in_cone(187.0, 12.5, 2.0, at_least_arcmin=5.0)
    assert 5 < large.size < everything.size
    assert set(large) == {row for row in everything if TABLE.major_arcmin[row] >= 5.0}


def test_a_cone_can_reach_to_objects_that_only_touch_it() -> None:
    andromeda = next(row for row in range(50) if TABLE.target(row).id == "M 31")
    everything = TABLE.in_cone(12.3, 41.3, 1.0)
    assert andromeda not in everything  # its centre lies 1.2 degrees from the circle's
    assert andromeda in TABLE.in_cone(12.3, 41.3, 0.1, touching=True)  # its edge does not
    assert set(everything) <= set(TABLE.in_cone(12.3, 41.3, 1.0, touching=True))
    assert TABLE.in_cone(12.3, 41.3, 180.0, touching=True).size == len(TABLE)


def test_figures_of_a_target_are_those_of_its_columns() -> None:
    for row in range(0, len(TABLE), 997):
        target = TABLE.target(row)
        assert target.ra_deg == TABLE.ra_deg[row]
        assert target.kind is KINDS[TABLE.kind_code[row]]
        stored = float(TABLE.major_arcmin[row])
        assert target.size_known is not math.isnan(stored)
        assert target.major_arcmin is None or target.major_arcmin == pytest.approx(stored, abs=1e-3)
