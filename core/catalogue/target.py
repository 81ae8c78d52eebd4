"""One target: where it is, how large, how it lies, and how far each figure can be trusted.

Conventions: ICRS degrees at J2000; diameters in arcminutes; the position angle of the
major axis in degrees, north through east, 0 <= PA < 180. What is not known is None and
says so; it is never filled with a guess.
"""

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Target", "TargetKind"]

_TRUSTED = frozenset({"published", "catalogue"})


class TargetKind(StrEnum):
    """What a target is; the value is the word to show."""

    GALAXY = "galaxy"
    OPEN_CLUSTER = "open cluster"
    GLOBULAR_CLUSTER = "globular cluster"
    PLANETARY_NEBULA = "planetary nebula"
    BRIGHT_NEBULA = "bright nebula"
    DARK_NEBULA = "dark nebula"
    SUPERNOVA_REMNANT = "supernova remnant"
    GALAXY_CLUSTER = "galaxy cluster"
    STAR = "star"
    SCENE = "scene"
    OTHER = "other"
    POSITION = "position"


@dataclass(frozen=True)
class Target:
    """A place on the sky worth framing.

    Parameters
    ----------
    id : str
        Its foremost designation ("M 31", "NGC 7000", "Scene Leo Triplet").
    name : str
        The best name to show; the designation where it has no name.
    kind : TargetKind
    ra_deg, dec_deg : float
        Centre, ICRS degrees.
    major_arcmin, minor_arcmin : float or None
        Diameters along and across; equal for round ones; None when not known.
    pa_deg : float or None
        Position angle of the major axis; None when not known or round.
    magnitude : float or None
        Integrated magnitude in `magnitude_band` ("V", "B" or "").
    status : str
        "published" (seen in a cited source), "catalogue" (as in the source table),
        "partly" (some part computed, visual or from memory), "unverified".
    angle_status : str
        The same for the angle: "published", "catalogue", "described" (read from words),
        "computed", "memory", "unverified", or "" without an angle.
    source : str
        Where the figures come from.
    aliases : tuple of str
        Every designation, `id` first.
    common_names : tuple of str
        Every common name, the best first.
    members : tuple of str
        Designations of the objects a scene binds together.
    """

    id: str
    name: str
    kind: TargetKind
    ra_deg: float
    dec_deg: float
    major_arcmin: float | None = None
    minor_arcmin: float | None = None
    pa_deg: float | None = None
    magnitude: float | None = None
    magnitude_band: str = ""
    status: str = "catalogue"
    source: str = ""
    aliases: tuple[str, ...] = ()
    common_names: tuple[str, ...] = ()
    members: tuple[str, ...] = ()
    angle_status: str = ""

    @property
    def size_known(self) -> bool:
        """Whether a diameter is known; without one nothing may be said to fit."""
        return self.major_arcmin is not None

    @property
    def angle_known(self) -> bool:
        """Whether the direction of the major axis is known."""
        return self.pa_deg is not None

    @property
    def angle_trusted(self) -> bool:
        """Whether the angle is sure enough to suggest a rotation of the camera."""
        return self.angle_known and self.angle_status in _TRUSTED

    @property
    def approximate(self) -> bool:
        """Whether size and place are less sure than a published source."""
        return self.status not in _TRUSTED

    @property
    def size_words(self) -> str:
        """Diameters in words.

        Examples
        --------
        >>> Target("M 31", "", TargetKind.GALAXY, 10.7, 41.3, 177.8, 69.7).size_words
        '178′ × 70′'
        """
        if self.major_arcmin is None:
            return "size not known"
        about = "about " if self.approximate else ""
        major, minor = _arcmin(self.major_arcmin), _arcmin(self.minor_arcmin or self.major_arcmin)
        return f"{about}{major}" if major == minor else f"{about}{major} × {minor}"

    @property
    def angle_words(self) -> str:
        """The position angle in words, with its doubt."""
        if self.pa_deg is None:
            return "angle not known"
        doubt = "" if self.angle_trusted else "about "
        return f"{doubt}PA {self.pa_deg:.0f}°"


def _arcmin(value: float) -> str:
    """Write an arc of minutes with two figures at least."""
    if value >= 10.0:
        return f"{value:.0f}′"
    return f"{value:.1f}′" if value >= 0.95 else f"{value * 60.0:.0f}″"
