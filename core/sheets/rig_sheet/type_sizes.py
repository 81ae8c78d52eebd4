"""The sizes of type on a rig sheet, and how much of it is said when it is tight.

Sizes in points at scale 1.
"""

from dataclasses import dataclass

from core.sheets.inks import QUIET
from core.sheets.lettering import Style

__all__ = ["DENSITIES", "GOODS", "ROOMY", "Density"]

#: More than there are.
MANY = 1000


@dataclass(frozen=True)
class Density:
    """How a page is set.

    Parameters
    ----------
    scale : float
        Of all type.
    goods : int
        Good findings that have a sentence of their own; the rest is named only.
    swaps : int
        Swaps that are listed for one part.
    meanings : bool
        Whether each figure says what it means.
    """

    scale: float = 1.0
    goods: int = MANY
    swaps: int = 4
    meanings: bool = True

    def style(self, size_pt: float = 8.2, *, bold: bool = False, ink: str | None = None) -> Style:
        """Give a style at this scale."""
        style = Style(size_pt * self.scale, bold)
        return style if ink is None else style._replace(ink=ink)

    @property
    def body(self) -> Style:
        """Words that are read."""
        return self.style()

    @property
    def strong(self) -> Style:
        """Words that count."""
        return self.style(bold=True)

    @property
    def quiet(self) -> Style:
        """Words that explain."""
        return self.style(7.0, ink=QUIET)

    @property
    def head(self) -> Style:
        """What a part of the page is called."""
        return self.style(9.6, bold=True)


#: For what takes several pages anyway.
ROOMY = Density()
#: Tried in this order, with all good findings named only, until a rig fits on one page.
DENSITIES = (
    Density(goods=0),
    Density(goods=0, swaps=3),
    Density(goods=0, swaps=2),
    Density(scale=0.95, goods=0, swaps=2),
    Density(scale=0.95, goods=0, swaps=2, meanings=False),
    Density(scale=0.9, goods=0, swaps=2, meanings=False),
    Density(scale=0.86, goods=0, swaps=1, meanings=False),
)
#: Then as many good findings have their sentence as there is room for.
GOODS = (MANY, 8, 6, 5, 4, 3, 2, 1)
