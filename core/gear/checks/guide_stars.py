"""Tells whether the guide camera sees a star wherever it looks.

Stars are fewest towards the poles of the Milky Way. Their number there, brighter than what
a guide camera can use, times its field is the mean number it sees; about the mean the real
number scatters, so a mean of 1 is none in a third of the fields (exp -1, Poisson).

A guide camera is taken to use stars to V 10 behind 30 mm of aperture with exposures of two
seconds (common practice), and 5 log10(D / 30) magnitudes more behind D mm.
"""

import math
from collections.abc import Iterator

from core.gear.accessories import GuideCamera, GuideScope, OffAxisGuider
from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.guiders import guiders_of
from core.gear.rig import Rig, angle_of_deg

__all__ = ["check_guide_stars", "stars_per_deg2", "usable_magnitude"]

_SOURCE = (
    "mean number of stars within 15 degrees of the poles of the Milky Way, counted in Tycho-2 "
    "to V 12 and continued a little more flatly to V 14; usable magnitude, common practice"
)
#: V, and stars brighter than that in a square degree, the mean of the two caps of 15 degrees
#: about the poles of the Milky Way (192.85948, +27.12825 and opposite); counted in the
#: program's star catalogue, and counted again by the test of this file.
_COUNTS = ((8.0, 0.65), (9.0, 1.67), (10.0, 4.02), (11.0, 9.23), (12.0, 18.96))
#: Beyond the catalogue: log10 of the number grows by this a magnitude (0.31 from V 11 to 12).
_SLOPE, _FAINTEST = 0.25, 14.0
_USABLE_V, _AT_APERTURE_MM = 10.0, 30.0
#: Mean numbers of stars, negated so that fewer is worse.
_BANDS = (
    Band(-3.0, "good", "there is nearly always one to guide by"),
    Band(-1.0, "note", "now and then there is none; turn the camera or move the frame a little"),
    Band(
        math.inf,
        "caution",
        "often there is none; take a guide camera with a larger sensor or a shorter guide scope",
    ),
)


def usable_magnitude(aperture_mm: float) -> float:
    """Give the faintest star that a guide camera can use behind an aperture.

    Examples
    --------
    >>> usable_magnitude(30.0), round(usable_magnitude(80.0), 2)
    (10.0, 12.13)
    """
    return _USABLE_V + 5.0 * math.log10(aperture_mm / _AT_APERTURE_MM)


def stars_per_deg2(v_mag: float) -> float:
    """Give the mean number of stars to a magnitude towards the poles of the Milky Way.

    Parameters
    ----------
    v_mag : float
        V; beyond 14 as for 14, brighter than 8 continued like fainter ones.

    Examples
    --------
    >>> stars_per_deg2(10.0)
    4.02
    """
    v_mag = min(v_mag, _FAINTEST)
    if v_mag >= _COUNTS[-1][0]:
        return float(_COUNTS[-1][1] * 10.0 ** (_SLOPE * (v_mag - _COUNTS[-1][0])))
    place = max(1, sum(1 for mag, _ in _COUNTS if mag <= v_mag))
    (low, few), (_, many) = _COUNTS[place - 1], _COUNTS[place]
    return float(few * (many / few) ** (v_mag - low))


def check_guide_stars(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the stars in the guide camera's field against one."""
    guiders = guiders_of(rig)
    optics, camera = guiders.optics, guiders.camera
    if optics is None or camera is None:
        return
    wanted = _missing(optics, camera)
    if wanted:
        yield unknown("guide-stars", wanted, source=_SOURCE, part=camera.name)
        return
    width, height = _field_deg(rig, optics, camera)
    aperture = rig.aperture_mm if isinstance(optics, OffAxisGuider) else optics.aperture_mm
    assert aperture is not None
    magnitude = min(usable_magnitude(aperture), _FAINTEST)
    mean = stars_per_deg2(magnitude) * width * height
    band = graded(_BANDS, -mean)
    yield Finding(
        rule="guide-stars",
        severity=band.severity,
        message=f"{camera.name} behind {optics.name} sees {width:.2g}° by {height:.2g}° and uses "
        f"stars to about magnitude {magnitude:.0f}: {_number(mean)} of them on average where "
        f"stars are fewest, far from the Milky Way; {band.advice}.",
        value=mean,
        limit=-_BANDS[0].upto,
        source=_SOURCE,
        part=camera.name,
    )


def _missing(optics: GuideScope | OffAxisGuider, camera: GuideCamera) -> list[str]:
    """Name the figures that are not known."""
    figures: dict[str, float | None] = {
        f"the columns of {camera.name}": camera.columns,
        f"the rows of {camera.name}": camera.rows,
        f"the pixel pitch of {camera.name}": camera.pixel_um,
    }
    if isinstance(optics, GuideScope):
        figures[f"the focal length of {optics.name}"] = optics.focal_length_mm
        figures[f"the aperture of {optics.name}"] = optics.aperture_mm
    else:
        figures[f"the prism size of {optics.name}"] = optics.prism_mm
    return [words for words, figure in figures.items() if figure is None]


def _field_deg(
    rig: Rig, optics: GuideScope | OffAxisGuider, camera: GuideCamera
) -> tuple[float, float]:
    """Give the sides of the guide field; a prism smaller than the sensor is its edge."""
    pixels = (camera.columns or 0, camera.rows or 0)
    sides = [count * (camera.pixel_um or 0.0) / 1000.0 for count in pixels]
    focal = rig.focal_length_mm
    if isinstance(optics, GuideScope):
        focal = optics.focal_length_mm or focal
    else:
        sides = [min(side, optics.prism_mm or side) for side in sides]
    return angle_of_deg(sides[0], focal), angle_of_deg(sides[1], focal)


def _number(mean: float) -> str:
    """Write a mean number of stars."""
    return f"{mean:.0f}" if mean >= 10 else f"{mean:.1f}"
