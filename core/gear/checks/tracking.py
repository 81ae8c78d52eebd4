"""Tells how far the field turns in one exposure on an alt-azimuth mount."""

import math
from collections.abc import Iterator

from core.gear.checks.finding import Band, Conditions, Finding, at_most, graded
from core.gear.rig import Rig

__all__ = ["check_field_rotation", "rotation_arcsec_s"]

_SOURCE = (
    "field rotation 15.04 cos(latitude) cos(azimuth) / cos(altitude), SLALIB ALTAZ (SUN/67); "
    "one and two pixels at the corner, common practice"
)
_SIDEREAL_ARCSEC_S = 15.0410671787
#: The target is taken to stand 60 degrees high, north or south, where rotation is fast.
_ALTITUDE_DEG = 60.0
#: Pixels that a corner moves in one exposure.
_BANDS = (
    Band(1.0, "good", "no star shows it"),
    Band(2.0, "note", "corner stars are drawn out a little"),
    Band(math.inf, "caution", "corner stars are drawn out"),
)


def rotation_arcsec_s(latitude_deg: float, azimuth_deg: float, altitude_deg: float) -> float:
    """Give the rate at which the field turns on an alt-azimuth mount.

    Parameters
    ----------
    latitude_deg, azimuth_deg, altitude_deg : float
        Azimuth from north through east; altitude below 90.

    Returns
    -------
    float
        Change of the position angle of a camera whose up is the zenith, arcsec per second.

    Examples
    --------
    >>> round(rotation_arcsec_s(40.0, 180.0, 50.0), 3)
    17.925
    """
    latitude, azimuth = math.radians(latitude_deg), math.radians(azimuth_deg)
    over = math.cos(math.radians(altitude_deg))
    return -_SIDEREAL_ARCSEC_S * math.cos(latitude) * math.cos(azimuth) / over


def check_field_rotation(rig: Rig, conditions: Conditions) -> Iterator[Finding]:
    """Hold the turn of one exposure, at a corner of the sensor, against a pixel."""
    if rig.mount is None or rig.mount.kind != "alt-azimuth":
        return
    rate = abs(rotation_arcsec_s(conditions.latitude_deg, 180.0, _ALTITUDE_DEG))
    corner_px = math.hypot(rig.camera.columns, rig.camera.rows) / 2
    px_per_s = math.radians(rate / 3600.0) * corner_px
    moved = px_per_s * conditions.exposure_s
    band = graded(_BANDS, moved)
    advice = band.advice
    if band.severity != "good" and px_per_s > 0.0:
        advice += f"; expose for {at_most(1.0 / px_per_s)} s at most or use an equatorial mount"
    message = (
        f"On {rig.mount.name} the picture turns while it follows the sky; 60° high in the north "
        f"or south a corner moves {moved:.1f} px in {conditions.exposure_s:g} s: {advice}."
    )
    yield Finding(
        rule="field-rotation",
        severity=band.severity,
        message=message,
        value=moved,
        limit=_BANDS[0].upto,
        unit="px",
        source=_SOURCE,
        part=rig.mount.name,
    )
