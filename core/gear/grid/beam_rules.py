"""The rules about the light's way, for all optics and cameras at once.

Each function takes the axes of a grid and gives the codes of one check, in the shape of the
axes it depends on. The arithmetic, the limits and their sources are those of the checks.
"""

import numpy as np

from core.gear.checks import corner_light, illumination, sampling
from core.gear.checks.back_focus import check_back_focus, judged_difference
from core.gear.checks.corner_light import corner_light_fraction
from core.gear.checks.threads import check_threads
from core.gear.grid.axes import Axes, Optics
from core.gear.grid.severity import Codes, Floats, code_of, graded_codes, worst_code
from core.gear.grid.shared_rules import least_passing
from core.gear.optics.illumination import fraction_in_circle

__all__ = [
    "back_focus_codes",
    "circle_fractions",
    "corner_codes",
    "image_circle_codes",
    "sampling_codes",
    "thread_codes",
]


def thread_codes(axes: Axes) -> Codes:
    """Grade the joints; (I, J, 1).

    Only the threads matter, and few are different: each pair of them is looked at once.
    """
    fronts = [_threads_of(optics) for optics in axes.optics]
    backs = [camera.thread for camera in axes.cameras]
    seen: dict[tuple[object, object], int] = {}
    codes = np.empty((len(fronts), len(backs), 1), np.int8)
    for i, front in enumerate(fronts):
        for j, back in enumerate(backs):
            if (front, back) not in seen:
                found = check_threads(axes.rig(i, j), axes.nights)
                seen[front, back] = worst_code(found)
            codes[i, j] = seen[front, back]
    return codes


def back_focus_codes(axes: Axes) -> Codes:
    """Grade the distance to the sensor; (I, J, 1)."""
    rows = [_back_focus_row(axes, i) for i in range(len(axes.optics))]
    return np.array(rows, np.int8)[:, :, None]


def circle_fractions(axes: Axes) -> Floats:
    """Give the fraction of each sensor inside each image circle; (I, J, 1)."""
    circles = [optics.last.image_circle_mm for optics in axes.optics]
    sides = [(camera.width_mm, camera.height_mm) for camera in axes.cameras]
    rows = [
        [np.nan if circle is None else fraction_in_circle(*side, circle) for side in sides]
        for circle in circles
    ]
    return np.array(rows)[:, :, None]


def image_circle_codes(axes: Axes) -> Codes:
    """Grade the part of the sensor outside the circle; (I, J, 1)."""
    return graded_codes(illumination.CIRCLE_BANDS, 1.0 - circle_fractions(axes))


def corner_codes(axes: Axes) -> Codes:
    """Grade the light at the corners, bores and all; (I, J, 1)."""
    left = least_passing(axes)
    for i, focal in enumerate(axes.focal_length_mm.flat):
        for j, diagonal in enumerate(axes.diagonal_mm.flat):
            left[i, j] *= corner_light_fraction(diagonal, focal)
    return graded_codes(corner_light.BANDS, 1.0 - left)


def sampling_codes(axes: Axes) -> Codes:
    """Grade the image scale against the seeing; (I, J, 1)."""
    return graded_codes(sampling.BANDS, axes.scale_arcsec_px / axes.nights.seeing_arcsec)


def _threads_of(optics: Optics) -> tuple[str | None, ...]:
    """Give the threads of telescope and corrector, from the sky on."""
    behind = optics.corrector
    return (optics.telescope.thread, *((behind.thread_front, behind.thread) if behind else ()))


def _back_focus_row(axes: Axes, i: int) -> list[int]:
    """Grade one of the optics with every camera."""
    needed, rig = axes.optics[i].last.back_focus_mm, axes.by_optics[i]
    if needed is None:  # then no camera tells more than the first
        return [worst_code(check_back_focus(rig, axes.nights))] * len(axes.cameras)
    row = []
    for path in axes.paths:
        shift, present = path.shift_mm, path.present_mm
        if shift is None or present is None:
            row.append(code_of("unknown"))
        else:
            severity, _ = judged_difference(needed + shift - present, rig.focal_ratio)
            row.append(code_of(severity))
    return row
