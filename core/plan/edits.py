"""Changes to a plan: each function takes one and gives a new one, checked throughout.

What a change does not concern stays the same object, so a caller may compare by `is`.
An id that the plan does not know raises BadValueError and changes nothing.
"""

import re
from collections.abc import Iterable

from core.catalogue.target import Target
from core.errors import BadValueError
from core.framing.fit import suggested_pa
from core.gear.nights import Conditions
from core.gear.rig import Rig
from core.plan.document import (
    COLOURS,
    DASHES,
    Framing,
    Plan,
    PlannedRig,
    PlannedTarget,
    SheetView,
    planned_target,
)

__all__ = [
    "framing_of",
    "with_current_rig",
    "with_framing",
    "with_nights",
    "with_rig",
    "with_rig_changed",
    "with_rig_copied",
    "with_rig_look",
    "with_rig_moved",
    "with_rig_shown",
    "with_target",
    "with_title",
    "with_view",
    "without_framing",
    "without_rig",
    "without_target",
]

#: Characters of a name at most (`core.record.validation.Name`).
_LONGEST_NAME = 120


def with_target(plan: Plan, target: Target | PlannedTarget) -> Plan:
    """Make a target the current one; it is added when the plan does not have it."""
    planned = target if isinstance(target, PlannedTarget) else planned_target(target)
    if any(known.id == planned.id for known in plan.targets):
        return plan.but(current_target=planned.id)
    return plan.but(targets=(*plan.targets, planned), current_target=planned.id)


def without_target(plan: Plan, target_id: str) -> Plan:
    """Take a target out with its framings; its neighbour becomes current if it was."""
    plan.target(target_id)
    left = tuple(target for target in plan.targets if target.id != target_id)
    return plan.but(
        targets=left,
        framings=tuple(framing for framing in plan.framings if framing.target != target_id),
        current_target=_neighbour([t.id for t in plan.targets], target_id, plan.current_target),
    )


def with_rig(plan: Plan, rig: Rig) -> Plan:
    """Add a rig at the end and make it current; its look differs from its neighbours'."""
    planned = _newcomer(plan, rig)
    return plan.but(rigs=(*plan.rigs, planned), current_rig=planned.id)


def with_rig_changed(plan: Plan, rig_id: str, rig: Rig) -> Plan:
    """Put a rig in the place of another; its id, its look and its framings stay."""
    return _with_planned_rig(plan, plan.rig(rig_id).but(rig=rig))


def with_rig_copied(plan: Plan, rig_id: str) -> Plan:
    """Put a copy right behind a rig and make it current.

    Parameters
    ----------
    plan : Plan
    rig_id : str

    Returns
    -------
    Plan
        The copy is called "X (2)", or by the next number that no rig has, points where the
        first one does, and has a look of its own.
    """
    planned = plan.rig(rig_id)
    taken = {other.rig.name for other in plan.rigs}
    copied = _newcomer(plan, planned.rig.but(name=_free_name(planned.rig.name, taken)))
    rigs = list(plan.rigs)
    rigs.insert(plan.place_of(rig_id) + 1, copied)
    pointed = tuple(f.but(rig=copied.id) for f in plan.framings if f.rig == rig_id)
    framings = (*plan.framings, *pointed)
    return plan.but(rigs=tuple(rigs), framings=framings, current_rig=copied.id)


def without_rig(plan: Plan, rig_id: str) -> Plan:
    """Take a rig out with its framings; its neighbour becomes current if it was."""
    plan.rig(rig_id)
    return plan.but(
        rigs=tuple(rig for rig in plan.rigs if rig.id != rig_id),
        framings=tuple(framing for framing in plan.framings if framing.rig != rig_id),
        current_rig=_neighbour([rig.id for rig in plan.rigs], rig_id, plan.current_rig),
    )


def with_current_rig(plan: Plan, rig_id: str | None) -> Plan:
    """Choose a rig, or none."""
    return plan.but(current_rig=rig_id)


def with_rig_shown(plan: Plan, rig_id: str, *, shown: bool) -> Plan:
    """Show or hide a rig's frame."""
    return _with_planned_rig(plan, plan.rig(rig_id).but(shown=shown))


