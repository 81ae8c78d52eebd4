"""The page of one rig as sections of blocks, at a given density of type."""

from typing import Literal

from core.sheets.blocks import Block, Cell, Gap, Paragraph, Row, Rule
from core.sheets.flow import Column, Section
from core.sheets.inks import FRAME_INKS, INK, LEVEL_INKS, MARKS
from core.sheets.leaf import Align
from core.sheets.rig_sheet.content import CheaperRig, Figure, RigPage, Said, SlotSwaps
from core.sheets.rig_sheet.sky_block import SkyBlock
from core.sheets.rig_sheet.sky_drawing import SkyDrawing
from core.sheets.rig_sheet.type_sizes import Density

__all__ = ["caution_section", "figure_rows", "heading", "rig_sections", "said", "sky_blocks"]

_GAP = "\N{NO-BREAK SPACE}"
#: Parts of the width for slot, name, mass and price; the words "not known" need more room.
_ALL_KNOWN = (1.3, 3.7, 0.95, 1.15)
_WITH_UNKNOWN = (1.3, 3.2, 1.3, 1.3)


def rig_sections(page: RigPage, cautions: tuple[str, ...], how: Density) -> list[Section]:
    """Arrange the page of a rig.

    Parameters
    ----------
    page : RigPage
    cautions : tuple of str
    how : Density
    """
    right: list[Block] = []
    if page.drawing is not None:
        right += sky_blocks(page.drawing, how)
    right += [heading("Figures", how), *figure_rows(page.figures, how)]
    left = [*_parts(page, how), Gap(6.0), *_findings(page, how)]
    return [
        (Column(_head(page, how)),),
        (Column(tuple(left), 1.12), Column(tuple(right), 1.0)),
        (Column(tuple(_swaps(page, how))),),
        (Column(tuple(_cheaper(page.cheaper, how))),),
        caution_section(cautions, how),
    ]


def heading(words: str, how: Density) -> Paragraph:
    """Give the head of a part of the page."""
    return Paragraph(words, how.head, after_pt=2.5, keeps_next=True)


def said(finding: Said, how: Density) -> Paragraph:
    """Give a finding with its mark and its word."""
    ink = LEVEL_INKS[finding.severity]
    mark = f"{MARKS[finding.severity]} {finding.severity}"
    return Paragraph(finding.message, how.body, mark, how.style(bold=True, ink=ink), after_pt=2.5)


def figure_rows(figures: tuple[Figure, ...], how: Density) -> list[Block]:
    """Give figures with their labels, and what they mean where there is room."""
    rows: list[Block] = []
    for figure in figures:
        meant = bool(how.meanings and figure.meaning)
        cells = (Cell(figure.label, 0.9, how.quiet), Cell(figure.value, 3.0, how.strong))
        rows.append(Row(cells, after_pt=0.0 if meant else 2.0, keeps_next=meant))
        if meant:
            cells = (Cell("", 0.9, how.quiet), Cell(figure.meaning, 3.0, how.quiet))
            rows.append(Row(cells, after_pt=2.5))
    return rows


def sky_blocks(drawing: SkyDrawing, how: Density) -> list[Block]:
    """Give the chart with its caption, numbers and credit."""
    rows: list[Block] = [heading(drawing.caption, how), SkyBlock(drawing, how.quiet)]
    for label, value in drawing.rows:
        cells = (Cell(label, 0.9, how.quiet), Cell(value, 3.0, how.body))
        rows.append(Row(cells, after_pt=0.5, keeps_next=True))
    return [*rows, Paragraph(drawing.credit, how.style(6.0, ink=how.quiet.ink)), Gap(6.0)]


def caution_section(cautions: tuple[str, ...], how: Density) -> Section:
    """Give the cautions, small and across."""
    words = " ".join(cautions)
    mark = how.style(7.0, bold=True, ink=LEVEL_INKS["caution"])
    block = Paragraph(words, how.style(7.0), "▲ Caution", mark)
    return (Column((Rule(), block)),)


def _head(page: RigPage, how: Density) -> tuple[Block, ...]:
    """Name, price, optics and the worst finding's word."""
    name = how.style(17.0, bold=True, ink=FRAME_INKS[page.colour])
    cells = (
        Cell(f"{page.letter} · {page.name}", 2.2, name),
        Cell(page.total.words, 1.0, how.style(12.0, bold=True), "right"),
    )
    worst = f"{MARKS[page.verdict.severity]} worst finding: {page.verdict.severity}"
    ink = LEVEL_INKS[page.verdict.severity]
    below = (
        Cell(f"{page.optics} · {page.view}", 2.2, how.style(9.4)),
        Cell(worst, 1.0, how.style(9.0, bold=True, ink=ink), "right"),
    )
    return Row(cells), Row(below), Rule(INK)


