"""Tells how long a rig may expose when nothing guides it, or nothing follows the sky.

The gears of a mount push it ahead and hold it back in turns; how much is known for few
mounts, so one usual figure stands for all. A tripod without a mount stands still while
the sky moves by 15.04 cos d arcseconds a second, d the declination.
"""

import math
from collections.abc import Iterator

from core.gear.checks.finding import Band, Conditions, Finding, at_most, graded
from core.gear.guiders import guiders_of
from core.gear.rig import Rig

__all__ = ["WANDER_BANDS", "check_unguided", "check_untracked", "trail_arcsec", "wander_arcsec"]

_WANDER_SOURCE = "10 arcsec a minute for a mount without a guider, and its limits, common practice"
_TRAIL_SOURCE = "sidereal rate, 15.0410671787 arcsec/s times cos(declination), textbook"
_SIDEREAL_ARCSEC_S = 15.0410671787
_WANDER_ARCSEC_S = 10.0 / 60.0
#: Pixels that a mount wanders in one exposure.
WANDER_BANDS = (
    Band(1.5, "good", "short enough to do without a guider"),
    Band(4.0, "note", "leave out the exposures with drawn-out stars"),
    Band(math.inf, "caution", "most stars will be drawn out"),
)
#: Pixels that the sky moves in one exposure.
_TRAIL_BANDS = (
    Band(1.0, "good", "stars stay round"),
    Band(3.0, "note", "stars are drawn out a little"),
    Band(math.inf, "caution", "stars become lines"),
)


def wander_arcsec(exposure_s: float) -> float:
    """Give how far a mount without a guider strays in one exposure.

    Examples
    --------
    >>> wander_arcsec(120.0)
    20.0
    """
    return _WANDER_ARCSEC_S * exposure_s


def trail_arcsec(exposure_s: float, dec_deg: float = 0.0) -> float:
    """Give how far a star moves over a camera that stands still.

    Examples
    --------
    >>> round(trail_arcsec(1.0, 60.0), 3)
    7.521
    """
    return _SIDEREAL_ARCSEC_S * exposure_s * math.cos(math.radians(dec_deg))


def check_unguided(rig: Rig, conditions: Conditions) -> Iterator[Finding]:
    """Say whether the exposures of a rig without a guider are short enough."""
    if rig.mount is None or guiders_of(rig).complete:
        return
    exposure = conditions.exposure_s
    moved = wander_arcsec(exposure) / rig.scale_arcsec_px
    band = graded(WANDER_BANDS, moved)
    advice = band.advice
    if band.severity != "good":
        most = exposure * WANDER_BANDS[0].upto / moved
        advice += f"; expose for {at_most(most)} s at most or add a guider"
    message = (
        f"Nothing guides {rig.mount.name}. Its gears may let it stray by 10 arcsec a minute, "
        f"{moved:.1f} px in {exposure:g} s: {advice}."
    )
    yield Finding(
        rule="unguided",
        severity=band.severity,
        message=message,
        value=moved,
        limit=WANDER_BANDS[0].upto,
        unit="px",
        source=_WANDER_SOURCE,
        part=rig.mount.name,
    )


def check_untracked(rig: Rig, conditions: Conditions) -> Iterator[Finding]:
    """Say how long a camera on a tripod alone may expose."""
    tripod = next((part for part in rig.others if part.kind == "tripod"), None)
    if rig.mount is not None or tripod is None:
        return
    exposure = conditions.exposure_s
    moved = trail_arcsec(exposure) / rig.scale_arcsec_px
    band = graded(_TRAIL_BANDS, moved)
    advice = band.advice
    if band.severity != "good":
        advice += f"; expose for {at_most(exposure / moved)} s at most or take a mount"
    message = (
        f"{tripod.name} does not follow the sky, and a star on the sky's equator moves "
        f"{moved:.1f} px in {exposure:g} s: {advice}."
    )
    yield Finding(
        rule="star-trails",
        severity=band.severity,
        message=message,
        value=moved,
        limit=_TRAIL_BANDS[0].upto,
        unit="px",
        source=_TRAIL_SOURCE,
        part=tripod.name,
    )
