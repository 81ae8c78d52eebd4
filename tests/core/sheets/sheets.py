"""Plans, sheets and written pages for the tests of the sheets."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

import pypdfium2 as pdfium

from core.catalogue.stars import StarCatalogue
from core.catalogue.targets import TargetTable
from core.gear.parts import OtherPart
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.plan.document import Plan
from core.plan.edits import with_rig, with_target
from core.sheets.rig_sheet.build import SheetJob, rig_sheet
from core.sheets.rig_sheet.content import RigSheet
from tests.core.gear.small_shelf import camera, mount, other, rig_of, shelf_of, telescope

__all__ = [
    "AWKWARD",
    "SHELF",
    "catalogues",
    "many_parts",
    "pages_of",
    "plan_of",
    "sheet_of",
    "small_rig",
    "whole_plan",
]

#: Names that are awkward to write somewhere, each for its own reason.
AWKWARD = (
    "<script>alert(1)</script>",
    "\"quoted\", 'twice' & more",
    "=HYPERLINK(1)",
    "שלום עולם",
    "مرحبا بالعالم",
    "望遠鏡 80",
    "$x^2_1$ {a} \\frac",
    "left\u202eright",
    "W" * 120,
    "a b " * 29 + "end",
    "🔭 scope",
)

SHELF = shelf_of(
    telescopes=[telescope("tube", 400.0, 500.0), telescope("cheap tube", 400.0, 300.0)],
    cameras=[camera("eye", 6000, 900.0), camera("dear eye", 6000, 1100.0)],
    mounts=[mount("legs", 10.0, 700.0), mount("thin legs", 1.0, 100.0)],
    others=[other("bag", 40.0)],
)


@lru_cache(maxsize=1)
def catalogues() -> tuple[StarCatalogue, TargetTable]:
    return StarCatalogue.open(), TargetTable.load()


def small_rig(name: str = "rig", *, others: Sequence[OtherPart] = (), **changes: object) -> Rig:
    """Give tube 500, eye 900, legs 700 and bag 40, 2140 together."""
    rig = rig_of(SHELF).but(name=name, **changes)
    return rig.but(others=(*rig.others, *others))


def many_parts(count: int) -> Rig:
    """Give a rig of a given number of parts, 1 apiece beyond the first four."""
    more = [other(f"part {number} of a long list", 1.0) for number in range(count - 4)]
    return small_rig("long", others=more)


def plan_of(*rigs: Rig, currency: str = "EUR") -> Plan:
    """Give a plan of rigs, without a target."""
    plan = Plan(title="Club", currency=currency)
    for rig in rigs:
        plan = with_rig(plan, rig)
    return plan


def sheet_of(plan: Plan, shelf: Shelf | None = None, *, chart: bool = False) -> RigSheet:
    """Put all rigs of a plan on a sheet; with a chart on M 31 where asked."""
    if not chart:
        return rig_sheet(plan, [one.id for one in plan.rigs], SheetJob(shelf=shelf))
    stars, targets = catalogues()
    job = SheetJob(stars, targets, shelf)
    return rig_sheet(with_target(plan, targets.find("M 31")), [one.id for one in plan.rigs], job)


@lru_cache(maxsize=1)
def whole_plan() -> RigSheet:
    """Put the seven rigs of the demo on a sheet, with charts and swaps."""
    from core.plan.store import demo_plan

    plan, (stars, targets) = demo_plan(), catalogues()
    job = SheetJob(stars, targets, Shelf.load())
    return rig_sheet(plan, [one.id for one in plan.rigs], job)


def pages_of(data: bytes) -> Iterator[pdfium.PdfPage]:
    """Read the pages of a PDF by another program than the one that wrote it."""
    document = pdfium.PdfDocument(data)
    try:
        yield from document
    finally:
        document.close()
