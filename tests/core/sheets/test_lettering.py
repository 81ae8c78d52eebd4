"""Widths of words against matplotlib's own layout; lines never wider than asked."""

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from core.paths import ASSETS
from core.sheets.inks import FRAME_INKS, INK, LEVEL_INKS, MARKS, QUIET
from core.sheets.lettering import MISSING, Style, font_of, printable, width_of, wrapped
from core.sheets.paper import A4, LETTER, paper_named

texts = st.text(st.characters(codec="utf-8", exclude_characters="\n\r"), max_size=80)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["nnnn 80/480 f/6", "1 940 €", "שלום ▲ ok", "3.5° × 2.34°"])
def test_words_are_as_wide_as_matplotlib_sets_them(text: str, bold: bool) -> None:
    """Reference: the layout of matplotlib's text (kerning may take up to 3 percent off)."""
    from matplotlib.backends.backend_pdf import FigureCanvasPdf
    from matplotlib.figure import Figure

    style = Style(20.0, bold)
    figure = Figure(dpi=72)
    canvas = FigureCanvasPdf(figure)
    renderer = canvas.get_renderer() if hasattr(canvas, "get_renderer") else None
    drawn = figure.text(0, 0, f"|{text}|", fontproperties=font_of(style), parse_math=False)
    wide = drawn.get_window_extent(renderer).width
    assert width_of(printable(f"|{text}|"), style) == pytest.approx(wide, rel=0.03, abs=2.5)


@settings(max_examples=60)
@given(texts, st.floats(30.0, 300.0), st.booleans())
def test_no_line_is_wider_than_asked_and_no_word_is_lost(
    text: str, width_pt: float, bold: bool
) -> None:
    style = Style(9.0, bold)
    lines = wrapped(text, style, width_pt)
    assert all(width_of(line, style) <= width_pt for line in lines)
    kept = "".join(lines).replace(" ", "")
    assert kept == printable(text).replace(" ", "")


def test_a_letter_that_no_font_has_becomes_a_square_and_controls_vanish() -> None:
    assert printable("a 望 b") == f"a {MISSING} b"
    assert printable("left\u202eright\x07") == "leftright"
    assert MISSING not in printable("Ελληνικά Кириллица עברית عربي ″ ′ ° × → €")


@pytest.mark.parametrize("face", ["Regular", "Bold"])
def test_the_printed_font_is_the_font_of_the_window_letter_by_letter(face: str) -> None:
    """Reference: the OpenType files as they were published; widths and extents of each glyph."""
    window = TTFont(ASSETS / "fonts" / f"B612-{face}.otf")
    printed = TTFont(ASSETS / "fonts" / f"B612Print-{face}.ttf")
    assert printed.getBestCmap() == window.getBestCmap()
    theirs, ours = window.getGlyphSet(), printed.getGlyphSet()
    for name in window.getGlyphOrder():
        assert ours[name].width == theirs[name].width
        extents = []
        for glyphs in (theirs, ours):
            pen = BoundsPen(glyphs)
            glyphs[name].draw(pen)
            extents.append(pen.bounds or (0, 0, 0, 0))
        assert extents[1] == pytest.approx(extents[0], abs=1.5), name
    window.close()
    printed.close()


@pytest.mark.parametrize("ink", [*FRAME_INKS, *LEVEL_INKS.values(), INK, QUIET])
def test_every_ink_stands_out_from_white_by_4_5(ink: str) -> None:
    """W3C, WCAG 2.1: relative luminance, contrast ratio, criterion 1.4.3."""
    parts = [int(ink[place : place + 2], 16) / 255.0 for place in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    light = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    assert 1.05 / (light + 0.05) >= 4.5


def test_no_two_severities_share_a_mark() -> None:
    assert len(set(MARKS.values())) == len(MARKS) == len(LEVEL_INKS)


def test_papers_have_their_sizes() -> None:
    """ISO 216: A4 is 210 x 297 mm; Letter is 8.5 x 11 inches (from memory)."""
    assert A4.width_pt / 72 * 25.4 == pytest.approx(210.0)
    assert A4.height_pt / 72 * 25.4 == pytest.approx(297.0)
    assert (LETTER.width_pt / 72, LETTER.height_pt / 72) == (8.5, 11.0)
    assert paper_named(" LETTER ") is LETTER
    with pytest.raises(ValueError, match='paper "A5": must be A4 or Letter'):
        paper_named("A5")
