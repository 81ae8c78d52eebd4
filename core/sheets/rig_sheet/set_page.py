"""The first page of a set: its rigs side by side, its price, the steps from one to the next.

Prices as in `core.gear.money.prices`: a part that several rigs share is bought once.
"""

from collections.abc import Sequence
from itertools import pairwise

from core.errors import BadValueError
from core.gear.checks import Conditions
from core.gear.checks.differences import finding_changes
from core.gear.money.prices import Total, rig_total, set_total
from core.gear.money.step_up import Step, step_up
from core.gear.parts import Part, identity
from core.gear.rig import Rig
from core.sheets.rig_sheet.content import Figure, RigPage, SetLine, SetPage, StepBlock
from core.sheets.rig_sheet.figures import field_words, mass_words, scale_words
from core.sheets.rig_sheet.sky_drawing import SkyDrawing
from core.sheets.rig_sheet.swap_lists import finding_words, view_changes

__all__ = ["set_page_of"]


def set_page_of(
    rigs: Sequence[Rig],
    pages: Sequence[RigPage],
    *,
    currency: str,
    nights: Conditions,
    drawing: SkyDrawing | None,
) -> SetPage:
    """Put the rigs of a set together.

    Parameters
    ----------
    rigs : sequence of Rig
    pages : sequence of RigPage
        Of these rigs, in their order.
    currency : str
    nights : Conditions
        The findings that a step changes are those of such nights.
    drawing : SkyDrawing or None
        All frames on one target.
    """
    total, note = _set_total(rigs, currency)
    singly = Total(currency=currency)
    for rig in rigs:
        singly += rig_total(rig, currency)
    return SetPage(
        lines=tuple(_line(rig, page) for rig, page in zip(rigs, pages, strict=True)),
        total=total,
        total_note=note,
        singly=singly,
        shared=_shared(rigs, pages),
        steps=tuple(
            _block(step_up(start, goal, currency=currency), nights)
            for start, goal in pairwise(rigs)
        ),
        drawing=drawing,
    )


def _set_total(rigs: Sequence[Rig], currency: str) -> tuple[Total | None, str]:
    """Price the set; say why where it has no one price."""
    try:
        return set_total(rigs, currency), ""
    except BadValueError as error:
        return None, f"The set has no one price: {error}."


def _line(rig: Rig, page: RigPage) -> SetLine:
    """One row of the table."""
    return SetLine(
        page.letter,
        page.name,
        page.colour,
        page.optics,
        field_words(rig),
        scale_words(rig),
        mass_words(rig.mass_kg),
        page.total.words,
        page.verdict,
    )


def _shared(rigs: Sequence[Rig], pages: Sequence[RigPage]) -> tuple[str, ...]:
    """Name the parts that several rigs use, with the letters of these rigs."""
    users: dict[tuple[str, str], list[str]] = {}
    for rig, page in zip(rigs, pages, strict=True):
        for key in dict.fromkeys(identity(part) for part in rig.parts):
            users.setdefault(key, []).append(page.letter)
    return tuple(f"{key[1]} ({', '.join(who)})" for key, who in users.items() if len(who) > 1)


def _block(step: Step, nights: Conditions) -> StepBlock:
    """Put a step into labelled lines; what does not happen is left out."""
    groups = (
        ("buy", step.bought, f"{step.buying.words}: "),
        ("left over", step.sold, f"{step.selling.words} as listed here: "),
        ("keep", step.kept, ""),
        ("to guiding", step.moved, ""),
    )
    lines = [Figure(word, f"{start}{_names(parts)}") for word, parts, start in groups if parts]
    changes = view_changes(step.start, step.goal)
    changes += finding_words(finding_changes(step.start, step.goal, nights))
    lines += [Figure("changes", "; ".join(changes))] if changes else []
    return StepBlock(step.start.name, step.goal.name, tuple(lines))


def _names(parts: tuple[Part, ...]) -> str:
    """List the names of parts; how often where it is more than once."""
    counts: dict[str, int] = {}
    for part in parts:
        counts[part.name] = counts.get(part.name, 0) + 1
    return " · ".join(name if n == 1 else f"{n} × {name}" for name, n in counts.items())
