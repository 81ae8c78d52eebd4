"""The many spellings of an angle, brought to numbers: marks, units, words, commas.

Conventions: a sexagesimal angle is up to three numbers; its unit is "h", "d" or "" when
none is written. A comma between two digits is a decimal comma wherever something else
parts the two angles of a position.

Domain: texts of up to 200 characters; anything else is refused in one sentence.

Sources: the IAU style manual (Wilkins 1989) and the IAU rules of designation for the
``J205847+441948`` form; the rest is common practice.
"""

import math
import re
from dataclasses import dataclass

from core.errors import BadValueError

__all__ = ["HOW_TO_WRITE", "Reading", "halves", "is_position", "read_angle"]

#: The end of every sentence about a position that could not be read.
HOW_TO_WRITE = (
    'write it as "20 58 47 +44 19 48", "20h58m47s +44d19m48s" or in degrees "314.7 44.33"'
)
_LONGEST = 200

#: Signs and marks that mean the same, brought to one.
_SAME = str.maketrans(
    {
        "\u2212": "-", "\u2013": "-", "\u2010": "-", "\u2011": "-", "\ufe63": "-", "\uff0d": "-",
        "\u2032": "'", "\u2019": "'", "\u02b9": "'", "\u00b4": "'", "`": "'",
        "\u2033": '"', "\u201d": '"', "\u02ba": '"', "\u00b0": "d", "\u00ba": "d", "\u02da": "d",
        "\u02b0": "h", "\u1d48": "d", "\u1d50": "m", "\u02e2": "s",
        "\u00a0": " ", "\u202f": " ", "\u2009": " ", "/": ";",
    }
)  # fmt: skip
_WORD = re.compile(
    r"\b(?:r\.\s?a\.|ra\b|right ascension\b|decl?\.|decl?\b|declination\b|icrs\b|j2000(?:\.0)?\b)"
    r"\s*[:=]?|[αδ]\s*[:=]?|[()\[\]]",
    re.IGNORECASE,
)
_LONG_UNITS = (
    (re.compile(r"(?<=[\d\s.])(?:degrees?|deg)\b", re.IGNORECASE), "d"),
    (re.compile(r"(?<=[\d\s.])(?:hours?|hrs?)\b", re.IGNORECASE), "h"),
    (re.compile(r"(?<=[\d\s.])(?:arcminutes?|arcmin|minutes?|min)\b", re.IGNORECASE), "m"),
    (re.compile(r"(?<=[\d\s.])(?:arcseconds?|arcsec|seconds?|sec)\b", re.IGNORECASE), "s"),
)
_DESIGNATION = re.compile(r"J?(\d{4}|\d{6})(\.\d+)?\s*([+-])(\d{4}|\d{6})(\.\d+)?", re.IGNORECASE)
_ALLOWED = re.compile(r"[\d\s.,;:+\-hmsd'\"]*", re.IGNORECASE)
_NUMBER = re.compile(r"(\d+(?:\.\d*)?|\.\d+)\s*(h|d|m|s|''|'|\"|:)?", re.IGNORECASE)
_TIGHT_COMMA = re.compile(r"(?<=\d),(?=\d)")
_BEFORE_SIGN = re.compile(r"(?<=[\d\s.'\"hmsd])(?=[+-])", re.IGNORECASE)
_SPAN = {"h": 0, "d": 0, "m": 1, "'": 1, "s": 2, '"': 2, "''": 2}


@dataclass(frozen=True)
class Reading:
    """An angle as it was written: its value in its own unit, the unit, how many numbers."""

    value: float
    unit: str
    count: int


def is_position(text: str) -> bool:
    """Tell whether a text is meant as coordinates rather than as a name.

    Examples
    --------
    >>> is_position("J205847+441948"), is_position("30 Dor"), is_position("20 58")
    (True, False, True)
    """
    if len(text) > _LONGEST:
        return False
    clean = _clean(text)
    if _DESIGNATION.fullmatch(clean):
        return True
    begins = clean[:1].isdigit() or clean[:1] in "+-."
    return begins and bool(_ALLOWED.fullmatch(clean)) and len(re.findall(r"[\d.]+", clean)) >= 2


