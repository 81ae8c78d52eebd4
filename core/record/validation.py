"""Tells in one sentence what is wrong with a record.

Every record of the program (parts, rigs, plans) stands on `Record`, which checks its
fields when it is made and when it is read from JSON. This is the one place where the
checker's report becomes a sentence: the place in words, the value with its unit, the
rule. The unit comes from the end of the field's name (`focal_length_mm`), so a
field named by the convention needs no table of words.
"""

import math
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Self

from pydantic import BaseModel, ConfigDict, StringConstraints, ValidationError
from pydantic_core import ErrorDetails

from core.errors import BadValueError

__all__ = ["Key", "Name", "Record", "Words", "one_line", "refusal", "unit_of", "words_of"]

#: A name that is shown: something to read, on one line.
Name = Annotated[
    str,
    StringConstraints(
        strip_whitespace=True, min_length=1, max_length=120, pattern=r"^[^\x00-\x1f\x7f]*$"
    ),
]
#: An id inside a file.
Key = Name
#: Free text, a page at most.
Words = Annotated[str, StringConstraints(max_length=4000)]

#: The end of a field's name, and the unit it stands for as a person reads it.
_UNITS = {
    "arcsec_px": "arcsec/px",
    "arcmin": "arcmin",
    "arcsec": "arcsec",
    "deg": "degrees",
    "n_m": "N m",
    "mm": "mm",
    "um": "µm",
    "nm": "nm",
    "kg": "kg",
    "px": "px",
    "e": "electrons",
    "s": "seconds",
}
#: Fields whose words are not simply their name.
_WORDS = {
    "ra_deg": "right ascension",
    "dec_deg": "declination",
    "pa_deg": "position angle",
    "major_arcmin": "major diameter",
    "minor_arcmin": "minor diameter",
    "pixel_um": "pixel pitch",
    "peak_qe": "peak quantum efficiency",
    "others": "other parts",
    "load_bare_kg": "rated load without counterweight",
    "load_balanced_kg": "rated load with counterweight",
    "guide_rms_arcsec": "guiding error",
}


class Record(BaseModel):
    """A frozen record whose every field is checked.

    Raises
    ------
    BadValueError
        (or the class's own kind of it) when a field is missing, unknown, of the wrong
        type or outside its range; the message is one sentence.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False)
    #: What a refusal of this record is called.
    refused_as: ClassVar[type[BadValueError]] = BadValueError

    if not TYPE_CHECKING:  # the checker's plugin writes a better signature

        def __init__(self, /, **fields: Any) -> None:
            try:
                super().__init__(**fields)
            except ValidationError as error:
                raise refusal(error, kind=type(self).refused_as) from None

        # Records inside records are then still checked in one go, with the whole path.
        __init__.__pydantic_base_init__ = True

    @classmethod
    def from_json(cls, text: str | bytes) -> Self:
        """Read a record from JSON; refused with a sentence like a new one."""
        try:
            return cls.model_validate_json(text)
        except ValidationError as error:
            raise refusal(error, kind=cls.refused_as) from None

    def but(self, **changes: Any) -> Self:
        """Give a copy with some fields replaced, checked like a new one."""
        return type(self)(**{**dict(self), **changes})


def refusal(error: ValidationError, *, kind: type[BadValueError] = BadValueError) -> BadValueError:
    """Turn the checker's report into one sentence.

    Parameters
    ----------
    error : ValidationError
        What pydantic found; the first finding is told, the number of others added.
    kind : type of BadValueError
        The error to make.

    Returns
    -------
    BadValueError
        Not raised; ready to be.

    Examples
    --------
    >>> from core.gear.parts import Camera
    >>> Camera(name="one", columns=0, rows=10, pixel_um=3.76)
    Traceback (most recent call last):
    core.errors.InvalidRigError: columns "0": must be at least 1
    """
    findings = error.errors(include_url=False)
    first = findings[0]
    rule = _rule(first)
    if len(findings) > 1:
        rule += f" (and {len(findings) - 1} more)"
    inner = first.get("ctx", {}).get("error")
    if isinstance(inner, BadValueError):
        place = words_of((*first["loc"], inner.field))
        return kind(place, inner.value, inner.rule + rule.removeprefix(_rule(first)))
    return kind(words_of(first["loc"]) or "record", _value(first), rule)


def words_of(path: Sequence[str | int]) -> str:
    """Say where a field stands.

    Parameters
    ----------
    path : sequence of str and int
        Names and 0-based positions, outermost first.

    Examples
    --------
    >>> words_of(("rigs", 2, "rig", "telescope", "focal_length_mm"))
    'rig 3, telescope, focal length'
    """
    said: list[str] = []
    for step in path:
        if isinstance(step, int):
            said[-1:] = [f"{said[-1].removesuffix('s') if said else 'item'} {step + 1}"]
        elif not said or said[-1].split(" ")[0] != step.split(" ")[0]:
            said.append(one_line(_field_words(step)))
    return ", ".join(said)


def unit_of(field: str) -> str:
    """Give the unit a field's name ends with, or nothing.

    Examples
    --------
    >>> unit_of("read_noise_e"), unit_of("columns")
    ('electrons', '')
    """
    for ending, unit in _UNITS.items():
        if field.endswith("_" + ending):
            return unit
    return ""


def _field_words(field: str) -> str:
    """Turn a field's name into words, without its unit."""
    if field in _WORDS:
        return _WORDS[field]
    for ending in _UNITS:
        field = field.removesuffix("_" + ending)
    return field.replace("_", " ")


