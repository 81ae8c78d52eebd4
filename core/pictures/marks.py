"""Outlines and labels of the objects in a picture, for the window to draw crisply on top.

Conventions: lines are points (xi, eta) in radians on the frame's tangent plane, so that
one transform brings them to any screen. An outline is the ellipse of the catalogue's
diameters around the object, sampled on the sphere: it stays right near the pole and in
wide fields. Position angles run from north through east.

Honesty: nothing is filled. An ellipse without a known position angle becomes a dashed
circle of the major diameter; dashed too is every outline whose figures are not from a
published source or the source catalogue. What has no size has a label alone.
"""

from collections.abc import Collection
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from core.catalogue.target import Target, TargetKind
from core.pictures.picture import PictureFrame
from core.sky.tangent_plane import TangentPlane, unit_vectors

if TYPE_CHECKING:
    from core.catalogue.targets import TargetTable

__all__ = ["OUTLINED_KINDS", "TINTS", "Label", "Marks", "Outline", "ellipse_on_plane", "marks"]

Floats = NDArray[np.float64]

#: Kinds whose outline is drawn; the others are light on the chart, or nothing but a name.
OUTLINED_KINDS = (
    TargetKind.OPEN_CLUSTER,
    TargetKind.GLOBULAR_CLUSTER,
    TargetKind.PLANETARY_NEBULA,
    TargetKind.BRIGHT_NEBULA,
    TargetKind.DARK_NEBULA,
    TargetKind.SUPERNOVA_REMNANT,
    TargetKind.GALAXY_CLUSTER,
)
#: A colour for each kind, red, green, blue: what tells them apart, not what they look like.
TINTS: dict[TargetKind, tuple[int, int, int]] = {
    TargetKind.GALAXY: (214, 200, 170),
    TargetKind.OPEN_CLUSTER: (156, 190, 222),
    TargetKind.GLOBULAR_CLUSTER: (226, 190, 132),
    TargetKind.PLANETARY_NEBULA: (120, 208, 190),
    TargetKind.BRIGHT_NEBULA: (214, 132, 128),
    TargetKind.DARK_NEBULA: (150, 140, 128),
    TargetKind.SUPERNOVA_REMNANT: (190, 140, 200),
    TargetKind.GALAXY_CLUSTER: (160, 160, 190),
    TargetKind.STAR: (220, 220, 220),
    TargetKind.SCENE: (217, 164, 65),
    TargetKind.OTHER: (170, 170, 170),
    TargetKind.POSITION: (233, 223, 204),
}
_STEPS = 72
#: Outlines shorter than this on the picture are left out, the more the wider the field;
#: and those far larger than the picture.
_LEAST_PX, _LEAST_PX_PER_DEG, _MOST_WIDTHS = 10.0, 0.25, 3.0
_MOST_OUTLINES, _MOST_LABELS = 140, 80


@dataclass(frozen=True, eq=False)
class Outline:
    """The outline of one object.

    Parameters
    ----------
    points : (M, 2) float array
        xi and eta, radians; closed (the last point is the first).
    kind : TargetKind
    dashed : bool
        True when size or angle are not known well.
    index : int
        Row of the object in the target table.
    """

    points: Floats
    kind: TargetKind
    dashed: bool
    index: int


@dataclass(frozen=True)
class Label:
    """The name of one object.

    Parameters
    ----------
    text : str
    xi, eta : float
        Where the object is on the plane, radians.
    reach : float
        Radius of the object on the plane, radians, 0 when not known: how far the text
        must stand off.
    kind : TargetKind
    index : int
        Row of the object in the target table.
    """

    text: str
    xi: float
    eta: float
    reach: float
    kind: TargetKind
    index: int


@dataclass(frozen=True)
class Marks:
    """What to draw over a picture: outlines, and labels with the foremost first.

    `plane` is the tangent plane their points lie on.
    """

    plane: TangentPlane
    outlines: tuple[Outline, ...]
    labels: tuple[Label, ...]


def marks(
    frame: PictureFrame,
    targets: "TargetTable",
    kinds: Collection[TargetKind],
    *,
    most_labels: int = _MOST_LABELS,
) -> Marks:
    """Collect outlines and labels.

    Parameters
    ----------
    frame : PictureFrame
        The picture as the window shows it.
    targets : TargetTable
    kinds : collection of TargetKind
        Kinds wanted; outlines are given for those of `OUTLINED_KINDS` among them.
    most_labels : int
        Labels wanted at most.

    Returns
    -------
    Marks
        Outlines of at most 140 objects, the foremost by the table's rank.
    """
    order = tuple(TargetKind)
    rows = _rows(frame, targets, [order.index(kind) for kind in kinds])
    size_px = np.nan_to_num(_major_rad(targets, rows), nan=0.0) / frame.scale_rad_px
    widest_px = _MOST_WIDTHS * max(frame.width_px, frame.height_px)
    outlined = np.isin(targets.kind_code[rows], [order.index(kind) for kind in OUTLINED_KINDS])
    least_px = _LEAST_PX + _LEAST_PX_PER_DEG * frame.footprint.width_deg
    outlined &= (size_px >= least_px) & (size_px <= widest_px)
    outlines = _outlines(frame, targets, rows[outlined][:_MOST_OUTLINES])
    return Marks(frame.plane, outlines, _labels(frame, targets, rows, most_labels))


