"""Invented stars and objects that answer as the catalogues do, for exact expectations."""

from dataclasses import dataclass, field

import numpy as np

from core.catalogue.stars import Stars
from core.catalogue.target import Target, TargetKind
from core.sky.tangent_plane import separation_rad

KINDS = tuple(TargetKind)


class FewStars:
    """A star catalogue of given stars: rows of RA, Dec (degrees), V, B-V."""

    faintest = 12.0
    epoch_year = 2026.0

    def __init__(self, rows=()):
        self.rows = np.array(rows, dtype=float).reshape(-1, 4)

    def cone(self, ra_deg, dec_deg, radius_deg, *, faintest=None, year=None):
        near = _within(self.rows[:, :2], ra_deg, dec_deg, radius_deg)
        bright = self.rows[:, 2] <= (12.0 if faintest is None else faintest)
        return Stars(*self.rows[near & bright].T)


@dataclass
class FewTargets:
    """A target table of given targets."""

    targets: list[Target] = field(default_factory=list)

    def __post_init__(self):
        def column(name):
            values = [getattr(target, name) for target in self.targets]
            return np.array([np.nan if v is None else v for v in values], dtype=float)

        self.ra_deg, self.dec_deg = column("ra_deg"), column("dec_deg")
        self.major_arcmin, self.minor_arcmin = column("major_arcmin"), column("minor_arcmin")
        self.pa_deg, self.magnitude = column("pa_deg"), column("magnitude")
        kinds = [KINDS.index(target.kind) for target in self.targets]
        self.kind_code = np.array(kinds, dtype=np.uint8)
        bands = [("", "V", "B").index(target.magnitude_band) for target in self.targets]
        self.band_code = np.array(bands, dtype=np.uint8)
        self.drawn = np.ones(len(kinds), dtype=bool)
        self.rank = np.arange(len(kinds), 0, -1).astype(float)

    def __len__(self):
        return len(self.targets)

    def target(self, index):
        return self.targets[index]

    def in_cone(self, ra_deg, dec_deg, radius_deg, *, at_least_arcmin=0.0, touching=False):
        places = np.stack([self.ra_deg, self.dec_deg], axis=-1)
        reach = np.nan_to_num(self.major_arcmin, nan=0.0) / 120.0 if touching else 0.0
        near = _within(places, ra_deg, dec_deg, radius_deg + reach)
        large = np.nan_to_num(self.major_arcmin, nan=0.0) >= at_least_arcmin
        return np.flatnonzero(near & large)


def _within(places_deg, ra_deg, dec_deg, radius_deg):
    ra, dec = np.radians(places_deg).T
    apart = separation_rad(np.radians(ra_deg), np.radians(dec_deg), ra, dec)
    return apart <= np.radians(radius_deg)
