"""What the framing needs to know of a target, and the ellipse that stands for it.

Conventions: ICRS degrees, diameters in arcminutes, position angle of the major axis in
degrees, north through east. An unknown figure is None.
"""

from typing import Protocol

from core.framing.ellipse import SkyEllipse

__all__ = ["Outlined", "outline_of"]


class Outlined(Protocol):
    """What a target tells about its place and shape."""

    @property
    def ra_deg(self) -> float:
        """Right ascension of its centre."""

    @property
    def dec_deg(self) -> float:
        """Declination of its centre."""

    @property
    def major_arcmin(self) -> float | None:
        """Larger diameter."""

    @property
    def minor_arcmin(self) -> float | None:
        """Smaller diameter."""

    @property
    def pa_deg(self) -> float | None:
        """Position angle of the larger diameter."""

    @property
    def angle_trusted(self) -> bool:
        """Whether the angle is sure enough to turn a camera by."""


def outline_of(target: Outlined) -> tuple[SkyEllipse | None, bool]:
    """Give the ellipse that stands for a target, and whether it was taken as round.

    Parameters
    ----------
    target : Outlined

    Returns
    -------
    SkyEllipse or None
        None when its size is not known.
    bool
        True for a circle of the major diameter in place of an unknown shape or angle.
    """
    major, minor, pa_deg = target.major_arcmin, target.minor_arcmin, target.pa_deg
    if not major:
        return None, False
    assumed = not minor or (pa_deg is None and minor < major)
    if assumed or not minor or pa_deg is None:
        minor, pa_deg = major, 0.0
    return SkyEllipse(target.ra_deg, target.dec_deg, major, minor, pa_deg), assumed