def halves(text: str) -> tuple[str, str]:
    """Cut a position between its two angles.

    Raises
    ------
    BadValueError
        When the text does not hold two angles.

    Examples
    --------
    >>> halves("314,7 44,33"), halves("20h58m47s 44")
    (('314.7', '44.33'), ('20h58m47s', '44'))
    """
    if not text.strip():
        raise BadValueError("position", text, "is empty; " + HOW_TO_WRITE)
    if len(text) <= _LONGEST:
        clean = _commas(_clean(text)).strip(" \t\r\n;,")
        if designation := _DESIGNATION.fullmatch(clean):
            return _designation(*designation.groups())
        for pieces in (re.split(r"[;,]", clean), _BEFORE_SIGN.split(clean), clean.split()):
            cut = [piece.strip() for piece in pieces if piece.strip()]
            if len(cut) == 2 and _NUMBER.search(cut[0]) and _begins_an_angle(cut[1]):
                return cut[0], cut[1]
        place = _place_of_cut(clean)
        if place and _begins_an_angle(clean[place:]):
            return clean[:place].strip(), clean[place:]
    rule = "is not a right ascension and a declination; " + HOW_TO_WRITE
    raise BadValueError("position", text.strip(), rule)


def read_angle(text: str, name: str, how: str, *, from_minutes: bool = False) -> Reading:
    """Read one angle.

    Parameters
    ----------
    text : str
    name : str
        What it is, for the sentence of an error.
    how : str
        How it may be written, for the end of that sentence.
    from_minutes : bool
        Whether it may begin with minutes or seconds ("30'").

    Raises
    ------
    BadValueError
        When it is not an angle, or a part of it cannot be.
    """
    clean = _TIGHT_COMMA.sub(".", _clean(text)).lower() if len(text) <= _LONGEST else ""
    body = clean[1:].strip() if clean[:1] in ("+", "-") else clean
    found = list(_NUMBER.finditer(body))
    if not 1 <= len(found) <= 3 or _NUMBER.sub("", body).strip():
        raise BadValueError(name, text.strip(), f"is not an angle; {how}")
    if any("." in match.group(1) for match in found[:-1]):
        raise BadValueError(name, text.strip(), "may have decimals in its last part only")
    spans = _spans([match.group(2) for match in found])
    if spans is None or (spans[0] > 0 and not from_minutes):
        raise BadValueError(name, text.strip(), f"has its units out of order; {how}")
    parts = [float(match.group(1)) for match in found]
    if any(part >= 60.0 for part in parts[1:]):
        raise BadValueError(name, text.strip(), "has minutes or seconds of 60 or more")
    value = math.fsum(part / 60.0**span for part, span in zip(parts, spans, strict=True))
    unit = found[0].group(2) or ""
    return Reading(-value if clean.startswith("-") else value, unit.strip(":"), len(parts))


def _clean(text: str) -> str:
    """Bring marks to one kind, take words and brackets out, make long units short."""
    clean = _WORD.sub(" ", text.translate(_SAME))
    for pattern, unit in _LONG_UNITS:
        clean = pattern.sub(unit, clean)
    return clean.strip()


def _commas(clean: str) -> str:
    """Decimal commas become points where something else parts the two angles."""
    tight = len(_TIGHT_COMMA.findall(clean))
    if not tight:
        return clean
    spaced = re.search(r"\s", clean) is not None
    parted = ";" in clean or _BEFORE_SIGN.search(clean) is not None
    parted = parted or (spaced and clean.count(",") > 1)
    if spaced and not parted and "." not in clean:
        counts = [len(_NUMBER.findall(half)) for half in clean.split(",")]
        parted = counts[0] != counts[1]
    return _TIGHT_COMMA.sub(".", clean) if parted and tight <= 2 else clean


def _begins_an_angle(half: str) -> bool:
    """Whether a text begins with whole degrees or hours, not with minutes or seconds."""
    first = _NUMBER.search(half)
    return first is not None and _SPAN.get((first.group(2) or "d").lower(), 0) == 0


def _place_of_cut(clean: str) -> int:
    """Where the second angle begins when only numbers and units tell; 0 when nothing does."""
    numbers = list(_NUMBER.finditer(clean))
    united = [i for i, match in enumerate(numbers) if match.group(2) not in (None, ":")]
    second = [i for i in united if i and _SPAN[numbers[i].group(2).lower()] == 0]
    if second:
        return numbers[second[0]].start()
    if united:
        return numbers[united[-1] + 1].start() if united[-1] + 1 < len(numbers) else 0
    return numbers[len(numbers) // 2].start() if len(numbers) in (2, 4, 6) else 0


def _spans(units: list[str | None]) -> list[int] | None:
    """Power of 60 below the whole unit of each part; None when they do not descend."""
    spans: list[int] = []
    for unit in units:
        following = spans[-1] + 1 if spans else 0
        span = following if unit in (None, ":") else _SPAN[unit]
        if span < following or span > 2:
            return None
        spans.append(span)
    return spans


def _designation(
    ra: str, ra_rest: str | None, sign: str, dec: str, dec_rest: str | None
) -> tuple[str, str]:
    """Spread the run-together digits of a designation; decimals belong to its last part."""
    spread = [" ".join(re.findall(r"\d\d", half)) for half in (ra, dec)]
    return spread[0] + (ra_rest or ""), sign + spread[1] + (dec_rest or "")
