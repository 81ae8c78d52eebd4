"""Takes an offer into the plan: in place of the rig, or as a copy beside it."""

from app.session import Session
from app.shared.typed_field import capital
from core.gear.money.offers import Offer
from core.plan import edits

__all__ = ["take", "take_as_copy"]


def take(session: Session, offer: Offer) -> None:
    """Make the swaps of an offer in the chosen rig, as one step to undo."""
    rig = session.rig
    if rig is None or not offer.swaps:
        return
    session.edit(_words(offer), edits.with_rig_changed(session.plan, rig.id, offer.rig))
    session.say(f"{capital(_words(offer))}: done. Undo brings the parts back.", "good")


def take_as_copy(session: Session, offer: Offer) -> None:
    """Put the rig that an offer makes beside the chosen one, as one step to undo."""
    rig = session.rig
    if rig is None or not offer.swaps:
        return
    copied = edits.with_rig_copied(session.plan, rig.id)
    assert copied.current_rig is not None
    name = copied.rig(copied.current_rig).rig.name
    made = offer.rig.but(name=name)
    plan = edits.with_rig_changed(copied, copied.current_rig, made)
    session.edit(f"add {name}", plan)
    session.say(f"{name} has the swapped parts; {rig.rig.name} stays as it is.", "good")


def _words(offer: Offer) -> str:
    """Say what is done, for the undo menu."""
    if len(offer.swaps) == 1:
        return f"swap in {offer.swaps[0].new.name}"
    return f"make {len(offer.swaps)} swaps"
