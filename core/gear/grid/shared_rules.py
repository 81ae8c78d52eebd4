"""The rules about bores, prisms and guiders, which all rigs of a grid share, at once.

As in `beam_rules`, each function gives the codes of one check, in the shape of the axes it
depends on; limits and sources are those of the checks.
"""

import numpy as np

from core.gear.accessories import GuideScope, InTheBeam, OffAxisGuider
from core.gear.checks.finding import Severity
from core.gear.checks.guiding import SCALE_BANDS, reach_mm
from core.gear.checks.illumination import BORE_BANDS
from core.gear.grid.axes import Axes
from core.gear.grid.severity import NOTHING, Codes, Floats, code_of, graded_codes, no_codes
from core.gear.guiders import guiders_of
from core.gear.optics.illumination import beam_passing
from core.gear.rig import ARCSEC_PER_RAD

__all__ = ["bore_codes", "guide_scale_codes", "least_passing", "prism_codes"]


def least_passing(axes: Axes) -> Floats:
    """Give what the narrowest bore lets through to a corner, 1 where none is known; (I, J, 1)."""
    least = np.ones((len(axes.optics), len(axes.cameras), 1))
    for j, diagonal in enumerate(axes.diagonal_mm.flat):
        for element in axes.paths[j].elements:
            part, place = element.part, element.to_sensor_mm
            if not isinstance(part, InTheBeam) or None in (part.clear_diameter_mm, place):
                continue
            clear, far = part.clear_diameter_mm or 0.0, place or 0.0
            for i, ratio in enumerate(axes.focal_ratio.flat):
                passing = beam_passing(clear, distance_mm=far, ratio=ratio, height_mm=diagonal / 2)
                least[i, j] = min(least[i, j, 0], passing)
    return least


def bore_codes(axes: Axes) -> Codes:
    """Grade the bores in the beam; (I, J, 1)."""
    bores = [part for part in axes.others if isinstance(part, InTheBeam)]
    if not bores:
        return no_codes()
    clear = [part.clear_diameter_mm for part in bores]
    lacking = [
        None in clear or None in (path.place_of(part) for part in bores) for path in axes.paths
    ]
    missing = np.where(lacking, code_of("unknown"), NOTHING).astype(np.int8)
    return np.minimum(graded_codes(BORE_BANDS, 1.0 - least_passing(axes)), missing[None, :, None])


def prism_codes(axes: Axes) -> Codes:
    """Grade the prisms of off-axis guiders; (I, J, 1)."""
    codes = no_codes()
    for part in axes.others:
        if isinstance(part, OffAxisGuider):
            codes = np.minimum(codes, np.minimum(_shadow(axes, part), _light(axes, part)))
    return codes


def guide_scale_codes(axes: Axes) -> Codes:
    """Grade the guide camera's scale against the picture's; (I, J, 1)."""
    guiders = guiders_of(axes.by_optics[0])
    if guiders.any is None:
        return no_codes()
    focal = np.full((1, 1, 1), np.nan)
    if isinstance(guiders.optics, OffAxisGuider):
        focal = axes.focal_length_mm
    elif isinstance(guiders.optics, GuideScope):
        focal = np.full((1, 1, 1), _known(guiders.optics.focal_length_mm))
    pixel = _known(guiders.camera.pixel_um if guiders.camera else None)
    guide_arcsec_px = ARCSEC_PER_RAD * pixel / 1000.0 / focal
    return graded_codes(SCALE_BANDS, guide_arcsec_px / axes.scale_arcsec_px)


def _shadow(axes: Axes, part: OffAxisGuider) -> Codes:
    """Grade the inner edge of a prism; (I, J, 1)."""
    inner = _known(part.prism_radius_mm) - _known(part.prism_mm) / 2
    places = np.array([_known(path.place_of(part)) for path in axes.paths])
    angle = _known(part.prism_angle_deg)
    reach = np.array([reach_mm(rig, angle) for rig in axes.by_camera])
    least = reach[None, :, None] + places[None, :, None] / (2.0 * axes.focal_ratio)
    return _either(inner - least, "caution")


def _light(axes: Axes, part: OffAxisGuider) -> Codes:
    """Grade the outer edge of a prism; (I, 1, 1)."""
    outer = _known(part.prism_radius_mm) + _known(part.prism_mm) / 2
    circles = np.array([_known(optics.last.image_circle_mm) for optics in axes.optics])
    return _either(circles[:, None, None] / 2 - outer, "note")


def _either(room_mm: Floats, otherwise: Severity) -> Codes:
    """Grade room as good down to none at all."""
    codes = np.where(room_mm >= 0.0, code_of("good"), code_of(otherwise))
    return np.where(np.isnan(room_mm), code_of("unknown"), codes).astype(np.int8)


def _known(figure: float | None) -> float:
    """Write a figure that is not known as NaN."""
    return np.nan if figure is None else figure
