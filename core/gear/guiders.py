"""What guides a rig: a guide scope or an off-axis guider, and the camera behind it."""

from dataclasses import dataclass

from core.gear.accessories import GuideCamera, GuideScope, OffAxisGuider
from core.gear.parts import OtherPart
from core.gear.rig import Rig

__all__ = ["Guiders", "guiders_of"]


@dataclass(frozen=True)
class Guiders:
    """The first of each kind; `vague` is a guider of which no more is known."""

    optics: GuideScope | OffAxisGuider | None
    camera: GuideCamera | None
    vague: OtherPart | None

    @property
    def any(self) -> OtherPart | None:
        """The part to speak of; None where nothing guides."""
        return self.optics or self.vague or self.camera

    @property
    def complete(self) -> bool:
        """Whether a star can be held: there is something to look through, and a camera."""
        return self.vague is not None or None not in (self.optics, self.camera)


def guiders_of(rig: Rig) -> Guiders:
    """Find what guides a rig.

    Parameters
    ----------
    rig : Rig

    Returns
    -------
    Guiders
        Of several guide scopes or guide cameras the first, in the rig's order.
    """
    optics = (p for p in rig.others if isinstance(p, GuideScope | OffAxisGuider))
    cameras = (p for p in rig.others if isinstance(p, GuideCamera))
    vague = (p for p in rig.others if p.kind == "guiding")
    return Guiders(next(optics, None), next(cameras, None), next(vague, None))
