"""Which array rule stands for which check.

Filters and guiders are among the parts that all rigs of a grid share, or nowhere: a check
about them that depends on the optics alone is asked itself, once for each.
"""

from collections.abc import Callable, Mapping
from typing import Literal

import numpy as np

from core.gear.checks.back_focus import check_back_focus
from core.gear.checks.colour import check_colour
from core.gear.checks.coma import check_coma
from core.gear.checks.corner_light import check_corner_light
from core.gear.checks.filters import check_narrow_filters
from core.gear.checks.finding import Check
from core.gear.checks.guide_stars import check_guide_stars
from core.gear.checks.guiding import check_flexure, check_guide_scale, check_prism
from core.gear.checks.illumination import check_clear_diameters, check_image_circle
from core.gear.checks.load import check_carried, check_load, check_tripod
from core.gear.checks.polar import check_polar_error
from core.gear.checks.sampling import check_sampling
from core.gear.checks.threads import check_threads
from core.gear.checks.torque import check_torque
from core.gear.checks.tracking import check_field_rotation
from core.gear.checks.unguided import check_unguided, check_untracked
from core.gear.grid import beam_rules, mount_rules, picture_rules, shared_rules
from core.gear.grid.axes import Axes
from core.gear.grid.severity import Codes, no_codes, worst_code

__all__ = ["RULES", "Rule", "rule_for"]

Rule = Callable[[Axes], Codes]


def _asking(check: Check, along: Literal["optics", "all"]) -> Rule:
    """Make a rule that asks a check about the shared parts, along the axes that matter."""

    def rule(axes: Axes) -> Codes:
        if not axes.others and along != "all":
            return no_codes()
        rest = (len(axes.cameras), len(axes.mounts)) if along == "all" else (1, 1)
        shape = (len(axes.optics), *rest)
        codes = np.empty(shape, np.int8)
        for i, j, k in np.ndindex(*shape):
            rig = axes.rig(i, j, k) if along == "all" else axes.by_optics[i]
            codes[i, j, k] = worst_code(check(rig, axes.nights))
        return codes

    return rule


def _nothing(_: Axes) -> Codes:
    """Stand for a check that no rig with a mount needs."""
    return no_codes()


#: The array rule of each check.
RULES: Mapping[Check, Rule] = {
    check_threads: beam_rules.thread_codes,
    check_back_focus: beam_rules.back_focus_codes,
    check_image_circle: beam_rules.image_circle_codes,
    check_clear_diameters: shared_rules.bore_codes,
    check_corner_light: beam_rules.corner_codes,
    check_coma: picture_rules.coma_codes,
    check_colour: picture_rules.colour_codes,
    check_narrow_filters: _asking(check_narrow_filters, "optics"),
    check_sampling: beam_rules.sampling_codes,
    check_load: mount_rules.load_codes,
    check_torque: mount_rules.torque_codes,
    check_tripod: mount_rules.tripod_codes,
    check_field_rotation: mount_rules.rotation_codes,
    check_polar_error: mount_rules.polar_codes,
    check_unguided: mount_rules.unguided_codes,
    check_untracked: _nothing,
    check_guide_scale: shared_rules.guide_scale_codes,
    check_guide_stars: _asking(check_guide_stars, "optics"),
    check_flexure: _asking(check_flexure, "optics"),
    check_prism: shared_rules.prism_codes,
    check_carried: mount_rules.carried_codes,
}


def rule_for(check: Check) -> Rule:
    """Give the array rule of a check; one that has none is asked for every rig."""
    return RULES.get(check) or _asking(check, "all")
