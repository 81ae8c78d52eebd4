"""Tells whether a telescope that is no longer needed can guide the next rig.

Units: mm, µm, kg, arcseconds per pixel; loads are fractions of what the mount is rated for.

Sources. That the guide scale be at most 4 times the scale of the picture, that the load
stay at two thirds, and that beyond some 1000 mm one guides off the axis because a guide
scope flexes against the telescope, is common practice; nobody published a limit. Scales
are 206264.8" times pitch over focal length, at the centre.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from core.gear.parts import Camera, OtherPart, Part, Telescope
from core.gear.rig import ARCSEC_PER_RAD, Rig

__all__ = [
    "COARSEST_GUIDE_RATIO",
    "LONGEST_GUIDED_MM",
    "MOST_LOAD",
    "Duty",
    "guiding_duty",
]

#: Guide scale over the scale of the picture (common practice).
COARSEST_GUIDE_RATIO = 4.0
#: Load with the guide scope on the mount (common practice: 60 to 67 %).
MOST_LOAD = 2.0 / 3.0
#: Focal length above which a guide scope's flexure shows (common practice).
LONGEST_GUIDED_MM = 1000.0
#: Kinds of part whose place a telescope can take, and all that decide how one guides.
_REPLACED = ("guiding", "guide scope")
_GUIDERS = (*_REPLACED, "off-axis guider")
#: What was found: whether it suits (None: a figure is missing), and the sentence.
Finding = tuple[bool | None, str]


@dataclass(frozen=True)
class Duty:
    """What a part could do in the next rig.

    `suits` is None when a figure that decides is not known; `why` says so in every case.
    `parts` would move (the telescope, and the camera behind it), `spares` need not be
    bought then.
    """

    duty: str
    parts: tuple[Part, ...]
    suits: bool | None
    why: str
    spares: tuple[Part, ...] = ()


def guiding_duty(
    scope: Telescope, camera: Camera | None, goal: Rig, *, bought: Sequence[Part]
) -> Duty:
    """Tell whether a telescope suits as the guide scope of a rig.

    Parameters
    ----------
    scope : Telescope
        What is left over.
    camera : Camera or None
        What is left over to guide with; the goal's own guide camera goes before it.
    goal : Rig
    bought : sequence of Part
        Those of the goal's parts that are not there yet. Guide scopes among them are what
        the telescope would replace.

    Returns
    -------
    Duty
    """
    spares = tuple(part for part in bought if _kind(part) in _REPLACED)
    own = next((part for part in goal.parts if _kind(part) == "guide camera"), None)
    parts: tuple[Part, ...] = (scope,) if own or camera is None else (scope, camera)
    findings = [
        _wanted(goal, spares),
        _smaller(scope, goal),
        _flexure(goal),
        _scale(scope, own or camera, goal),
        _load(parts, goal, spares),
    ]
    for verdict in (False, None):
        said = [why for suits, why in findings if suits is verdict and why]
        if said:
            return Duty("guide scope", parts, verdict, "; ".join(said), spares)
    why = "; ".join(why for _, why in findings if why)
    return Duty("guide scope", parts, True, why, spares)


def _kind(part: Part) -> str | None:
    """Give the kind of a part, where it has one."""
    return getattr(part, "kind", None)


def _wanted(goal: Rig, spares: Sequence[Part]) -> Finding:
    """Look whether something else guides that is there already or chosen on purpose."""
    guiders = (part for part in goal.parts if _kind(part) in _GUIDERS and part not in spares)
    guider = next(guiders, None)
    return (True, "") if guider is None else (False, f"{guider.name} guides it already")


def _smaller(scope: Telescope, goal: Rig) -> Finding:
    """Let only a smaller telescope guide a larger one."""
    if scope.aperture_mm < goal.aperture_mm:
        return True, ""
    sizes = f"{scope.aperture_mm:.4g} mm of aperture against {goal.aperture_mm:.4g} mm"
    return False, f"it is no smaller than the telescope it would guide, {sizes}"


def _flexure(goal: Rig) -> Finding:
    """Hold the focal length against what a guide scope can follow."""
    if goal.focal_length_mm <= LONGEST_GUIDED_MM:
        return True, ""
    said = f"at {goal.focal_length_mm:.5g} mm a guide scope bends away from the telescope"
    return False, f"{said} too easily (above {LONGEST_GUIDED_MM:g} mm); guide off the axis"


def _scale(scope: Telescope, camera: Part | None, goal: Rig) -> Finding:
    """Hold the guide scale against the scale of the picture."""
    if camera is None:
        return None, "not known: no camera is left over to guide with"
    pixel_um: float | None = getattr(camera, "pixel_um", None)
    if pixel_um is None:
        return None, f"not known: give the pixel pitch of {camera.name}"
    scale_arcsec_px = ARCSEC_PER_RAD * pixel_um / 1000.0 / scope.focal_length_mm
    ratio = scale_arcsec_px / goal.scale_arcsec_px
    said = f"with {camera.name} its scale is {scale_arcsec_px:.3g}″/px, {ratio:.3g} times"
    said += " that of the picture"
    if ratio > COARSEST_GUIDE_RATIO:
        return False, f"{said}; up to {COARSEST_GUIDE_RATIO:g} times is fine"
    return True, said


def _load(parts: Sequence[Part], goal: Rig, spares: Sequence[Part]) -> Finding:
    """Hold the mass with the guide scope against what the mount carries."""
    rest = tuple(part for part in goal.others if part not in spares)
    added = tuple(OtherPart(name=part.name, mass_kg=part.mass_kg) for part in parts)
    guided = goal.but(others=(*rest, *added))
    load = guided.load_fraction
    if load is None:
        return None, f"not known: give {_missing(guided)}"
    said = f"the mount then carries {guided.mass_kg:.3g} kg, {100 * load:.3g} % of its rating"
    if load > MOST_LOAD:
        return False, f"{said}; up to {100 * MOST_LOAD:.0f} % is usual"
    return True, said


def _missing(rig: Rig) -> str:
    """Name what the load cannot be told without."""
    if rig.mount is None:
        return "a mount"
    if rig.rated_load_kg is None:
        return f"the rated load of {rig.mount.name}"
    riding = (part for part in rig.parts if getattr(part, "on_mount", part is not rig.mount))
    names = [part.name for part in riding if part.mass_kg is None]
    return f"the mass of {' and '.join(names)}"
