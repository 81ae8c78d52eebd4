"""What is laid over the merged deep-sky table by hand, and how it is written and read back."""

from pathlib import Path
from typing import Any

import pytest

from assets.build.targets.open_ngc import SOURCE
from assets.build.targets.overrides import apply_joins, apply_names, apply_overrides, fame_of
from assets.build.targets.rank import rank
from assets.build.targets.rows import Book, Row
from assets.build.targets.star_rows import add_stars
from assets.build.targets.write import write_table
from core.catalogue.target import TargetKind
from core.catalogue.targets import TargetTable

NEBULA = TargetKind.BRIGHT_NEBULA


def _row(ident: str, **facts: Any) -> Row:
    facts = {"ra_deg": 50.0, "dec_deg": 0.0, "source": SOURCE, "aliases": [ident], **facts}
    return Row(ident=ident, kind=NEBULA, **facts)


def _book(*rows: Row) -> Book:
    book = Book()
    for row in rows:
        book.add(row)
    return book


def test_a_designation_taken_by_force_leaves_no_ghost_behind() -> None:
    book = _book(_row("NGC 1"), _row("Sh2-8"), _row("LBN 3", aliases=["LBN 3", "RCW 5"]))
    book.claim(book.rows[0], "Sh2-8", by_force=True)
    book.claim(book.rows[0], "LBN 3", by_force=True)
    assert [row.ident for row in book.rows] == ["NGC 1", "RCW 5"]
    assert book.get("sharpless 8") is book.get("LBN 3") is book.rows[0]


def test_a_designation_is_not_taken_without_force() -> None:
    book = _book(_row("NGC 1"), _row("Sh2-8"))
    book.claim(book.rows[0], "Sh2-8")
    assert book.get("Sh2-8") is book.rows[1]


def test_the_identifier_is_that_of_the_foremost_catalogue() -> None:
    book = _book(_row("NGC 224", aliases=["NGC 224", "PGC 2557", "M 31"]))
    book.settle_identifiers()
    assert book.rows[0].ident == "M 31"
    assert book.rows[0].aliases[0] == "M 31"


def _inputs(folder: Path, **tables: str) -> dict[str, Path]:
    paths = {}
    for name, text in tables.items():
        paths[name] = folder / f"{name}.csv"
        paths[name].write_text(text, encoding="utf-8")
    return paths


CHECKED = (
    "id,row,names,aliases,kind,ra_deg,dec_deg,major_arcmin,minor_arcmin,pa_deg,angle,status,source,"
    "members\n"
    "IC 2,NGC 1,Heart Nebula,Sh2-8,bright nebula,51,1,70,60,30,computed,partly,a source,\n"
    "Scene A,,A scene,,scene,10,20,90,80,,,partly,computed,NGC 1|NGC 2\n"
)


def test_a_checked_record_replaces_the_merged_one_and_adds_scenes(tmp_path: Path) -> None:
    book = _book(_row("NGC 1", major_arcmin=9.0, names=["Old"]), _row("Sh2-8"))
    assert apply_overrides(book, _inputs(tmp_path, checked=CHECKED)["checked"]) == 2
    row, scene = book.rows
    assert (row.ident, row.ra_deg, row.major_arcmin, row.pa_deg) == ("IC 2", 51.0, 70.0, 30.0)
    assert (row.status, row.angle_status, row.source) == ("partly", "computed", "a source")
    assert row.names == ["Heart Nebula", "Old"]
    assert book.get("NGC 1") is book.get("IC 2") is book.get("Sh2-8") is row
    assert scene.kind is TargetKind.SCENE
    assert scene.members == ["NGC 1", "NGC 2"]


