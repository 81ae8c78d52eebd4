"""Tells whether each part screws onto the next.

A thread is said by its size, "M48x0.75", and may be said by its side too: "M48x0.75 male"
or "female" (external and internal, as ISO 5408 calls them). Where a side is not said it is
taken to fit.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

from core.gear.accessories import FilterPart, InTheBeam
from core.gear.checks.finding import Conditions, Finding, unknown
from core.gear.optics.light_path import lengths_mm
from core.gear.parts import Camera, Corrector, OtherPart, Part, Telescope
from core.gear.rig import Rig

__all__ = ["check_threads", "joins", "misfit"]

_SOURCE = "a joint needs one thread on both sides, male in female, common practice"
#: The words for the side of a thread.
_SIDES = {"male": "male", "external": "male", "female": "female", "internal": "female"}


def check_threads(rig: Rig, _: Conditions) -> Iterator[Finding]:
    """Hold the thread of each part against the next one's, from sky to sensor."""
    chain = _chain((rig.telescope, rig.corrector), rig.others, rig.camera)
    wanted: dict[str, Part] = {}
    bad: list[Finding] = []
    for before, after in pairwise(chain):
        behind, front = _behind(before), _front(after)
        if behind is None:
            wanted[f"the thread behind {before.name}"] = before
        if front is None:
            wanted[f"the thread in front of {after.name}"] = after
        why = "" if behind is None or front is None else misfit(behind, front)
        if why:
            bad.append(_mismatch(before, after, why))
    yield from bad
    if wanted:
        names = {part.name for part in wanted.values()}
        part = names.pop() if len(names) == 1 else ""
        yield unknown("threads", wanted, source=_SOURCE, part=part)
    elif not bad:
        message = f"All {len(chain) - 1} joints have the same thread on both sides."
        if len(chain) == 3:
            message = "Both joints have the same thread on both sides."
        if len(chain) == 2:
            message = f"{chain[0].name} and {chain[1].name} have the same thread."
        yield Finding(rule="threads", severity="good", message=message, source=_SOURCE)


def joins(optics: Iterable[Part | None], others: Iterable[OtherPart], camera: Camera) -> bool:
    """Tell, before they are made a rig, whether no two parts are known not to meet.

    Parameters
    ----------
    optics : iterable of Part or None
        The telescope, and the corrector if there is one.
    others : iterable of OtherPart
        In the order of the light.
    camera : Camera

    Returns
    -------
    bool
        False just where `check_threads` would stop the rig of these parts.
    """
    ends = ((_behind(a), _front(b)) for a, b in pairwise(_chain(optics, others, camera)))
    return not any(behind and front and misfit(behind, front) for behind, front in ends)


def _chain(
    optics: Iterable[Part | None], others: Iterable[OtherPart], camera: Camera
) -> list[Part]:
    """List the parts that are screwed together; a filter without length sits in another."""
    rows = lengths_mm(others, camera)
    joined = [part for part, mm in rows if not (isinstance(part, FilterPart) and mm == 0.0)]
    return [*(part for part in optics if part is not None), *joined]


def _behind(part: Part) -> str | None:
    """Give the thread on the sensor's side."""
    return part.thread if isinstance(part, Telescope | Corrector | InTheBeam) else None


def _front(part: Part) -> str | None:
    """Give the thread on the sky's side."""
    if isinstance(part, Camera):
        return part.thread
    return part.thread_front if isinstance(part, Corrector | InTheBeam) else None


@lru_cache(maxsize=1024)
def misfit(behind: str, front: str) -> str:
    """Say why two threads do not meet, and what to do; empty where they do.

    Parameters
    ----------
    behind, front : str
        The thread at the end of one part and the one that the next begins with.

    Examples
    --------
    >>> misfit("M48x0.75", "m48 × 0.75 male"), misfit("M48x0.75 male", "M48x0.75 male")
    ('', 'both threads are male; put a ring with female threads on both sides between them')
    """
    (size, side), (other_size, other_side) = _parted(behind), _parted(front)
    if size != other_size:
        return "put an adapter between them and count its length"
    if side is None or side != other_side:
        return ""
    other = "female" if side == "male" else "male"
    return f"both threads are {side}; put a ring with {other} threads on both sides between them"


def _parted(thread: str) -> tuple[str, str | None]:
    """Part a thread into its size, whatever its spelling, and its side."""
    words = thread.split()
    side = _SIDES.get(words[-1].casefold()) if len(words) > 1 else None
    size = "".join(words[:-1] if side else words)
    return size.casefold().replace("×", "x"), side


def _mismatch(before: Part, after: Part, why: str) -> Finding:
    """Tell of a joint that does not fit."""
    message = (
        f"{before.name} ends in {_behind(before)} but {after.name} begins with {_front(after)}: "
        f"{why}."
    )
    return Finding(
        rule="threads", severity="stop", message=message, source=_SOURCE, part=after.name
    )
