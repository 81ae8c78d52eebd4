"""The rules about what the mount carries and how it follows, for a whole grid at once.

As in `beam_rules`, each function gives the codes of one check, in the shape of the axes it
depends on; limits and sources are those of the checks.
"""

import numpy as np

from core.gear.accessories import Tripod
from core.gear.checks.load import CARRY_BANDS, TRIPOD_BANDS, load_bands
from core.gear.checks.polar import BANDS as POLAR_BANDS
from core.gear.checks.polar import check_polar_error, polar_drift_arcsec
from core.gear.checks.torque import BANDS as TORQUE_BANDS
from core.gear.checks.torque import torque_n_m
from core.gear.checks.tracking import check_field_rotation
from core.gear.checks.unguided import WANDER_BANDS, wander_arcsec
from core.gear.grid.axes import Axes
from core.gear.grid.severity import NOTHING, Codes, code_of, graded_codes, no_codes, worst_code
from core.gear.guiders import guiders_of
from core.gear.rig import Rig

__all__ = [
    "carried_codes",
    "load_codes",
    "polar_codes",
    "rotation_codes",
    "torque_codes",
    "tripod_codes",
    "unguided_codes",
]


def load_codes(axes: Axes) -> Codes:
    """Grade the load on the mount; (I, J, K)."""
    fractions = axes.load_fraction
    rows = [
        graded_codes(load_bands(focal), fraction)
        for focal, fraction in zip(axes.focal_length_mm.flat, fractions, strict=True)
    ]
    return np.stack(rows)


def carried_codes(axes: Axes) -> Codes:
    """Grade what has to be carried to the place; (I, J, K)."""
    return graded_codes(CARRY_BANDS, axes.carried_kg)


def torque_codes(axes: Axes) -> Codes:
    """Grade the pull on mounts that are rated for one and have no counterweight; (I, J, K)."""
    columns = [_torque_column(axes, rig) for rig in axes.by_mount]
    return np.stack(np.broadcast_arrays(*columns), axis=-1)


def tripod_codes(axes: Axes) -> Codes:
    """Grade what stands on the tripod, where there is one; (I, J, K)."""
    tripod = next((part for part in axes.others if isinstance(part, Tripod)), None)
    if tripod is None:
        return no_codes()
    rated = np.nan if tripod.rated_load_kg is None else tripod.rated_load_kg
    return graded_codes(TRIPOD_BANDS, axes.above_tripod_kg / rated)


def rotation_codes(axes: Axes) -> Codes:
    """Grade the turn of the field on alt-azimuth mounts; (1, J, K)."""
    turning = [mount.kind == "alt-azimuth" for mount in axes.mounts]
    if not any(turning):
        return no_codes()
    k = turning.index(True)  # one of them tells for all: the mount's own figures do not count
    cameras = range(len(axes.cameras))
    row = [worst_code(check_field_rotation(axes.rig(0, j, k), axes.nights)) for j in cameras]
    codes = np.array(row, np.int8)[None, :, None]
    return np.where(np.array(turning)[None, None, :], codes, NOTHING).astype(np.int8)


def polar_codes(axes: Axes) -> Codes:
    """Grade what the polar error does on all other mounts; (I, J, K)."""
    following = np.array([mount.kind != "alt-azimuth" for mount in axes.mounts])
    if not following.any():
        return no_codes()
    if _guided(axes):
        k = int(np.argmax(following))
        cameras = range(len(axes.cameras))
        row = [worst_code(check_polar_error(axes.rig(0, j, k), axes.nights)) for j in cameras]
        codes = np.array(row, np.int8)[None, :, None]
    else:
        nights = axes.nights
        drift = polar_drift_arcsec(nights.polar_error_arcmin, nights.exposure_s)
        codes = graded_codes(POLAR_BANDS, drift / axes.scale_arcsec_px)
    return np.where(following[None, None, :], codes, NOTHING).astype(np.int8)


def unguided_codes(axes: Axes) -> Codes:
    """Grade how far a mount without a guider strays; (I, J, 1)."""
    if _guided(axes):
        return no_codes()
    return graded_codes(WANDER_BANDS, wander_arcsec(axes.nights.exposure_s) / axes.scale_arcsec_px)


def _torque_column(axes: Axes, rig: Rig) -> Codes:
    """Grade the pull on the mount of a rig; (I, J), or (1, 1) where its rating does not count."""
    assert rig.mount is not None
    rated, saddle = rig.mount.rated_torque_n_m, rig.mount.axis_to_saddle_mm
    if rated is None or rig.balanced:
        return no_codes()[:, :, 0]
    if saddle is None:
        return np.full((1, 1), code_of("unknown"), np.int8)
    pull = torque_n_m(axes.mass_kg[:, :, 0], saddle + axes.aperture_mm[:, :, 0] / 2)
    return graded_codes(TORQUE_BANDS, pull / rated)


def _guided(axes: Axes) -> bool:
    """Tell whether something guides; it is among the parts that all rigs have."""
    return guiders_of(axes.by_optics[0]).complete
