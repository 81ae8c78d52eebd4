"""How a target sits in a frame: how much of the frame it fills, what is cut, what room is left.

Sizes are compared as they are drawn on the frame's own tangent plane, with the exact
tangents of the half field. A target without a size has no answer and is never a fit. One
with a size but no angle is taken as a circle of its major diameter: what fits then, fits
at every angle.

Position angles in degrees, north through east; a frame's of its up, a target's of its
major axis. Room in arcminutes, along the middle lines of the frame from its centre.
All of it is geometry.
"""

import math
from dataclasses import dataclass

from core.framing.ellipse import SeenEllipse
from core.framing.outlined import Outlined, outline_of
from core.framing.rotation import suggested_pa
from core.sky.footprint import Footprint

__all__ = ["Fit", "fill_and_cover", "suggested_pa"]

#: What rounding may take off the room of a target that just fits.
_ROUNDING_ARCMIN = 1e-9
_SIDES = ("top", "right", "bottom", "left")


@dataclass(frozen=True)
class Fit:
    """How a target sits in a frame.

    Parameters
    ----------
    fill : float or None
        The larger of its extent over the frame's along both axes; above 1 it cannot fit
        at this angle. None: not known.
    covered : float or None
        Part of its area inside the frame, 0 to 1, exact.
    room_arcmin : tuple of four floats, or None
        From the target's edge to the top, right, bottom and left of the frame, as the
        camera sees it; negative where it is cut.
    assumed_round : bool
        True when its angle or smaller diameter is not known, so that a circle of the
        major diameter stands for it.
    size_known : bool
        False when there is nothing to measure.
    """

    fill: float | None = None
    covered: float | None = None
    room_arcmin: tuple[float, float, float, float] | None = None
    assumed_round: bool = False
    size_known: bool = True

    @property
    def fits(self) -> bool:
        """Whether all of it is known to lie inside."""
        return self.room_arcmin is not None and min(self.room_arcmin) >= -_ROUNDING_ARCMIN

    @property
    def verdict(self) -> str:
        """The same in plain words."""
        if not self.size_known:
            return "size not known"
        if self.covered is None or self.room_arcmin is None:
            return "too far from the frame to measure"
        doubt = ", taken as round" if self.assumed_round else ""
        if self.fits:
            return f"fits, {_arc(min(self.room_arcmin))} to spare{doubt}"
        if self.covered == 0.0:
            return "outside the frame"
        sides = [side for side, room in zip(_SIDES, self.room_arcmin, strict=True) if room < 0.0]
        return f"{_percent(self.covered)} inside, cut at {_and(sides)}{doubt}"


def fill_and_cover(target: Outlined, footprint: Footprint) -> Fit:
    """Measure how a target sits in a frame.

    Parameters
    ----------
    target : Outlined
        A target, of a catalogue or of a plan.
    footprint : Footprint
        The frame: any centre, any angle.

    Returns
    -------
    Fit
        Its figures are None when the size is not known, or when the target reaches 90
        degrees from the frame's centre.

    Examples
    --------
    >>> from core.catalogue.target import Target, TargetKind
    >>> m31 = Target("M 31", "", TargetKind.GALAXY, 10.68, 41.27, 178.0, 70.0, 35.0)
    >>> fit = fill_and_cover(m31, Footprint(10.68, 41.27, 4.0, 3.0, 125.0))
    >>> round(fit.fill, 2), fit.covered, fit.verdict
    (0.74, 1.0, 'fits, 31′ to spare')
    """
    ellipse, assumed_round = outline_of(target)
    if ellipse is None:
        return Fit(size_known=False)
    seen = ellipse.seen_from(footprint)
    if seen is None:
        return Fit(assumed_round=assumed_round)
    half_width, half_height = footprint.half_extents
    across, along = seen.half_extents
    fit = Fit(
        fill=max(across / half_width, along / half_height),
        covered=1.0,
        room_arcmin=_room(seen, footprint),
        assumed_round=assumed_round,
    )
    if fit.fits:
        return fit
    covered = 0.0 if _apart(seen, footprint) else seen.fraction_inside(half_width, half_height)
    return Fit(fit.fill, covered, fit.room_arcmin, assumed_round)


def _room(seen: SeenEllipse, footprint: Footprint) -> tuple[float, float, float, float]:
    """Measure the room to the top, right, bottom and left in arcminutes."""
    across, along = seen.half_extents
    half_width, half_height = footprint.width_deg / 2.0, footprint.height_deg / 2.0
    reaches = (seen.y + along, seen.x + across, along - seen.y, across - seen.x)
    sides = (half_height, half_width, half_height, half_width)
    top, right, bottom, left = (
        (side - math.degrees(math.atan(reach))) * 60.0
        for side, reach in zip(sides, reaches, strict=True)
    )
    return top, right, bottom, left


def _apart(seen: SeenEllipse, footprint: Footprint) -> bool:
    """Tell whether the box around the ellipse misses the frame."""
    (across, along), (half_width, half_height) = seen.half_extents, footprint.half_extents
    return abs(seen.x) - across >= half_width or abs(seen.y) - along >= half_height


def _arc(arcmin: float) -> str:
    """Write an arc in minutes, or in degrees when it is large."""
    arcmin = max(arcmin, 0.0)
    if arcmin >= 90.0:
        return f"{arcmin / 60.0:.1f}°"
    return f"{arcmin:.0f}′" if arcmin >= 9.5 else f"{arcmin:.1f}′"


def _percent(part: float) -> str:
    """Write a part that is neither nothing nor all."""
    percent = math.floor(part * 100.0)
    return f"{percent} %" if percent >= 1 else "less than 1 %"


def _and(words: list[str]) -> str:
    """Join words."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
