"""The page of a set of rigs as sections of blocks."""

from core.gear.money.prices import money_words
from core.sheets.blocks import Block, Cell, Gap, Paragraph, Row, Rule
from core.sheets.flow import Column, Section
from core.sheets.inks import FRAME_INKS, INK, LEVEL_INKS, MARKS
from core.sheets.leaf import Align
from core.sheets.lettering import Style
from core.sheets.rig_sheet.content import RigSheet, SetLine, SetPage, StepBlock
from core.sheets.rig_sheet.rig_blocks import caution_section, heading, sky_blocks
from core.sheets.rig_sheet.type_sizes import Density

__all__ = ["set_sections", "total_words"]

_SHARES = (0.35, 2.6, 1.7, 1.7, 1.1, 1.0, 2.0, 1.25)
_ALIGNS: tuple[Align, ...] = (*("left",) * 5, "right", "right", "right")
_HEAD = ("", "rig", "optics", "field", "scale", "on mount", "price", "worst finding")


def set_sections(sheet: RigSheet, page: SetPage, how: Density) -> list[Section]:
    """Arrange the page of the set.

    Parameters
    ----------
    sheet : RigSheet
        For its title and cautions.
    page : SetPage
    how : Density
    """
    money = _money(page, how)
    middle: Section = (Column(tuple(money)),)
    if page.drawing is not None:
        small = how.scale < 1.0
        chart = Column(tuple(sky_blocks(page.drawing, how)), 0.5 if small else 1.1)
        middle = (chart, Column(tuple(money)))
    return [
        (Column(_head(sheet, how)),),
        (Column(tuple(_table(page, how))),),
        middle,
        (Column((heading("From one to the next", how),)),),
        _steps(page.steps, how),
        caution_section(sheet.cautions, how),
    ]


def total_words(page: SetPage) -> tuple[str, str]:
    """Give the price of the set, and what sharing saves.

    Parameters
    ----------
    page : SetPage
    """
    if page.total is None:
        return page.total_note, ""
    if page.total.amount is None or page.singly.amount is None:
        return page.total.words, f"each rig by itself: {page.singly.words}"
    saved = page.singly.amount - page.total.amount
    if not saved:
        return page.total.words, "no two rigs share a part that has a price"
    money = money_words(saved, page.total.currency)
    return page.total.words, f"{page.singly.words} for each rig by itself, so sharing saves {money}"


def _head(sheet: RigSheet, how: Density) -> tuple[Block, ...]:
    """Title of the document."""
    name = Cell(sheet.title, 2.2, how.style(17.0, bold=True))
    count = Cell(f"{len(sheet.pages)} rigs", 1.0, how.style(12.0, bold=True), "right")
    return Row((name, count)), Rule(INK)


def _table(page: SetPage, how: Density) -> list[Block]:
    """One row a rig."""
    rows: list[Block] = [_row(_HEAD, (how.quiet,) * 8, keeps_next=True)]
    for line in page.lines:
        rows.append(_line(line, how))
    return [*rows, Gap(4.0)]


def _line(line: SetLine, how: Density) -> Row:
    """The row of one rig."""
    worst = line.verdict.severity
    words = (
        *(line.letter, line.name, line.optics, line.field, line.scale, line.mass, line.price),
        f"{MARKS[worst]} {worst}",
    )
    flag = how.style(bold=True, ink=FRAME_INKS[line.colour])
    mark = how.style(bold=True, ink=LEVEL_INKS[worst])
    return _row(words, (flag, how.strong, *(how.body,) * 5, mark))


def _row(words: tuple[str, ...], styles: tuple[Style, ...], *, keeps_next: bool = False) -> Row:
    """Cells of the table of rigs."""
    every = zip(words, _SHARES, styles, _ALIGNS, strict=True)
    return Row(tuple(Cell(*cell) for cell in every), after_pt=2.5, keeps_next=keeps_next)


def _money(page: SetPage, how: Density) -> list[Block]:
    """The price of the set, and what is shared."""
    total, saved = total_words(page)
    rows: list[Block] = [
        heading("The set, used one rig at a time", how),
        Paragraph(total, how.style(12.0, bold=True), after_pt=3.0),
    ]
    if saved:
        rows.append(Paragraph(saved, how.body, after_pt=6.0))
    if page.shared:
        rows.append(heading("Shared parts", how))
        listed = (
            page.shared
            if len(page.shared) <= 10 or how.scale == 1.0
            else (" · ".join(page.shared),)
        )
        rows += [Paragraph(words, how.body, "·") for words in listed]
    return rows


def _steps(steps: tuple[StepBlock, ...], how: Density) -> Section:
    """The steps in two columns, in reading order down the left one first."""
    half = (len(steps) + 1) // 2
    columns = (steps[:half], steps[half:]) if len(steps) > 1 else (steps,)
    return tuple(Column(tuple(_step_blocks(some, how))) for some in columns)


def _step_blocks(steps: tuple[StepBlock, ...], how: Density) -> list[Block]:
    """Each step with its labelled lines."""
    rows: list[Block] = []
    for step in steps:
        rows.append(Paragraph(f"{step.start} → {step.goal}", how.strong, keeps_next=True))
        for number, line in enumerate(step.lines, 1):
            cells = (Cell(line.label, 0.9, how.quiet), Cell(line.value, 5.4, how.style(7.2)))
            last = number == len(step.lines)
            rows.append(Row(cells, after_pt=5.0 if last else 0.5, keeps_next=not last))
    return rows
