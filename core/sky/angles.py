"""Angles as people write them: any usual spelling in, one clean form out.

Conventions: right ascension in 0..360 degrees, declination in -90..+90 degrees, ICRS.
A right ascension of one bare number is in degrees; of two or three numbers, or with
an ``h``, it is in hours. A declination is always in degrees.

Sources: the IAU style manual (Wilkins 1989); the FITS and VOTable habit of bare degrees.
How people spell angles is read in `core.sky.spelling`.
"""

from core.errors import BadValueError
from core.sky import spelling

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
_HOW_RA = 'write it as "20 58 47", "20h58m47s" or in degrees "314.7"'
_HOW_DEC = 'write it as "+44 19 48", "+44d19m48s" or in degrees "+44.33"'
_HOW_ANGLE = 'write it in degrees, as "35.5" or "35 30"'


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
    return spelling.is_position(text)


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
    first, second = spelling.halves(text)
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
    read = spelling.read_angle(text, _RA, _HOW_RA)
    hours = read.unit == "h" or (read.unit == "" and read.count > 1)
    if hours and not 0.0 <= read.value <= 24.0:
        raise BadValueError(_RA, text.strip(), "must lie between 0h and 24h")
    if not 0.0 <= read.value <= 360.0:
        raise BadValueError(_RA, text.strip(), "must lie between 0 and 360 degrees")
    return wrap_360(read.value * 15.0 if hours else read.value)


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
    read = spelling.read_angle(text, _DEC, _HOW_DEC)
    if read.unit == "h":
        raise BadValueError(_DEC, text.strip(), "is in degrees, not hours")
    if not -90.0 <= read.value <= 90.0:
        raise BadValueError(_DEC, text.strip(), "must lie between -90 and +90 degrees")
    return read.value


def parse_angle(text: str, *, name: str = "angle") -> float:
    """Read any angle in degrees, sexagesimal or decimal, wrapped to 0..360.

    Raises
    ------
    BadValueError
        When it is no number or is larger than ten turns.

    Examples
    --------
    >>> parse_angle("-30"), parse_angle("305.5°"), parse_angle("30′")
    (330.0, 305.5, 0.5)
    """
    read = spelling.read_angle(text, name, _HOW_ANGLE, from_minutes=True)
    if read.unit == "h":
        raise BadValueError(name, text.strip(), "is in degrees, not hours")
    if abs(read.value) > 3600.0:
        raise BadValueError(name, text.strip(), "must lie between -3600 and 3600 degrees")
    return wrap_360(read.value)


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
    text = format_angle(dec_deg, places=places)
    return text if text.startswith("−") else f"+{text}"


def format_angle(angle_deg: float, *, places: int = 0) -> str:
    """Write an angle in degrees, minutes and seconds of arc, without a plus sign.

    Examples
    --------
    >>> format_angle(-0.5), format_angle(-0.00001), format_angle(1.99999)
    ('−0°30′00″', '0°00′00″', '2°00′00″')
    """
    degrees, minutes, seconds = _split(abs(angle_deg), places)
    below = angle_deg < 0.0 and (degrees or minutes or seconds)
    text = f"{'−' if below else ''}{degrees}°{minutes:02d}′"
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
