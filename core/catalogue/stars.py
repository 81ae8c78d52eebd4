"""The embedded star catalogue: every star brighter than V 12, found by cone.

Places are ICRS degrees at `StarCatalogue.epoch_year` (J2026.0), or moved to another year
by the stored proper motions (stars of 100 mas/yr and more). Parallax and radial velocity
are left out. Stored places are rounded by at most 0.26 arcsec, V by 0.025 mag, B-V by
0.09 mag for most stars.

Domain: any centre, radius 0 to 180 degrees. The files are memory-mapped: opening reads
the index alone, and a wide field that asks for bright stars reads the bright tiers alone.

Sources: Tycho-2 (Hog et al. 2000, A&A 355, L27) and Hipparcos-2 (van Leeuwen 2007);
how they were merged is told beside the files, in assets/catalogues/stars.md.
"""

import math
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from core.catalogue import star_format as fmt
from core.catalogue.star_cells import CellRuns, runs_in_cone
from core.catalogue.star_files import StarFiles, open_star_files
from core.errors import BadValueError
from core.paths import ASSETS
from core.sky.tangent_plane import unit_vectors

__all__ = ["StarCatalogue", "Stars"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Years for which places are computed: linear motion is good enough within them.
_YEARS = (1000.0, 3000.0)
#: No star moves faster (Barnard's star, 10.4 arcsec a year), degrees a year.
_FASTEST_DEG_YEAR = 10.5 / 3600.0
_MAS = math.radians(1.0 / 3.6e6)
_TABLES = tuple(tier.table_mag for tier in fmt.TIERS)
_COLOURS = np.array(fmt.COLOURS)


@dataclass(frozen=True, eq=False)
class Stars:
    """Stars of one query, each field an array (N,); ICRS degrees, V and B-V magnitudes."""

    ra_deg: Floats
    dec_deg: Floats
    v_mag: Floats
    b_v: Floats

    def __len__(self) -> int:
        return self.ra_deg.size

    @cached_property
    def vectors(self) -> Floats:
        """Unit vectors (3, N), computed when first asked for."""
        return unit_vectors(np.radians(self.ra_deg), np.radians(self.dec_deg))


@dataclass(frozen=True, eq=False)
class StarCatalogue:
    """The star files, opened; make one with `StarCatalogue.open`."""

    files: StarFiles
    epoch_year: float = fmt.EPOCH_YEAR
    #: V magnitude to which the catalogue goes.
    faintest: float = fmt.FAINTEST

    @classmethod
    def open(cls, folder: Path = ASSETS / "catalogues") -> "StarCatalogue":
        """Open the star files.

        Raises
        ------
        CatalogueError
            When a file is missing, cut short or not what it should be.
        """
        return cls(open_star_files(folder))

    @property
    def size(self) -> int:
        """Number of stars."""
        return self.files.places.size

    def cone(
        self,
        ra_deg: float,
        dec_deg: float,
        radius_deg: float,
        *,
        faintest: float | None = None,
        year: float | None = None,
    ) -> Stars:
        """Find the stars within a radius of a place.

        Parameters
        ----------
        ra_deg, dec_deg : float
            Centre, ICRS degrees; any right ascension is wrapped.
        radius_deg : float
            0 to 180; stars on the edge are inside.
        faintest : float, optional
            V magnitude of the faintest star wanted (itself included); all when left out.
        year : float, optional
            Julian year to which the places are moved; `epoch_year` when left out.

        Returns
        -------
        Stars
            In no promised order.

        Raises
        ------
        BadValueError
            When a value is not a number or outside its range.
        """
        _check_cone(ra_deg, dec_deg, radius_deg)
        limit = fmt.FAINTEST if faintest is None else _finite("limiting magnitude", faintest)
        years = 0.0 if year is None else _checked_year(year) - self.epoch_year
        ra_deg %= 360.0
        reach_deg = min(radius_deg + abs(years) * _FASTEST_DEG_YEAR, 180.0)
        runs = runs_in_cone(ra_deg, dec_deg, reach_deg)
        parts = [
            self._tier(number, runs, limit, years)
            for number, tier in enumerate(fmt.TIERS)
            if tier.bright_mag <= limit
        ]
        ra, dec, v_mag, b_v = (
            np.concatenate([part[row] for part in parts] or [np.empty(0)]) for row in range(4)
        )
        inside = _within(ra, dec, (ra_deg, dec_deg, radius_deg))
        return Stars(ra[inside], dec[inside], v_mag[inside], b_v[inside])

    def _tier(
        self, number: int, runs: CellRuns, limit: float, years: float
    ) -> tuple[Floats, Floats, Floats, Floats]:
        """Unpack the stars of one tier in runs of cells: RA, Dec, V, B-V."""
        files, shift = self.files, number * fmt.CELLS
        begin = files.cells[runs.start + shift].astype(np.int64)
        end = files.cells[runs.stop + shift].astype(np.int64)
        spans = list(zip(begin.tolist(), end.tolist(), strict=True))
        places = np.concatenate([files.places[a:b] for a, b in spans])
        steps = np.concatenate([files.magnitudes[a:b] for a, b in spans])
        ra, dec = _unpacked(places, self._cells_of(runs, shift))
        if years:
            _move(ra, dec, *self._motions(begin, end), years)
        v_mag = _TABLES[number][steps]
        b_v = _COLOURS[places & 15]
        if limit < fmt.TIERS[number].faint_mag:
            bright = v_mag <= limit
            return ra[bright], dec[bright], v_mag[bright], b_v[bright]
        return ra, dec, v_mag, b_v

    def _cells_of(self, runs: CellRuns, shift: int) -> tuple[Ints, Ints, Ints]:
        """Zone and bin of every cell in the runs, and how many stars it holds."""
        lengths = runs.stop - runs.start
        cell = _ranges(runs.start, lengths)
        zone = np.repeat(runs.zone, lengths)
        held = self.files.cells[cell + (shift + 1)] - self.files.cells[cell + shift]
        return zone, cell - fmt.FIRST_CELL[zone], held

    def _motions(self, begin: Ints, end: Ints) -> tuple[Ints, NDArray[np.int16]]:
        """Positions within the joined spans of the moving stars, and their motions."""
        low = np.searchsorted(self.files.moving, begin)
        count = np.searchsorted(self.files.moving, end) - low
        rows = _ranges(low, count)
        before = np.cumsum(end - begin) - (end - begin)
        return self.files.moving[rows] + np.repeat(before - begin, count), self.files.motions[rows]


def _ranges(start: Ints, lengths: Ints) -> Ints:
    """Join the ranges start..start + length."""
    before = np.cumsum(lengths) - lengths
    return np.asarray(np.repeat(start - before, lengths) + np.arange(int(lengths.sum())))


def _unpacked(places: NDArray[np.uint32], cells: tuple[Ints, Ints, Ints]) -> tuple[Floats, Floats]:
    """RA and Dec in degrees of packed places that lie in the given cells."""
    zone, ra_bin, held = cells
    width = 360.0 / fmt.BINS[zone]
    middle = 0.5 / fmt.FRACTIONS
    dec: Floats = np.repeat(zone - (90.0 - middle), held)
    dec += (places >> fmt.DEC_SHIFT) * (1.0 / fmt.FRACTIONS)
    ra: Floats = np.repeat(width * (1.0 / fmt.FRACTIONS), held)
    ra *= (places >> fmt.RA_SHIFT) & (fmt.FRACTIONS - 1)
    ra += np.repeat((ra_bin + middle) * width, held)
    return ra, dec


def _move(ra: Floats, dec: Floats, rows: Ints, motions: NDArray[np.int16], years: float) -> None:
    """Carry the moving stars along their motion, in place, by a step of the unit vector."""
    east, north = motions.T * (years * _MAS)
    d = np.radians(dec[rows])
    outward = np.cos(d) - north * np.sin(d)
    turned = (ra[rows] + np.degrees(np.arctan2(east, outward))) % 360.0
    ra[rows] = np.where(turned < 360.0, turned, 0.0)
    height = np.sin(d) + north * np.cos(d)
    dec[rows] = np.degrees(np.arctan2(height, np.hypot(outward, east)))


def _within(ra_deg: Floats, dec_deg: Floats, cone: tuple[float, float, float]) -> NDArray[np.bool_]:
    """Tell which places lie in a cone, by haversines (exact for tiny cones as for wide)."""
    ra0, dec0, radius_deg = cone
    if radius_deg >= 180.0:
        return np.ones(ra_deg.size, dtype=bool)
    half = math.radians(0.5)
    scale = math.cos(math.radians(dec0)) * np.cos(dec_deg * (2.0 * half))
    measure = np.sin((dec_deg - dec0) * half) ** 2 + scale * np.sin((ra_deg - ra0) * half) ** 2
    return np.asarray(measure <= math.sin(radius_deg * half) ** 2)


def _check_cone(ra_deg: float, dec_deg: float, radius_deg: float) -> None:
    """Refuse a cone that is not on the sky."""
    _finite("right ascension", ra_deg)
    if not -90.0 <= dec_deg <= 90.0:
        raise BadValueError("declination", dec_deg, "must lie between -90 and +90 degrees")
    if not 0.0 <= radius_deg <= 180.0:
        raise BadValueError("search radius", radius_deg, "must lie between 0 and 180 degrees")


def _checked_year(year: float) -> float:
    """Refuse a year too far for linear motion."""
    if not _YEARS[0] <= year <= _YEARS[1]:
        raise BadValueError("year", year, "must lie between 1000 and 3000")
    return year


def _finite(field: str, value: float) -> float:
    """Refuse what is not a number."""
    if not math.isfinite(value):
        raise BadValueError(field, value, "must be a number")
    return value
