"""Which figure wins where the two open tables differ, and what is said about it.

Measured on 10,170 shared entries: OpenNGC's galaxies follow the D25 diameters of the
handbooks, the other list's are often infrared ones; OpenNGC's open clusters are cores;
its nebulae often carry the diameter of the cluster inside.
"""

from assets.build.targets.open_ngc import SOURCE
from assets.build.targets.rows import Row
from assets.build.targets.sky_lists import Listed
from core.catalogue.target import TargetKind

__all__ = ["settle", "take_size"]

#: A nebula whose two diameters differ by more than this has a size in dispute.
_CONFLICT = 1.5
_CLUSTERS = {TargetKind.OPEN_CLUSTER, TargetKind.GLOBULAR_CLUSTER}
#: Galaxies of 4' and more whose OpenNGC diameter is a third too small (NGC 3256, with its
#: tidal tails, is left alone, and NGC 205, whose diameter NGC 2000.0 confirms).
_GALAXIES_TOO_SMALL = {
    "ESO 351-030", "ESO 356-004", "NGC 147", "NGC 404", "NGC 2366", "NGC 3338",
    "NGC 3556", "NGC 4274", "NGC 4330", "NGC 4736", "NGC 5248", "NGC 5364", "NGC 6384", "IC 356",
}  # fmt: skip
#: How much larger the other list's diameter may be and still be the same object's.
_SAME_NEBULA, _SAME_CLUSTER = 2.5, 8.0


def take_size(row: Row, entry: Listed) -> None:
    """Let an entry add what its row lacks, and correct it where it is known to be better."""
    nebula = row.kind in (TargetKind.BRIGHT_NEBULA, TargetKind.PLANETARY_NEBULA)
    if row.magnitude is None and entry.magnitude is not None and not nebula:
        row.magnitude, row.band = entry.magnitude, "V"
    if row.mixed and entry.kind is TargetKind.OPEN_CLUSTER:
        row.kind = TargetKind.OPEN_CLUSTER
    if entry.major_arcmin is None:
        return
    if row.kind is TargetKind.OTHER and entry.kind is TargetKind.BRIGHT_NEBULA:
        _believe(row, entry)
    elif row.major_arcmin is None:
        _adopt(row, entry, "size from the open list")
    elif row.kind in _CLUSTERS and entry.kind in _CLUSTERS:
        if 1.0 < entry.major_arcmin / row.major_arcmin <= _SAME_CLUSTER:
            _adopt(row, entry, "the larger of two diameters")
    elif row.kind is TargetKind.GALAXY:
        if any(alias in _GALAXIES_TOO_SMALL for alias in row.aliases):
            _adopt(row, entry, "size from the open list")
    else:
        _weigh(row, entry)


def _believe(row: Row, entry: Listed) -> None:
    """Take a nebula from the lists where OpenNGC has a star or nothing at that number."""
    row.kind, row.ra_deg, row.dec_deg = entry.kind, entry.ra_deg, entry.dec_deg
    row.major_arcmin, row.minor_arcmin = entry.major_arcmin, entry.minor_arcmin
    row.magnitude, row.band, row.names = None, "", []
    row.source, row.status = "open list; OpenNGC has no nebula there", "partly"


def _adopt(row: Row, entry: Listed, note: str) -> None:
    """Take over an entry's diameters; the angle stays only with an elongated shape."""
    row.major_arcmin, row.minor_arcmin = entry.major_arcmin, entry.minor_arcmin
    if row.kind is TargetKind.GLOBULAR_CLUSTER:
        row.minor_arcmin = row.major_arcmin
    row.note = note


def _weigh(row: Row, entry: Listed) -> None:
    """Settle a nebula: the larger of two diameters within reason, flagged when they disagree."""
    if row.major_arcmin is None or entry.major_arcmin is None:
        return
    ratio = entry.major_arcmin / row.major_arcmin
    if 1.0 / _CONFLICT <= ratio <= _CONFLICT:
        if row.minor_arcmin is None and entry.minor_arcmin is not None:
            row.minor_arcmin = min(entry.minor_arcmin, row.major_arcmin)
        return
    other = row.major_arcmin
    if row.source == SOURCE and 1.0 < ratio <= (_SAME_CLUSTER if row.mixed else _SAME_NEBULA):
        _adopt(row, entry, "")
    else:
        other = entry.major_arcmin
    row.status, row.note = "partly", f"another list gives {other:g}′"


def settle(row: Row) -> None:
    """Bring a finished row in order: axes, angle, and how far the angle is trusted."""
    if row.major_arcmin is not None and row.major_arcmin <= 0.0:
        row.major_arcmin = row.minor_arcmin = None
    if row.major_arcmin is None:
        row.minor_arcmin = row.pa_deg = None
        row.angle_status = ""
        return
    if not row.minor_arcmin or row.minor_arcmin > row.major_arcmin:
        row.minor_arcmin = row.major_arcmin
    if row.minor_arcmin == row.major_arcmin:
        row.pa_deg = None  # a round shape, or one whose width is not known, points nowhere
    if row.pa_deg is not None:
        row.pa_deg %= 180.0
    if row.pa_deg is None:
        row.angle_status = ""
    elif row.pa_deg == 90.0 and row.angle_status == "catalogue":
        # 104 galaxies have exactly 90 where 58 are expected: half of them are fillers.
        row.angle_status = "unverified"
