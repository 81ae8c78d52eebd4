"""Points out a camera that sees no colour and has no filter before it."""

from collections.abc import Iterable, Iterator

from core.gear.accessories import FilterPart
from core.gear.checks.finding import Conditions, Finding
from core.gear.parts import Camera, Part
from core.gear.rig import Rig

__all__ = ["check_colour", "sees_grey"]

_SOURCE = "a colour picture takes three exposures behind three filters, common practice"


def sees_grey(camera: Camera, others: Iterable[Part]) -> bool:
    """Tell whether a camera is known to see no colour and nothing filters its light."""
    return camera.sensor == "mono" and not any(isinstance(part, FilterPart) for part in others)


def check_colour(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Say that a mono camera without filters takes grey pictures."""
    if not sees_grey(rig.camera, rig.others):
        return
    yield Finding(
        rule="colour",
        severity="note",
        message=f"{rig.camera.name} sees no colour (mono) and no filter is in the beam: pictures "
        "come out grey; for colour add a wheel or drawer with filters, or take a colour camera.",
        source=_SOURCE,
        part=rig.camera.name,
    )
