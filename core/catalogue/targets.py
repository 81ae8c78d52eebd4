"""The deep-sky table: every target by its number, by name, and by place.

Conventions: ICRS degrees, diameters in arcminutes, NaN in the columns where a figure
is not known. Rows stand in the order of their rank, the best-known object first.

The table merges OpenNGC with open lists of nebulae; `assets/catalogues/targets.md` says
what came from where, under which licence, and what was corrected.
"""

import math
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from core.catalogue.target import Target, TargetKind
from core.catalogue.targets_format import ANGLE_STATUSES, BANDS, STATUSES, Stored, read_stored
from core.errors import UnknownTargetError
from core.paths import ASSETS
from core.sky.tangent_plane import unit_vectors

if TYPE_CHECKING:
    from core.catalogue.search import NameIndex

__all__ = ["Suggestion", "TargetTable"]

_KINDS = tuple(TargetKind)
_NEAR_MISSES = 3


@dataclass(frozen=True)
class Suggestion:
    """One answer to a text that is being typed.

    Parameters
    ----------
    target : Target
    matched : str
        The name or designation that the text fits.
    score : float
        How well, 0 to 100; 100 is the exact name.
    """

    target: Target
    matched: str
    score: float


class TargetTable:
    """The whole table; made by `load`.

    Attributes
    ----------
    ra_deg, dec_deg : (N,) float64 arrays
    major_arcmin, minor_arcmin, pa_deg, magnitude : (N,) float32 arrays
        NaN where not known.
    kind_code : (N,) uint8 array
        Index into ``tuple(TargetKind)``.
    rank : (N,) float32 array
        Larger is labelled first; falls along the table.
    band_code : (N,) uint8 array
        Index into the bands of `magnitude`: not told, V, B.
    drawn : (N,) bool array
        False for entries with nothing there to draw.
    """

    def __init__(self, stored: Stored) -> None:
        self._stored = stored
        numbers = stored.numbers
        self.ra_deg: NDArray[np.float64] = np.ascontiguousarray(numbers["ra_deg"])
        self.dec_deg: NDArray[np.float64] = np.ascontiguousarray(numbers["dec_deg"])
        self.major_arcmin: NDArray[np.float32] = np.ascontiguousarray(numbers["major_arcmin"])
        self.minor_arcmin: NDArray[np.float32] = np.ascontiguousarray(numbers["minor_arcmin"])
        self.pa_deg: NDArray[np.float32] = np.ascontiguousarray(numbers["pa_deg"])
        self.magnitude: NDArray[np.float32] = np.ascontiguousarray(numbers["magnitude"])
        self.kind_code: NDArray[np.uint8] = np.ascontiguousarray(numbers["kind_code"])
        self.rank: NDArray[np.float32] = np.ascontiguousarray(numbers["rank"])
        self.band_code: NDArray[np.uint8] = np.ascontiguousarray(numbers["band"])
        self.drawn: NDArray[np.bool_] = np.ascontiguousarray(numbers["drawn"])

    @classmethod
    def load(cls, folder: Path = ASSETS / "catalogues") -> "TargetTable":
        """Read the table from its folder.

        Raises
        ------
        CatalogueError
            When it is missing or damaged.
        """
        return cls(read_stored(folder, kinds=len(_KINDS)))

    def __len__(self) -> int:
        return self.ra_deg.size

    def target(self, index: int) -> Target:
        """Give one row as a target."""
        numbers = self._stored.numbers[index]
        fields = self._stored.lines[index].split("\t")
        aliases, names, nicknames, members = map(_parts, fields)
        return Target(
            id=aliases[0],
            name=names[0] if names else aliases[0],
            kind=_KINDS[int(numbers["kind_code"])],
            ra_deg=float(numbers["ra_deg"]),
            dec_deg=float(numbers["dec_deg"]),
            major_arcmin=_figure(numbers["major_arcmin"]),
            minor_arcmin=_figure(numbers["minor_arcmin"]),
            pa_deg=_figure(numbers["pa_deg"]),
            magnitude=_figure(numbers["magnitude"]),
            magnitude_band=BANDS[int(numbers["band"])],
            status=STATUSES[int(numbers["status"])],
            source=self._stored.sources[int(numbers["source"])],
            aliases=aliases,
            common_names=names + nicknames,
            members=members,
            angle_status=ANGLE_STATUSES[int(numbers["angle_status"])],
        )

    def with_id(self, target_id: str) -> Target | None:
        """Give the target of exactly this id; None where there is none.

        Much cheaper than `find` before the index of names is built.
        """
        starts = (f"{target_id}|", f"{target_id}\t")
        for row, line in enumerate(self._stored.lines):
            if line.startswith(starts):
                return self.target(row)
        return None

    def find(self, text: str) -> Target:
        """Find the target that a name or designation means, however it is spelled.

        One slip of the keyboard is forgiven in a name of five letters, two in a name of
        eight, if only one target fits. Numbers are never guessed.

        Raises
        ------
        UnknownTargetError
            With the names that come close, best first.
        """
        row = self._names.exactly(text)
        if row is None:
            row = self._names.forgivingly(text)
        if row is None:
            raise UnknownTargetError(text.strip(), self._near_misses(text))
        return self.target(row)

    def suggest(self, text: str, *, limit: int = 8) -> list[Suggestion]:
        """Rank the targets that a text, perhaps still being typed, may mean.

        Parameters
        ----------
        text : str
        limit : int
            How many at most.

        Returns
        -------
        list of Suggestion
            Best first; empty for an empty text or one that fits nothing.
        """
        hits = self._names.suggest(text, limit=limit)
        return [Suggestion(self.target(hit.row), hit.matched, hit.score) for hit in hits]

    def in_cone(
        self,
        ra_deg: float,
        dec_deg: float,
        radius_deg: float,
        *,
        at_least_arcmin: float = 0.0,
        touching: bool = False,
    ) -> NDArray[np.intp]:
        """Find the rows in a circle on the sky.

        Parameters
        ----------
        ra_deg, dec_deg : float
            Its centre.
        radius_deg : float
            0 to 180 degrees.
        at_least_arcmin : float
            Leave out what is smaller, or of unknown size; 0 keeps everything.
        touching : bool
            Count an object also when only its edge may reach into the circle.

        Returns
        -------
        (K,) int array
            Row numbers, the best-known first.
        """
        centre = unit_vectors(np.array([math.radians(ra_deg)]), np.array([math.radians(dec_deg)]))
        cosines = centre[:, 0] @ self._vectors
        if touching:
            reach = np.nan_to_num(self.major_arcmin.astype(np.float64)) / 120.0 + radius_deg
            inside = cosines >= np.cos(np.radians(np.minimum(reach, 180.0))) - 1e-15
        else:
            inside = cosines >= math.cos(math.radians(radius_deg)) - 1e-15
        if at_least_arcmin > 0.0:
            inside &= self.major_arcmin >= at_least_arcmin
        return np.flatnonzero(inside)

    @cached_property
    def _names(self) -> "NameIndex":
        """Every name and designation, indexed (and the search imported) when first asked for."""
        from core.catalogue.search import NameIndex

        fields = [line.split("\t", 3) for line in self._stored.lines]
        columns = [[field[place] for field in fields] for place in range(3)]
        return NameIndex(*columns)

    @cached_property
    def _vectors(self) -> NDArray[np.float64]:
        """Unit vectors of all rows, (3, N)."""
        return unit_vectors(np.radians(self.ra_deg), np.radians(self.dec_deg))

    def _near_misses(self, text: str) -> tuple[str, ...]:
        """Names that come close to a text that nothing is called by."""
        rows = self._names.near_numbers(text, limit=_NEAR_MISSES)
        if rows:
            return tuple(self.target(row).id for row in rows)
        for part in [text, *sorted(text.split(), key=len, reverse=True)[:_NEAR_MISSES]]:
            hits = self._names.suggest(part, limit=_NEAR_MISSES)
            if hits:
                return tuple(dict.fromkeys(hit.matched for hit in hits))
        return ()


def _parts(field: str) -> tuple[str, ...]:
    """Split a field at its bars."""
    return tuple(field.split("|")) if field else ()


def _figure(value: Any) -> float | None:
    """Give a stored figure; None where it is not known."""
    figure = float(value)
    return None if math.isnan(figure) else round(figure, 3)
