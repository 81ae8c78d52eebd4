"""How the star files are laid out, shared by the script that packs them and the reader.

The sky is cut into 180 zones of one degree of declination, zone z reaching from
``z - 90`` to ``z - 89`` degrees, and each zone into about ``360 cos(dec)`` equal bins of
right ascension: `CELLS` cells of about one square degree. Stars are sorted by tier of
magnitude, then by cell, then by magnitude, so a wide field of bright stars reads the
first tier alone.

Five files, all plain little-endian .npy:

- places, u4 a star: 14 bits of declination and 14 bits of right ascension as fractions
  of the cell (top bits first), then 4 bits that choose one of `COLOURS`;
- magnitudes, u1 a star: steps of the tier's size from the tier's bright end;
- cells, u4: the first star of every cell of every tier, and the total at the end;
- moving, u4: the stars whose proper motion is stored, ascending;
- motions, i2 a row of two: their motion east (that is, times cos dec) and north, mas/yr.

Places hold at `EPOCH_YEAR` in the ICRS. Each stored fraction decodes to the middle of
its step: 1/16384 degree of declination is 0.22 arcsec.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "BINS",
    "CELLS",
    "CELLS_FILE",
    "COLOURS",
    "DEC_SHIFT",
    "EPOCH_YEAR",
    "FAINTEST",
    "FILES",
    "FIRST_CELL",
    "FRACTIONS",
    "MAGNITUDES_FILE",
    "MOTIONS_FILE",
    "MOVING_FILE",
    "PLACES_FILE",
    "RA_SHIFT",
    "TIERS",
    "ZONES",
    "Tier",
]


class Tier(NamedTuple):
    """A range of V magnitudes and the step in which it is stored."""

    bright_mag: float
    faint_mag: float
    step_mag: float

    @property
    def table_mag(self) -> NDArray[np.float64]:
        """The V magnitude of each of the 256 stored values."""
        return np.asarray(self.bright_mag + (np.arange(256) + 0.5) * self.step_mag)


#: The year for which the places hold (Julian epoch, J2026.0).
EPOCH_YEAR = 2026.0
TIERS = (Tier(-2.0, 8.0, 0.04), Tier(8.0, 10.5, 0.02), Tier(10.5, 12.0, 0.05))
#: Every stored star is brighter than this V magnitude.
FAINTEST = TIERS[-1].faint_mag

ZONES = 180
#: Bins of right ascension in each zone, (180,).
BINS: NDArray[np.int64] = np.rint(360.0 * np.cos(np.radians(np.arange(ZONES) - 89.5))).astype(
    np.int64
)
#: Number of the first cell of each zone, and of all cells at the end, (181,).
FIRST_CELL: NDArray[np.int64] = np.concatenate([[0], np.cumsum(BINS)])
CELLS = int(FIRST_CELL[-1])

#: Steps into which a cell's width and height are divided.
FRACTIONS = 1 << 14
DEC_SHIFT = 18
RA_SHIFT = 4
#: B-V magnitudes a star's colour is rounded to.
COLOURS = (
    *(-0.20, -0.05, 0.10, 0.22, 0.33, 0.43, 0.53, 0.64),
    *(0.77, 0.91, 1.05, 1.20, 1.38, 1.60, 1.90, 2.40),
)

PLACES_FILE = "stars-places.npy"
MAGNITUDES_FILE = "stars-magnitudes.npy"
CELLS_FILE = "stars-cells.npy"
MOVING_FILE = "stars-moving.npy"
MOTIONS_FILE = "stars-motions.npy"
FILES = (PLACES_FILE, MAGNITUDES_FILE, CELLS_FILE, MOVING_FILE, MOTIONS_FILE)
