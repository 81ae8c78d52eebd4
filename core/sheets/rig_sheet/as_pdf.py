"""A rig sheet as PDF: one page a rig, before them one for the set.

A rig that has too much to say for one page is first set smaller and told shorter, then
runs on. Letters stay letters (TrueType, ISO 32000-1 section 9.8, subsets embedded), and
the file holds no date, so that the same sheet gives the same file.
"""

import io
import threading
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from core.sheets.flow import Placed, Section, place
from core.sheets.inks import QUIET
from core.sheets.leaf import Leaf
from core.sheets.lettering import MISSING, Style, printable, width_of, wrapped
from core.sheets.paper import A4, Paper
from core.sheets.rig_sheet.content import RigSheet
from core.sheets.rig_sheet.rig_blocks import rig_sections
from core.sheets.rig_sheet.set_blocks import set_sections
from core.sheets.rig_sheet.type_sizes import DENSITIES, GOODS, ROOMY, Density

if TYPE_CHECKING:
    from matplotlib.backends.backend_pdf import PdfPages

__all__ = ["pdf_of"]

_FOOT_PT = 16.0
#: matplotlib's settings are one for the whole process.
_ONE_AT_A_TIME = threading.Lock()
_SMALL = Style(6.5, ink=QUIET)
_SQUARES = f"A {MISSING} stands for a letter that the fonts of this page lack; HTML holds it."

#: What one rig, or the set, fills: its name and its blocks.
Chapter = tuple[str, list[Placed]]


def pdf_of(
    sheet: RigSheet, *, paper: Paper = A4, go_on: Callable[[], None] = lambda: None
) -> bytes:
    """Write a sheet as PDF.

    Parameters
    ----------
    sheet : RigSheet
    paper : Paper
    go_on : callable
        Called before every page; raises to give the work up.

    Returns
    -------
    bytes
        The file.
    """
    chapters = _chapters(sheet, paper, go_on)
    pages = sum(_pages(placed) for _, placed in chapters)
    with _ONE_AT_A_TIME:
        from matplotlib import rc_context
        from matplotlib.backends.backend_pdf import PdfPages

        made = io.BytesIO()
        about = {"Title": f"Rig sheet: {sheet.title}", "Creator": "Skysill", "CreationDate": None}
        with rc_context({"pdf.fonttype": 42}), PdfPages(made, metadata=about) as pdf:
            number = 0
            for chapter in chapters:
                number = _draw(pdf, sheet, chapter, paper, (number, pages, go_on))
    return made.getvalue()


def _chapters(sheet: RigSheet, paper: Paper, go_on: Callable[[], None]) -> list[Chapter]:
    """Arrange the set and every rig."""
    found: list[Chapter] = []
    together = sheet.set_page
    if together is not None:
        found.append(
            (sheet.title, _arranged(lambda how: set_sections(sheet, together, how), paper))
        )
    for page in sheet.pages:
        go_on()
        found.append(
            (
                f"{page.letter} · {page.name}",
                _arranged(lambda how, page=page: rig_sections(page, sheet.cautions, how), paper),  # type: ignore[misc]
            )
        )
    return found


def _arranged(sections: Callable[[Density], list[Section]], paper: Paper) -> list[Placed]:
    """Find the roomiest setting that fits on one page, or run on."""
    for how in DENSITIES:
        placed = _placed(sections(how), paper)
        if _pages(placed) == 1:
            fuller = (_placed(sections(replace(how, goods=goods)), paper) for goods in GOODS)
            return next((more for more in fuller if _pages(more) == 1), placed)
    return _placed(sections(ROOMY), paper)


def _placed(sections: list[Section], paper: Paper) -> list[Placed]:
    bottom = paper.height_pt - paper.margin_pt - _FOOT_PT
    return place(sections, paper, top_pt=paper.margin_pt, bottom_pt=bottom)


def _pages(placed: list[Placed]) -> int:
    """Count the pages that are filled."""
    return max(one.page for one in placed) + 1


def _draw(
    pdf: "PdfPages",
    sheet: RigSheet,
    chapter: Chapter,
    paper: Paper,
    counting: tuple[int, int, Callable[[], None]],
) -> int:
    """Draw the pages of a chapter; give how many are drawn by then."""
    number, pages, go_on = counting
    name, placed = chapter
    for page in range(_pages(placed)):
        go_on()
        leaf = Leaf(paper)
        for one in placed:
            if one.page == page:
                one.draw(leaf)
        number += 1
        _edge(leaf, f"{name}, continued" if page else "", f"{number} of {pages}", sheet)
        pdf.savefig(leaf.figure)  # type: ignore[no-untyped-call]
        leaf.figure.clear()
    return number


def _edge(leaf: Leaf, running: str, number: str, sheet: RigSheet) -> None:
    """Write what stands in the margins."""
    paper = leaf.paper
    right = paper.width_pt - paper.margin_pt
    if running:
        words = wrapped(running, _SMALL, paper.inner_width_pt)[0]
        leaf.words((paper.margin_pt, paper.margin_pt - 14.0), words, _SMALL)
    y = paper.height_pt - paper.margin_pt - _SMALL.line_pt
    leaf.rule((paper.margin_pt, y - 3.0), (right, y - 3.0))
    note = f"{sheet.note} {_SQUARES}" if _lacks(sheet) else sheet.note
    room = paper.inner_width_pt - width_of(number, _SMALL) - 12.0
    lines = wrapped(note, _SMALL, room)
    for down, line in enumerate(lines[:2]):
        leaf.words((paper.margin_pt, y + down * _SMALL.line_pt), line, _SMALL)
    leaf.words((right, y), printable(number), _SMALL, align="right")


def _lacks(sheet: RigSheet) -> bool:
    """Tell whether a name on the sheet has letters that cannot be set."""
    names = [sheet.title]
    for page in sheet.pages:
        names += [page.name, *(part.name for part in page.parts)]
    return any(MISSING in printable(name) for name in names)
