"""A figure of a part as text to be typed over, and back again.

Empty text is a figure that is not known. A unit behind the number is read over. A comma for
the decimal point is refused with a sentence: there is one way to write a number.
"""

import re
from typing import Any, get_args, get_origin

from app.words.part_words import field_words
from core.errors import InvalidRigError
from core.gear.parts import Part

__all__ = ["choices_of", "read_figure", "text_of"]

_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)
_YES_NO = {True: "yes", False: "no"}
_COUNTS = ("columns", "rows")


def choices_of(part_class: type[Part], field: str) -> dict[str, Any] | None:
    """Give the words and values that a field can have; None where it is typed.

    Parameters
    ----------
    part_class : type of Part
    field : str
        Not "kind", whose choices depend on the part's place.
    """
    kinds = _types(part_class, field)
    unknown = {"not known": None} if type(None) in kinds else {}
    if bool in kinds:
        return {**unknown, "yes": True, "no": False}
    words = [value for kind in kinds for value in get_args(kind) if isinstance(value, str)]
    if words and field not in ("name", "thread", "thread_front", "link"):
        return {**unknown, **{word: word for word in words}}
    return None


def text_of(value: object) -> str:
    """Write a figure as it is typed.

    Examples
    --------
    >>> text_of(38.0), text_of(None), text_of(("a", "b"))
    ('38', '', 'a; b')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return _YES_NO[value]
    if isinstance(value, tuple):
        return "; ".join(value)
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def read_figure(part_class: type[Part], field: str, text: str) -> object:
    """Read what was typed.

    Parameters
    ----------
    part_class : type of Part
    field : str
    text : str

    Returns
    -------
    object
        For the field; None for empty text where the figure may be unknown.

    Raises
    ------
    InvalidRigError
        When a number is wanted and it is none.
    """
    kinds, text = _types(part_class, field), text.strip()
    if field == "alternatives":
        return tuple(name for given in text.split(";") if (name := given.strip()))
    if not text and type(None) in kinds:
        return None
    return _number(part_class, field, text) if {int, float} & _plain(kinds) else text


def _number(part_class: type[Part], field: str, text: str) -> float | int:
    """Read a number, with or without its unit."""
    words = field_words(part_class, field)
    bare = text.removesuffix(words.unit).strip() if words.unit else text
    if _NUMBER.fullmatch(bare):
        whole = int in _plain(_types(part_class, field)) and re.fullmatch(r"[+-]?\d+", bare)
        return int(bare) if whole else float(bare)
    rule = "must be a number"
    if _NUMBER.fullmatch(bare.replace(",", ".", 1)):
        rule = f"must be a number; write a point for the comma: {bare.replace(',', '.', 1)}"
    elif not text:
        rule = "must be a number; a rig cannot be without it"
    raise InvalidRigError(words.label.lower(), text, rule)


def _types(part_class: type[Part], field: str) -> tuple[Any, ...]:
    """List the types that a field may have."""
    annotation = part_class.model_fields[field].annotation
    return get_args(annotation) if type(None) in get_args(annotation) else (annotation,)


def _plain(kinds: tuple[Any, ...]) -> set[Any]:
    """Take the bounds off the types."""
    return {get_args(kind)[0] if get_origin(kind) is not None and get_args(kind) else kind
            for kind in kinds}  # fmt: skip
