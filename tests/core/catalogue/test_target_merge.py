"""The rules by which the deep-sky table is merged, on rows made for the purpose."""

from typing import Any

import pytest

from assets.build.targets.merge import join_lists
from assets.build.targets.open_ngc import SOURCE
from assets.build.targets.policy import settle
from assets.build.targets.rows import Book, Row
from assets.build.targets.sky_lists import Listed
from core.catalogue.designation import family
from core.catalogue.target import TargetKind

NEBULA, DARK = TargetKind.BRIGHT_NEBULA, TargetKind.DARK_NEBULA
GALAXY, OPEN = TargetKind.GALAXY, TargetKind.OPEN_CLUSTER
ARCMIN = 1.0 / 60.0


def _row(ident: str, kind: TargetKind = NEBULA, **facts: Any) -> Row:
    facts = {"ra_deg": 50.0, "dec_deg": 0.0, "source": SOURCE, "aliases": [ident], **facts}
    return Row(ident=ident, kind=kind, **facts)


def _listed(
    designation: str,
    kind: TargetKind = NEBULA,
    *,
    east_arcmin: float = 0.0,
    size: tuple[float, float] | None = None,
    magnitude: float | None = None,
) -> Listed:
    major, minor = size or (None, None)
    ra_deg = (50.0 + east_arcmin * ARCMIN) % 360.0
    return Listed(
        designation, designation, family(designation), kind, ra_deg, 0.0, major, minor, magnitude
    )


def _book(*rows: Row) -> Book:
    book = Book()
    for row in rows:
        book.add(row)
    return book


def test_an_entry_joins_the_row_that_has_its_designation_wherever_it_says_to_lie() -> None:
    book = _book(_row("NGC 1", aliases=["NGC 1", "LBN 7"], major_arcmin=10.0))
    counts = join_lists(book, [_listed("LBN 7", east_arcmin=300.0, size=(12.0, 9.0))])
    assert len(book.rows) == 1
    assert counts == {"LBN": (1, 0)}
    assert book.rows[0].ra_deg == 50.0  # OpenNGC's place stays


@pytest.mark.parametrize(
    ("kind", "designation", "apart", "joined"),
    [
        (NEBULA, "LBN 7", 3.9, True), (NEBULA, "LBN 7", 4.1, False),
        (DARK, "LDN 7", 2.9, True), (DARK, "LDN 7", 3.1, False),
        (TargetKind.PLANETARY_NEBULA, "PK 001+01.1", 0.9, True),
        (TargetKind.PLANETARY_NEBULA, "PK 001+01.1", 1.1, False),
        (GALAXY, "PGC 7", 0.3, True), (GALAXY, "PGC 7", 0.5, False),
    ],
)  # fmt: skip
def test_an_entry_joins_a_neighbour_of_its_own_group_only_when_near(
    kind: TargetKind, designation: str, apart: float, joined: bool
) -> None:
    book = _book(_row("NGC 1", kind))
    join_lists(book, [_listed(designation, kind, east_arcmin=apart)])
    assert (len(book.rows) == 1) is joined


def test_neighbours_across_the_seam_of_right_ascension_are_near() -> None:
    book = _book(_row("NGC 1", ra_deg=359.99))
    entry = Listed("LBN 7", "LBN 7", "LBN", NEBULA, 0.01, 0.0, None, None, None)
    join_lists(book, [entry])
    assert len(book.rows) == 1


def test_large_objects_may_lie_a_quarter_of_the_smaller_apart() -> None:
    book = _book(_row("NGC 1", major_arcmin=60.0))
    join_lists(book, [_listed("LBN 7", east_arcmin=14.0, size=(70.0, 60.0))])
    assert len(book.rows) == 1


@pytest.mark.parametrize("size", [(31.0, 10.0), (3.2, 3.0)])
def test_sizes_more_than_three_times_apart_are_two_objects(size: tuple[float, float]) -> None:
    book = _book(_row("NGC 1", major_arcmin=10.0))
    join_lists(book, [_listed("LBN 7", size=size)])
    assert len(book.rows) == 2


def test_objects_of_different_groups_are_never_joined() -> None:
    book = _book(_row("NGC 1", OPEN))
    join_lists(book, [_listed("LDN 7", DARK)])
    assert len(book.rows) == 2


def test_two_entries_of_one_catalogue_are_two_objects() -> None:
    book = _book()
    join_lists(book, [_listed("LBN 7"), _listed("LBN 8")])
    assert [row.ident for row in book.rows] == ["LBN 7", "LBN 8"]


