"""How much light a rig gathers, and how fast it is against another.

The clear area is that of the aperture without what the obstruction covers, pi/4 (D^2 -
o^2). The light of a star goes as that area. The light of a nebula on one pixel goes as the
area times the square of the image scale, which is p^2 (1 - e^2) / N^2 with pixel pitch p,
focal ratio N and e = o / D (textbook; from memory). Once two pictures of one nebula are
brought to the same scale, only the areas count. Glass, filters and sensors are taken to be
equally good; read noise is left out.
"""

import math
from dataclasses import dataclass

from core.gear.parts import Telescope
from core.gear.rig import Rig

__all__ = [
    "LightRatio",
    "clear_area_cm2",
    "light_grasp_cm2",
    "light_per_pixel",
    "light_ratio",
    "obstruction_mm",
]

#: Telescopes that nothing stands in front of; all others have a mirror there.
_CLEAR = ("refractor", "lens")


@dataclass(frozen=True)
class LightRatio:
    """Light of one rig over that of another; None where it is not known.

    `same_scale` is for stars, and for nebulae in pictures brought to the same scale;
    `per_pixel` for a nebula on one pixel of each.
    """

    same_scale: float | None
    per_pixel: float | None


def clear_area_cm2(aperture_mm: float, obstruction_mm: float = 0.0) -> float:
    """Give the area that takes in light.

    Parameters
    ----------
    aperture_mm, obstruction_mm : float
        Diameters. Arrays work too.

    Examples
    --------
    >>> round(clear_area_cm2(200.0, 70.0) / clear_area_cm2(200.0), 4)
    0.8775
    """
    return math.pi / 4.0 * (aperture_mm**2 - obstruction_mm**2) / 100.0


def obstruction_mm(telescope: Telescope) -> float | None:
    """Give what stands in front of the aperture; 0 for lenses, None where not known."""
    if telescope.obstruction_mm is None and telescope.kind in _CLEAR:
        return 0.0
    return telescope.obstruction_mm


def light_grasp_cm2(rig: Rig) -> float | None:
    """Give the clear area of a rig; None where its obstruction is not known."""
    obstruction = obstruction_mm(rig.telescope)
    return None if obstruction is None else clear_area_cm2(rig.aperture_mm, obstruction)


def light_per_pixel(rig: Rig) -> float | None:
    """Give what a nebula's light on one pixel goes by, in cm² arcsec².

    Parameters
    ----------
    rig : Rig

    Returns
    -------
    float or None
        Clear area times the square of the image scale; None where it is not known.
    """
    area = light_grasp_cm2(rig)
    return None if area is None else area * rig.scale_arcsec_px**2


def light_ratio(rig: Rig, other: Rig) -> LightRatio:
    """Hold the light of one rig against that of another.

    Parameters
    ----------
    rig, other : Rig

    Returns
    -------
    LightRatio
        Above 1 where `rig` gets more.
    """
    areas = _area_ratio(rig, other)
    scales = rig.scale_arcsec_px / other.scale_arcsec_px
    return LightRatio(areas, None if areas is None else areas * scales**2)


def _area_ratio(rig: Rig, other: Rig) -> float | None:
    """Divide the clear areas; one telescope has one, known or not."""
    if rig.telescope == other.telescope:
        return 1.0
    one, two = light_grasp_cm2(rig), light_grasp_cm2(other)
    return None if one is None or two is None else one / two
