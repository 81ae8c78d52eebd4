"""Writes a record as JSON that people like to read and edit: one part a line.

What is not known is left out, and so are empty notes and lists, and the point of a whole
number; the record that is read back is the same. An object that holds further objects has a
line for each of its fields, any other object is one line.
"""

import json
from typing import Any

from core.record.validation import Record

__all__ = ["short_json"]

#: Whole numbers below are written without a point.
_EXACT = 1e15


def short_json(record: Record) -> str:
    """Write a record.

    Parameters
    ----------
    record : Record
        Of text, numbers, truth values, records and rows of these.

    Examples
    --------
    >>> from core.gear.parts import Mount
    >>> short_json(Mount(name="small", mass_kg=3.0))
    '{"name": "small", "mass_kg": 3, "kind": "equatorial"}'
    """
    return _laid_out(_plain(record), "")


def _plain(value: Any) -> Any:
    """Turn records into objects, without what says nothing."""
    if isinstance(value, Record):
        fields = type(value).model_fields
        return {
            name: _plain(held)
            for name, held in value
            if not (held in (None, "", ()) and held == fields[name].default)
        }
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    whole = isinstance(value, float) and value.is_integer() and abs(value) < _EXACT
    return int(value) if whole else value


def _laid_out(value: Any, margin: str) -> str:
    """Write a value, over several lines where it holds objects."""
    inner = margin + " "
    if isinstance(value, dict) and any(map(_holds_objects, value.values())):
        fields = (f"{inner}{_one_line(key)}: {_laid_out(value[key], inner)}" for key in value)
        return "{\n" + ",\n".join(fields) + f"\n{margin}}}"
    if isinstance(value, list) and _holds_objects(value):
        items = (f"{inner}{_laid_out(item, inner)}" for item in value)
        return "[\n" + ",\n".join(items) + f"\n{margin}]"
    return _one_line(value)


def _holds_objects(value: Any) -> bool:
    """Tell whether a value is an object, or a list of them."""
    return isinstance(value, dict) or (isinstance(value, list) and any(map(_holds_objects, value)))


def _one_line(value: Any) -> str:
    """Write a value on one line."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
