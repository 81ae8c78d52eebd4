"""Pack the merged stars into the files that `core.catalogue.star_format` describes."""

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from assets.build.stars_sources import Ints, StarRows
from core.catalogue import star_format as fmt

__all__ = ["MOVING_MAS_YR", "pack"]

#: Slower stars move less than an arcsecond in ten years: their motion is left out.
MOVING_MAS_YR = 100.0


def pack(stars: StarRows, folder: Path) -> StarRows:
    """Write the files and return the stars in the order of the files, unrounded."""
    stars = stars.take(stars.v_mag < fmt.FAINTEST)
    tier = np.searchsorted([tier.faint_mag for tier in fmt.TIERS], stars.v_mag, side="right")
    zone, ra_bin, dec_part, ra_part = _cell_and_parts(stars)
    slot = tier * fmt.CELLS + fmt.FIRST_CELL[zone] + ra_bin
    order = np.lexsort((stars.v_mag, slot))
    stars, slot, tier = stars.take(order), slot[order], tier[order]
    places = (
        (dec_part[order] << fmt.DEC_SHIFT) | (ra_part[order] << fmt.RA_SHIFT) | _colour_class(stars)
    )
    cells = np.searchsorted(slot, np.arange(len(fmt.TIERS) * fmt.CELLS + 1))
    moving = np.flatnonzero(np.hypot(stars.pm_ra, stars.pm_dec) >= MOVING_MAS_YR)
    motions = np.rint(np.stack([stars.pm_ra[moving], stars.pm_dec[moving]], axis=1))
    folder.mkdir(parents=True, exist_ok=True)
    np.save(folder / fmt.PLACES_FILE, places.astype("<u4"), allow_pickle=False)
    np.save(folder / fmt.MAGNITUDES_FILE, _steps(stars, tier), allow_pickle=False)
    np.save(folder / fmt.CELLS_FILE, cells.astype("<u4"), allow_pickle=False)
    np.save(folder / fmt.MOVING_FILE, moving.astype("<u4"), allow_pickle=False)
    np.save(folder / fmt.MOTIONS_FILE, motions.astype("<i2"), allow_pickle=False)
    return stars


def _cell_and_parts(stars: StarRows) -> tuple[Ints, Ints, Ints, Ints]:
    """Zone, bin of right ascension, and the fractions of the cell in Dec and RA."""
    height = stars.dec_deg + 90.0
    zone = np.clip(np.floor(height).astype(np.int64), 0, fmt.ZONES - 1)
    across = stars.ra_deg / 360.0 * fmt.BINS[zone]
    ra_bin = np.clip(np.floor(across).astype(np.int64), 0, fmt.BINS[zone] - 1)
    return zone, ra_bin, _part(height - zone), _part(across - ra_bin)


def _part(fraction: NDArray[np.float64]) -> Ints:
    """Give the number of the step that holds a fraction of a cell."""
    return np.clip(np.floor(fraction * fmt.FRACTIONS), 0, fmt.FRACTIONS - 1).astype(np.int64)


def _colour_class(stars: StarRows) -> Ints:
    """Give the number of the nearest stored colour."""
    colours = np.array(fmt.COLOURS)
    return np.searchsorted((colours[1:] + colours[:-1]) / 2.0, stars.b_v)


def _steps(stars: StarRows, tier: Ints) -> NDArray[np.uint8]:
    """Count the magnitude steps from the bright end of the star's tier."""
    bright = np.array([tier.bright_mag for tier in fmt.TIERS])[tier]
    step = np.array([tier.step_mag for tier in fmt.TIERS])[tier]
    return np.asarray(np.floor((stars.v_mag - bright) / step + 1e-9), dtype=np.uint8)
