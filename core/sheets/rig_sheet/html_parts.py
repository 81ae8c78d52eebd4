"""Pieces of an HTML page: escaped words, tables, the chart as inline SVG.

HTML as the WHATWG describes it, SVG 2, PNG (ISO/IEC 15948). Every text goes through
`words`, which escapes it; names of the user stand in ``bdi``, so that a name written from
right to left does not turn the words around it.
"""

import base64
import io
from collections.abc import Iterable, Sequence
from html import escape

import numpy as np
from numpy.typing import NDArray

from core.sheets.inks import DASHES, FRAME_INKS, INK, MARKS
from core.sheets.rig_sheet.content import Said
from core.sheets.rig_sheet.sky_drawing import DrawnFrame, SkyDrawing

__all__ = ["badge", "chart", "element", "listed", "table", "their", "words"]


def words(text: str) -> str:
    """Escape a text of ours."""
    return escape(text, quote=True)


def their(text: str) -> str:
    """Escape a name that the user gave, and keep its direction to itself."""
    return f"<bdi>{escape(text, quote=True)}</bdi>"


def element(tag: str, inside: str, *, kind: str = "") -> str:
    """Wrap markup in an element, with a class where one is given."""
    opening = f'<{tag} class="{kind}">' if kind else f"<{tag}>"
    return f"{opening}{inside}</{tag}>\n"


def listed(items: Iterable[str], *, kind: str = "") -> str:
    """Make a list of pieces of markup."""
    return element("ul", "".join(f"<li>{item}</li>\n" for item in items), kind=kind)


def table(
    head: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    caption: str,
    foot: Sequence[str] = (),
    numbers: Iterable[int] = (),
) -> str:
    """Make a table of pieces of markup.

    Parameters
    ----------
    head : sequence of str
        One for each column.
    rows : iterable of sequence of str
        Their first cell heads the row.
    caption : str
        What the table holds.
    foot : sequence of str
        The row of sums.
    numbers : iterable of int
        Columns that stand to the right, 0 first.
    """
    right = set(numbers)
    top = "".join(f'<th scope="col"{_kind(n, right)}>{cell}</th>' for n, cell in enumerate(head))
    body = "".join(f"<tr>{_cells(row, right)}</tr>\n" for row in rows)
    bottom = f"<tfoot><tr>{_cells(foot, right)}</tr></tfoot>\n" if foot else ""
    return (
        f'<div class="wide"><table>\n<caption>{caption}</caption>\n'
        f"<thead><tr>{top}</tr></thead>\n<tbody>\n{body}</tbody>\n{bottom}</table></div>\n"
    )


def badge(finding: Said) -> str:
    """Give the mark and the word of a severity."""
    mark = f"{MARKS[finding.severity]} {finding.severity}"
    return f'<b class="badge {finding.severity}">{words(mark)}</b>'


def chart(drawing: SkyDrawing) -> str:
    """Draw the sky with the frames as inline SVG, the stars as a picture within."""
    rows, columns = drawing.pixels.shape
    lines = [f'<image href="{_png(drawing.pixels)}" width="{columns}" height="{rows}"/>']
    if drawing.target is not None:
        lines.append(_line(drawing.target, INK, 2.0, (6.0, 5.0)))
    for frame in drawing.frames:
        lines.append(_frame(frame))
    lines.append(_furniture(drawing, columns, rows))
    return (
        f'<svg role="img" aria-label="{words(drawing.alt)}" viewBox="0 0 {columns} {rows}" '
        f'xmlns="http://www.w3.org/2000/svg"><title>{words(drawing.alt)}</title>\n'
        + "\n".join(lines)
        + "\n</svg>\n"
    )


def _cells(row: Sequence[str], right: set[int]) -> str:
    """The first cell heads the row."""
    first = f'<th scope="row">{row[0]}</th>'
    rest = (f"<td{_kind(n, right)}>{cell}</td>" for n, cell in enumerate(row[1:], 1))
    return first + "".join(rest)


def _kind(number: int, right: set[int]) -> str:
    return ' class="n"' if number in right else ""


def _png(grey: NDArray[np.uint8]) -> str:
    """Give a grey picture as a data address."""
    from PIL import Image

    made = io.BytesIO()
    Image.fromarray(grey).save(made, format="PNG", optimize=True)
    return f"data:image/png;base64,{base64.b64encode(made.getvalue()).decode()}"


def _frame(frame: DrawnFrame) -> str:
    """A frame: outline, stalk, letter."""
    ink, dash = FRAME_INKS[frame.colour], tuple(2.0 * part for part in DASHES[frame.dash])
    x, y = frame.letter_at
    return (
        _line(frame.outline, ink, 3.5, dash)
        + _line(frame.stalk, ink, 3.5, ())
        + _text((x, y + 8.0), frame.letter, ink)
    )


def _line(points: NDArray[np.float64], ink: str, wide: float, dash: Sequence[float]) -> str:
    """A line through points, broken where they are behind the limb."""
    steps, pen = [], "M"
    for x, y in points:
        if np.isfinite(x) and np.isfinite(y):
            steps.append(f"{pen}{x:.1f} {y:.1f}")
            pen = "L"
        else:
            pen = "M"
    pattern = f' stroke-dasharray="{" ".join(f"{part:g}" for part in dash)}"' if dash else ""
    return (
        f'<path d="{"".join(steps)}" fill="none" stroke="{ink}" stroke-width="{wide:g}"{pattern}/>'
    )


def _furniture(drawing: SkyDrawing, columns: int, rows: int) -> str:
    """North, east and the scale bar."""
    x, y, arm = columns * 0.13, rows * 0.93, rows * 0.1
    right = columns * 0.96
    left = right - drawing.bar_px
    lines = (((x, y), (x, y - arm)), ((x, y), (x - arm, y)), ((left, y), (right, y)))
    drawn = "".join(_line(np.array(line), INK, 2.5, ()) for line in lines)
    places = (
        ((x, y - 1.25 * arm), "N"),
        ((x - 1.4 * arm, y + 8.0), "E"),
        (((left + right) / 2.0, y - 14.0), drawing.bar_words),
    )
    return drawn + "".join(_text(at, text, INK) for at, text in places)


def _text(at: tuple[float, float], text: str, ink: str) -> str:
    """Words on the chart, with a light rim."""
    return f'<text x="{at[0]:.1f}" y="{at[1]:.1f}" fill="{ink}">{words(text)}</text>'