def with_rig_look(
    plan: Plan, rig_id: str, *, colour: int | None = None, dash: int | None = None
) -> Plan:
    """Change the colour (0 to 7) or the dash (0 to 3) of a rig's frame."""
    planned = plan.rig(rig_id)
    colour = planned.colour if colour is None else colour
    dash = planned.dash if dash is None else dash
    return _with_planned_rig(plan, planned.but(colour=colour, dash=dash))


def with_rig_moved(plan: Plan, rig_id: str, place: int) -> Plan:
    """Move a rig to another place in the order; beyond an end means to that end."""
    planned = plan.rig(rig_id)
    rigs = [rig for rig in plan.rigs if rig.id != rig_id]
    rigs.insert(min(max(place, 0), len(rigs)), planned)
    return plan.but(rigs=tuple(rigs))


def with_framing(plan: Plan, framing: Framing) -> Plan:
    """Store where a rig points for a target, in place of what was stored for the two."""
    return plan.but(framings=(*_framings_but(plan, framing.rig, framing.target), framing))


def without_framing(plan: Plan, rig_id: str, target_id: str) -> Plan:
    """Forget what was stored for a rig and a target, so the suggestion applies again."""
    plan.rig(rig_id)
    plan.target(target_id)
    return plan.but(framings=tuple(_framings_but(plan, rig_id, target_id)))


def with_view(plan: Plan, view: SheetView) -> Plan:
    """Change what the sheet shows."""
    return plan.but(view=view)


def with_nights(plan: Plan, nights: Conditions) -> Plan:
    """Say which nights the rigs are for."""
    return plan.but(nights=nights)


def with_title(plan: Plan, title: str) -> Plan:
    """Name the plan."""
    return plan.but(title=title)


def framing_of(plan: Plan, rig_id: str, target_id: str | None = None) -> Framing:
    """Tell where a rig points for a target.

    Parameters
    ----------
    plan : Plan
    rig_id : str
    target_id : str or None
        None: the current target.

    Returns
    -------
    Framing
        The stored one; else on the target's centre, turned as `suggested_pa` says.

    Raises
    ------
    BadValueError
        When the plan does not know the rig or the target, or has no current target.
    """
    rig = plan.rig(rig_id).rig
    target_id = target_id if target_id is not None else plan.current_target
    if target_id is None:
        raise BadValueError("current target", "none", "choose a target first")
    target = plan.target(target_id)
    for framing in plan.framings:
        if framing.rig == rig_id and framing.target == target_id:
            return framing
    return Framing(
        target=target_id,
        rig=rig_id,
        ra_deg=target.ra_deg,
        dec_deg=target.dec_deg,
        pa_deg=suggested_pa(target, rig.width_deg, rig.height_deg),
    )


def _newcomer(plan: Plan, rig: Rig) -> PlannedRig:
    """Give a rig that is not in the plan yet an id and a look of its own."""
    place, taken = len(plan.rigs), {planned.id for planned in plan.rigs}
    rig_id = rig.name if rig.name not in taken else _free_name(rig.name, taken)
    colour, dash = place % COLOURS, (place + place // COLOURS) % DASHES
    return PlannedRig(id=rig_id, rig=rig, colour=colour, dash=dash)


def _free_name(name: str, taken: set[str]) -> str:
    """Put the first number behind a name that makes it differ from those taken."""
    stem = re.sub(r" \(\d{1,4}\)$", "", name)
    for number in range(2, len(taken) + 3):
        ending = f" ({number})"
        free = stem[: _LONGEST_NAME - len(ending)].rstrip() + ending
        if free not in taken:
            break
    return free


def _with_planned_rig(plan: Plan, planned: PlannedRig) -> Plan:
    """Put a rig in the place of the one with its id."""
    return plan.but(rigs=tuple(planned if rig.id == planned.id else rig for rig in plan.rigs))


def _framings_but(plan: Plan, rig_id: str, target_id: str) -> Iterable[Framing]:
    """Give every framing but the one of a rig and a target."""
    for framing in plan.framings:
        if (framing.rig, framing.target) != (rig_id, target_id):
            yield framing


def _neighbour(ids: list[str], leaving: str, current: str | None) -> str | None:
    """Find what is current after one leaves: the next, else the one before, else none."""
    if current != leaving:
        return current
    place = ids.index(leaving)
    left = [other for other in ids if other != leaving]
    return left[min(place, len(left) - 1)] if left else None
