"""Galaxies and globular clusters as light: tilted discs and round swarms.

Conventions: total flux 10^(-0.4 V); a B magnitude counts as V 0.8 brighter. Sizes are the
catalogue's diameters (a galaxy's at 25 mag per square arcsecond). Position angles run
from north through east at the object and are carried to the picture by the local
derivative of the projection, so that they stay right far from the middle and at a pole.
An object without a position angle is drawn round, with the area its diameters give;
one without a magnitude is not drawn, for nothing is known of its light.

Sources: a disc's 25 mag radius is 3.1 scale lengths (Freeman 1970, ApJ 160, 811: central
brightness 21.65); a globular's projected density (1 + r^2/a^2)^-2 (Plummer 1911, MNRAS
71, 460). Shares of bulge and disc are a drawing convention, not data.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from core.pictures.chart_stars import flux_of
from core.pictures.light import Raster
from core.pictures.picture import PictureFrame
from core.pictures.pyramid import Ellipses, Pyramid, Radial
from core.sky.tangent_plane import unit_vectors

if TYPE_CHECKING:
    from core.catalogue.targets import TargetTable

__all__ = ["PAINTS", "Shapes", "add_shapes", "local_axes", "shapes_in"]

Floats = NDArray[np.float64]

#: The paints, as linear red, green, blue: discs and the Milky Way; bulges.
PAINTS: Floats = np.array([[1.01, 0.99, 0.975], [1.12, 0.99, 0.78]])

#: Band code of a B magnitude, and the B-V taken off it (a usual galaxy; common practice).
_BLUE, _B_TO_V = 2, 0.8
#: The smallest axis ratio that is drawn.
_THINNEST = 0.1


def _exponential(q: Raster) -> Raster:
    """Disc: exp(-r), rounded off at the very middle."""
    return np.asarray(np.exp(-np.sqrt(q + np.float32(0.02))))


def _plummer(q: Raster) -> Raster:
    """Swarm of stars: (1 + r^2)^-2."""
    return np.asarray((1.0 + q) ** -2)


@dataclass(frozen=True)
class _Part:
    """One part of an object: its share of the flux, its size as a share of the radius."""

    globular: bool
    share: float
    paints: tuple[float, float]
    scale: float
    tilt: float
    end: float
    profile: Radial


_PARTS = (
    _Part(False, 0.8, (1.0, 0.0), 1.0 / 3.1, 1.0, 5.0, _exponential),
    _Part(False, 0.2, (0.0, 1.0), 0.05, 0.5, 7.0, _plummer),
    _Part(True, 1.0, (0.45, 0.55), 1.0 / 6.0, 1.0, 7.0, _plummer),
)


@dataclass(frozen=True)
class Shapes:
    """Objects to draw: N rows of degrees, arcminutes and flux.

    Parameters
    ----------
    ra_deg, dec_deg, major_arcmin, minor_arcmin, pa_deg : (N,) float arrays
        No NaN: unknown figures have been replaced as the module says.
    flux : (N,) float array
        Total, 1 at magnitude 0.
    globular : (N,) bool array
    """

    ra_deg: Floats
    dec_deg: Floats
    major_arcmin: Floats
    minor_arcmin: Floats
    pa_deg: Floats
    flux: Floats
    globular: NDArray[np.bool_]


def shapes_in(
    frame: PictureFrame, targets: "TargetTable", codes: tuple[int | None, int | None]
) -> Shapes:
    """Collect the galaxies and globular clusters whose light may reach a picture.

    Parameters
    ----------
    frame : PictureFrame
    targets : TargetTable
    codes : pair of int or None
        Kind codes of galaxies and of globular clusters; None leaves a kind out.
    """
    ra, dec, radius = frame.plane.ra_deg, frame.plane.dec_deg, frame.radius_deg
    rows = targets.in_cone(ra, dec, radius + 0.5, touching=True)
    kind = targets.kind_code[rows]
    wanted = np.isin(kind, [code for code in codes if code is not None])
    wanted &= targets.drawn[rows] & np.isfinite(targets.magnitude[rows])
    rows = rows[wanted]
    major = np.nan_to_num(targets.major_arcmin[rows].astype(np.float64), nan=0.0)
    minor = targets.minor_arcmin[rows].astype(np.float64)
    minor = np.where(np.isfinite(minor), minor, major)
    pa = targets.pa_deg[rows].astype(np.float64)
    round_ = np.where(np.isfinite(pa), np.nan, np.sqrt(major * minor))
    return Shapes(
        targets.ra_deg[rows],
        targets.dec_deg[rows],
        np.where(np.isfinite(pa), major, round_),
        np.where(np.isfinite(pa), np.maximum(minor, _THINNEST * major), round_),
        np.nan_to_num(pa, nan=0.0),
        flux_of(targets.magnitude[rows] - _B_TO_V * (targets.band_code[rows] == _BLUE)),
        targets.kind_code[rows] == (-1 if codes[1] is None else codes[1]),
    )


def local_axes(
    frame: PictureFrame, ra_deg: Floats, dec_deg: Floats
) -> tuple[Floats, Floats, Floats]:
    """Give where directions fall in a picture and how their surroundings are turned there.

    Parameters
    ----------
    frame : PictureFrame
    ra_deg, dec_deg : (N,) float arrays

    Returns
    -------
    column, row : (N,) float arrays
        Pixels; NaN at 90 degrees or more from the middle.
    axes : (N, 2, 2) float array
        Columns are the steps in (column, row) for one radian east and north on the sky.

    Notes
    -----
    Derivative of (E.v, N.v) / (C.v), with E, N, C the plane's east, north and centre.
    """
    ra, dec = np.radians(ra_deg), np.radians(dec_deg)
    basis = frame.plane.basis
    along = basis @ unit_vectors(ra, dec)
    depth = np.where(along[2] > 1e-9, along[2], np.nan)
    xi, eta = along[:2] / depth
    zero = np.zeros_like(ra)
    east = basis @ np.stack([-np.sin(ra), np.cos(ra), zero])
    north = basis @ np.stack([-np.sin(dec) * np.cos(ra), -np.sin(dec) * np.sin(ra), np.cos(dec)])
    plane = np.stack([xi, eta])
    steps = np.stack([(step[:2] - plane * step[2]) / depth for step in (east, north)], axis=-1)
    turned = np.einsum("ij,jnk->nik", frame.plane_to_pixel[:2, :2], steps)
    column, row = frame.to_pixels(xi, eta)
    return column, row, turned


def add_shapes(
    pyramid: Pyramid, frame: PictureFrame, shapes: Shapes, *, sigma_px: float, threshold: float
) -> None:
    """Add objects to the rasters of the paints.

    Parameters
    ----------
    pyramid : Pyramid
        Over the paints of `PAINTS`.
    frame : PictureFrame
    shapes : Shapes
    sigma_px : float
        Blur of the picture, pixels.
    threshold : float
        Parts whose brightest pixel would hold less flux are left out.
    """
    column, row, axes = local_axes(frame, shapes.ra_deg, shapes.dec_deg)
    seen = np.isfinite(column)
    for part in _PARTS:
        spread = _spread(shapes, axes, part, sigma_px)
        flux = shapes.flux * part.share
        with np.errstate(invalid="ignore"):
            bright = flux > threshold * 2.0 * np.pi * np.sqrt(np.linalg.det(spread))
        kept = seen & bright & (shapes.globular == part.globular)
        painted = flux[:, None] * np.array(part.paints)
        everything = Ellipses(column, row, spread, painted, part.end)
        pyramid.deposit(everything.chosen(kept), part.profile)


def _spread(shapes: Shapes, axes: Floats, part: _Part, sigma_px: float) -> Floats:
    """Spread of one part of every object, (N, 2, 2) square pixels, blurred as stars are."""
    arcmin = np.radians(1.0 / 60.0) / 2.0 * part.scale
    long = shapes.major_arcmin * arcmin
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(long > 0, shapes.minor_arcmin / shapes.major_arcmin, 1.0) ** part.tilt
    pa = np.radians(shapes.pa_deg)
    towards = np.stack([np.sin(pa), np.cos(pa)], axis=-1)
    across = np.stack([np.cos(pa), -np.sin(pa)], axis=-1)
    long_px = np.einsum("nij,nj->ni", axes, towards * long[:, None])
    short_px = np.einsum("nij,nj->ni", axes, across * (long * ratio)[:, None])
    spread = long_px[:, :, None] * long_px[:, None, :] + short_px[:, :, None] * short_px[:, None, :]
    return np.asarray(spread + sigma_px**2 * np.eye(2))