def test_an_earlier_list_founds_the_row_and_a_later_one_joins_it() -> None:
    book = _book()
    join_lists(book, [_listed("LBN 7", size=(9.0, 9.0)), _listed("Sh2-5", size=(10.0, 8.0))])
    assert [row.ident for row in book.rows] == ["Sh2-5"]
    assert book.rows[0].aliases == ["Sh2-5", "LBN 7"]
    assert book.rows[0].major_arcmin == 10.0


@pytest.mark.parametrize(("other", "kept"), [(20.0, 20.0), (4.0, 5.0), (39.0, 39.0), (41.0, 5.0)])
def test_a_cluster_has_the_larger_of_two_diameters_up_to_eight_times(
    other: float, kept: float
) -> None:
    book = _book(_row("NGC 1", OPEN, major_arcmin=5.0))
    join_lists(book, [_listed("NGC 1", OPEN, size=(other, other))])
    assert book.rows[0].major_arcmin == kept


@pytest.mark.parametrize(
    ("other", "mixed", "kept", "status"),
    [
        (14.0, False, 10.0, "catalogue"), (7.0, False, 10.0, "catalogue"),
        (20.0, False, 20.0, "partly"), (30.0, False, 10.0, "partly"),
        (30.0, True, 30.0, "partly"), (90.0, True, 10.0, "partly"), (5.0, True, 10.0, "partly"),
    ],
)  # fmt: skip
def test_a_nebula_with_two_diameters_is_settled_and_flagged(
    other: float, mixed: bool, kept: float, status: str
) -> None:
    book = _book(_row("NGC 1", major_arcmin=10.0, mixed=mixed))
    join_lists(book, [_listed("NGC 1", size=(other, other))])
    row = book.rows[0]
    assert row.major_arcmin == kept
    assert row.status == status
    dropped = other if kept == 10.0 else 10.0
    assert (f"another list gives {dropped:g}′" in row.note) is (status == "partly")


def test_galaxies_keep_the_size_and_the_magnitude_of_openngc() -> None:
    book = _book(_row("NGC 1", GALAXY, major_arcmin=10.0, magnitude=9.0, band="B"))
    join_lists(book, [_listed("NGC 1", GALAXY, size=(3.0, 1.0), magnitude=12.0)])
    row = book.rows[0]
    assert (row.major_arcmin, row.magnitude, row.band) == (10.0, 9.0, "B")


def test_what_openngc_lacks_is_added() -> None:
    book = _book(_row("NGC 1", GALAXY))
    join_lists(book, [_listed("NGC 1", GALAXY, size=(3.0, 1.0), magnitude=12.0)])
    row = book.rows[0]
    assert (row.major_arcmin, row.minor_arcmin, row.magnitude, row.band) == (3.0, 1.0, 12.0, "V")


def test_a_nebula_is_believed_where_openngc_has_a_star() -> None:
    book = _book(_row("IC 1", TargetKind.OTHER, magnitude=2.0, band="V", names=["gam Cyg"]))
    join_lists(book, [_listed("IC 1", east_arcmin=40.0, size=(60.0, 40.0))])
    row = book.rows[0]
    assert (row.kind, row.major_arcmin, row.magnitude, row.names) == (NEBULA, 60.0, None, [])
    assert row.ra_deg == pytest.approx(50.0 + 40.0 * ARCMIN)
    assert row.status == "partly"


@pytest.mark.parametrize(
    ("facts", "pa", "angle_status"),
    [
        ({"major_arcmin": 9.0, "minor_arcmin": 3.0, "pa_deg": 35.0}, 35.0, "catalogue"),
        ({"major_arcmin": 9.0, "minor_arcmin": 3.0, "pa_deg": 180.0}, 0.0, "catalogue"),
        ({"major_arcmin": 9.0, "minor_arcmin": 3.0, "pa_deg": 90.0}, 90.0, "unverified"),
        ({"major_arcmin": 9.0, "minor_arcmin": None, "pa_deg": 35.0}, None, ""),
        ({"major_arcmin": 9.0, "minor_arcmin": 9.0, "pa_deg": 35.0}, None, ""),
        ({"major_arcmin": None, "pa_deg": 35.0}, None, ""),
        ({"major_arcmin": 0.0, "pa_deg": 35.0}, None, ""),
    ],
)  # fmt: skip
def test_angles_are_settled(facts: dict[str, Any], pa: float | None, angle_status: str) -> None:
    row = _row("NGC 1", GALAXY, **facts)
    settle(row)
    assert row.pa_deg == pa
    assert row.angle_status == angle_status
    assert (row.minor_arcmin is None) is (row.major_arcmin is None)