def ellipse_on_plane(
    frame: PictureFrame,
    places_deg: tuple[Floats, Floats],
    axes_arcmin: tuple[Floats, Floats],
    pa_deg: Floats,
) -> Floats:
    """Sample ellipses around places of the sky.

    Parameters
    ----------
    frame : PictureFrame
    places_deg : pair of (N,) float arrays
        Right ascension and declination.
    axes_arcmin : pair of (N,) float arrays
        Major and minor diameters.
    pa_deg : (N,) float array
        Position angle of the major axis at the place.

    Returns
    -------
    (N, 73, 2) float array
        xi and eta, radians; NaN behind the limb. The first point is the major axis' end at
        `pa_deg`, then they turn towards east.

    Notes
    -----
    An ellipse is drawn on the plane that touches the sky at its own place, so that an axis
    spans its diameter as an angle.
    """
    ra, dec, pa = np.radians(places_deg[0]), np.radians(places_deg[1]), np.radians(pa_deg)
    long, short = (np.tan(np.radians(axis / 120.0))[:, None] for axis in axes_arcmin)
    turn = np.linspace(0.0, 2.0 * np.pi, _STEPS + 1)
    along, across = long * np.cos(turn), short * np.sin(turn)
    sin, cos = np.sin(pa)[:, None], np.cos(pa)[:, None]
    to_east, to_north = along * sin + across * cos, along * cos - across * sin
    east = np.stack([-np.sin(ra), np.cos(ra), np.zeros_like(ra)])
    north = np.stack([-np.sin(dec) * np.cos(ra), -np.sin(dec) * np.sin(ra), np.cos(dec)])
    rays = unit_vectors(ra, dec)[:, :, None] + east[:, :, None] * to_east
    rays = rays + north[:, :, None] * to_north
    rays /= np.linalg.norm(rays, axis=0)
    xi, eta = frame.plane.forward_vectors(rays.reshape(3, -1))
    return np.stack([xi, eta], axis=-1).reshape(ra.size, _STEPS + 1, 2)


def _rows(frame: PictureFrame, targets: "TargetTable", codes: list[int]) -> NDArray[np.intp]:
    """Rows that may be seen in the picture, the foremost first."""
    ra, dec, radius = frame.plane.ra_deg, frame.plane.dec_deg, frame.radius_deg
    rows = targets.in_cone(ra, dec, radius, touching=True)
    rows = rows[targets.drawn[rows] & np.isin(targets.kind_code[rows], codes)]
    reach = np.nan_to_num(_major_rad(targets, rows), nan=0.0) / 2.0 / frame.scale_rad_px
    xi, eta = frame.plane.forward(
        np.radians(targets.ra_deg[rows]), np.radians(targets.dec_deg[rows])
    )
    column, row = frame.to_pixels(xi, eta)
    with np.errstate(invalid="ignore"):
        seen = (np.abs(column - frame.width_px / 2) < frame.width_px / 2 + reach) & (
            np.abs(row - frame.height_px / 2) < frame.height_px / 2 + reach
        )
    rows = rows[seen]
    return rows[np.argsort(-targets.rank[rows], kind="stable")]


def _major_rad(targets: "TargetTable", rows: NDArray[np.intp]) -> Floats:
    """Major diameters in radians; NaN where not known."""
    return np.radians(targets.major_arcmin[rows].astype(np.float64) / 60.0)


def _outlines(
    frame: PictureFrame, targets: "TargetTable", rows: NDArray[np.intp]
) -> tuple[Outline, ...]:
    """Sample the outlines of some rows."""
    if rows.size == 0:
        return ()
    major = targets.major_arcmin[rows].astype(np.float64)
    minor = targets.minor_arcmin[rows].astype(np.float64)
    pa = targets.pa_deg[rows].astype(np.float64)
    minor = np.where(np.isfinite(minor) & np.isfinite(pa), minor, major)
    places = (targets.ra_deg[rows], targets.dec_deg[rows])
    points = ellipse_on_plane(frame, places, (major, minor), np.nan_to_num(pa, nan=0.0))
    found = []
    for number, index in enumerate(rows.tolist()):
        if np.isfinite(points[number]).all():
            target = targets.target(index)
            found.append(Outline(points[number], target.kind, _dashed(target), index))
    return tuple(found)


def _dashed(target: Target) -> bool:
    """Tell whether an outline is only roughly known."""
    major, minor = target.major_arcmin, target.minor_arcmin
    long = major is not None and minor is not None and minor < major
    return target.approximate or (long and not target.angle_known)


def _labels(
    frame: PictureFrame, targets: "TargetTable", rows: NDArray[np.intp], most: int
) -> tuple[Label, ...]:
    """Name the objects whose middle lies in the picture."""
    xi, eta = frame.plane.forward(
        np.radians(targets.ra_deg[rows]), np.radians(targets.dec_deg[rows])
    )
    column, row = frame.to_pixels(xi, eta)
    inside = (column >= 0) & (column < frame.width_px) & (row >= 0) & (row < frame.height_px)
    chosen = np.flatnonzero(inside)[:most]
    reach = np.nan_to_num(_major_rad(targets, rows), nan=0.0) / 2.0
    found = []
    for number in chosen.tolist():
        target = targets.target(int(rows[number]))
        place = (float(xi[number]), float(eta[number]), float(reach[number]))
        found.append(Label(target.name, *place, target.kind, int(rows[number])))
    return tuple(found)
