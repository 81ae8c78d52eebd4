"""Sizes of paper, and the room on it.

Points of 1/72 inch. Sources: ISO 216:2007 (A4, 210 x 297 mm) and ANSI/ASME Y14.1 (size A,
8.5 x 11 inches, "Letter"), both from memory.
"""

from typing import NamedTuple

from core.errors import BadValueError

__all__ = ["A4", "LETTER", "PAPERS", "Paper", "paper_named"]

_POINTS_PER_MM = 72.0 / 25.4


class Paper(NamedTuple):
    """A sheet of paper, upright; the margin is the same on all sides."""

    name: str
    width_pt: float
    height_pt: float
    margin_pt: float = 40.0

    @property
    def inner_width_pt(self) -> float:
        """Width between the margins."""
        return self.width_pt - 2.0 * self.margin_pt


A4 = Paper("A4", 210.0 * _POINTS_PER_MM, 297.0 * _POINTS_PER_MM)
LETTER = Paper("Letter", 612.0, 792.0)
PAPERS = {paper.name.lower(): paper for paper in (A4, LETTER)}


def paper_named(name: str) -> Paper:
    """Find a paper by its name.

    Parameters
    ----------
    name : str
        Capital or small.

    Raises
    ------
    BadValueError
        When it is neither A4 nor Letter.
    """
    found = PAPERS.get(name.strip().lower())
    if found is None:
        raise BadValueError("paper", name, "must be A4 or Letter")
    return found
