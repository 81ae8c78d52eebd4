"""What pages are made of: paragraphs, rows of a table, gaps. Each knows its height.

Points of 1/72 inch; a block is as wide as it is told, and breaks its words to fit.
"""

from dataclasses import dataclass
from typing import Protocol

from core.sheets.inks import LINE
from core.sheets.leaf import BASELINE, Align, Leaf
from core.sheets.lettering import Style, printable, width_of, wrapped

__all__ = ["Block", "Cell", "Gap", "Paragraph", "Row", "Rule"]

#: Between two cells of a row.
_GUTTER_PT = 6.0


class Block(Protocol):
    """A piece of a page that is never cut."""

    @property
    def keeps_next(self) -> bool:
        """Whether it must not be the last on a page."""

    def height(self, width_pt: float) -> float:
        """Give its height when it is so wide."""

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        """Draw it, its top left corner at a place."""


@dataclass(frozen=True)
class Gap:
    """Some air."""

    high_pt: float
    keeps_next: bool = False

    def height(self, width_pt: float) -> float:
        """Give its height."""
        return self.high_pt

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        """Draw nothing."""


@dataclass(frozen=True)
class Rule:
    """A thin line across."""

    ink: str = LINE
    keeps_next: bool = False

    def height(self, width_pt: float) -> float:
        """Give the height with the air around the line."""
        return 4.0

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        """Draw the line in the middle."""
        y = at[1] + 2.0
        leaf.rule((at[0], y), (at[0] + width_pt, y), ink=self.ink)


@dataclass(frozen=True)
class Paragraph:
    """Words over the whole width; `mark` hangs to their left in a style of its own."""

    text: str
    style: Style
    mark: str = ""
    mark_style: Style | None = None
    after_pt: float = 1.5
    keeps_next: bool = False

    def height(self, width_pt: float) -> float:
        """Give its height."""
        return len(self._lines(width_pt)) * self.style.line_pt + self.after_pt

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        """Write the mark, then line by line."""
        leaf.words(at, printable(self.mark), self._mark_style)
        for number, line in enumerate(self._lines(width_pt)):
            first = self._hang if not number or self._hang < width_pt / 3 else 0.0
            leaf.words((at[0] + first, at[1] + number * self.style.line_pt), line, self.style)

    @property
    def _mark_style(self) -> Style:
        return self.mark_style or self.style

    @property
    def _hang(self) -> float:
        """Room for the mark."""
        return width_of(printable(self.mark), self._mark_style) + 4.0 if self.mark else 0.0

    def _lines(self, width_pt: float) -> tuple[str, ...]:
        return wrapped(self.text, self.style, width_pt - self._hang)


@dataclass(frozen=True)
class Cell:
    """Words in a column; `share` is its part of the row's width."""

    text: str
    share: float
    style: Style
    align: Align = "left"


@dataclass(frozen=True)
class Row:
    """Cells side by side, their first lines on one level, as high as the highest."""

    cells: tuple[Cell, ...]
    after_pt: float = 1.5
    keeps_next: bool = False

    def height(self, width_pt: float) -> float:
        """Give its height."""
        every = (
            len(lines) * cell.style.line_pt + self._drop(cell)
            for _, lines, cell in self._set(width_pt)
        )
        return max(every, default=0.0) + self.after_pt

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        """Write cell by cell."""
        for (left, wide), lines, cell in self._set(width_pt):
            x = at[0] + left + (wide if cell.align == "right" else 0.0)
            for number, line in enumerate(lines):
                y = at[1] + self._drop(cell) + number * cell.style.line_pt
                leaf.words((x, y), line, cell.style, align=cell.align)

    def _drop(self, cell: Cell) -> float:
        """Give how far smaller words go down to stand on the level of the largest."""
        largest = max(other.style.line_pt for other in self.cells)
        return BASELINE * (largest - cell.style.line_pt)

    def _set(self, width_pt: float) -> list[tuple[tuple[float, float], tuple[str, ...], Cell]]:
        """Give left edge, width and lines of each cell."""
        room = width_pt - _GUTTER_PT * (len(self.cells) - 1)
        whole = sum(cell.share for cell in self.cells)
        found, left = [], 0.0
        for cell in self.cells:
            wide = room * cell.share / whole
            found.append(((left, wide), wrapped(cell.text, cell.style, wide), cell))
            left += wide + _GUTTER_PT
        return found
