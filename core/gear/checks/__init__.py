"""Tells whether the parts of a rig work together.

Each rule answers with findings. The rules are the table `CHECKS`; each is one function of
a rig and the conditions of its nights, which gives no finding where it has nothing to look
at, and an "unknown" one where a figure that it needs is not known.
"""

from core.gear.checks.back_focus import check_back_focus
from core.gear.checks.colour import check_colour
from core.gear.checks.coma import check_coma
from core.gear.checks.corner_light import check_corner_light
from core.gear.checks.filters import check_narrow_filters
from core.gear.checks.finding import SEVERITIES, Check, Conditions, Finding
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
from core.gear.rig import Rig

__all__ = ["CHECKS", "Conditions", "Finding", "findings", "passes"]

#: Every rule, in the order of the light, then what carries and what follows.
CHECKS: tuple[Check, ...] = (
    check_threads,
    check_back_focus,
    check_image_circle,
    check_clear_diameters,
    check_corner_light,
    check_coma,
    check_colour,
    check_narrow_filters,
    check_sampling,
    check_load,
    check_torque,
    check_tripod,
    check_field_rotation,
    check_polar_error,
    check_unguided,
    check_untracked,
    check_guide_scale,
    check_guide_stars,
    check_flexure,
    check_prism,
    check_carried,
)


def findings(rig: Rig, conditions: Conditions | None = None) -> tuple[Finding, ...]:
    """Look at a rig by every rule.

    Parameters
    ----------
    rig : Rig
    conditions : Conditions, optional
        The nights it is for; left out, usual ones.

    Returns
    -------
    tuple of Finding
        The worst first; of one severity in the order of `CHECKS`.
    """
    nights = conditions or Conditions()
    found = [finding for check in CHECKS for finding in check(rig, nights)]
    return tuple(sorted(found, key=lambda finding: SEVERITIES.index(finding.severity)))


def passes(rig: Rig, conditions: Conditions | None = None) -> bool:
    """Tell whether nothing forbids a rig; what is not known does not."""
    return all(finding.severity != "stop" for finding in findings(rig, conditions))
