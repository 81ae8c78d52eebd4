"""The shape of the beam behind the optics: how wide it is at each part, and what is there.

Lengths and diameters in mm. All light that reaches a corner of the sensor passes, at a
distance d from the sensor, within the sensor's diagonal plus d / N (plane geometry, exit
pupil far away; N is the focal ratio).
"""

import math
from dataclasses import dataclass

from core.gear.accessories import FilterPart, InTheBeam
from core.gear.light_path import Element, light_path
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot

__all__ = ["Stretch", "beam_diameter_mm", "sensor_diagonal_mm", "stretches"]


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
