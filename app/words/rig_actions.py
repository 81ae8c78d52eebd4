"""What can be done to a rig of the plan, each as one step to undo with its words."""

from app.session import Session
from core.plan import edits

__all__ = [
    "COLOUR_NAMES",
    "LINE_NAMES",
    "choose",
    "choose_or_edit",
    "duplicate",
    "edit_parts",
    "forget_framing",
    "has_own_framing",
    "move_by",
    "move_to",
    "set_colour",
    "set_line",
    "show_or_hide",
    "take_out",
]

#: The colours of frames by their place in a theme's list.
COLOUR_NAMES = ("Orange", "Sky blue", "Green", "Pink", "Yellow", "Red-orange", "Blue", "Grey")
#: The dashes of frames by their place.
LINE_NAMES = ("Full", "Dashed", "Dotted", "Dash-dotted")


def choose(session: Session, rig_id: str) -> None:
    """Make a rig the chosen one."""
    plan = edits.with_current_rig(session.plan, rig_id)
    session.edit(f"choose {session.letter(rig_id)}", plan, key="choose rig")


def edit_parts(session: Session, rig_id: str) -> None:
    """Choose a rig and bring the bench to the front, where its parts are edited."""
    choose(session, rig_id)
    session.open_bench()


def choose_or_edit(session: Session, rig_id: str) -> None:
    """Choose a rig; edit it when it is the chosen one already."""
    if session.plan.current_rig == rig_id:
        session.open_bench()
    else:
        choose(session, rig_id)


def duplicate(session: Session, rig_id: str) -> None:
    """Put a copy of a rig beside it and choose it."""
    name = session.planned_rig(rig_id).rig.name
    session.edit(f"duplicate {name}", edits.with_rig_copied(session.plan, rig_id))
    session.say(f"This is a copy of {name}; change it, and {name} stays as it is.")


def show_or_hide(session: Session, rig_id: str) -> None:
    """Hide a frame that is shown, show one that is hidden."""
    shown = not session.planned_rig(rig_id).shown
    words = f"{'show' if shown else 'hide'} {session.letter(rig_id)}"
    session.edit(words, edits.with_rig_shown(session.plan, rig_id, shown=shown))


def move_by(session: Session, rig_id: str, step: int) -> None:
    """Move a rig left (below 0) or right in the order."""
    move_to(session, rig_id, session.plan.place_of(rig_id) + step)


def move_to(session: Session, rig_id: str, place: int) -> None:
    """Move a rig to a place in the order, 0 first; letters follow the order."""
    name = session.planned_rig(rig_id).rig.name
    session.edit(f"move {name} in the order", edits.with_rig_moved(session.plan, rig_id, place))


def set_colour(session: Session, rig_id: str, colour: int) -> None:
    """Give a frame another colour."""
    plan = edits.with_rig_look(session.plan, rig_id, colour=colour)
    session.edit(f"colour of {session.letter(rig_id)}", plan)


def set_line(session: Session, rig_id: str, dash: int) -> None:
    """Give a frame another line."""
    plan = edits.with_rig_look(session.plan, rig_id, dash=dash)
    session.edit(f"line of {session.letter(rig_id)}", plan)


def take_out(session: Session, rig_id: str) -> None:
    """Take a rig out of the plan."""
    name = session.planned_rig(rig_id).rig.name
    session.edit(f"take {name} out", edits.without_rig(session.plan, rig_id))
    session.say(f"{name} is out of the plan; undo brings it back.")


def has_own_framing(session: Session, rig_id: str) -> bool:
    """Tell whether a rig was pointed by hand for the current target."""
    current = session.plan.current_target
    return any((f.rig, f.target) == (rig_id, current) for f in session.plan.framings)


def forget_framing(session: Session, rig_id: str) -> None:
    """Point a rig at the current target again, turned as suggested."""
    target = session.target
    if target is not None:
        plan = edits.without_framing(session.plan, rig_id, target.id)
        session.edit(f"point {session.letter(rig_id)} as suggested", plan)
