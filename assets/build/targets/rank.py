"""How much an object is asked for: which label is drawn first, which name is offered first.

A sum of points for fame (Messier, Caldwell, a name of its own), size and brightness;
our own weighting, common practice for labels on charts.
"""

import math
from dataclasses import dataclass

from assets.build.targets.rows import Row
from core.catalogue.target import TargetKind

__all__ = ["Fame", "rank"]

_FAMILY_POINTS = {
    "M": 6.0, "C": 3.0, "NGC": 1.0, "IC": 0.5, "Sh2": 1.0, "B": 0.5, "vdB": 0.5, "LBN": -2.5,
    "LDN": -1.0,
}  # fmt: skip
_KIND_POINTS = {
    TargetKind.SCENE: 5.0, TargetKind.BRIGHT_NEBULA: 2.5, TargetKind.SUPERNOVA_REMNANT: 2.0,
    TargetKind.DARK_NEBULA: -0.5, TargetKind.GALAXY_CLUSTER: -3.0, TargetKind.OTHER: -5.0,
}  # fmt: skip
_FAINT = 14.0
#: Most remnants with no other number are seen by radio telescopes only.
_RADIO_ONLY = 2.0
_FAMOUS_POINTS, _SHOWN_POINTS, _NAME_POINTS = 7.0, 4.0, 1.5


def rank(row: Row, *, shown: bool, famous: bool) -> float:
    """Points of a row; `shown`: people use its name; `famous`: everybody photographs it."""
    points = max((_FAMILY_POINTS.get(name, 0.0) for name in row.families()), default=0.0)
    points += _KIND_POINTS.get(row.kind, 0.0)
    if row.families() == {"SNR G"} and not shown:
        points -= _RADIO_ONLY
    points += _SHOWN_POINTS if shown else _NAME_POINTS if row.names else 0.0
    points += _FAMOUS_POINTS if famous else 0.0
    if row.kind is TargetKind.STAR:
        return round(points + 4.0 - (row.magnitude or _FAINT) * 1.2, 3)
    if row.major_arcmin:
        points += 1.0 + 0.5 * min(math.log2(max(row.major_arcmin, 0.25)), 7.0)
    if row.magnitude is not None:
        points += 0.25 * max(_FAINT - row.magnitude, 0.0)
    return round(points, 3)


@dataclass(frozen=True)
class Fame:
    """Which rows (by identity) have a name that people use, and which are famous."""

    shown: frozenset[int]
    famous: frozenset[int]

    def rank(self, row: Row) -> float:
        """Points of a row."""
        return rank(row, shown=id(row) in self.shown, famous=id(row) in self.famous)
