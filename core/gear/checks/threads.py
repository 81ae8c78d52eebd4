"""Tells whether each part screws onto the next."""

from collections.abc import Iterator
from itertools import pairwise

from core.gear.accessories import FilterPart, InTheBeam
from core.gear.checks.finding import Conditions, Finding, unknown
from core.gear.light_path import Element, light_path
from core.gear.parts import Camera, Corrector, Part, Telescope
from core.gear.rig import Rig

__all__ = ["check_threads"]

_SOURCE = "a joint needs one thread on both sides, common practice"


def check_threads(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the thread of each part against the next one's, from sky to sensor."""
    chain = _chain(rig)
    wanted: list[str] = []
    bad: list[Finding] = []
    for before, after in pairwise(chain):
        behind, front = _behind(before), _front(after)
        if behind is None:
            wanted.append(f"the thread behind {before.name}")
        if front is None:
            wanted.append(f"the thread in front of {after.name}")
        if behind is not None and front is not None and _key(behind) != _key(front):
            bad.append(_mismatch(before, after, behind, front))
    yield from bad
    if wanted:
        yield unknown("threads", wanted, source=_SOURCE)
    elif not bad:
        message = f"All {len(chain) - 1} joints have the same thread on both sides."
        if len(chain) == 2:
            message = f"{chain[0].name} and {chain[1].name} have the same thread."
        yield Finding(rule="threads", severity="good", message=message, source=_SOURCE)


def _chain(rig: Rig) -> list[Part]:
    """List the parts that are screwed together; a filter without length sits in another."""
    joined = [e.part for e in light_path(rig).elements if not _inside(e)]
    return [rig.telescope, *([rig.corrector] if rig.corrector else []), *joined]


def _inside(element: Element) -> bool:
    """Tell whether an element is a filter that sits inside another part."""
    return isinstance(element.part, FilterPart) and element.length_mm == 0.0


def _behind(part: Part) -> str | None:
    """Give the thread on the sensor's side."""
    return part.thread if isinstance(part, Telescope | Corrector | InTheBeam) else None


def _front(part: Part) -> str | None:
    """Give the thread on the sky's side."""
    if isinstance(part, Camera):
        return part.thread
    return part.thread_front if isinstance(part, Corrector | InTheBeam) else None


def _key(thread: str) -> str:
    """Write a thread so that spelling does not matter."""
    return "".join(thread.split()).casefold().replace("×", "x")


def _mismatch(before: Part, after: Part, behind: str, front: str) -> Finding:
    """Tell of a joint that does not fit."""
    message = (
        f"{before.name} ends in {behind} but {after.name} begins with {front}: "
        f"put an adapter between them and count its length."
    )
    return Finding(
        rule="threads", severity="stop", message=message, source=_SOURCE, part=after.name
    )
