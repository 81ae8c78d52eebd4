"""Holds the sensor's distance against what the optics need, glass counted."""

from collections.abc import Iterator

from core.gear.checks.finding import Conditions, Finding, Severity, unknown
from core.gear.optics.light_path import BackFocus, back_focus, light_path
from core.gear.rig import Rig

__all__ = ["check_back_focus", "judged_difference"]

_SOURCE = (
    "plane-parallel plate t(1 - 1/n), textbook; tolerance of 0.5 to 1 mm, half of it below "
    "f/4, common practice"
)
_RULE = "back-focus"
_WHAT = "the distance to the sensor that it asks for"
#: Differences in mm that do no harm, and that are worth a try, at f/4 and slower.
_GOOD_MM, _FAIR_MM = 0.5, 1.0
_FAST = 4.0


def check_back_focus(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Say which spacer is missing, or by how much the chain is too long."""
    optics = rig.corrector or rig.telescope
    if optics.back_focus_mm is None and rig.corrector is None:
        yield _without_figure(rig)
        return
    wanted = list(light_path(rig).missing)
    if optics.back_focus_mm is None:
        wanted.insert(0, f"the back focus of {optics.name} ({_WHAT})")
    if wanted:
        yield unknown(_RULE, wanted, source=_SOURCE, part=optics.name)
        return
    yield _judged(rig, back_focus(rig), optics.name)


def judged_difference(missing_mm: float, focal_ratio: float) -> tuple[Severity, str]:
    """Grade a difference between the distance needed and the one present.

    Parameters
    ----------
    missing_mm : float
        Negative where the chain is too long.
    focal_ratio : float
        Of the beam; a fast one bears less.

    Returns
    -------
    severity : str
    advice : str
        What to do about it.

    Examples
    --------
    >>> judged_difference(2.1, 5.0)
    ('caution', 'add a spacer of 2.1 mm')
    """
    size, scale = abs(missing_mm), _strictness(focal_ratio)
    if size <= _GOOD_MM * scale:
        return "good", "it fits"
    fair = size <= _FAIR_MM * scale
    hint = " if stars in the corners are drawn out" if fair else ""
    if missing_mm > 0:
        return "note" if fair else "caution", f"add a spacer of {size:.1f} mm{hint}"
    cure = f"use a shorter part{hint}" if fair else "no spacer cures that; use a shorter part"
    return "note" if fair else "stop", f"it is too long by {size:.1f} mm; {cure}"


def _without_figure(rig: Rig) -> Finding:
    """Judge a telescope without a corrector and without a fixed distance."""
    tube = rig.telescope
    if tube.back_focus_fixed is not False:
        return unknown(
            _RULE, [f"the back focus of {tube.name} ({_WHAT})"], source=_SOURCE, part=tube.name
        )
    message = f"{tube.name} asks for no fixed distance to the sensor; the focuser sets it."
    return Finding(rule=_RULE, severity="good", message=message, source=_SOURCE, part=tube.name)


def _judged(rig: Rig, focus: BackFocus, name: str) -> Finding:
    """Judge a chain whose every figure is known."""
    missing, required, present = focus.missing_mm, focus.required_mm, focus.present_mm
    assert missing is not None
    severity, advice = judged_difference(missing, rig.focal_ratio)
    message = (
        f"{name} needs {required:.1f} mm behind it to the sensor, all glass counted; "
        f"the parts between have {present:.1f} mm: {advice}."
    )
    return Finding(
        rule=_RULE,
        severity=severity,
        message=message,
        value=missing,
        limit=_GOOD_MM * _strictness(rig.focal_ratio),
        unit="mm",
        source=_SOURCE,
        part=name,
    )


def _strictness(focal_ratio: float) -> float:
    """Give the factor on the limits."""
    return 0.5 if focal_ratio < _FAST else 1.0
