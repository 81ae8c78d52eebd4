"""Tells whether the guider sees finely, bends with the tube and stays out of the picture."""

import math
from collections.abc import Iterator

from core.gear.accessories import GuideCamera, GuideScope, OffAxisGuider
from core.gear.checks.finding import Band, Conditions, Finding, graded, unknown
from core.gear.guiders import Guiders, guiders_of
from core.gear.optics.light_path import light_path
from core.gear.rig import ARCSEC_PER_RAD, Rig

__all__ = ["SCALE_BANDS", "check_flexure", "check_guide_scale", "check_prism", "reach_mm"]

_SCALE_SOURCE = "ratios of 4 and 6, common practice"
_FLEXURE_SOURCE = "off-axis guiding from about 1 m of focal length, common practice"
_PRISM_SOURCE = "plane geometry of the beam at the prism: h/2 + L/(2N) and the image circle"
#: Guide scale over image scale.
SCALE_BANDS = (
    Band(4.0, "good", "fine enough"),
    Band(
        6.0,
        "note",
        "it will do in calm air; a longer guide scope or smaller guide pixels do better",
    ),
    Band(math.inf, "caution", "too coarse; take a longer guide scope or smaller guide pixels"),
)
#: Focal lengths of the main optics, mm.
_FLEXURE_BANDS = (
    Band(600.0, "good", "too short for bending between the two to show"),
    Band(1000.0, "note", "fasten both firmly, for bending between the two may draw stars out"),
    Band(
        math.inf,
        "caution",
        "bending between the two draws stars out; use an off-axis guider (a prism before the "
        "camera)",
    ),
)


