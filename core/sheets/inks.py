"""Colours for paper: what is legible on white, and told apart without colour too.

Frames have the hues of Okabe & Ito 2008, darkened until they stand out from white paper by
at least 4.5 to 1 (W3C, WCAG 2.1, criterion 1.4.3). Dashes are stroke and gap in points.
"""

__all__ = ["DASHES", "FRAME_INKS", "INK", "LEVEL_INKS", "LINE", "MARKS", "QUIET", "TINT"]

INK, QUIET, LINE, TINT = "#1c1a16", "#5b554a", "#b9b1a2", "#f3eee3"

#: By the place of a colour in the plan.
FRAME_INKS = (
    "#8a5f00",
    "#1f6c99",
    "#00704f",
    "#97507d",
    "#6f6600",
    "#ac4500",
    "#005a8f",
    "#5f5f5f",
)
#: By the place of a dash in the plan: full, dashed, dotted, dash-dotted.
DASHES: tuple[tuple[float, ...], ...] = ((), (6.0, 3.0), (1.5, 2.5), (7.0, 3.0, 1.5, 3.0))
#: The mark that stands with the word of a severity.
MARKS = {"stop": "✕", "caution": "▲", "unknown": "?", "note": "·", "good": "✓"}
LEVEL_INKS = {
    "stop": "#9c2a12",
    "caution": "#8a5a00",
    "unknown": "#5b554a",
    "note": "#5b554a",
    "good": "#27693f",
}