def _parts(page: RigPage, how: Density) -> list[Block]:
    """Parts, masses, prices, and their sums."""
    open_ = page.total.amount is None or any(part.mass_kg is None for part in page.parts)
    shares = _WITH_UNKNOWN if open_ else _ALL_KNOWN
    rows: list[Block] = [
        heading("Parts and prices", how),
        _part_row(("", "part", "mass", "price"), shares, how, kind="head"),
    ]
    for part in page.parts:
        words = (part.slot, part.name, part.mass_words, part.price_words)
        rows.append(_part_row(words, shares, how))
    total = page.total.words if page.total.amount is not None else ""
    sums = ("", "all parts", page.mass_words, total)
    rows += [Rule(), _part_row(sums, shares, how, kind="sum")]
    return rows if total else [*rows, Row((Cell(page.total.words, 1.0, how.strong, "right"),))]


def _part_row(
    words: tuple[str, str, str, str],
    shares: tuple[float, ...],
    how: Density,
    *,
    kind: Literal["head", "part", "sum"] = "part",
) -> Row:
    """One row of the table of parts."""
    style = {"head": how.quiet, "part": how.body, "sum": how.strong}[kind]
    aligns: tuple[Align, ...] = ("left", "left", "right", "right")
    styles = (how.quiet, style, style, style)
    every = zip(words, shares, styles, aligns, strict=True)
    return Row(tuple(Cell(*cell) for cell in every), keeps_next=kind == "head")


def _findings(page: RigPage, how: Density) -> list[Block]:
    """What the checks say, the worst first; good ones by name only where it is tight."""
    rows: list[Block] = [heading("What the checks say", how)]
    good = [one for one in page.findings if one.severity == "good"]
    rows += [said(one, how) for one in page.findings if one.severity != "good"]
    rows += [said(one, how) for one in good[: how.goods]]
    if good[how.goods :]:
        names = ", ".join(dict.fromkeys(one.rule for one in good[how.goods :]))
        rows.append(said(Said("good", "", f"{names}."), how))
    return [*rows, Paragraph(page.nights, how.quiet)]


def _swaps(page: RigPage, how: Density) -> list[Block]:
    """What could take a part's place and leaves the rig no worse."""
    if page.swaps_note:
        return [heading("Swaps", how), Paragraph(page.swaps_note, how.quiet)]
    if not page.swaps:
        return []
    title = "Swaps of one part, with which the rig still passes its checks"
    head = ("in place of", "take", "money", "what changes")
    rows: list[Block] = [heading(title, how), _swap_row(head, how, head=True)]
    none = [f"{slot.old} ({len(slot.lines)} tried)" for slot in page.swaps if not slot.passing]
    for slot in page.swaps:
        rows += _slot_rows(slot, how)
    if none:
        words = f"No swap on the shelf passes for {', '.join(none)}."
        rows.append(Paragraph(words, how.quiet))
    return rows


def _slot_rows(slot: SlotSwaps, how: Density) -> list[Block]:
    """The first few swaps of one part."""
    shown, rows = slot.passing[: how.swaps], list[Block]()
    passing = f" ({len(slot.passing)}{_GAP}of{_GAP}{len(slot.lines)}{_GAP}pass)"
    for number, line in enumerate(shown):
        old = slot.old + (passing if len(shown) < len(slot.lines) else "")
        changes = "; ".join(line.changes) or "field, scale and load stay"
        words = ("" if number else old, line.new, line.saving_words, changes)
        rows.append(_swap_row(words, how))
    return rows


def _swap_row(words: tuple[str, str, str, str], how: Density, *, head: bool = False) -> Row:
    """One row of the table of swaps."""
    body, quiet = how.style(7.6), how.quiet
    styles = (quiet,) * 4 if head else (body, body, how.style(7.6, bold=True), quiet)
    every = zip(words, (1.95, 1.95, 1.3, 4.5), styles, strict=True)
    cells = tuple(Cell(text, share, style) for text, share, style in every)
    return Row(cells, keeps_next=head, after_pt=1.0)


def _cheaper(cheaper: tuple[CheaperRig, ...], how: Density) -> list[Block]:
    """The cheapest rigs that still pass."""
    if not cheaper:
        return []
    rows: list[Block] = [heading("The cheapest that still passes", how)]
    for one in cheaper:
        words = f"{one.condition}: {one.sentence}"
        then = f" Then {'; '.join(one.changes)}." if one.changes else ""
        more = f"{'; '.join(one.swaps)}.{then}" if one.swaps else ""
        rows.append(Paragraph(words, how.strong, keeps_next=bool(more)))
        if more:
            rows.append(Paragraph(more, how.quiet, after_pt=3.0))
    return rows