def check_guide_scale(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the guide camera's scale against the picture's."""
    guiders = guiders_of(rig)
    optics, camera = guiders.optics, guiders.camera
    if guiders.any is None:
        return
    focal = rig.focal_length_mm if isinstance(optics, OffAxisGuider) else None
    if isinstance(optics, GuideScope):
        focal = optics.focal_length_mm
    pixel = camera.pixel_um if camera else None
    if focal is None or pixel is None:
        of_scope = guiders.any.name
        lacking = f"a guide camera behind {of_scope}, with its pixel pitch"
        wanted = [] if focal is not None else [_focal_wanted(guiders)]
        if pixel is None:
            wanted.append(f"the pixel pitch of {camera.name}" if camera else lacking)
        yield unknown("guide-scale", wanted, source=_SCALE_SOURCE, part=of_scope)
        return
    yield _scales(rig, ARCSEC_PER_RAD * pixel / 1000.0 / focal, camera)


def _focal_wanted(guiders: Guiders) -> str:
    """Ask for the focal length of what guides, or for what guides."""
    guider = guiders.optics or guiders.vague
    if guider is not None:
        return f"the focal length that {guider.name} guides at"
    camera = guiders.camera
    assert camera is not None
    return f"what {camera.name} looks through (a guide scope, or a prism in the beam)"


def _scales(rig: Rig, guide_arcsec_px: float, camera: GuideCamera | None) -> Finding:
    """Judge the two scales."""
    ratio = guide_arcsec_px / rig.scale_arcsec_px
    band = graded(SCALE_BANDS, ratio)
    message = (
        f"One guide pixel covers {guide_arcsec_px:.2f} arcsec, {ratio:.1f} times a pixel of the "
        f"picture ({rig.scale_arcsec_px:.2f} arcsec): {band.advice}."
    )
    return Finding(
        rule="guide-scale",
        severity=band.severity,
        message=message,
        value=ratio,
        limit=SCALE_BANDS[0].upto,
        source=_SCALE_SOURCE,
        part=camera.name if camera else "",
    )


def check_flexure(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Say where a guide scope bends away from long optics."""
    for part in rig.others:
        if isinstance(part, GuideScope):
            band = graded(_FLEXURE_BANDS, rig.focal_length_mm)
            yield Finding(
                rule="flexure",
                severity=band.severity,
                message=f"{part.name} stands beside optics of {rig.focal_length_mm:.0f} mm focal "
                f"length: {band.advice}.",
                value=rig.focal_length_mm,
                limit=_FLEXURE_BANDS[1].upto,
                unit="mm",
                source=_FLEXURE_SOURCE,
                part=part.name,
            )


def check_prism(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """See that the prism neither shadows the sensor nor leaves the image circle."""
    for part in rig.others:
        if isinstance(part, OffAxisGuider):
            yield from _prism(rig, part)


def _prism(rig: Rig, part: OffAxisGuider) -> Iterator[Finding]:
    """Judge one off-axis guider at its front, where the beam is widest."""
    size, radius, angle = part.prism_mm, part.prism_radius_mm, part.prism_angle_deg
    place = light_path(rig).place_of(part)
    optics = rig.corrector or rig.telescope
    circle = optics.image_circle_mm
    figures = {
        f"the prism size of {part.name}": size,
        f"the distance of the prism of {part.name} from the axis": radius,
        f"the angle of the prism of {part.name}": angle,
        f"every length from {part.name} to the sensor": place,
    }
    wanted = [words for words, figure in figures.items() if figure is None]
    if size is None or radius is None or angle is None or place is None:
        yield unknown("prism-shadow", wanted, source=_PRISM_SOURCE, part=part.name)
    else:
        least = reach_mm(rig, angle) + place / (2.0 * rig.focal_ratio)
        yield _shadow(part, radius - size / 2, least)
    if size is not None and radius is not None and circle is not None:
        yield _in_circle(part, radius + size / 2, circle / 2)
    else:
        wanted = [words for words in list(figures)[:2] if figures[words] is None]
        wanted += [f"the image circle of {optics.name}"] if circle is None else []
        yield unknown("prism-light", wanted, source=_PRISM_SOURCE, part=part.name)


def reach_mm(rig: Rig, angle_deg: float) -> float:
    """Give how far the sensor reaches towards an angle.

    Parameters
    ----------
    rig : Rig
    angle_deg : float
        From the sensor's up.

    Returns
    -------
    float
        Millimetres from the middle of the sensor.
    """
    angle = math.radians(angle_deg)
    up, across = rig.camera.height_mm / 2, rig.camera.width_mm / 2
    return up * abs(math.cos(angle)) + across * abs(math.sin(angle))


def _shadow(part: OffAxisGuider, inner_mm: float, least_mm: float) -> Finding:
    """Judge the prism's inner edge."""
    free = inner_mm >= least_mm
    advice = "it casts no shadow"
    if not free:
        advice = f"it shadows the sensor; pull it out by {least_mm - inner_mm:.1f} mm"
    return Finding(
        rule="prism-shadow",
        severity="good" if free else "caution",
        message=f"The prism of {part.name} begins {inner_mm:.1f} mm from the middle of the "
        f"beam, and the sensor's light reaches out to {least_mm:.1f} mm: {advice}.",
        value=inner_mm,
        limit=least_mm,
        unit="mm",
        source=_PRISM_SOURCE,
        part=part.name,
    )


def _in_circle(part: OffAxisGuider, outer_mm: float, most_mm: float) -> Finding:
    """Judge the prism's outer edge."""
    inside = outer_mm <= most_mm
    advice = "it stands in good light"
    if not inside:
        advice = "guide stars may be dim or drawn out; push it in as far as it casts no shadow"
    return Finding(
        rule="prism-light",
        severity="good" if inside else "note",
        message=f"The prism of {part.name} ends {outer_mm:.1f} mm from the middle of the beam, "
        f"and the sharp field ends at {most_mm:.1f} mm: {advice}.",
        value=outer_mm,
        limit=most_mm,
        unit="mm",
        source=_PRISM_SOURCE,
        part=part.name,
    )
