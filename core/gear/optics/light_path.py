"""The way of the light from the corrector's last surface to the sensor, with lengths.

Lengths in mm. A plane plate of thickness t and index n moves the focus back by
t (1 - 1/n) (paraxial; textbook, from memory), so glass in the beam lengthens the distance
that is needed and shortens nothing. An element's place is the distance of its front from
the sensor. One filter of a wheel or drawer is in the beam at a time: of those that are
parts by themselves the one with most glass counts.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from operator import is_

from core.gear.accessories import FilterPart, InTheBeam
from core.gear.parts import Camera, OtherPart, Part
from core.gear.rig import Rig

__all__ = [
    "BackFocus",
    "Element",
    "LightPath",
    "back_focus",
    "glass_shift_mm",
    "lengths_mm",
    "light_path",
]

#: Thickness of no glass, and what it does.
_NO_GLASS = 0.0


def glass_shift_mm(thickness_mm: float, index: float) -> float:
    """Give how far a plane plate moves the focus back.

    Parameters
    ----------
    thickness_mm : float
        Not negative.
    index : float
        Refractive index, at least 1.

    Examples
    --------
    >>> round(glass_shift_mm(2.0, 1.52), 4)
    0.6842
    """
    return thickness_mm * (1.0 - 1.0 / index)


@dataclass(frozen=True)
class Element:
    """A part in the beam: its length along it and what its glass does.

    `to_sensor_mm` is the distance of its front from the sensor; a figure that is not known
    is None, and `missing` says which has to be given.
    """

    part: Part
    length_mm: float | None
    shift_mm: float | None
    to_sensor_mm: float | None
    missing: tuple[str, ...] = ()


@dataclass(frozen=True)
class LightPath:
    """The elements from the sky to the sensor, the camera last."""

    elements: tuple[Element, ...]

    @property
    def present_mm(self) -> float | None:
        """The whole length; None when one of them is not known."""
        return self.elements[0].to_sensor_mm

    @property
    def shift_mm(self) -> float | None:
        """What all glass together adds to the distance needed; None when not known."""
        shifts = [element.shift_mm for element in self.elements]
        known = [shift for shift in shifts if shift is not None]
        return math.fsum(known) if len(known) == len(shifts) else None

    @property
    def missing(self) -> tuple[str, ...]:
        """The figures that have to be given before all is known."""
        return tuple(words for element in self.elements for words in element.missing)

    def place_of(self, part: Part) -> float | None:
        """Give the distance of a part's front from the sensor, None when not known."""
        found = (element.to_sensor_mm for element in self.elements if element.part is part)
        return next(found, None)


@dataclass(frozen=True)
class BackFocus:
    """The distance needed from the last optical surface, the one present, the difference.

    `missing_mm` is negative where the chain is too long.
    """

    required_mm: float | None
    present_mm: float | None

    @property
    def missing_mm(self) -> float | None:
        """What is missing; None when not known."""
        if self.required_mm is None or self.present_mm is None:
            return None
        return self.required_mm - self.present_mm


def light_path(rig: Rig) -> LightPath:
    """List the parts in the beam behind the last optical surface.

    Parameters
    ----------
    rig : Rig
        Its others are in the order of the light.

    Returns
    -------
    LightPath
        Each element with its length from the corrector's last surface to the sensor.
    """
    return _path_through(_Beam(rig.others, rig.camera))


def lengths_mm(others: Iterable[OtherPart], camera: Camera) -> list[tuple[Part, float | None]]:
    """Give the parts that the light passes behind the optics, each with its length.

    Parameters
    ----------
    others : iterable of OtherPart
        In the order of the light, among them what it does not pass.
    camera : Camera
        The last.

    Returns
    -------
    list of (Part, float or None)
        Millimetres, 0 for a filter that sits inside another part, None where not known.
    """
    parts = [*(part for part in others if _in_the_beam(part)), camera]
    return [(part, _length_mm(part, parts)) for part in parts]


