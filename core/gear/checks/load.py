"""What the mount carries, and what its owner carries."""

import math
from collections.abc import Iterable, Iterator

from core.gear.accessories import Tripod
from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.parts import Part
from core.gear.rig import Rig

__all__ = [
    "CARRY_BANDS",
    "TRIPOD_BANDS",
    "check_carried",
    "check_load",
    "check_tripod",
    "load_bands",
    "most_usual_load",
]

_LOAD_SOURCE = (
    "bands of 50 %, 67 % and 100 % of the rated load, above 1000 mm of focal length of 50 % and "
    "100 %, common practice"
)
_TRIPOD_SOURCE = "60 % and all of the rating, our own limits"
_CARRY_SOURCE = "15 and 25 kg for one person, our own limits"
#: Fractions of the rated load: comfortable, usual, all of it.
_LOAD_BANDS = (
    Band(0.50, "good", "that is comfortable"),
    Band(0.67, "note", "that is usual for pictures; keep it well balanced and out of the wind"),
    Band(1.00, "caution", "stars will often be drawn out; use a lighter rig or a larger mount"),
    Band(math.inf, "stop", "it may slip or tip over; do not use this mount for it"),
)
#: Above this focal length the comfortable load is all that is usual for pictures.
_LONG_MM = 1000.0
_LONG_BANDS = (
    _LOAD_BANDS[0],
    Band(
        1.00,
        "caution",
        "too much for so long a focal length, which shows every shake; use a lighter rig or a "
        "larger mount",
    ),
    _LOAD_BANDS[3],
)
#: Fractions of what a tripod is rated for.
TRIPOD_BANDS = (
    Band(0.60, "good", "it stands firm"),
    Band(1.00, "note", "keep its legs short and stand it out of the wind"),
    Band(math.inf, "stop", "it may give way and fall; take a sturdier one"),
)
CARRY_BANDS = (
    Band(15.0, "good", "one person carries it at once"),
    Band(25.0, "note", "walk several times"),
    Band(math.inf, "caution", "it takes a car; lift nothing heavy alone"),
)


def load_bands(focal_length_mm: float) -> tuple[Band, ...]:
    """Give the bands that a load is graded by, as fractions of the rating.

    Parameters
    ----------
    focal_length_mm : float
        Of the telescope with its corrector.

    Examples
    --------
    >>> [band.upto for band in load_bands(400.0)], [band.upto for band in load_bands(1600.0)]
    ([0.5, 0.67, 1.0, inf], [0.5, 1.0, inf])
    """
    return _LONG_BANDS if focal_length_mm > _LONG_MM else _LOAD_BANDS


def most_usual_load(focal_length_mm: float) -> float:
    """Give the fraction of the rating above which pictures suffer."""
    return load_bands(focal_length_mm)[-3].upto


def check_load(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the mass on the mount against its rating as it is used here."""
    if rig.mount is None:
        if not any(part.kind == "tripod" for part in rig.others):
            yield unknown("load", ["the mount"], source=_LOAD_SOURCE)
        return
    mode = "with" if rig.balanced else "without"
    wanted = unweighed(rig.on_mount)
    if rig.rated_load_kg is None:
        wanted.append(f"the rated load of {rig.mount.name} {mode} counterweight")
    if wanted or rig.load_fraction is None or rig.mass_kg is None:
        yield unknown("load", wanted, source=_LOAD_SOURCE, part=rig.mount.name)
        return
    band = graded(load_bands(rig.focal_length_mm), rig.load_fraction)
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
        limit=most_usual_load(rig.focal_length_mm),
        source=_LOAD_SOURCE,
        part=rig.mount.name,
    )


def check_tripod(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the mount and all on it against what the tripod is rated for."""
    tripod = next((part for part in rig.others if isinstance(part, Tripod)), None)
    if tripod is None:
        return
    above = [*rig.on_mount, *([rig.mount] if rig.mount else [])]
    wanted = unweighed(above)
    if tripod.rated_load_kg is None:
        wanted.append(f"the rated load of {tripod.name}")
    if wanted or tripod.rated_load_kg is None:
        about = "load on the tripod"
        yield unknown("tripod", wanted, about=about, source=_TRIPOD_SOURCE, part=tripod.name)
        return
    mass = math.fsum(part.mass_kg or 0.0 for part in above)
    band = graded(TRIPOD_BANDS, mass / tripod.rated_load_kg)
    more = " and the counterweights" if rig.mount and rig.balanced else ""
    yield Finding(
        rule="tripod",
        severity=band.severity,
        message=f"{tripod.name} carries {mass:.1f} kg{more}; it is rated for "
        f"{tripod.rated_load_kg:g} kg: {band.advice}.",
        value=mass,
        limit=tripod.rated_load_kg,
        unit="kg",
        source=_TRIPOD_SOURCE,
        part=tripod.name,
    )


def check_carried(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Add up everything that has to be carried to the place."""
    wanted = unweighed(rig.parts)
    if wanted or rig.carried_kg is None:
        yield unknown("total-to-carry", wanted, source=_CARRY_SOURCE)
        return
    band = graded(CARRY_BANDS, rig.carried_kg)
    less = ", counterweights not counted" if rig.mount and rig.balanced else ""
    yield Finding(
        rule="total-to-carry",
        severity=band.severity,
        message=f"All parts together are {rig.carried_kg:.1f} kg{less}: {band.advice}.",
        value=rig.carried_kg,
        limit=CARRY_BANDS[0].upto,
        unit="kg",
        source=_CARRY_SOURCE,
    )


def _help(rig: Rig) -> str:
    """Point to the counterweight where the mount has a higher rating with it."""
    fraction, more = rig.load_fraction, rig.mount and rig.mount.load_balanced_kg
    usual = most_usual_load(rig.focal_length_mm)
    if rig.balanced or fraction is None or fraction <= usual or more is None:
        return ""
    return f"; with its counterweight this mount is rated for {more:g} kg"


def unweighed(parts: Iterable[Part]) -> list[str]:
    """Name the masses that are not known."""
    return [f"the mass of {part.name}" for part in parts if part.mass_kg is None]
