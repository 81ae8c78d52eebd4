"""Make assets/pictures/glow.npy: how densely faint stars stand over the sky, smoothed.

Run from the top folder: ``python -m assets.build.build_glow``. Needs the embedded star
file and numpy alone. The result is a (180, 360) uint8 map as `core.pictures.chart_glow`
describes; the note beside it says what it may be used for.
"""

import hashlib
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from core.catalogue.stars import StarCatalogue
from core.paths import ASSETS

__all__ = ["density_map", "main"]

Floats = NDArray[np.float64]

#: Stars counted: faint enough to follow the Milky Way, bright enough to be complete.
_BRIGHT_V, _FAINT_V = 7.0, 11.5
_BINS_PER_DEG = 2
_SMOOTH_DEG = 1.3
#: Share of the sky that is darker than the floor, and denser than the ceiling.
_FLOOR_PERCENT, _CEILING_PERCENT = 30.0, 99.8
_CONTRAST = 1.25


def density_map(ra_deg: Floats, dec_deg: Floats) -> Floats:
    """Count stars per square degree, smoothed on the sphere, (180, 360)."""
    rows, columns = 180 * _BINS_PER_DEG, 360 * _BINS_PER_DEG
    counts, _, _ = np.histogram2d(
        dec_deg, ra_deg % 360.0, bins=(rows, columns), range=((-90, 90), (0, 360))
    )
    edges = np.radians(np.linspace(-90, 90, rows + 1))
    row_deg2 = np.diff(np.sin(edges)) * np.degrees(1.0) / _BINS_PER_DEG
    areas = np.repeat(row_deg2[:, None], columns, axis=1)
    fine = _smooth(counts) / _smooth(areas)
    shape = (180, _BINS_PER_DEG, 360, _BINS_PER_DEG)
    return np.asarray(fine.reshape(shape).mean(axis=(1, 3)))


def _smooth(values: Floats) -> Floats:
    """Blur along right ascension as wide as the row's circle asks, then across the rows."""
    rows, columns = values.shape
    dec = np.radians((np.arange(rows) + 0.5) / _BINS_PER_DEG - 90.0)
    sigma = np.radians(_SMOOTH_DEG) / np.cos(dec)
    waves = np.fft.rfftfreq(columns, 1.0 / columns)
    damp = np.exp(-0.5 * (waves * sigma[:, None]) ** 2)
    turned = np.fft.irfft(np.fft.rfft(values, axis=1) * damp, columns, axis=1)
    over = np.roll(turned, columns // 2, axis=1)
    reach = int(4 * _SMOOTH_DEG * _BINS_PER_DEG)
    tall = np.concatenate([over[:reach][::-1], turned, over[-reach:][::-1]])
    steps = np.arange(-reach, reach + 1) / (_BINS_PER_DEG * _SMOOTH_DEG)
    kernel = np.exp(-0.5 * steps**2)
    kernel /= kernel.sum()
    return np.asarray(sum(k * tall[i : i + rows] for i, k in enumerate(kernel)))


def main(path: Path = ASSETS / "pictures" / "glow.npy") -> None:
    """Write the map and print what the note beside it states."""
    catalogue = StarCatalogue.open()
    stars = catalogue.cone(0.0, 0.0, 180.0, faintest=_FAINT_V)
    faint = stars.v_mag > _BRIGHT_V
    density = density_map(stars.ra_deg[faint], stars.dec_deg[faint])
    floor, ceiling = np.percentile(density, (_FLOOR_PERCENT, _CEILING_PERCENT))
    share = np.clip((density - floor) / (ceiling - floor), 0.0, 1.0) ** _CONTRAST
    stored = np.rint(np.sqrt(share) * 255.0).astype(np.uint8)
    np.save(path, stored, allow_pickle=False)
    print(f"{faint.sum()} stars, floor {floor:.1f}, ceiling {ceiling:.1f} per square degree")
    print(f"sha256 {hashlib.sha256(path.read_bytes()).hexdigest()}, {path.stat().st_size} bytes")


if __name__ == "__main__":
    main()
