"""Angles as people write them: any usual spelling in, one clean form out.

Conventions: right ascension in 0..360 degrees, declination in -90..+90 degrees, ICRS.
A right ascension of one bare number is in degrees; of two or three numbers, or with
an ``h``, it is in hours. A declination is always in degrees.

Sources: the IAU style manual (Wilkins 1989) and the IAU rules of designation for the
``J205847+441948`` form; the FITS and VOTable habit of bare degrees.
"""

import math
import re

from core.errors import BadValueError

__all__ = [
    "format_angle",
    "format_dec",
    "format_ra",
    "looks_like_position",
    "parse_angle",
    "parse_dec",
    "parse_position",
    "parse_ra",
    "wrap_180",
    "wrap_360",
]

_RA = "right ascension"
_DEC = "declination"
_HOW = 'write it as "20 58 47 +44 19 48", "20h58m47s +44d19m48s" or in degrees "314.7 44.33"'

#: Signs and marks that mean the same, brought to one.
_SAME = str.maketrans(
    {
        "\u2212": "-", "\u2013": "-", "\u2010": "-", "\u2011": "-", "\u2032": "'", "\u2019": "'",
        "\u00b4": "'", "`": "'", "\u2033": '"', "\u201d": '"', "\u00b0": "d", "\u00ba": "d",
        "\u02b0": "h", "\u1d50": "m", "\u02e2": "s", "\u00a0": " ", "\u202f": " ", "\u2009": " ",
    }
)  # fmt: skip
_WORD = re.compile(r"\b(?:ra|dec|decl|icrs|j2000(?:\.0)?)\b\s*[:=]?|[αδ]\s*[:=]?", re.IGNORECASE)
_DESIGNATION = re.compile(r"^J?(\d{4,6}(?:\.\d+)?)([+-])(\d{4,6}(?:\.\d+)?)$", re.IGNORECASE)
_ALLOWED = re.compile(r"^[\d\s.,;:+\-hmsd'\"]*$", re.IGNORECASE)
_NUMBER = re.compile(r"(\d+(?:\.\d*)?|\.\d+)\s*(h|d|m|s|''|'|\"|:)?", re.IGNORECASE)
_SPAN = {"h": 0, "d": 0, "m": 1, "'": 1, "s": 2, '"': 2, "''": 2}


def wrap_360(angle_deg: float) -> float:
    """Bring an angle into 0 <= angle < 360 degrees.

    Examples
    --------
    >>> wrap_360(-30.0), wrap_360(-1e-20)
    (330.0, 0.0)
    """
    return angle_deg % 360.0 % 360.0


def wrap_180(angle_deg: float) -> float:
    """Bring an angle into -180 < angle <= 180 degrees.

    Examples
    --------
    >>> wrap_180(359.0), wrap_180(-180.0)
    (-1.0, 180.0)
    """
    return 180.0 - wrap_360(180.0 - angle_deg)


def looks_like_position(text: str) -> bool:
    """Tell whether a text is meant as coordinates rather than as a name.

    Examples
    --------
    >>> looks_like_position("20 58 +44 20"), looks_like_position("M 31")
    (True, False)
    """
    clean = _WORD.sub(" ", text.translate(_SAME)).strip()
    if _DESIGNATION.match(clean.replace(" ", "")) and not clean[:1].isalpha():
        return True
    if re.match(r"^J\d{4,}", clean, re.IGNORECASE):
        return bool(_DESIGNATION.match(clean))
    return (
        bool(_ALLOWED.match(clean))
        and not clean[:1].isalpha()
        and len(re.findall(r"\d+(?:\.\d+)?", clean)) >= 2
    )


def parse_position(text: str) -> tuple[float, float]:
    """Read a position in any usual spelling.

    Parameters
    ----------
    text : str
        Right ascension, then declination; see the module's conventions.

    Returns
    -------
    ra_deg, dec_deg : float
        ICRS degrees.

    Raises
    ------
    BadValueError
        With what is wrong and how it may be written.

    Examples
    --------
    >>> parse_position("20 58 +44 20")
    (314.5, 44.333333333333336)
    >>> parse_position("10.6847 41.2688")
    (10.6847, 41.2688)
    """
    if not text.strip():
        raise BadValueError("position", text, "is empty; " + _HOW)
    first, second = _halves(text)
    return parse_ra(first), parse_dec(second)


