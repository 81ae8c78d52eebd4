"""What the mount carries, and what its owner carries."""

import math
from collections.abc import Iterable, Iterator

from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.parts import Part
from core.gear.rig import Rig

__all__ = ["check_carried", "check_load"]

_LOAD_SOURCE = "bands of 50 %, 67 % and 100 % of the rated load, common practice"
_CARRY_SOURCE = "15 and 25 kg for one person, our own limits"
#: Fractions of the rated load: comfortable, usual, all of it.
_LOAD_BANDS = (
    Band(0.50, "good", "that is comfortable"),
    Band(0.67, "note", "that is usual for pictures; keep it well balanced and out of the wind"),
    Band(1.00, "caution", "stars will often be drawn out; use a lighter rig or a larger mount"),
    Band(math.inf, "stop", "it may slip or tip over; do not use this mount for it"),
)
_CARRY_BANDS = (
    Band(15.0, "good", "one person carries it at once"),
    Band(25.0, "note", "carry it in several goes"),
    Band(math.inf, "caution", "it belongs in a car; lift nothing heavy alone"),
)


def check_load(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the mass on the mount against its rating as it is used here."""
    if rig.mount is None:
        yield unknown("load", ["the mount"], source=_LOAD_SOURCE)
        return
    mode = "with" if rig.balanced else "without"
    wanted = _unweighed(rig.on_mount)
    if rig.rated_load_kg is None:
        wanted.append(f"the rated load of {rig.mount.name} {mode} counterweight")
    if wanted or rig.load_fraction is None or rig.mass_kg is None:
        yield unknown("load", wanted, source=_LOAD_SOURCE, part=rig.mount.name)
        return
    band = graded(_LOAD_BANDS, rig.load_fraction)
    advice = band.advice + _help(rig)
    message = (
        f"{rig.mount.name} carries {rig.mass_kg:.1f} kg of the {rig.rated_load_kg:g} kg it is "
        f"rated for {mode} counterweight, {100 * rig.load_fraction:.0f} %: {advice}."
    )
    yield Finding(
        rule="load",
        severity=band.severity,
        message=message,
        value=rig.load_fraction,
        limit=_LOAD_BANDS[1].upto,
        source=_LOAD_SOURCE,
        part=rig.mount.name,
    )


def check_carried(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Add up everything that has to be carried to the place."""
    wanted = _unweighed(rig.parts)
    if wanted or rig.carried_kg is None:
        yield unknown("total-to-carry", wanted, source=_CARRY_SOURCE)
        return
    band = graded(_CARRY_BANDS, rig.carried_kg)
    less = ", counterweights not among it" if rig.mount and rig.balanced else ""
    yield Finding(
        rule="total-to-carry",
        severity=band.severity,
        message=f"All parts together are {rig.carried_kg:.1f} kg{less}: {band.advice}.",
        value=rig.carried_kg,
        limit=_CARRY_BANDS[0].upto,
        unit="kg",
        source=_CARRY_SOURCE,
    )


def _help(rig: Rig) -> str:
    """Point to the counterweight where the mount has a higher rating with it."""
    fraction, more = rig.load_fraction, rig.mount and rig.mount.load_balanced_kg
    if rig.balanced or fraction is None or fraction <= _LOAD_BANDS[1].upto or more is None:
        return ""
    return f", or its counterweight, with which it is rated for {more:g} kg"


def _unweighed(parts: Iterable[Part]) -> list[str]:
    """Name the masses that are not known."""
    return [f"the mass of {part.name}" for part in parts if part.mass_kg is None]
