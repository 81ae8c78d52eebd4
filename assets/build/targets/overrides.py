"""Apply what was checked by hand: sizes, scenes, Sharpless numbers, names.

Inputs are the tables of `assets/build/data`, each row with its source and status.
"""

import csv
from collections.abc import Iterator
from pathlib import Path

from assets.build.targets.rank import Fame
from assets.build.targets.rows import Book, Row
from core.catalogue.designation import canonical, key
from core.catalogue.target import TargetKind

__all__ = ["apply_joins", "apply_names", "apply_overrides", "fame_of", "share_abell"]

#: Roles of a name that is the one to show; a famous object's rank is raised besides.
_FIRST = ("shown", "famous")


def table(path: Path) -> Iterator[dict[str, str]]:
    """Read a table of the inputs, row by row, blanks trimmed."""
    with path.open(encoding="utf-8", newline="") as lines:
        for record in csv.DictReader(lines):
            yield {name: (text or "").strip() for name, text in record.items()}


def apply_overrides(book: Book, path: Path) -> int:
    """Put the checked figures over the merged ones; add the objects and scenes it has alone."""
    count = 0
    for record in table(path):
        row = book.get(record["row"] or record["id"])
        if row is None:
            row = book.add(_blank(record))
        _fill(row, record)
        for alias in [record["id"], *_parts(record["aliases"])]:
            book.claim(row, alias, by_force=True)
        count += 1
    return count


def _blank(record: dict[str, str]) -> Row:
    """Make a row for an object that the merged tables lack."""
    designation = canonical(record["id"]) or record["id"]
    return Row(
        ident=designation,
        kind=TargetKind(record["kind"]),
        ra_deg=float(record["ra_deg"]),
        dec_deg=float(record["dec_deg"]),
        source="",
        aliases=[designation],
    )


def _fill(row: Row, record: dict[str, str]) -> None:
    """Write a checked record over a row."""
    row.kind = TargetKind(record["kind"])
    row.ident, row.fixed_ident = record["id"], True
    row.ra_deg, row.dec_deg = float(record["ra_deg"]), float(record["dec_deg"])
    row.major_arcmin = _number(record["major_arcmin"])
    row.minor_arcmin = _number(record["minor_arcmin"])
    row.pa_deg = _number(record["pa_deg"])
    row.angle_status = record["angle"]
    row.status, row.source, row.note = record["status"], record["source"], ""
    for name in reversed(_parts(record["names"])):
        _name(row, name, first=True)
    row.members = _parts(record["members"])


def apply_joins(book: Book, path: Path) -> tuple[int, list[str]]:
    """Give the objects the designations that the source lists dropped; names those lost."""
    joined, lost = 0, []
    for record in table(path):
        row = book.get(record["object"]) if record["object"] else None
        if row is None and record["ra_deg"]:
            row = book.add(_placed(record))
            book.claim(row, record["object"] or record["designation"])
        if row is None:
            lost.append(record["designation"])
        else:
            book.claim(row, record["designation"], by_force=True)
            joined += 1
    return joined, lost


def _placed(record: dict[str, str]) -> Row:
    """Make a row for a number of which only place and circle are known."""
    return Row(
        ident=record["designation"], kind=TargetKind(record["kind"]),
        ra_deg=float(record["ra_deg"]), dec_deg=float(record["dec_deg"]),
        major_arcmin=_number(record["major_arcmin"]), minor_arcmin=_number(record["major_arcmin"]),
        source=record["source"], status=record["status"], aliases=[record["designation"]],
    )  # fmt: skip


def share_abell(book: Book) -> None:
    """Let Abell's clusters of galaxies answer to "Abell" where no nebula of his does."""
    for row in book.rows:
        for alias in list(row.aliases):
            if alias.startswith("ACO ") and alias[4:].isdigit():
                book.claim(row, f"Abell {alias[4:]}")


def apply_names(book: Book, listed: list[tuple[str, str]], path: Path) -> None:
    """Add the listed nicknames, then ours: what is shown, what is known too, what is mistaken."""
    for designation, name in listed:
        row = book.get(designation)
        if row is not None:
            row.nicknames.append(name)
    for record in table(path):
        row = book.get(record["id"])
        if row is None:
            raise ValueError(f"{path.name}: no object {record['id']} for {record['name']}")
        if record["role"] == "mistaken":
            _forget(row, record["name"])
        else:
            _name(row, record["name"], first=record["role"] in _FIRST)


def fame_of(book: Book, path: Path) -> Fame:
    """Tell which rows have names that people use, and which are famous."""
    records = [(id(book.get(record["id"])), record["role"]) for record in table(path)]
    checked = {id(row) for row in book.rows if row.fixed_ident and row.names}
    return Fame(
        shown=frozenset(checked | {row for row, role in records if role in _FIRST}),
        famous=frozenset(row for row, role in records if role == "famous"),
    )


def _forget(row: Row, name: str) -> None:
    """Take a mistaken name from a row."""
    row.names = [known for known in row.names if key(known) != key(name)]
    row.nicknames = [known for known in row.nicknames if key(known) != key(name)]


def _name(row: Row, name: str, *, first: bool) -> None:
    """Add a name once; `first` moves it to the front."""
    others = [known for known in row.names if key(known) != key(name)]
    row.names = [name, *others] if first else [*others, name]


def _parts(text: str) -> list[str]:
    """Split a field at its bars."""
    return [part.strip() for part in text.split("|") if part.strip()]


def _number(text: str) -> float | None:
    """Read a figure; a blank is one that is not known on purpose."""
    return float(text) if text else None
