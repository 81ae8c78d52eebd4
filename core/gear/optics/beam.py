"""The shape of the beam behind the optics: how wide it is at each part, and what is there.

Lengths and diameters in mm. All light that reaches a corner of the sensor passes, at a
distance d from the sensor, within the sensor's diagonal plus d / N (plane geometry, exit
pupil far away; N is the focal ratio).
"""

import math
from dataclasses import dataclass

from core.errors import BadValueError
from core.gear.accessories import FilterPart, InTheBeam
from core.gear.optics.light_path import Element, light_path
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, moved

__all__ = ["Stretch", "beam_diameter_mm", "moved_in_beam", "sensor_diagonal_mm", "stretches"]


@dataclass(frozen=True)
class Stretch:
    """A part behind the optics, from the sky to the sensor; the camera is the last.

    `length_mm` and `bore_mm` are None when not known. `inside` tells that a filter sits in
    another part and takes no length of its own.
    """

    slot: Slot
    part: Part
    length_mm: float | None
    bore_mm: float | None
    inside: bool


def sensor_diagonal_mm(rig: Rig) -> float:
    """Give the length of the sensor from corner to corner."""
    return math.hypot(rig.camera.width_mm, rig.camera.height_mm)


def beam_diameter_mm(rig: Rig, distance_mm: float) -> float:
    """Give the diameter through which all light to the sensor passes.

    Parameters
    ----------
    rig : Rig
    distance_mm : float
        From the sensor, not negative.
    """
    return sensor_diagonal_mm(rig) + distance_mm / rig.focal_ratio


def stretches(rig: Rig) -> tuple[Stretch, ...]:
    """List what the light passes behind the last optical surface, with its slot."""
    found: list[Stretch] = []
    place = 0
    for element in light_path(rig).elements:
        slot = Slot("camera")
        if element.part is not rig.camera:
            while rig.others[place] is not element.part:
                place += 1
            slot, place = Slot("others", place), place + 1
        found.append(_stretch(slot, element))
    return tuple(found)


def _stretch(slot: Slot, element: Element) -> Stretch:
    """Put one stretch together."""
    part = element.part
    bore = part.clear_diameter_mm if isinstance(part, InTheBeam) else None
    inside = isinstance(part, FilterPart) and part.kind == "filter" and element.length_mm == 0.0
    return Stretch(slot, part, element.length_mm, bore, inside)


def moved_in_beam(rig: Rig, place: int, index: int) -> tuple[Rig, int]:
    """Move a part along the beam; what stands beside it keeps its order.

    Parameters
    ----------
    rig : Rig
    place : int
        Of the part among the rig's other parts.
    index : int
        Which one of the parts between the optics and the camera it will be, from the sky,
        0 first; filters inside others do not count. Beyond an end means at that end.

    Returns
    -------
    rig : Rig
    place : int
        Where the part is then among the other parts.

    Raises
    ------
    BadValueError
        When the light does not pass a part at that place.
    """
    row = [s.slot.place for s in stretches(rig)[:-1] if not s.inside and s.slot.place is not None]
    if place not in row:
        raise BadValueError("slot", f"others {place + 1}", "is not in the beam by itself")
    rest = [other for other in row if other != place]
    at = min(max(index, 0), len(rest))
    if not rest:
        return rig, place
    neighbour = rest[at] if at < len(rest) else rest[-1] + 1
    to = neighbour - (neighbour > place)
    return moved(rig, place, to), to
