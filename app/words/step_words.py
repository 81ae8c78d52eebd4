"""The step from one rig to another in words, for the command line, the window, the clipboard."""

from core.gear.checks.differences import FindingChanges
from core.gear.money.prices import money_words
from core.gear.money.step_up import Step
from core.gear.parts import Part

__all__ = ["duty_lines", "fates", "finding_lines", "price_words", "step_lines", "step_text"]


def fates(step: Step) -> list[tuple[str, Part]]:
    """Say of each part what becomes of it."""
    groups = {
        "kept": step.kept,
        "moved to guiding": step.moved,
        "bought": step.bought,
        "not needed": step.spared,
        "sold": step.sold,
    }
    return [(fate, part) for fate, parts in groups.items() for part in parts]


def step_lines(step: Step) -> list[str]:
    """Write what the step costs, what was thought of for old parts, and what changes."""
    return [step.cost_words, *duty_lines(step), *(change.words for change in step.changes)]


def duty_lines(step: Step) -> list[str]:
    """Write which other duty old parts were thought of for, and why they suit or not."""
    answers = {True: "yes", False: "no", None: "perhaps"}
    return [
        f"{duty.parts[0].name} as {duty.duty}: {answers[duty.suits]}, {duty.why}"
        for duty in step.duties
    ]


def finding_lines(found: FindingChanges) -> list[str]:
    """Write which findings become better or worse, and what is then said."""
    lines = [f"better, {change.words}" for change in found.better]
    return lines + [f"worse, {change.words}: {change.message}" for change in found.worse]


def price_words(part: Part, currency: str) -> str:
    """Give the price of a part; what is not known says so."""
    return "not known" if part.price is None else money_words(part.price, currency)


def step_text(step: Step, found: FindingChanges) -> str:
    """Write the whole step as text to hand on."""
    lines = [f"{step.start.name} → {step.goal.name}", ""]
    lines += [
        f"{fate}: {part.name}, {price_words(part, step.currency)}" for fate, part in fates(step)
    ]
    return "\n".join([*lines, "", *step_lines(step), *finding_lines(found)]) + "\n"
