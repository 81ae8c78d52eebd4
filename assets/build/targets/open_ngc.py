"""Read OpenNGC out of the `pyongc` wheel: the NGC, IC and some objects beyond them.

Its database holds radians, arcminutes, and position angles in whole degrees.
"""

import math
import re
import sqlite3
import tempfile
import zipfile
from pathlib import Path

from assets.build.targets.rows import Book, Row
from core.catalogue.designation import canonical
from core.catalogue.target import TargetKind

__all__ = ["SOURCE", "read_open_ngc"]

SOURCE = "OpenNGC"
_KINDS = {
    "G": TargetKind.GALAXY, "GPair": TargetKind.GALAXY, "GTrpl": TargetKind.GALAXY,
    "GGroup": TargetKind.GALAXY, "OCl": TargetKind.OPEN_CLUSTER, "*Ass": TargetKind.OPEN_CLUSTER,
    "GCl": TargetKind.GLOBULAR_CLUSTER, "PN": TargetKind.PLANETARY_NEBULA,
    "Cl+N": TargetKind.BRIGHT_NEBULA, "HII": TargetKind.BRIGHT_NEBULA,
    "EmN": TargetKind.BRIGHT_NEBULA, "Neb": TargetKind.BRIGHT_NEBULA,
    "RfN": TargetKind.BRIGHT_NEBULA, "DrkN": TargetKind.DARK_NEBULA,
    "SNR": TargetKind.SUPERNOVA_REMNANT,
}  # fmt: skip
_FIELDS = (
    "name, type, ra, dec, majax, minax, pa, bmag, vmag, messier, ngc, ic, identifiers, commonnames"
)
_KEPT = re.compile(r"(PGC|UGC|UGCA|ESO|MCG|C|PN G|PK|LBN|SH 2|Mel|Cl|LEDA|HCG)\s*[-+\d]")
#: Brightness of these is that of the stars inside, except where a Messier nebula has its own.
_NO_MAGNITUDE = {"HII", "EmN", "Neb", "RfN", "DrkN", "Cl+N", "SNR"}


def read_open_ngc(wheel: Path) -> Book:
    """Read every object of the wheel's database into a book of rows."""
    with zipfile.ZipFile(wheel) as archive, tempfile.TemporaryDirectory() as folder:
        path = archive.extract("pyongc/ongc.db", folder)
        connection = sqlite3.connect(path)
        connection.row_factory = sqlite3.Row
        records = connection.execute(f"select {_FIELDS} from objects order by name").fetchall()
        connection.close()
    book = Book()
    for record in records:
        if record["type"] != "Dup" and record["ra"] is not None:
            book.add(_row(record))
    for record in records:
        if record["type"] == "Dup":
            _join_duplicate(book, record)
    return book


def _row(record: sqlite3.Row) -> Row:
    """Turn one record into a row."""
    designation = _spelled(record["name"])
    row = Row(
        ident=designation,
        kind=_kind(record),
        ra_deg=math.degrees(record["ra"]),
        dec_deg=math.degrees(record["dec"]),
        source=SOURCE,
        major_arcmin=record["majax"],
        minor_arcmin=record["minax"],
        pa_deg=_angle(record),
        mixed=record["type"] == "Cl+N",
    )
    row.magnitude, row.band = _magnitude(record)
    row.aliases = [designation, *_aliases(record)]
    row.names = [name.strip() for name in (record["commonnames"] or "").split(",") if name.strip()]
    return row


def _spelled(name: str) -> str:
    """Spell a designation of the database as the table does."""
    return canonical(name) or name


def _kind(record: sqlite3.Row) -> TargetKind:
    """Kind of an object; Winnecke 4 (M 40) is a pair of stars and stays findable as such."""
    if record["messier"] == "040":
        return TargetKind.STAR
    return _KINDS.get(record["type"], TargetKind.OTHER)


def _angle(record: sqlite3.Row) -> float | None:
    """Position angle; 90 is a filler of the source on everything but galaxies."""
    if record["pa"] is None or (record["pa"] == 90 and not record["type"].startswith("G")):
        return None
    if record["pa"] == 90 and record["type"] == "GCl":
        return None
    return float(record["pa"] % 180)


def _magnitude(record: sqlite3.Row) -> tuple[float | None, str]:
    """V, or B where V is missing or fainter than B; none where it is that of the stars."""
    if record["type"] in _NO_MAGNITUDE and not (record["messier"] and record["vmag"]):
        return None, ""
    b_mag, v_mag = record["bmag"], record["vmag"]
    if v_mag is not None and (b_mag is None or v_mag <= b_mag + 0.3):
        return float(v_mag), "V"
    return (float(b_mag), "B") if b_mag is not None else (None, "")


def _aliases(record: sqlite3.Row) -> list[str]:
    """Every other designation worth typing."""
    found = [f"M {int(record['messier'])}"] if record["messier"] else []
    for text in (record["identifiers"] or "").split(","):
        spelled = canonical(text.strip()) if _KEPT.match(text.strip()) else None
        if spelled:
            found.append(spelled)
    return found


def _join_duplicate(book: Book, record: sqlite3.Row) -> None:
    """Let the entry that a duplicated record points to carry its designation too."""
    for field, acronym in (("ngc", "NGC"), ("ic", "IC"), ("messier", "M")):
        if record[field]:
            row = book.get(f"{acronym} {record[field].lstrip('0')}")
            if row is not None:
                book.claim(row, _spelled(record["name"]))
                return
    print("duplicate without its entry:", record["name"])
