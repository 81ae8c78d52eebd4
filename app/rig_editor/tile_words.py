"""A part of the drawing in words: for the tooltip, and for those who hear it."""

from app.rig_editor.beam_layout import Tile
from app.rig_editor.figure_text import text_of
from app.words.part_words import field_words
from core.gear.parts import Part

__all__ = ["figures_of", "spoken_tile", "tile_tip"]

_PLACES = {
    "tube": "telescope",
    "corrector": "corrector",
    "beam": "in the beam",
    "camera": "camera",
    "inside": "inside another part",
    "beside": "beside the beam",
}
_LEVELS = {
    "bad": "does not work",
    "caution": "take care",
    "": "not all is known",
    "note": "worth knowing",
    "good": "fine",
}
_LEFT_OUT = ("name", "kind", "note", "link", "alternatives", "price")


def figures_of(part: Part) -> list[str]:
    """List the figures that are known of a part, each with its unit."""
    said = []
    for field in type(part).model_fields:
        value = getattr(part, field)
        if field in _LEFT_OUT or value is None:
            continue
        words = field_words(type(part), field)
        unit = f" {words.unit}" if words.unit else ""
        said.append(f"{words.label}: {text_of(value)}{unit}")
    return said


def tile_tip(tile: Tile) -> str:
    """Give the tooltip of a part: its name and every figure that is known."""
    if tile.part is None:
        return "Choose a kind of part, then one from the shelf, or a blank one"
    lines = [tile.part.name, *figures_of(tile.part)]
    if not tile.known:
        lines.append("Its length is not known and not drawn to scale.")
    if tile.broken:
        lines.append("It is drawn shorter than it is.")
    return "\n".join(lines)


def spoken_tile(tile: Tile, level: str | None) -> str:
    """Say what a part is and what its checks say."""
    if tile.part is None:
        return "Add a part"
    said = f", {_LEVELS[level]}" if level is not None else ""
    return f"{tile.part.name}, {_PLACES[tile.role]}{said}"
