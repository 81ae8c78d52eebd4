"""What the shelf offers for a place of the chosen rig, and what each part would do there."""

from collections.abc import Sequence

from app.rig_editor import editing
from app.rig_editor.candidates import Effect
from app.rig_editor.part_chooser import Offer
from app.session import Session
from core.gear.kinds import KINDS
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of

__all__ = ["addition", "replacement"]


def addition(session: Session, rig: Rig, before: Slot) -> Offer:
    """Offer everything that can be added to a rig.

    Parameters
    ----------
    session : Session
    rig : Rig
    before : Slot
        What is in the beam comes before this part.
    """
    taken = {"telescope", "camera"}
    taken |= {field for field in ("corrector", "mount") if getattr(rig, field) is not None}
    kinds = [kind for kind in KINDS if kind not in taken]
    return _offer(session, "Add a part", kinds, (rig, None, before))


def replacement(session: Session, rig: Rig, slot: Slot) -> Offer:
    """Offer everything that can take a part's place."""
    part = slots_of(rig)[slot]
    kind = editing.kind_of_slot(slot, part)
    return _offer(session, f"In place of {part.name}", [kind], (rig, slot, slot))


def _offer(
    session: Session, title: str, kinds: Sequence[str], where: tuple[Rig, Slot | None, Slot]
) -> Offer:
    """Take the parts of some kinds from the shelf."""
    rig, slot, before = where
    nights = session.plan.nights

    def effect(part: Part) -> Effect:
        return editing.effect_on(rig, editing.rig_with(rig, slot, part, before), nights)

    offered = {kind: editing.parts_on_offer(session, kind) for kind in kinds}
    return Offer(title, offered, session.plan.currency, effect)