def parse_ra(text: str) -> float:
    """Read a right ascension; degrees 0..360.

    Raises
    ------
    BadValueError
        When it is no number, or beyond 24 h or 360 degrees, or a part is 60 or more.

    Examples
    --------
    >>> parse_ra("20h58m"), parse_ra("314.5")
    (314.5, 314.5)
    """
    sign, parts, unit = _parts(text, _RA)
    hours = unit == "h" or (unit == "" and len(parts) > 1)
    value = sign * _sexagesimal(parts, text, _RA)
    if hours and not 0.0 <= value <= 24.0:
        raise BadValueError(_RA, text.strip(), "must lie between 0h and 24h")
    if not 0.0 <= value <= 360.0:
        raise BadValueError(_RA, text.strip(), "must lie between 0 and 360 degrees")
    return wrap_360(value * 15.0 if hours else value)


def parse_dec(text: str) -> float:
    """Read a declination; degrees -90..+90.

    Raises
    ------
    BadValueError
        When it is no number, or beyond a pole, or a part is 60 or more.

    Examples
    --------
    >>> parse_dec("-05 23 28"), parse_dec("+44°20′")
    (-5.391111111111111, 44.333333333333336)
    """
    sign, parts, unit = _parts(text, _DEC)
    if unit == "h":
        raise BadValueError(_DEC, text.strip(), "is in degrees, not hours")
    value = sign * _sexagesimal(parts, text, _DEC)
    if not -90.0 <= value <= 90.0:
        raise BadValueError(_DEC, text.strip(), "must lie between -90 and +90 degrees")
    return value


def parse_angle(text: str, *, name: str = "angle") -> float:
    """Read any angle in degrees, sexagesimal or decimal, wrapped to 0..360.

    Raises
    ------
    BadValueError
        When it is no number or is larger than ten turns.

    Examples
    --------
    >>> parse_angle("-30"), parse_angle("305.5°")
    (330.0, 305.5)
    """
    sign, parts, unit = _parts(text, name)
    if unit == "h":
        raise BadValueError(name, text.strip(), "is in degrees, not hours")
    value = sign * _sexagesimal(parts, text, name)
    if abs(value) > 3600.0:
        raise BadValueError(name, text.strip(), "must lie between -3600 and 3600 degrees")
    return wrap_360(value)


def format_ra(ra_deg: float, *, places: int = 1) -> str:
    """Write a right ascension in hours, minutes and seconds.

    Parameters
    ----------
    ra_deg : float
        Degrees; wrapped.
    places : int
        Decimals of the seconds; -1 leaves the seconds out.

    Examples
    --------
    >>> format_ra(10.6847), format_ra(359.99999999), format_ra(314.5, places=-1)
    ('0h42m44.3s', '0h00m00.0s', '20h58m')
    """
    hours, minutes, seconds = _split(wrap_360(ra_deg) / 15.0, places)
    text = f"{hours % 24}h{minutes:02d}m"
    return text if places < 0 else f"{text}{_seconds(seconds, places)}s"


def format_dec(dec_deg: float, *, places: int = 0) -> str:
    """Write a declination in signed degrees, minutes and seconds of arc.

    Parameters
    ----------
    dec_deg : float
        Degrees.
    places : int
        Decimals of the seconds; -1 leaves the seconds out.

    Examples
    --------
    >>> format_dec(-5.391111), format_dec(41.2688, places=-1)
    ('−5°23′28″', '+41°16′')
    """
    sign = "−" if dec_deg < 0.0 else "+"
    return sign + format_angle(abs(dec_deg), places=places)


