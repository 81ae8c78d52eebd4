"""How much of the sensor and of its corners the light reaches.

Lengths in mm. A ring of clear diameter d at the distance L before the sensor, with the exit
pupil infinitely far away (the worst case), meets the beam of an image point at the height y
as a circle L/N across, centred at y; what passes is the part of that circle inside the
ring. The outline of a sensor cut by the image circle is an exact area integral. Both are
plane geometry, derived here.
"""

import math

__all__ = ["beam_passing", "fraction_in_circle"]


def fraction_in_circle(width_mm: float, height_mm: float, circle_mm: float) -> float:
    """Give the fraction of a rectangle's area inside a circle about its centre.

    Parameters
    ----------
    width_mm, height_mm, circle_mm : float
        Sides of the rectangle and diameter of the circle, all above 0.

    Returns
    -------
    float
        0 to 1.

    Examples
    --------
    >>> round(fraction_in_circle(23.49248, 15.70176, 26.0), 5)
    0.9842
    """
    half_width, half_height, radius = width_mm / 2, height_mm / 2, circle_mm / 2
    if radius >= math.hypot(half_width, half_height):
        return 1.0
    flat = min(half_width, math.sqrt(max(radius**2 - half_height**2, 0.0)))
    end = min(half_width, radius)
    curved = _under_arc(end, radius) - _under_arc(flat, radius)
    return (flat * min(half_height, radius) + curved) / (half_width * half_height)


def beam_passing(clear_mm: float, *, distance_mm: float, ratio: float, height_mm: float) -> float:
    """Give the part of an image point's beam that a ring lets through.

    Parameters
    ----------
    clear_mm : float
        Clear diameter of the ring.
    distance_mm : float
        From the ring to the sensor.
    ratio : float
        Focal ratio of the beam.
    height_mm : float
        How far the image point is from the axis.

    Returns
    -------
    float
        0 to 1; 1 when nothing is cut off.
    """
    ring, beam = clear_mm / 2, distance_mm / ratio / 2
    if height_mm + beam <= ring:
        return 1.0
    if beam <= 0.0 or height_mm >= ring + beam:
        return 0.0
    if height_mm <= abs(ring - beam):
        return min(1.0, (ring / beam) ** 2)
    return _lens(ring, beam, height_mm) / (math.pi * beam**2)


def _under_arc(to_mm: float, radius: float) -> float:
    """Integrate the height of a circle from its middle."""
    inside = math.sqrt(max(radius**2 - to_mm**2, 0.0))
    return (to_mm * inside + radius**2 * math.asin(min(to_mm / radius, 1.0))) / 2


def _lens(one: float, other: float, apart: float) -> float:
    """Give the area that two circles share (textbook)."""
    return _segment(one, other, apart) + _segment(other, one, apart)


def _segment(radius: float, other: float, apart: float) -> float:
    """Give the part of one circle beyond the chord that it shares with another."""
    chord = (apart**2 + radius**2 - other**2) / (2.0 * apart)
    half = math.acos(max(-1.0, min(1.0, chord / radius)))
    return radius**2 * (half - math.sin(half) * math.cos(half))
