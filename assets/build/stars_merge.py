"""Merge Tycho-2 and Hipparcos-2 into one list of stars at the epoch of the file.

Places move by proper motion along great circles; parallax and radial velocity are left
out. Degrees, mas/yr, magnitudes.

Sources: Tycho-2 ReadMe, note 7 (V and B-V). The step from Hp to V is a fit of our own to
the stars that both catalogues hold (median absolute residual 0.011 mag).
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from assets.build.stars_sources import Floats, Hipparcos, Ints, StarRows
from core.catalogue.star_format import EPOCH_YEAR

__all__ = ["Merged", "merge", "moved", "separation_arcsec"]

#: V - Hp as a polynomial in B-V, highest power first.
_V_MINUS_HP = (-0.0189, 0.0887, 0.0221, -0.2299, -0.0118)
#: Rows closer than this are one star on any picture.
_PAIR_ARCSEC = 0.8
#: Brighter than this Hipparcos measured better than the star mapper.
_HIPPARCOS_MAG = 7.5
#: B-V of the few stars without a measured colour, the median of the list.
_TYPICAL_B_V = 0.66
#: Sirius was too bright for Hp to hold; V as the Hipparcos main catalogue prints it
#: (ESA 1997, SP-1200, field H5), from ground-based photometry.
_PUBLISHED_V = {32349: -1.44}
_MAS = np.radians(1.0 / 3.6e6)


@dataclass
class Merged:
    """The merged stars at `EPOCH_YEAR`, and what was counted on the way."""

    stars: StarRows
    counts: dict[str, int] = field(default_factory=dict)


def merge(tycho: StarRows, hipparcos: Hipparcos) -> Merged:
    """Repair motions, bring all to one epoch, fold close pairs, prefer Hipparcos."""
    out = Merged(tycho, {"rows read": tycho.hip.size})
    no_motion = np.isnan(tycho.pm_ra)
    match = hipparcos.row_of[tycho.hip]
    repaired = no_motion & (match >= 0)
    tycho.pm_ra[repaired] = hipparcos.pm_ra[match[repaired]]
    tycho.pm_dec[repaired] = hipparcos.pm_dec[match[repaired]]
    out.counts["motions taken from Hipparcos"] = int(repaired.sum())
    _johnson_from_hp(tycho, hipparcos, match)
    _move_to_epoch(tycho)
    kept = _folded(tycho, out.counts, "close pairs folded")
    stars = tycho.take(kept)
    _prefer_hipparcos(stars, hipparcos, no_motion[kept], out.counts)
    stars = stars.take(_folded(stars, out.counts, "pairs folded after that"))
    out.counts["stars"] = stars.hip.size
    out.counts["without proper motion"] = int(np.isnan(stars.pm_ra).sum())
    out.counts["without colour"] = int(np.isnan(stars.b_v).sum())
    stars.b_v[np.isnan(stars.b_v)] = _TYPICAL_B_V
    out.stars = stars
    return out


def moved(
    ra_deg: Floats, dec_deg: Floats, pm_ra: Floats, pm_dec: Floats, years: Floats | float
) -> tuple[Floats, Floats]:
    """Carry places along their proper motion; a motion of NaN stands still."""
    ra, dec = np.radians(ra_deg), np.radians(dec_deg)
    east = np.nan_to_num(pm_ra) * years * _MAS
    north = np.nan_to_num(pm_dec) * years * _MAS
    out_from_axis = np.cos(dec) - north * np.sin(dec)
    z = np.sin(dec) + north * np.cos(dec)
    new_ra = np.degrees(ra + np.arctan2(east, out_from_axis)) % 360.0
    return new_ra, np.degrees(np.arctan2(z, np.hypot(out_from_axis, east)))


def separation_arcsec(ra1: Floats, dec1: Floats, ra2: Floats, dec2: Floats) -> Floats:
    """Angle between places given in degrees, by the haversine (exact for near pairs)."""
    dec_turn, ra_turn = np.radians(dec2 - dec1) / 2.0, np.radians(ra2 - ra1) / 2.0
    along = np.cos(np.radians(dec1)) * np.cos(np.radians(dec2)) * np.sin(ra_turn) ** 2
    return np.asarray(np.degrees(2.0 * np.arcsin(np.sqrt(np.sin(dec_turn) ** 2 + along))) * 3600.0)


def _johnson_from_hp(rows: StarRows, hipparcos: Hipparcos, match: Ints) -> None:
    """Turn the Hp magnitudes that supplement 1 prints into V."""
    known = rows.is_hp & (match >= 0)
    rows.b_v[known] = hipparcos.b_v[match[known]]
    colour = np.where(np.isnan(rows.b_v), _TYPICAL_B_V, rows.b_v)
    rows.v_mag[rows.is_hp] += _v_minus_hp(colour[rows.is_hp])


def _v_minus_hp(b_v: Floats) -> Floats:
    """V - Hp of a colour, held at the ends of the fit."""
    return np.asarray(np.polyval(_V_MINUS_HP, np.clip(b_v, -0.4, 3.0)))


def _move_to_epoch(rows: StarRows) -> None:
    """Bring every row to the epoch of the file."""
    rows.ra_deg, rows.dec_deg = moved(
        rows.ra_deg, rows.dec_deg, rows.pm_ra, rows.pm_dec, EPOCH_YEAR - rows.epoch_year
    )
    rows.epoch_year[:] = EPOCH_YEAR


def _prefer_hipparcos(
    stars: StarRows, hipparcos: Hipparcos, no_motion: NDArray[np.bool_], counts: dict[str, int]
) -> None:
    """Take place, motion and (if bright) photometry from Hipparcos where it is the better."""
    match = hipparcos.row_of[stars.hip]
    alone = np.bincount(stars.hip, minlength=200_000)[stars.hip] == 1
    photometry = alone & (match >= 0) & ((stars.v_mag < _HIPPARCOS_MAG) | stars.is_hp)
    chosen = photometry | (alone & (match >= 0) & no_motion)
    rows = match[chosen]
    stars.pm_ra[chosen], stars.pm_dec[chosen] = hipparcos.pm_ra[rows], hipparcos.pm_dec[rows]
    stars.ra_deg[chosen], stars.dec_deg[chosen] = moved(
        hipparcos.ra_deg[rows],
        hipparcos.dec_deg[rows],
        hipparcos.pm_ra[rows],
        hipparcos.pm_dec[rows],
        EPOCH_YEAR - 1991.25,
    )
    rows = match[photometry]
    stars.b_v[photometry] = hipparcos.b_v[rows]
    stars.v_mag[photometry] = hipparcos.hp_mag[rows] + _v_minus_hp(hipparcos.b_v[rows])
    for number, v_mag in _PUBLISHED_V.items():
        stars.v_mag[stars.hip == number] = v_mag
    counts["places taken from Hipparcos"] = int(chosen.sum())
    counts["magnitudes taken from Hipparcos"] = int(photometry.sum())


def _folded(rows: StarRows, counts: dict[str, int], title: str) -> Ints:
    """Sum the light of close pairs into their brighter row; return the rows that stay."""
    first, second = _close_pairs(rows)
    swap = rows.v_mag[second] < rows.v_mag[first]
    bright, faint = np.where(swap, second, first), np.where(swap, first, second)
    stays = np.ones(rows.hip.size, dtype=bool)
    folded = 0
    for keep, drop in zip(bright.tolist(), faint.tolist(), strict=True):
        if stays[keep] and stays[drop]:
            _add_light(rows, keep, drop)
            stays[drop] = False
            folded += 1
    counts[title] = folded
    return np.flatnonzero(stays)


def _add_light(rows: StarRows, keep: int, drop: int) -> None:
    """Give the row that stays the light of both, and the other's number if it has none."""
    v_light = 10.0 ** (-0.4 * rows.v_mag[[keep, drop]])
    b_light = v_light * 10.0 ** (-0.4 * rows.b_v[[keep, drop]])
    rows.v_mag[keep] = -2.5 * np.log10(v_light.sum())
    if np.isfinite(b_light).all():
        rows.b_v[keep] = -2.5 * np.log10(b_light.sum() / v_light.sum())
    elif np.isnan(rows.b_v[keep]):
        rows.b_v[keep] = rows.b_v[drop]
    if rows.hip[keep] == 0:
        rows.hip[keep] = rows.hip[drop]


def _close_pairs(rows: StarRows) -> tuple[Ints, Ints]:
    """All pairs of rows closer than the limit, found along sorted declination."""
    order = np.argsort(rows.dec_deg, kind="stable")
    ra, dec = rows.ra_deg[order], rows.dec_deg[order]
    none = np.empty(0, dtype=np.int64)
    firsts, seconds = [none], [none]
    for step in range(1, order.size):
        near = np.flatnonzero((dec[step:] - dec[:-step]) * 3600.0 < _PAIR_ARCSEC)
        if near.size == 0:
            break
        apart = separation_arcsec(ra[near], dec[near], ra[near + step], dec[near + step])
        near = near[apart < _PAIR_ARCSEC]
        firsts.append(order[near])
        seconds.append(order[near + step])
    return np.concatenate(firsts), np.concatenate(seconds)
