"""One page being drawn: words, lines and pictures at places in points.

Conventions: points of 1/72 inch from the top left corner of the paper, y downwards.
"""

from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import NDArray

from core.sheets.inks import INK, LINE
from core.sheets.lettering import Style, font_of
from core.sheets.paper import Paper

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["BASELINE", "Align", "Leaf"]

Align = Literal["left", "right", "center"]
#: How far the feet of letters stand below the top of their line, in lines.
BASELINE = 0.74


class Leaf:
    """A page of paper.

    Parameters
    ----------
    paper : Paper
    """

    def __init__(self, paper: Paper) -> None:
        from matplotlib.figure import Figure

        self.paper = paper
        self.figure = Figure(figsize=(paper.width_pt / 72.0, paper.height_pt / 72.0))

    def words(
        self, at: tuple[float, float], text: str, style: Style, *, align: Align = "left"
    ) -> None:
        """Write one line whose top is at a place; the text must be printable."""
        if text:
            x, y = self._part(at[0], at[1] + BASELINE * style.line_pt)
            self.figure.text(
                *(x, y, text),
                fontproperties=font_of(style),
                color=style.ink,
                ha=align,
                va="baseline",
                parse_math=False,
            )

    def rule(
        self, start: tuple[float, float], end: tuple[float, float], *, ink: str = LINE
    ) -> None:
        """Draw a thin line between two places."""
        from matplotlib.lines import Line2D

        (x0, y0), (x1, y1) = self._part(*start), self._part(*end)
        self.figure.add_artist(Line2D([x0, x1], [y0, y1], color=ink, linewidth=0.6))

    def box(
        self,
        corner: tuple[float, float],
        size: tuple[float, float],
        *,
        fill: str,
        edge: str | None = None,
    ) -> None:
        """Fill a rectangle; its top left corner and its width and height are given."""
        from matplotlib.patches import Rectangle

        left, bottom = self._part(corner[0], corner[1] + size[1])
        wide, high = size[0] / self.paper.width_pt, size[1] / self.paper.height_pt
        self.figure.add_artist(
            Rectangle((left, bottom), wide, high, facecolor=fill, edgecolor=edge, linewidth=0.6)
        )

    def picture(
        self, corner: tuple[float, float], size: tuple[float, float], grey: NDArray[np.uint8]
    ) -> "Axes":
        """Show a grey picture, and give axes in its (column, row) to draw on."""
        left, bottom = self._part(corner[0], corner[1] + size[1])
        wide, high = size[0] / self.paper.width_pt, size[1] / self.paper.height_pt
        axes = self.figure.add_axes((left, bottom, wide, high))
        axes.imshow(grey, cmap="gray", vmin=0, vmax=255, aspect="auto", interpolation="none")
        axes.set_xticks([])
        axes.set_yticks([])
        for spine in axes.spines.values():
            spine.set_color(INK)
            spine.set_linewidth(0.8)
        axes.set_autoscale_on(False)
        return axes

    def _part(self, x_pt: float, y_pt: float) -> tuple[float, float]:
        """Turn points into parts of the figure, y upwards."""
        return x_pt / self.paper.width_pt, 1.0 - y_pt / self.paper.height_pt
