"""What the bench does to the chosen rig, each as one step to undo with its words."""

from app.rig_editor.candidates import Effect
from app.session import Session
from app.words.finding_words import level_of, short_words
from app.words.part_words import field_words
from core.errors import CoreError
from core.gear.checks import Conditions, findings
from core.gear.checks.finding import SEVERITIES
from core.gear.kinds import OTHER_KINDS, of_kind
from core.gear.optics.beam import moved_in_beam, stretches
from core.gear.parts import OtherPart, Part
from core.gear.rig import Rig
from core.gear.slots import Slot, inserted, slots_of, with_part, without_part
from core.plan import edits

__all__ = [
    "add_part",
    "apply",
    "effect_on",
    "kind_of_slot",
    "move_part",
    "parts_on_offer",
    "place_for",
    "put_part",
    "rename_rig",
    "rig_with",
    "set_figure",
    "take_out",
]


def apply(session: Session, words: str, rig: Rig, *, key: str = "") -> None:
    """Put a rig in the place of the chosen one."""
    planned = session.rig
    if planned is not None:
        said = f"{words} of {session.letter(planned.id)}"
        session.edit(said, edits.with_rig_changed(session.plan, planned.id, rig), key=key)


def rename_rig(session: Session, name: str) -> None:
    """Call the chosen rig something else; BadValueError when that is no name."""
    planned = session.rig
    if planned is not None:
        apply(session, "name", planned.rig.but(name=name))


def set_figure(session: Session, slot: Slot, field: str, value: object) -> None:
    """Give a part of the chosen rig a figure; BadValueError when that cannot be."""
    planned = session.rig
    part = slots_of(planned.rig).get(slot) if planned is not None else None
    if planned is None or part is None:
        return
    if field == "kind" and isinstance(part, OtherPart):
        changed: Part = of_kind(part, str(value))
    else:
        changed = part.but(**{field: value})
    words = field_words(type(part), field).label.lower()
    apply(session, f"{words} of {part.name}", with_part(planned.rig, slot, changed))


def put_part(session: Session, slot: Slot, part: Part) -> None:
    """Put a part into a slot of the chosen rig, in place of what is there."""
    planned = session.rig
    if planned is not None:
        apply(session, f"put {part.name} into the parts", with_part(planned.rig, slot, part))


def add_part(session: Session, part: Part, before: Slot | None) -> Slot:
    """Add a part to the chosen rig; give the slot where it is then.

    Parameters
    ----------
    session : Session
    part : Part
    before : Slot or None
        As `place_for`.
    """
    planned = session.rig
    assert planned is not None
    slot = place_for(planned.rig, part, before)
    apply(session, f"add {part.name} to the parts", _with_added(planned.rig, slot, part))
    return slot


def place_for(rig: Rig, part: Part, before: Slot | None) -> Slot:
    """Tell where a part that is added comes.

    Parameters
    ----------
    rig : Rig
    part : Part
    before : Slot or None
        A part in the beam comes before this one when that is in the beam too, else before
        the camera; what stands beside the beam comes last.
    """
    if not isinstance(part, OtherPart):
        return Slot(type(part).__name__.lower())
    last = len(rig.others)
    row = [one.slot for one in stretches(rig)]
    passed = [one.slot.place for one in stretches(inserted(rig, last, part))]
    if last in passed and before in row and before is not None and before.place is not None:
        return Slot("others", before.place)
    return Slot("others", last)


def rig_with(rig: Rig, slot: Slot | None, part: Part, before: Slot | None) -> Rig | None:
    """Give a rig with a part put into a slot, or added; None where it cannot be."""
    try:
        if slot is not None:
            return with_part(rig, slot, part)
        return _with_added(rig, place_for(rig, part, before), part)
    except CoreError:
        return None


def _with_added(rig: Rig, slot: Slot, part: Part) -> Rig:
    """Put a part into an empty slot, or before one of the other parts."""
    return with_part(rig, slot, part) if slot.place is None else inserted(rig, slot.place, part)


def take_out(session: Session, slot: Slot) -> bool:
    """Take a part out of the chosen rig; say why where that cannot be."""
    planned = session.rig
    part = slots_of(planned.rig).get(slot) if planned is not None else None
    if planned is None or part is None:
        return False
    try:
        rig = without_part(planned.rig, slot)
    except CoreError as error:
        session.say(f"{part.name} stays: {getattr(error, 'rule', error)}.", "caution")
        return False
    apply(session, f"take {part.name} out of the parts", rig)
    session.say(f"{part.name} is out of the rig; undo brings it back.")
    return True


def move_part(session: Session, slot: Slot, index: int) -> Slot:
    """Move a part along the beam; give the slot that it is in then."""
    planned = session.rig
    if planned is None or slot.place is None:
        return slot
    try:
        rig, place = moved_in_beam(planned.rig, slot.place, index)
    except CoreError:
        return slot
    name = planned.rig.others[slot.place].name
    apply(session, f"move {name} among the parts", rig)
    return Slot("others", place)


def kind_of_slot(slot: Slot, part: Part) -> str:
    """Give the kind of part that belongs into a slot."""
    return slot.field if slot.field != "others" else str(getattr(part, "kind", "other"))


def parts_on_offer(session: Session, kind: str) -> tuple[Part, ...]:
    """List what the shelf has of a kind; without prices where they are in another currency."""
    shelf = session.shelf
    if kind in OTHER_KINDS:
        found: tuple[Part, ...] = tuple(part for part in shelf.others if part.kind == kind)
    else:
        found = getattr(shelf, f"{kind}s")
    if shelf.currency != session.plan.currency:
        found = tuple(part.but(price=None) for part in found)
    return found


def effect_on(rig: Rig, changed: Rig | None, nights: Conditions) -> Effect:
    """Tell what a change would do to the worst finding of a rig."""
    if changed is None:
        return Effect("bad", "makes no rig", "With this part the figures make no rig.")
    before, after = findings(rig, nights), findings(changed, nights)
    if not after:
        return Effect("good", "nothing to find fault with", "")
    worst = after[0]
    grade = SEVERITIES.index(worst.severity) - (
        SEVERITIES.index(before[0].severity) if before else 0
    )
    said = "better" if grade > 0 else "worse" if grade < 0 else "as now"
    words = "all fine" if worst.severity == "good" else short_words(worst)
    return Effect(level_of(worst), f"{words} ({said})", worst.message)
