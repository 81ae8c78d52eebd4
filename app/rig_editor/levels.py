"""Which level the worst finding about each part of a rig has."""

from collections.abc import Sequence

from app.words.finding_words import level_of
from core.gear.checks import Finding
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of

__all__ = ["focus_level", "levels_of"]


def levels_of(rig: Rig, found: Sequence[Finding]) -> dict[Slot, str]:
    """Give the level of the worst finding about each part; none for a part without.

    Parameters
    ----------
    rig : Rig
    found : sequence of Finding
        The worst first.
    """
    worst: dict[str, str] = {}
    for finding in found:
        worst.setdefault(finding.part, level_of(finding))
    return {slot: worst[part.name] for slot, part in slots_of(rig).items() if part.name in worst}


def focus_level(found: Sequence[Finding]) -> str | None:
    """Give the level of the finding about the back focus; None without one."""
    return next((level_of(f) for f in found if f.rule == "back-focus"), None)