def back_focus(rig: Rig) -> BackFocus:
    """Hold the distance that the optics need against the one of the chain.

    Parameters
    ----------
    rig : Rig

    Returns
    -------
    BackFocus
        `required_mm` holds the corrector's figure (or the telescope's, without one) and
        what the glass adds.
    """
    path, optics = light_path(rig), rig.corrector or rig.telescope
    if optics.back_focus_mm is None or path.shift_mm is None:
        return BackFocus(None, path.present_mm)
    return BackFocus(optics.back_focus_mm + path.shift_mm, path.present_mm)


class _Beam:
    """The other parts and the camera as a key: the same where each is the very same record."""

    def __init__(self, others: tuple[OtherPart, ...], camera: Camera) -> None:
        self.others, self.camera = others, camera

    def __hash__(self) -> int:
        return hash((*map(id, self.others), id(self.camera)))

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, _Beam) or len(self.others) != len(other.others):
            return False
        return self.camera is other.camera and all(map(is_, self.others, other.others))


@lru_cache(maxsize=256)
def _path_through(beam: _Beam) -> LightPath:
    """List the elements; most checks of a rig ask for the same, and many rigs share them."""
    rows = lengths_mm(beam.others, beam.camera)
    places = list(accumulate((length for _, length in reversed(rows)), _plus))[::-1]
    held = _held_filter([part for part, _ in rows])
    return LightPath(
        tuple(
            _element(part, length, place, held)
            for (part, length), place in zip(rows, places, strict=True)
        )
    )


def _in_the_beam(part: OtherPart) -> bool:
    """Tell whether the light passes a part; a guider that has a length is off-axis."""
    if isinstance(part, InTheBeam):
        return True
    return part.kind == "guiding" and part.length_mm is not None


def _holds(part: Part) -> bool:
    """Tell whether a part is a wheel or drawer."""
    return isinstance(part, FilterPart) and part.kind != "filter"


def _held_filter(parts: list[Part]) -> Part | None:
    """Give the one filter that counts where a wheel or drawer changes them."""
    if not any(_holds(part) for part in parts):
        return None
    loose = [part for part in parts if isinstance(part, FilterPart) and not _holds(part)]
    return max(loose, key=_thickness, default=None)


def _thickness(part: FilterPart) -> float:
    """Order filters by what they do; an unknown one comes first."""
    shift = _shift_mm(part.glass_mm, part.glass_index)
    return math.inf if shift is None else shift


def _length_mm(part: Part, parts: list[Part]) -> float | None:
    """Give a part's length; a filter without one sits inside another part."""
    if isinstance(part, Camera):
        return part.flange_mm
    assert isinstance(part, OtherPart)
    if isinstance(part, FilterPart) and not _holds(part):
        held = any(_holds(other) for other in parts)
        return 0.0 if held or part.length_mm is None else part.length_mm
    return part.length_mm


def _plus(one: float | None, other: float | None) -> float | None:
    """Add what is known."""
    return None if one is None or other is None else one + other


def _shift_mm(glass_mm: float | None, index: float | None) -> float | None:
    """Give what a glass does, None when not known; no glass needs no index."""
    if glass_mm == 0.0:
        return _NO_GLASS
    return None if glass_mm is None or index is None else glass_shift_mm(glass_mm, index)


def _element(
    part: Part, length_mm: float | None, to_sensor_mm: float | None, held: Part | None
) -> Element:
    """Put one element together."""
    glass_mm, index = _glass_of(part, held)
    shift_mm = _shift_mm(glass_mm, index)
    wanted: list[str] = []
    if shift_mm is None:
        what = "glass thickness" if glass_mm is None else "refractive index of the glass"
        wanted.append(f"the {what} of {part.name}")
    if length_mm is None:
        flange = f"the flange distance of {part.name} (from its front to its sensor)"
        wanted.append(flange if isinstance(part, Camera) else f"the length of {part.name}")
    return Element(part, length_mm, shift_mm, to_sensor_mm, tuple(wanted))


def _glass_of(part: Part, held: Part | None) -> tuple[float | None, float | None]:
    """Give thickness and index of the glass in the beam with a part."""
    if isinstance(part, Camera):
        return part.cover_glass_mm, part.cover_index
    if not isinstance(part, FilterPart) or held not in (None, part):
        return _NO_GLASS, None
    return part.glass_mm, part.glass_index
