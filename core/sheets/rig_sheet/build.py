"""Puts a rig sheet together from a plan: what each rig is, costs, lacks, could become.

No file is read but the catalogues that are handed in, and nothing is written.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from core.errors import BadValueError, Cancelled, CoreError
from core.gear.checks import Finding, findings
from core.gear.money.prices import rig_total
from core.gear.money.swaps import check_currency
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.plan.document import Plan, PlannedRig
from core.plan.edits import framing_of
from core.sheets.rig_sheet.cautions import cautions_for
from core.sheets.rig_sheet.content import CheaperRig, RigPage, RigSheet, Said, SlotSwaps
from core.sheets.rig_sheet.figures import (
    field_words,
    figures_of,
    mass_words,
    nights_words,
    on_mount_words,
    optics_words,
    part_lines,
    scale_words,
)
from core.sheets.rig_sheet.set_page import set_page_of
from core.sheets.rig_sheet.sky_drawing import FrameOnSky, SkyDrawing, draw_sky
from core.sheets.rig_sheet.swap_lists import cheaper_rigs, slot_swaps
from core.sky.footprint import Footprint

if TYPE_CHECKING:
    from core.catalogue.stars import StarCatalogue
    from core.catalogue.targets import TargetTable

__all__ = ["MOST_RIGS", "SheetJob", "rig_sheet"]

#: Rigs on one sheet; more is a slip, and an hour of work.
MOST_RIGS = 60
_NOTE = "Prices, masses and figures are those of the plan: no offers, and no promise of a maker."

#: What is said of swaps, of the cheapest rigs, and why there are none.
Swaps = tuple[tuple[SlotSwaps, ...], tuple[CheaperRig, ...], str]


@dataclass(frozen=True)
class SheetJob:
    """How to make a sheet, and how to hear of it.

    Parameters
    ----------
    stars, targets
        The embedded catalogues; without them no chart is drawn.
    shelf : Shelf or None
        Where alternatives come from; None for a sheet without swaps.
    told : callable
        Called with the part that is done, 0 to 1, and the name of the rig that is next.
    cancelled : callable
        Asked often; True gives the work up.
    """

    stars: "StarCatalogue | None" = None
    targets: "TargetTable | None" = None
    shelf: Shelf | None = None
    told: Callable[[float, str], None] = field(default=lambda _part, _name: None)
    cancelled: Callable[[], bool] = field(default=lambda: False)

    def go_on(self) -> None:
        """Raise Cancelled when nobody waits any more."""
        if self.cancelled():
            raise Cancelled("the rig sheet was given up")


def rig_sheet(plan: Plan, rig_ids: Sequence[str], job: SheetJob) -> RigSheet:
    """Put a sheet together.

    Parameters
    ----------
    plan : Plan
        Its nights are those of the findings, its current target is what is framed.
    rig_ids : sequence of str
        Rigs of the plan, in the order of the pages; each once.
    job : SheetJob

    Raises
    ------
    BadValueError
        When there is no rig, too many, or one that the plan does not know.
    Cancelled
        When the job was given up.
    """
    planned = [plan.rig(rig_id) for rig_id in dict.fromkeys(rig_ids)]
    if not planned:
        raise BadValueError("rigs", "none", "at least one is needed for a rig sheet")
    if len(planned) > MOST_RIGS:
        raise BadValueError("rigs", len(planned), f"must be at most {MOST_RIGS} on one sheet")
    pages = []
    for place, one in enumerate(planned):
        job.told(place / (len(planned) + 1), one.rig.name)
        pages.append(_page(plan, one, job))
    job.told(len(planned) / (len(planned) + 1), "the set")
    rigs = [one.rig for one in planned]
    together = None
    if len(rigs) > 1:
        together = set_page_of(
            rigs,
            pages,
            currency=plan.currency,
            nights=plan.nights,
            drawing=_drawing(plan, planned, job),
        )
    return RigSheet(plan.title, plan.currency, together, tuple(pages), cautions_for(rigs), _NOTE)


def _page(plan: Plan, planned: PlannedRig, job: SheetJob) -> RigPage:
    """Make the page of one rig."""
    job.go_on()
    rig = planned.rig
    found = tuple(_said(one) for one in findings(rig, plan.nights))
    swaps, cheaper, note = _swaps(rig, plan, job)
    job.go_on()
    return RigPage(
        letter=plan.flag(planned.id),
        name=rig.name,
        colour=planned.colour,
        dash=planned.dash,
        optics=optics_words(rig),
        view=f"{field_words(rig)} · {scale_words(rig)} · {on_mount_words(rig)}",
        verdict=found[0],
        parts=part_lines(rig, plan.currency),
        total=rig_total(rig, plan.currency),
        mass_words=mass_words(rig.carried_kg),
        figures=figures_of(rig, plan.nights),
        findings=found,
        nights=nights_words(plan.nights),
        swaps=swaps,
        swaps_note=note,
        cheaper=cheaper,
        drawing=_drawing(plan, [planned], job),
    )


def _said(finding: Finding) -> Said:
    """Take over what a sheet needs of a finding."""
    rule = finding.rule.replace("-", " ")
    return Said(finding.severity, rule, finding.message, finding.source)


def _swaps(rig: Rig, plan: Plan, job: SheetJob) -> Swaps:
    """List the swaps; where a shelf has none to offer the sheet says why, and goes on."""
    if job.shelf is None:
        return (), (), ""
    try:
        check_currency(job.shelf, plan.currency)
        swaps = slot_swaps(rig, job.shelf, currency=plan.currency, nights=plan.nights)
        cheaper = cheaper_rigs(rig, job.shelf, nights=plan.nights, cancelled=job.go_on)
    except CoreError as error:
        return (), (), f"No swaps are listed: {error}."
    return swaps, cheaper, "" if swaps else "The shelf holds nothing to swap these parts for."


def _drawing(plan: Plan, planned: Sequence[PlannedRig], job: SheetJob) -> SkyDrawing | None:
    """Draw the frames on the plan's current target, if it has one."""
    if job.stars is None or job.targets is None or plan.current_target is None:
        return None
    job.go_on()
    frames = [
        FrameOnSky(plan.flag(one.id), one.colour, one.dash, _footprint(plan, one))
        for one in planned
    ]
    return draw_sky(plan.target(plan.current_target), frames, job.stars, job.targets)


def _footprint(plan: Plan, planned: PlannedRig) -> Footprint:
    """Give where a rig of the plan points for the current target."""
    at, rig = framing_of(plan, planned.id), planned.rig
    return Footprint(at.ra_deg, at.dec_deg, rig.width_deg, rig.height_deg, at.pa_deg)