def format_angle(angle_deg: float, *, places: int = 0) -> str:
    """Write an angle in degrees, minutes and seconds of arc, without a plus sign."""
    degrees, minutes, seconds = _split(abs(angle_deg), places)
    text = f"{'−' if angle_deg < 0.0 else ''}{degrees}°{minutes:02d}′"
    return text if places < 0 else f"{text}{_seconds(seconds, places)}″"


def _split(value: float, places: int) -> tuple[int, int, int]:
    """Whole units, minutes and scaled seconds, rounded once so that 60 never shows."""
    scale = 10 ** max(places, 0)
    ticks = round(value * (60 if places < 0 else 3600 * scale))
    if places < 0:
        return ticks // 60, ticks % 60, 0
    whole, rest = divmod(ticks, 3600 * scale)
    minutes, seconds = divmod(rest, 60 * scale)
    return whole, minutes, seconds


def _seconds(ticks: int, places: int) -> str:
    """Scaled whole seconds as text with its decimals."""
    scale = 10**places
    return f"{ticks // scale:02d}" + (f".{ticks % scale:0{places}d}" if places else "")


def _halves(text: str) -> tuple[str, str]:
    """Cut a position between its two angles."""
    clean = _WORD.sub(" ", _commas(text.translate(_SAME))).strip()
    designation = _DESIGNATION.match(clean.replace(" ", "") if clean[:1] in "Jj" else clean)
    if designation:
        return _designation(*designation.groups())
    for pattern in (r"[;,]", r"(?<=[\d\s.'\"hmsd])(?=[+-])"):
        pieces = [piece for piece in re.split(pattern, clean) if piece.strip()]
        if len(pieces) == 2:
            return pieces[0], pieces[1]
    numbers = list(_NUMBER.finditer(clean))
    if len(numbers) in (2, 4, 6):
        cut = numbers[len(numbers) // 2].start()
        return clean[:cut], clean[cut:]
    raise BadValueError("position", text.strip(), _HOW)


def _designation(ra: str, sign: str, dec: str) -> tuple[str, str]:
    """Spread the run-together digits of a designation."""
    spread = [re.sub(r"^(\d\d)(\d\d)(\d\d.*)?", r"\1 \2 \3", half).strip() for half in (ra, dec)]
    return spread[0], sign + spread[1]


def _commas(text: str) -> str:
    """Decimal commas become points where another mark parts the two angles."""
    fields = text.split()
    if len(fields) == 2 and all(re.fullmatch(r"[+-]?\d+,\d+", field) for field in fields):
        return text.replace(",", ".")
    return text


def _parts(text: str, name: str) -> tuple[float, list[float], str]:
    """Sign, numbers and leading unit of one angle."""
    clean = _WORD.sub(" ", text.translate(_SAME)).strip().lower()
    body = clean.lstrip("+-").strip()
    found = list(_NUMBER.finditer(body))
    rest = _NUMBER.sub("", body).strip()
    if not found or rest or len(clean) - len(clean.lstrip("+-")) > 1 or len(found) > 3:
        raise BadValueError(name, text.strip(), "is not an angle; " + _HOW)
    for place, match in enumerate(found):
        unit = match.group(2)
        if unit and unit != ":" and _SPAN[unit] != place:
            raise BadValueError(name, text.strip(), "has its units out of order; " + _HOW)
        if place < len(found) - 1 and "." in match.group(1):
            raise BadValueError(name, text.strip(), "may have decimals in its last part only")
    unit = found[0].group(2) or ""
    sign = -1.0 if clean.startswith("-") else 1.0
    return sign, [float(match.group(1)) for match in found], "" if unit == ":" else unit


def _sexagesimal(parts: list[float], text: str, name: str) -> float:
    """Degrees or hours from whole, minutes and seconds."""
    if any(part >= 60.0 for part in parts[1:]):
        raise BadValueError(name, text.strip(), "has minutes or seconds of 60 or more")
    value = math.fsum(part / 60.0**place for place, part in enumerate(parts))
    if not math.isfinite(value):
        raise BadValueError(name, text.strip(), "must be a finite number")
    return value
