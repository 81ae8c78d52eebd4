"""Tells what an error of the polar alignment does in one exposure.

A mount that turns about an axis `e` away from the pole moves every star by at most
e w t, w the rate of the sky, t the exposure: the error's whole axis is e w long. A guider
holds its star in place; then the field turns about that star by at most e w t / cos d, d
the star's declination, and a corner moves by that angle times its distance from it.

Source: Hook 1989, JBAA 99, 19 (from memory: error = 45000 S cos d / (T F A)); derived here.
"""

import math
from collections.abc import Iterator

from core.gear.accessories import OffAxisGuider
from core.gear.checks.finding import Band, Conditions, Finding, at_most, graded
from core.gear.guiders import guiders_of
from core.gear.parts import Mount
from core.gear.rig import Rig

__all__ = ["BANDS", "check_polar_error", "polar_drift_arcsec", "polar_rotation_rad"]

_SOURCE = (
    "field rotation by polar error, Hook 1989 (JBAA 99, 19), at the worst hour angle; one and "
    "two pixels, common practice"
)
#: Rate of the sky, radians a second (IERS, from memory).
_SKY_RAD_S = 7.292115e-5
#: Declination that the turn is told for; nearer the pole it is faster.
_DECLINATION_DEG = 60.0
#: Pixels that the worst star moves in one exposure.
BANDS = (
    Band(1.0, "good", "no star shows it"),
    Band(2.0, "note", "stars are drawn out a little"),
    Band(math.inf, "caution", "stars are drawn out"),
)


def polar_drift_arcsec(polar_error_arcmin: float, exposure_s: float) -> float:
    """Give the most that a star moves when nothing guides.

    Parameters
    ----------
    polar_error_arcmin, exposure_s : float

    Examples
    --------
    >>> round(polar_drift_arcsec(5.0, 60.0), 3)
    1.313
    """
    return 60.0 * polar_error_arcmin * _SKY_RAD_S * exposure_s


def polar_rotation_rad(polar_error_arcmin: float, exposure_s: float, dec_deg: float) -> float:
    """Give the most that the field turns about a guide star.

    Parameters
    ----------
    polar_error_arcmin, exposure_s : float
    dec_deg : float
        The star's declination, not a pole.

    Examples
    --------
    >>> round(math.degrees(polar_rotation_rad(5.0, 3600.0, 60.0)) * 60, 3)
    2.625
    """
    error_rad = math.radians(polar_error_arcmin / 60.0)
    return error_rad * _SKY_RAD_S * exposure_s / math.cos(math.radians(dec_deg))


def check_polar_error(rig: Rig, conditions: Conditions) -> Iterator[Finding]:
    """Hold the worst star's motion in one exposure against a pixel."""
    mount = rig.mount
    if mount is None or mount.kind == "alt-azimuth":
        return
    error, exposure = conditions.polar_error_arcmin, conditions.exposure_s
    guided = guiders_of(rig).complete
    if guided:
        moved = polar_rotation_rad(error, exposure, _DECLINATION_DEG) * _reach_px(rig)
    else:
        moved = polar_drift_arcsec(error, exposure) / rig.scale_arcsec_px
    band = graded(BANDS, moved)
    yield Finding(
        rule="polar-error",
        severity=band.severity,
        message=_sentence(mount, conditions, moved, guided=guided),
        value=moved,
        limit=BANDS[0].upto,
        unit="px",
        source=_SOURCE,
        part=mount.name,
    )


def _reach_px(rig: Rig) -> float:
    """Give the distance from the guide star to the farthest corner."""
    corner = math.hypot(rig.camera.columns, rig.camera.rows) / 2
    optics = guiders_of(rig).optics
    aside = optics.prism_radius_mm if isinstance(optics, OffAxisGuider) else None
    return corner + (aside or 0.0) * 1000.0 / rig.camera.pixel_um


def _sentence(mount: Mount, nights: Conditions, moved_px: float, *, guided: bool) -> str:
    """Say what the error does and how small it must be."""
    error, exposure = nights.polar_error_arcmin, nights.exposure_s
    what = (
        f"lets the picture turn about the guide star; {_DECLINATION_DEG:g}° from the sky's "
        f"equator its farthest corner moves {moved_px:.1f} px in {exposure:g} s"
        if guided
        else f"lets the picture drift by up to {moved_px:.1f} px in {exposure:g} s"
    )
    band = graded(BANDS, moved_px)
    advice = band.advice
    if band.severity != "good":
        advice += (
            f"; set the axis within {at_most(error / moved_px)} arcmin of the pole "
            f"(polar alignment), or expose for {at_most(exposure / moved_px)} s at most"
        )
    return f"With its axis {error:g} arcmin off the pole of the sky, {mount.name} {what}: {advice}."
