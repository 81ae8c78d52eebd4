"""The chart with its frames as a block of a page.

Points of 1/72 inch for the block, pixels of the chart for what lies on it.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.sheets.inks import DASHES, FRAME_INKS, INK
from core.sheets.leaf import Leaf
from core.sheets.lettering import Style, font_of, printable
from core.sheets.rig_sheet.sky_drawing import DrawnFrame, SkyDrawing

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["SkyBlock"]


@dataclass(frozen=True)
class SkyBlock:
    """A chart as wide as its column.

    Parameters
    ----------
    drawing : SkyDrawing
    style : Style
        Of the words on it.
    """

    drawing: SkyDrawing
    style: Style
    keeps_next: bool = True

    def height(self, width_pt: float) -> float:
        """Give the height of the picture and a little air."""
        rows, columns = self.drawing.pixels.shape
        return width_pt * float(rows) / float(columns) + 4.0

    def draw(self, leaf: Leaf, at: tuple[float, float], width_pt: float) -> None:
        """Draw the chart, the target, the frames, the compass and the scale bar."""
        size = (width_pt, self.height(width_pt) - 4.0)
        axes = leaf.picture(at, size, self.drawing.pixels)
        if self.drawing.target is not None:
            axes.plot(*self.drawing.target.T, color=INK, linewidth=0.8, linestyle=(0, (2, 2)))
        for frame in self.drawing.frames:
            self._frame(axes, frame)
        self._furniture(axes)

    def _frame(self, axes: "Axes", frame: DrawnFrame) -> None:
        """Draw the outline, the stalk to the sensor's up and the letter at its end."""
        ink, dash = FRAME_INKS[frame.colour], DASHES[frame.dash]
        axes.plot(*frame.outline.T, color=ink, linewidth=1.4, linestyle=(0, dash or None))
        axes.plot(*frame.stalk.T, color=ink, linewidth=1.4)
        self._words(
            axes, (frame.letter_at[0], frame.letter_at[1]), frame.letter, ink=ink, bold=True
        )

    def _furniture(self, axes: "Axes") -> None:
        """Draw north, east and the scale bar into the lower corners."""
        rows, columns = self.drawing.pixels.shape
        x, y, arm = columns * 0.13, rows * 0.93, rows * 0.1
        for dx, dy, word in ((0.0, -arm, "N"), (-arm, 0.0, "E")):
            axes.plot([x, x + dx], [y, y + dy], color=INK, linewidth=1.0)
            self._words(axes, (x + 1.45 * dx, y + 1.45 * dy), word)
        right = columns * 0.96
        left = right - self.drawing.bar_px
        axes.plot([left, right], [y, y], color=INK, linewidth=1.6, solid_capstyle="butt")
        self._words(axes, ((left + right) / 2.0, y - 0.06 * rows), self.drawing.bar_words)

    def _words(
        self,
        axes: "Axes",
        at: tuple[float, float],
        text: str,
        *,
        ink: str = INK,
        bold: bool = False,
    ) -> None:
        """Write with a light rim."""
        from matplotlib.patheffects import withStroke

        axes.text(
            *(*at, printable(text)),
            fontproperties=font_of(Style(self.style.size_pt, bold)),
            color=ink,
            ha="center",
            va="center",
            path_effects=[withStroke(linewidth=2.2, foreground="white")],
            clip_on=True,
            parse_math=False,
        )