def _last_unit(details: ErrorDetails) -> str:
    """Give the unit of the field a finding is about, with a space before it."""
    names = [step for step in details["loc"] if isinstance(step, str)]
    unit = unit_of(names[-1]) if names else ""
    return f" {unit}" if unit else ""


def _value(details: ErrorDetails) -> str:
    """Show the value of a finding with its unit; a structure by its size only."""
    value = details["input"]
    if details["type"] == "missing":
        return "not given"
    if isinstance(value, Mapping | list | tuple | BaseModel):
        return "a list" if isinstance(value, list | tuple) else "an object"
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number of more than 15 digits"
    if isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:.10g}{_last_unit(details)}"
    return "nothing" if value is None else one_line(str(value))


def one_line(text: str, *, longest: int = 80) -> str:
    """Make text fit for a message: short, on one line, every character printable."""
    return "".join(c if c.isprintable() else " " for c in text[:longest]).strip()


def _rule(details: ErrorDetails) -> str:
    """Say what is allowed."""
    unit, context, kind = _last_unit(details), details.get("ctx", {}), details["type"]
    value = details["input"]
    if kind in _BOUNDS and isinstance(value, float) and not math.isfinite(value):
        kind = "finite_number"
    if kind in _BOUNDS:
        word, key = _BOUNDS[kind]
        return f"must be {word} {context[key]:.10g}{unit}"
    if kind in _LENGTHS:
        return _LENGTHS[kind].format(**context)
    if kind in ("literal_error", "enum"):
        return f"must be one of {context['expected']}"
    if kind == "value_error":
        inner = context["error"]
        return inner.rule if isinstance(inner, BadValueError) else str(inner)
    if kind in ("float_type", "int_type") and isinstance(value, str):
        return f"must be {_TYPES[kind]}{_number_in_text(value)}"
    return _RULES.get(kind, f"must be {_TYPES.get(kind, 'of another kind')}")


def _number_in_text(text: str) -> str:
    """Say how to write a number that came as text; nothing when it is none."""
    found = re.fullmatch(r"\s*([+-]?\d{1,20})(?:([.,])(\d{1,20}))?\s*", text, re.ASCII)
    if found is None:
        return ""
    whole, mark, rest = found.groups()
    point = "a point for the comma and " if mark == "," else ""
    written = whole.removeprefix("+") + (f".{rest}" if rest else "")
    return f"; write {point}no quotation marks: {written}"


_BOUNDS = {
    "greater_than": ("more than", "gt"),
    "greater_than_equal": ("at least", "ge"),
    "less_than": ("less than", "lt"),
    "less_than_equal": ("at most", "le"),
}
_LENGTHS = {
    "string_too_short": "must not be empty",
    "string_too_long": "must be at most {max_length} characters",
    "too_long": "must be at most {max_length} of them",
    "too_short": "must be at least {min_length} of them",
}
_RULES = {
    "missing": "is needed here",
    "extra_forbidden": "is not a field that belongs here",
    "finite_number": "must be a finite number",
    "string_pattern_mismatch": "has characters that do not belong there",
    "string_unicode": "must be text that can be written as Unicode",
}
_TYPES = {
    "float_type": "a number",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
    "string_type": "text",
    "tuple_type": "a list",
    "model_type": "an object",
    "model_attributes_type": "an object",
    "dict_type": "an object",
}
