"""What a header tells, read into numbers and words that can be, with a remark where not.

Writers of headers put numbers into quotation marks, use decimal commas, and write 0 for
what they do not know. A clean number is taken from all of these, and said; a value that
cannot be is left out, and said. Nothing is passed over in silence.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from core.record.validation import one_line

__all__ = ["RULES", "Rule", "Told", "number_told", "text_told", "whole_told"]

_NUMBER = re.compile(r"([+-]?)(\d{1,30})?(?:([.,])(\d{0,30}))?(?:[eEdD]([+-]?\d{1,3}))?")
_LONGEST_TEXT = 100


@dataclass(frozen=True)
class Told:
    """A value as it stands in a frame, and where.

    `name` is the keyword or tag as the user can look it up; `value` whatever was there.
    """

    name: str
    value: Any
    comment: str = ""


@dataclass(frozen=True)
class Rule:
    """What a number may be: bounds, unit, and whether 0 is a number like any other."""

    low: float
    high: float
    unit: str = ""
    zero_counts: bool = False


#: Bounds of what is read, by the field's name; those of parts are the bounds of the records.
RULES: Mapping[str, Rule] = {
    "focal_length_mm": Rule(1.0, 1_000_000.0, "mm"),
    "focal_length_35mm_mm": Rule(1.0, 1_000_000.0, "mm"),
    "aperture_mm": Rule(0.1, 50_000.0, "mm"),
    "aperture_area_mm2": Rule(0.01, 2e9, "mm²"),
    "focal_ratio": Rule(0.5, 1000.0),
    "pixel_um": Rule(0.1, 1000.0, "µm"),
    "pixels": Rule(1, 200_000, "px"),
    "binning": Rule(1, 64),
    "offset_px": Rule(0, 200_000, "px", zero_counts=True),
    "resolution": Rule(0.1, 1e6),
    "exposure_s": Rule(0.0, 1e6, "seconds", zero_counts=True),
    "conversion_e_adu": Rule(1e-6, 1e4, "electrons/ADU"),
    "gain": Rule(0.0, 1e6, zero_counts=True),
    "iso": Rule(1, 1e8),
    "temperature_c": Rule(-273.15, 150.0, "°C", zero_counts=True),
    "latitude_deg": Rule(-90.0, 90.0, "degrees", zero_counts=True),
}


def number_told(told: Told | None, field: str, remarks: list[str]) -> float | None:
    """Read a number that can be.

    Parameters
    ----------
    told : Told or None
        None when the frame does not have it.
    field : str
        A name in `RULES`.
    remarks : list of str
        A sentence is added where the value is not a plain number within the bounds.

    Returns
    -------
    float or None
        None when there is none that can be used.

    Examples
    --------
    >>> said = []
    >>> number_told(Told("XPIXSZ", "3,76"), "pixel_um", said), said
    (3.76, ['XPIXSZ is the text "3,76", read as 3.76'])
    """
    if told is None:
        return None
    rule, shown = RULES[field], _shown(told.value)
    number, as_text = _number(told.value)
    if number is None:
        remarks.append(f"{told.name} is {shown}, not a number; left out")
        return None
    if not math.isfinite(number):
        remarks.append(f"{told.name} is not a finite number; left out")
        return None
    if number == 0.0 and not rule.zero_counts:
        remarks.append(f"{told.name} is 0, as where it was never set; left out")
        return None
    if not rule.low <= number <= rule.high:
        unit = f" {rule.unit}" if rule.unit else ""
        bounds = f"{rule.low:.10g} and {rule.high:.10g}{unit}"
        remarks.append(f"{told.name} is {number:.10g}, not between {bounds}; left out")
        return None
    if as_text:
        remarks.append(f"{told.name} is {shown}, read as {number:.10g}")
    return number


def whole_told(told: Told | None, field: str, remarks: list[str]) -> int | None:
    """Read a whole number like `number_told`."""
    number = number_told(told, field, remarks)
    if told is None or number is None:
        return None
    if number != round(number):
        remarks.append(f"{told.name} is {number:.10g}, not a whole number; left out")
        return None
    return round(number)


def text_told(told: Told | None) -> str | None:
    """Read words, cleaned of what does not show; None when there are none.

    Examples
    --------
    >>> text_told(Told("INSTRUME", "  my   camera "))
    'my camera'
    """
    if told is None or not isinstance(told.value, str | bytes):
        return None
    text = told.value if isinstance(told.value, str) else told.value.decode("utf-8", "replace")
    return " ".join(one_line(text, longest=_LONGEST_TEXT).split()) or None


def _number(value: Any) -> tuple[float | None, bool]:
    """Give the number a value holds, and whether it came as text."""
    if isinstance(value, bool):
        return None, False
    if isinstance(value, str):
        return _number_in(value.strip()), True
    if isinstance(value, complex):
        return None, False
    try:
        return float(value), False
    except OverflowError:
        return math.inf, False
    except (TypeError, ValueError, ZeroDivisionError):
        return None, False


def _number_in(text: str) -> float | None:
    """Give the number a text spells, with a point or a decimal comma."""
    found = _NUMBER.fullmatch(text)
    if found is None or not (found.group(2) or found.group(4)):
        return None
    sign, whole, _, rest, power = found.groups()
    return float(f"{sign}{whole or 0}.{rest or 0}e{power or 0}")


def _shown(value: Any) -> str:
    """Show a value within a sentence."""
    if isinstance(value, str):
        return f'the text "{one_line(value, longest=40)}"'
    if isinstance(value, bool):
        return "true or false"
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number of more than 15 digits"
    return one_line(str(value), longest=40) if isinstance(value, int | float) else "no value"
