"""What a swap, or several, offers: in the few words of a cell, and whole for reading."""

from app.words.finding_verdict import verdict_of
from app.words.finding_words import level_of, short_words
from app.words.fit_words import Verdict
from core.gear.checks.differences import FindingChanges
from core.gear.money.offers import Offer
from core.gear.money.prices import money_words
from core.gear.parts import Part
from core.gear.slots import Slot

__all__ = [
    "difference_lines",
    "effect_lines",
    "passing_of",
    "saving_level",
    "saving_words",
    "slot_title",
]

#: Slots of a rig as a person calls them; what stands in `others` is called by its kind.
_SLOTS = {
    "telescope": "Telescope",
    "corrector": "Corrector",
    "camera": "Camera",
    "mount": "Mount",
}


def slot_title(slot: Slot, part: Part) -> str:
    """Name a part with its slot: "Telescope: refractor 80/480"."""
    words = str(_SLOTS.get(slot.field) or getattr(part, "kind", "") or "other part")
    if part.name.lower().startswith(words.lower().split(" ")[0]):
        return part.name[:1].upper() + part.name[1:]
    return f"{words[:1].upper()}{words[1:]}: {part.name}"


def saving_words(offer: Offer, currency: str) -> str:
    """Say what an offer saves: "saves 150 €", "20 € more", "the same", "not known"."""
    saving = offer.saving
    if saving is None:
        return "not known"
    if not saving:
        return "the same price"
    money = money_words(abs(saving), currency)
    return f"saves {money}" if saving > 0 else f"{money} more"


def saving_level(offer: Offer) -> str:
    """Give the level of a saving: good when it is one."""
    return "good" if offer.saving is not None and offer.saving > 0 else ""


def passing_of(offer: Offer) -> Verdict:
    """Say whether the rig then still passes, with the worst that is found."""
    worst = offer.found[0]
    level = level_of(worst)
    if level == "good":
        return Verdict("good", "parts work together", verdict_of(offer.found))
    return Verdict(level, short_words(worst), verdict_of(offer.found))


def effect_lines(offer: Offer) -> list[Verdict]:
    """List what becomes other, better and worse, one line each.

    Returns
    -------
    list of Verdict
        The level marks what is better ("good") and what is worse; "" for plain changes.
    """
    lines = [Verdict("", change.words, change.words) for change in offer.changes]
    return lines + difference_lines(offer.differences)


def difference_lines(found: FindingChanges) -> list[Verdict]:
    """List the findings that become worse, then those that become better, one line each."""
    lines = []
    for change in found.worse:
        level = level_of(change.after) if change.after is not None else "note"
        lines.append(Verdict(level, f"Worse: {change.message}", change.message))
    for change in found.better:
        lines.append(Verdict("good", f"Better: {change.message}", change.message))
    return lines
