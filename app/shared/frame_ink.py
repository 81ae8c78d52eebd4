"""A frame's colour where it stands on the theme's ground instead of the dark sky."""

from functools import lru_cache

from PySide6.QtGui import QColor

from app.shared.theme import Theme

__all__ = ["contrast", "frame_ink"]

#: Least contrast of text with its ground (W3C, WCAG 2.1, criterion 1.4.3).
_LEAST_CONTRAST = 4.5


@lru_cache(maxsize=64)
def frame_ink(theme: Theme, colour: int) -> str:
    """Give a frame's colour as it can be read on the theme's ground, ``#rrggbb``.

    Frame colours are made for a dark sky; they are darkened on paper, and lightened
    elsewhere, until they stand out by 4.5 to 1.

    Parameters
    ----------
    theme : Theme
    colour : int
        Place in the theme's colours.
    """
    ink, ground = QColor(theme.frames[colour]), QColor(theme.raised)
    for _ in range(40):
        if contrast(ink, ground) >= _LEAST_CONTRAST:
            break
        ink = ink.darker(108) if _light(ground) > 0.5 else ink.lighter(108)
    return ink.name()


def contrast(one: QColor, other: QColor) -> float:
    """Give the contrast ratio of two colours, 1 to 21 (WCAG 2.1)."""
    bright, dark = sorted((_light(one), _light(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def _light(colour: QColor) -> float:
    """Relative luminance (WCAG 2.1, from IEC 61966-2-1)."""
    parts = (colour.redF(), colour.greenF(), colour.blueF())
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
