"""The rows of the table while they are being merged, findable by any designation."""

from dataclasses import dataclass, field

from core.catalogue.designation import canonical, family
from core.catalogue.target import TargetKind

__all__ = ["ORDER", "Book", "Row"]

#: Which catalogue gives a row its identifier, first to last.
ORDER = (
    "M", "NGC", "IC", "Sh2", "vdB", "B", "RCW", "LDN", "LBN", "Ced", "Mel", "Cr", "H", "Simeis",
    "vdBH", "SNR G", "PN G", "PK", "ACO", "Abell", "C", "HCG", "ESO", "UGC", "UGCA", "PGC", "MCG",
    "Arp", "VV",
)  # fmt: skip


@dataclass
class Row:
    """One object: facts, how sure they are, and every way to call it."""

    ident: str
    kind: TargetKind
    ra_deg: float
    dec_deg: float
    source: str
    major_arcmin: float | None = None
    minor_arcmin: float | None = None
    pa_deg: float | None = None
    magnitude: float | None = None
    band: str = ""
    status: str = "catalogue"
    angle_status: str = "catalogue"
    names: list[str] = field(default_factory=list)
    nicknames: list[str] = field(default_factory=list)
    aliases: list[str] = field(default_factory=list)
    members: list[str] = field(default_factory=list)
    note: str = ""
    fixed_ident: bool = False
    #: True where OpenNGC classed it a cluster with nebulosity: either may be meant.
    mixed: bool = False

    def families(self) -> set[str]:
        """Give the catalogues this row is listed in."""
        return {family(alias) for alias in self.aliases}


class Book:
    """Rows with an index of their designations; the first row to claim one keeps it."""

    def __init__(self) -> None:
        self.rows: list[Row] = []
        self._by_alias: dict[str, Row] = {}

    def add(self, row: Row) -> Row:
        """Put a row into the book and claim its designations."""
        self.rows.append(row)
        for alias in [row.ident, *row.aliases]:
            self.claim(row, alias)
        return row

    def claim(self, row: Row, alias: str, *, by_force: bool = False) -> None:
        """Let a row be found by a designation, unless another row has it already."""
        spelled = canonical(alias) or alias
        holder = self._by_alias.get(spelled)
        if holder is not None and holder is not row:
            if not by_force:
                return
            self._lose(holder, spelled)
        self._by_alias[spelled] = row
        if spelled not in row.aliases:
            row.aliases.append(spelled)

    def _lose(self, row: Row, alias: str) -> None:
        """Take a designation from a row; a row that had no other is gone."""
        row.aliases.remove(alias)
        if not row.aliases:
            self.rows.remove(row)
        elif row.ident == alias:
            row.ident = row.aliases[0]

    def get(self, designation: str) -> Row | None:
        """Find a row by a designation in any spelling."""
        return self._by_alias.get(canonical(designation) or designation)

    def settle_identifiers(self) -> None:
        """Give every row the identifier of its foremost catalogue."""
        place = {name: index for index, name in enumerate(ORDER)}
        for row in self.rows:
            if not row.fixed_ident:
                row.ident = min(
                    [row.ident, *row.aliases], key=lambda a: (place.get(family(a), 99), len(a), a)
                )
            row.aliases = [row.ident, *(a for a in row.aliases if a != row.ident)]
