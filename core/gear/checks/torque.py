"""Tells how hard a load pulls about the axis of a mount that has no counterweight.

The pull is m g r, greatest when the load lies level with the axis; r is at least the way
to the saddle and half of the aperture on top, for a tube is no thinner than its lens. A
counterweight of the mass m r / b, b along its bar, takes all of it away (statics).
"""

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, TypeVar

from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.checks.load import unweighed
from core.gear.rig import Rig

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["BANDS", "check_torque", "counterweight_kg", "torque_n_m"]

_SOURCE = "torque m g r, statics; two thirds and all of the rating, our own limits"
#: One figure, or an array of them.
Number = TypeVar("Number", "float", "NDArray[np.float64]")
#: Standard acceleration of free fall, m/s² (CGPM 1901).
_GRAVITY = 9.80665
#: Where a usual counterweight sits on its bar, mm (common practice).
_BAR_MM = 300.0
#: Fractions of the rating.
BANDS = (
    Band(2 / 3, "good", "it holds that well"),
    Band(1.0, "caution", "that is close to all it holds"),
    Band(math.inf, "stop", "its gears may slip"),
)


def torque_n_m(mass_kg: Number, radius_mm: Number) -> Number:
    """Give the pull of a mass about a level axis.

    Parameters
    ----------
    mass_kg, radius_mm : float
        Arrays work too.

    Examples
    --------
    >>> round(torque_n_m(8.0, 200.0), 2)
    15.69
    """
    return mass_kg * _GRAVITY * radius_mm / 1000.0


def counterweight_kg(mass_kg: float, radius_mm: float, bar_mm: float = _BAR_MM) -> float:
    """Give the counterweight that balances a mass.

    Parameters
    ----------
    mass_kg, radius_mm : float
    bar_mm : float
        From the axis to the counterweight.

    Examples
    --------
    >>> round(counterweight_kg(10.0, 200.0, 350.0), 3)
    5.714
    """
    return mass_kg * radius_mm / bar_mm


def check_torque(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the pull of a rig without counterweight against what its mount is rated for."""
    mount = rig.mount
    if mount is None or mount.rated_torque_n_m is None or rig.balanced:
        return
    wanted = unweighed(rig.on_mount)
    if mount.axis_to_saddle_mm is None:
        wanted.append(f"how far the saddle of {mount.name} is from its axis")
    if rig.mass_kg is None or mount.axis_to_saddle_mm is None:
        about = "pull on the mount"
        yield unknown("torque", wanted, source=_SOURCE, part=mount.name, about=about)
        return
    radius = mount.axis_to_saddle_mm + rig.aperture_mm / 2
    pull = torque_n_m(rig.mass_kg, radius)
    band = graded(BANDS, pull / mount.rated_torque_n_m)
    advice = band.advice
    if band.severity != "good":
        weight = counterweight_kg(rig.mass_kg, radius)
        advice += f"; balance it by about {weight:.1f} kg, {_BAR_MM:g} mm down a counterweight bar"
    yield Finding(
        rule="torque",
        severity=band.severity,
        message=f"Without a counterweight {rig.mass_kg:.1f} kg, at least {radius:.0f} mm from the "
        f"axis, pull on {mount.name} with {pull:.1f} N m of the {mount.rated_torque_n_m:g} N m "
        f"it is rated for: {advice}.",
        value=pull,
        limit=mount.rated_torque_n_m * BANDS[0].upto,
        unit="N m",
        source=_SOURCE,
        part=mount.name,
    )
