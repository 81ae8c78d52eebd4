"""Type on paper: which letters there are, how wide words run, where lines break.

Widths in points, from the advances in the fonts' own tables, kerning left out. B612 comes
along, with outlines that a PDF may hold; what it lacks is set in DejaVu Sans, which comes
with matplotlib. What neither has becomes a small square, so that nobody takes a name with
a hole for the whole name.
"""

import unicodedata
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from core.paths import ASSETS
from core.sheets.inks import INK

if TYPE_CHECKING:
    from matplotlib.font_manager import FontProperties

__all__ = ["MISSING", "Style", "font_of", "printable", "width_of", "wrapped"]

#: Stands for a letter that no font here has.
MISSING = "□"
_FAMILIES = ("B612 Print", "DejaVu Sans")
_OWN = {False: "B612Print-Regular.ttf", True: "B612Print-Bold.ttf"}
_OTHER = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}


class Style(NamedTuple):
    """How words are set."""

    size_pt: float = 8.5
    bold: bool = False
    ink: str = INK

    @property
    def line_pt(self) -> float:
        """From one line to the next."""
        return self.size_pt * 1.32


def printable(text: str) -> str:
    """Give a text as it can be set: one line, squares for letters that are missing.

    Examples
    --------
    >>> printable("café 中 ok")
    'café □ ok'
    """
    return "".join(_settable(letter) for letter in " ".join(text.split(" ")))


def width_of(text: str, style: Style) -> float:
    """Measure a printable text in one line, points."""
    return sum(_advance(letter, style.bold) for letter in text) * style.size_pt


@lru_cache(maxsize=20_000)
def wrapped(text: str, style: Style, width_pt: float) -> tuple[str, ...]:
    """Break a text into lines.

    Parameters
    ----------
    text : str
        Broken at its spaces; a word that is wider than the line within itself.
    style : Style
    width_pt : float
        At least one letter stands in a line, however narrow it is.

    Returns
    -------
    tuple of str
        Printable lines, at least one.
    """
    lines, line = list[str](), ""
    for word in printable(text).split(" "):
        tried = f"{line} {word}" if line else word
        if width_of(tried, style) <= width_pt:
            line = tried
            continue
        if line:
            lines.append(line)
        *whole, line = _broken(word, style, width_pt)
        lines += whole
    return (*lines, line)


def font_of(style: Style) -> "FontProperties":
    """Give the font to draw with; registers the one that comes along when first asked."""
    from matplotlib.font_manager import FontProperties

    _register()
    weight = "bold" if style.bold else "normal"
    return FontProperties(family=list(_FAMILIES), weight=weight, size=style.size_pt)


@lru_cache(maxsize=1)
def _register() -> None:
    """Make the bundled font known to matplotlib."""
    from matplotlib.font_manager import fontManager

    for name in _OWN.values():
        fontManager.addfont(ASSETS / "fonts" / name)


@lru_cache(maxsize=4)
def _face(name: str) -> tuple[dict[int, str], Any, float]:
    """Read a font: glyph names by letter, the table of advances, units of an em."""
    from fontTools.ttLib import TTFont
    from matplotlib import get_data_path

    own = ASSETS / "fonts" / name
    path = str(own) if own.exists() else f"{get_data_path()}/fonts/ttf/{name}"
    with TTFont(path) as face:
        return face.getBestCmap(), face["hmtx"], float(face["head"].unitsPerEm)


@lru_cache(maxsize=4096)
def _advance(letter: str, bold: bool) -> float:
    """Give how far a letter carries the line, in ems."""
    for name in (_OWN[bold], _OTHER[bold], _OTHER[False]):
        glyphs, advances, em = _face(name)
        glyph = glyphs.get(ord(letter))
        if glyph is not None:
            return float(advances[glyph][0]) / em
    return 1.0


@lru_cache(maxsize=4096)
def _settable(letter: str) -> str:
    """Give a letter that one of the fonts has, in both weights."""
    kind = unicodedata.category(letter)
    if kind in ("Zs", "Zl", "Zp"):
        return "\N{NO-BREAK SPACE}" if letter in "\u00a0\u202f\u2007" else " "
    if kind in ("Cf", "Cc"):
        return ""
    for bold in (False, True):
        if not any(ord(letter) in _face(name[bold])[0] for name in (_OWN, _OTHER)):
            return MISSING
    return letter


def _broken(word: str, style: Style, width_pt: float) -> list[str]:
    """Break a word where a line is full."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, style) > width_pt:
            pieces.append("")
        pieces[-1] += letter
    return pieces
