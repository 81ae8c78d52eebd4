"""Write the table: numbers as one structured array, words as one text file.

`core.catalogue.targets_format` names the columns of both and reads them back.
"""

import json
from pathlib import Path

import numpy as np

from assets.build.targets.rank import Fame
from assets.build.targets.rows import Row
from core.catalogue.designation import key
from core.catalogue.target import TargetKind
from core.catalogue.targets_format import ANGLE_STATUSES, BANDS, FIELDS, NUMBERS, STATUSES, WORDS

__all__ = ["write_table"]

_KINDS = tuple(TargetKind)


def write_table(rows: list[Row], fame: Fame, folder: Path) -> None:
    """Write both files, the first-ranked rows first."""
    points = {id(row): fame.rank(row) for row in rows}
    rows = sorted(rows, key=lambda row: (-points[id(row)], row.ident))
    sources = sorted({_source(row) for row in rows})
    numbers = np.zeros(len(rows), FIELDS)
    for place, row in enumerate(rows):
        numbers[place] = _numbers(row, points[id(row)], sources.index(_source(row)))
    np.save(folder / NUMBERS, numbers, allow_pickle=False)
    lines = [json.dumps(sources, ensure_ascii=False), *(_words(row) for row in rows)]
    (folder / WORDS).write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def _numbers(row: Row, points: float, source: int) -> tuple[float, ...]:
    """Give the numeric columns of a row, in the order of `FIELDS`."""
    gaps = [row.major_arcmin, row.minor_arcmin, row.pa_deg, row.magnitude]
    figures = [np.nan if figure is None else round(figure, 3) for figure in gaps]
    return (
        round(row.ra_deg, 6), round(row.dec_deg, 6), *figures, points, source,
        _KINDS.index(row.kind), STATUSES.index(row.status),
        ANGLE_STATUSES.index(row.angle_status), BANDS.index(row.band),
        row.kind is not TargetKind.OTHER or "M" in row.families(),
    )  # fmt: skip


def _words(row: Row) -> str:
    """Give the words of a row: designations, names, nicknames, members."""
    known = {key(name) for name in row.names}
    nicknames = [name for name in dict.fromkeys(row.nicknames) if key(name) not in known]
    parts = ["|".join(words) for words in (row.aliases, row.names, nicknames, row.members)]
    if any("\t" in part or "\n" in part for part in parts):
        raise ValueError(f"{row.ident}: a name holds a tab or a line break")
    return "\t".join(parts)


def _source(row: Row) -> str:
    """Where a row comes from, with what was decided on it."""
    return f"{row.source}; {row.note}" if row.note else row.source
