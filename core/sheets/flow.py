"""Fills pages with blocks: columns side by side, then what goes across, page after page.

Points of 1/72 inch. A block is never cut; one that is higher than a page stands alone on
it and ends in the margin, which no block of a sheet is made to be.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from core.sheets.blocks import Block
from core.sheets.leaf import Leaf
from core.sheets.paper import Paper

__all__ = ["Column", "Placed", "Section", "place"]

_APART_PT = 18.0
#: Between two sections.
_BELOW_PT = 6.0


@dataclass(frozen=True)
class Column:
    """Blocks below each other; `share` is the column's part of the width."""

    blocks: tuple[Block, ...]
    share: float = 1.0


#: Columns that stand side by side; the next section begins below the longest.
Section = tuple[Column, ...]


@dataclass(frozen=True)
class Placed:
    """A block at its place on a page, 0 first."""

    page: int
    block: Block
    x_pt: float
    y_pt: float
    width_pt: float

    def draw(self, leaf: Leaf) -> None:
        """Draw it."""
        self.block.draw(leaf, (self.x_pt, self.y_pt), self.width_pt)


def place(
    sections: Sequence[Section], paper: Paper, *, top_pt: float, bottom_pt: float
) -> list[Placed]:
    """Find a place for every block.

    Parameters
    ----------
    sections : sequence of Section
    paper : Paper
    top_pt, bottom_pt : float
        Where blocks begin and end on every page, from its upper edge.

    Returns
    -------
    list of Placed
    """
    placed: list[Placed] = []
    page, y = 0, top_pt
    for section in sections:
        ends = []
        room = paper.inner_width_pt - _APART_PT * (len(section) - 1)
        whole, x = sum(column.share for column in section), paper.margin_pt
        for column in section:
            wide = room * column.share / whole
            found = _flow(column, (page, y), (x, wide), (top_pt, bottom_pt))
            placed += found
            ends.append(_end(found, (page, y)))
            x += wide + _APART_PT
        page, y = max(ends)
        y += _BELOW_PT
    return placed


def _flow(
    column: Column,
    start: tuple[int, float],
    across: tuple[float, float],
    limits: tuple[float, float],
) -> list[Placed]:
    """Let one column run from a page and a height on."""
    (page, y), (x, wide), (top, bottom) = start, across, limits
    found = []
    for number, block in enumerate(column.blocks):
        if y + _needed(column.blocks, number, wide) > bottom and y > top:
            page, y = page + 1, top
        found.append(Placed(page, block, x, y, wide))
        y += block.height(wide)
    return found


def _needed(blocks: Sequence[Block], number: int, wide: float) -> float:
    """Give the height of a block and of those that it must not be parted from."""
    height = blocks[number].height(wide)
    while blocks[number].keeps_next and number + 1 < len(blocks):
        number += 1
        height += blocks[number].height(wide)
    return height


def _end(found: Sequence[Placed], start: tuple[int, float]) -> tuple[int, float]:
    """Give the page and the height where a column ended."""
    if not found:
        return start
    last = found[-1]
    return last.page, last.y_pt + last.block.height(last.width_pt)
