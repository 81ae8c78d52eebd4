"""Make the fonts of printed pages: B612 with TrueType outlines, from the OpenType files.

Run from the top folder: ``python -m assets.build.build_fonts``. Needs fontTools alone. A
PDF holds TrueType programs in FontFile2 streams (ISO 32000-1, 9.9), where matplotlib puts
any font; B612 comes with CFF outlines, which do not belong there. The cubic curves become
quadratic ones that stay within half a unit of 2000 to the em; nothing else changes but the
name, so that no other B612 on a system is taken for it.
"""

from pathlib import Path

from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable

from core.paths import ASSETS

__all__ = ["FAMILY", "main", "with_truetype_outlines"]

FAMILY = "B612 Print"
_FACES = ("Regular", "Bold")
_FARTHEST_UNITS = 0.5
#: Name table: family, unique name, full name, PostScript name (OpenType specification).
_FAMILY_NAME, _UNIQUE_NAME, _FULL_NAME, _POSTSCRIPT_NAME = 1, 3, 4, 6


def with_truetype_outlines(path: Path, face: str) -> TTFont:
    """Convert a font.

    Parameters
    ----------
    path : Path
        An OpenType font with CFF outlines.
    face : str
        "Regular" or "Bold".
    """
    font = TTFont(path, recalcTimestamp=False)
    glyphs, order = font.getGlyphSet(), font.getGlyphOrder()
    outlines = newTable("glyf")
    outlines.glyphOrder, outlines.glyphs = order, {}
    for name in order:
        pen = TTGlyphPen(glyphs)
        glyphs[name].draw(Cu2QuPen(pen, _FARTHEST_UNITS, reverse_direction=True))
        outlines.glyphs[name] = pen.glyph()
    del font["CFF "]
    font["loca"], font["glyf"] = newTable("loca"), outlines
    _describe(font)
    _rename(font, face)
    return font


def main() -> None:
    """Convert both faces."""
    for face in _FACES:
        made = ASSETS / "fonts" / f"B612Print-{face}.ttf"
        with_truetype_outlines(ASSETS / "fonts" / f"B612-{face}.otf", face).save(made)
        print(f"{made.name}: {made.stat().st_size} bytes")


def _describe(font: TTFont) -> None:
    """Make the tables that tell what kind of outlines there are agree with them."""
    font.sfntVersion = "\x00\x01\x00\x00"
    outlines, most = font["glyf"], font["maxp"]
    most.tableVersion = 0x00010000
    for field in ("maxTwilightPoints", "maxStorage", "maxFunctionDefs", "maxInstructionDefs"):
        setattr(most, field, 0)
    for field in ("maxStackElements", "maxSizeOfInstructions", "maxComponentElements"):
        setattr(most, field, 0)
    most.maxZones = 1
    font["post"].formatType = 2.0
    font["post"].extraNames, font["post"].mapping = [], {}
    for name, (advance, _) in list(font["hmtx"].metrics.items()):
        glyph = outlines[name]
        glyph.recalcBounds(outlines)
        font["hmtx"][name] = (advance, getattr(glyph, "xMin", 0))


def _rename(font: TTFont, face: str) -> None:
    """Give the font a name of its own."""
    whole = f"{FAMILY} {face}" if face != "Regular" else FAMILY
    names = {
        _FAMILY_NAME: FAMILY,
        _UNIQUE_NAME: f"{whole}, made from B612 {face}",
        _FULL_NAME: whole,
        _POSTSCRIPT_NAME: f"B612Print-{face}",
    }
    table = font["name"]
    for record in list(table.names):
        if record.nameID in names:
            place = (record.platformID, record.platEncID, record.langID)
            table.setName(names[record.nameID], record.nameID, *place)
        elif record.nameID in (16, 17, 21, 22):
            table.removeNames(nameID=record.nameID)


if __name__ == "__main__":
    main()
