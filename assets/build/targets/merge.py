"""Join the listed nebulae, clusters and galaxies to the rows of OpenNGC.

An entry joins a row (1) by its designation; (2) by lying on an object of its own group,
as near as the group allows and of a like size. Two entries of one catalogue are never
joined to each other. OpenNGC's positions are kept always: the other list is off by more
than 2' for 266 of 10,170 shared entries and names a wrong object for some.
"""

import math

from assets.build.targets.policy import take_size
from assets.build.targets.rows import Book, Row
from assets.build.targets.sky_lists import Listed
from core.catalogue.target import TargetKind

__all__ = ["join_lists"]

#: Lists in the order in which they found rows; what follows joins what stands.
_ORDER = (
    "M", "NGC", "IC", "C", "Sh2", "RCW", "vdB", "Ced", "vdBH", "LBN", "SNR G", "B", "LDN",
    "PN G", "PK", "Cr", "Mel", "ACO", "PGC", "ESO", "UGC", "Arp", "VV",
)  # fmt: skip
_RANK = {name: place for place, name in enumerate(_ORDER)}
#: How near counts as the same object, arcminutes.
_NEAR = {
    TargetKind.PLANETARY_NEBULA: 1.0, TargetKind.DARK_NEBULA: 3.0, TargetKind.GALAXY: 0.4,
    TargetKind.GALAXY_CLUSTER: 0.0, TargetKind.GLOBULAR_CLUSTER: 2.0,
}  # fmt: skip
_DEFAULT_NEAR = 4.0
_SOURCES = {
    "Sh2": "Sharpless 1959", "RCW": "Rodgers, Campbell & Whiteoak 1960",
    "vdB": "van den Bergh 1966", "Ced": "Cederblad 1946",
    "vdBH": "van den Bergh & Herbst 1975", "LBN": "Lynds 1965 (place to 3′)",
    "SNR G": "Green's supernova remnants", "B": "Barnard 1927",
    "LDN": "Lynds 1962 (diameter from the area)",
    "PN G": "Strasbourg-ESO planetary nebulae 1992", "PK": "Perek & Kohoutek 1967",
    "Cr": "Collinder 1931", "Mel": "Melotte 1915", "ACO": "Abell, Corwin & Olowin 1989",
}  # fmt: skip


def join_lists(book: Book, entries: list[Listed]) -> dict[str, tuple[int, int]]:
    """Join every entry; returns for each list how many entries it had and how many were new."""
    counts: dict[str, tuple[int, int]] = {}
    grid = _Grid(book.rows)
    for entry in sorted(entries, key=lambda e: _RANK.get(e.family, 99)):
        row = book.get(entry.designation) or book.get(entry.shown)
        if row is None:
            row = grid.nearest(entry)
        if row is not None:
            book.claim(row, entry.designation)
            take_size(row, entry)
        else:
            grid.put(book.add(_new_row(entry)))
        had, new = counts.get(entry.family, (0, 0))
        counts[entry.family] = (had + 1, new + (row is None))
    return counts


def _new_row(entry: Listed) -> Row:
    """Make a row of an entry that joins nothing."""
    return Row(
        ident=entry.designation, kind=entry.kind, ra_deg=entry.ra_deg, dec_deg=entry.dec_deg,
        source=_SOURCES.get(entry.family, "HyperLeda galaxies") + ", open list",
        major_arcmin=entry.major_arcmin, minor_arcmin=entry.minor_arcmin,
        magnitude=entry.magnitude, band="V" if entry.magnitude is not None else "",
        aliases=[entry.designation],
    )  # fmt: skip


class _Grid:
    """Rows by whole degrees of declination, to find a neighbour without asking them all."""

    def __init__(self, rows: list[Row]) -> None:
        self._zones: dict[int, list[Row]] = {}
        for row in rows:
            self.put(row)

    def put(self, row: Row) -> None:
        """Add a row."""
        self._zones.setdefault(math.floor(row.dec_deg), []).append(row)

    def nearest(self, entry: Listed) -> Row | None:
        """Find the nearest row that may be the same object."""
        zone = math.floor(entry.dec_deg)
        near = [row for step in (-1, 0, 1) for row in self._zones.get(zone + step, [])]
        apart = [(_separation_arcmin(row, entry), row) for row in near if _alike(row, entry)]
        close = [(gap, row) for gap, row in apart if gap <= _reach(row, entry)]
        return min(close, key=lambda pair: pair[0])[1] if close else None


def _alike(row: Row, entry: Listed) -> bool:
    """Ask for the same group, not listed in the same catalogue, sizes within a factor of three."""
    if row.kind is not entry.kind or entry.family in row.families():
        return False
    if row.major_arcmin and entry.major_arcmin:
        return 1.0 / 3.0 <= row.major_arcmin / entry.major_arcmin <= 3.0
    return True


def _reach(row: Row, entry: Listed) -> float:
    """How far apart, in arcminutes, the two may lie and be one."""
    near = _NEAR.get(entry.kind, _DEFAULT_NEAR)
    sizes = [size for size in (row.major_arcmin, entry.major_arcmin) if size]
    return max(near, 0.25 * min(sizes)) if len(sizes) == 2 else near


def _separation_arcmin(row: Row, entry: Listed) -> float:
    """Angle between a row and an entry."""
    first, second = math.radians(row.dec_deg), math.radians(entry.dec_deg)
    across = math.sin(math.radians(row.ra_deg - entry.ra_deg) / 2.0)
    half = math.sin((first - second) / 2.0) ** 2 + math.cos(first) * math.cos(second) * across**2
    return math.degrees(2.0 * math.asin(math.sqrt(min(half, 1.0)))) * 60.0
