"""The rules about what a picture lacks, for all optics and cameras at once."""

import numpy as np

from core.gear.checks import coma
from core.gear.checks.colour import sees_grey
from core.gear.grid.axes import Axes
from core.gear.grid.severity import NOTHING, Codes, code_of, graded_codes, no_codes

__all__ = ["colour_codes", "coma_codes"]


def coma_codes(axes: Axes) -> Codes:
    """Grade the coma of mirrors without a corrector; (I, J, 1)."""
    codes = np.repeat(no_codes(), len(axes.optics), axis=0)
    codes = np.repeat(codes, len(axes.cameras), axis=1)
    for i, optics in enumerate(axes.optics):
        if coma.has_coma(optics.telescope, optics.corrector):
            codes[i] = _coma_row(axes, i)
    return codes


def colour_codes(axes: Axes) -> Codes:
    """Point out cameras without filters; (1, J, 1)."""
    grey = [sees_grey(camera, axes.others) for camera in axes.cameras]
    return np.where(grey, code_of("note"), NOTHING).astype(np.int8)[None, :, None]


def _coma_row(axes: Axes, i: int) -> Codes:
    """Grade one mirror with every camera; (J, 1)."""
    rig = axes.by_optics[i]
    widths = np.maximum(coma.star_width_arcsec(rig, axes.nights), axes.scale_arcsec_px[i, :, 0])
    drawn = coma.coma_arcsec_mm(rig.focal_length_mm, rig.focal_ratio)
    lengths = axes.diagonal_mm[0, :, 0] / 2 * drawn
    return graded_codes(coma.BANDS, lengths / widths)[:, None]