def test_names_are_shown_added_and_taken_away(tmp_path: Path) -> None:
    text = (
        "id,name,role\nNGC 1,Best,famous\nNGC 1,Also,also\nNGC 1,Wrong,mistaken\nNGC 2,Two,shown\n"
    )
    path = _inputs(tmp_path, names=text)["names"]
    book = _book(_row("NGC 1", names=["wrong", "Old"]), _row("NGC 2"))
    apply_names(book, [("NGC 1", "Nick"), ("NGC 1", "Wrong"), ("NGC 9", "Lost")], path)
    assert book.rows[0].names == ["Best", "Old", "Also"]
    assert book.rows[0].nicknames == ["Nick"]
    fame = fame_of(book, path)
    assert (
        fame.rank(book.rows[0])
        > fame.rank(book.rows[1])
        > rank(_row("NGC 2"), shown=False, famous=False)
    )


def test_a_name_for_an_object_that_is_not_there_stops_the_build(tmp_path: Path) -> None:
    path = _inputs(tmp_path, names="id,name,role\nNGC 9,Lost,shown\n")["names"]
    with pytest.raises(ValueError, match="no object NGC 9 for Lost"):
        apply_names(_book(), [], path)


def test_joins_add_designations_or_rows_and_tell_what_is_lost(tmp_path: Path) -> None:
    text = (
        "designation,object,kind,ra_deg,dec_deg,major_arcmin,status,source\n"
        "Sh2-1,NGC 1,,,,,published,x\n"
        "Sh2-2,,bright nebula,10,20,7,partly,y\n"
        "Sh2-3,,,,,,unverified,z\n"
    )
    book = _book(_row("NGC 1"))
    joined, lost = apply_joins(book, _inputs(tmp_path, joins=text)["joins"])
    assert (joined, lost) == (2, ["Sh2-3"])
    assert book.get("Sh2-1") is book.get("NGC 1")
    placed = book.get("Sh2-2")
    assert placed is not None
    assert (placed.major_arcmin, placed.status, placed.source) == (7.0, "partly", "y")


def _star(hip: int, magnitude: float, **facts: str) -> dict[str, Any]:
    return {"hip": hip, "name": "", "bayer": "", "flamsteed": "", "constellation": "Cyg",
            "genitive": "Cygni", "ra_deg": 1.0, "dec_deg": 2.0, "magnitude": magnitude,
            **facts}  # fmt: skip


def test_the_brightest_star_keeps_a_shared_name_and_all_their_designations() -> None:
    book = _book()
    faint = _star(1, 5.0, name="Tarazed", bayer="η")
    bright = _star(2, 2.7, name="Tarazed", bayer="γ1", flamsteed="50")
    assert add_stars(book, [faint, bright]) == 2
    assert [row.names for row in book.rows] == [["Tarazed"], []]
    assert book.rows[0].aliases == [
        "γ1 Cyg", "γ1 Cygni", "50 Cyg", "50 Cygni", "γ Cyg", "γ Cygni", "HIP 2",
    ]  # fmt: skip


def test_what_is_written_is_read_back(tmp_path: Path) -> None:
    full = _row(
        "NGC 1", major_arcmin=9.5, minor_arcmin=3.25, pa_deg=35.0, magnitude=8.1, band="B",
        names=["Thing"], nicknames=["Nick", "thing"], members=["NGC 2"], note="a note",
    )  # fmt: skip
    rows = [_row("NGC 2", angle_status=""), full]
    fame = fame_of(
        _book(*rows), _inputs(tmp_path, names="id,name,role\nNGC 1,Thing,shown\n")["names"]
    )
    write_table(rows, fame, tmp_path)
    table = TargetTable.load(tmp_path)
    first, second = table.target(0), table.target(1)
    assert (first.id, first.name, first.kind) == ("NGC 1", "Thing", NEBULA)
    assert (first.major_arcmin, first.minor_arcmin, first.pa_deg) == (9.5, 3.25, 35.0)
    assert (first.magnitude, first.magnitude_band) == (8.1, "B")
    assert first.common_names == ("Thing", "Nick")
    assert first.members == ("NGC 2",)
    assert first.source == "OpenNGC; a note"
    assert (second.name, second.major_arcmin, second.magnitude) == ("NGC 2", None, None)
