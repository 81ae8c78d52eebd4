"""A typed number, with or without its unit; refused in one sentence that says what to write."""

import re

from core.errors import BadValueError

__all__ = ["typed_number"]

_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)", re.ASCII)


def typed_number(name: str, text: str, units: tuple[str, ...] = ()) -> float:
    """Read a number that a person typed.

    Parameters
    ----------
    name : str
        What it is, for the refusal.
    text : str
    units : tuple of str
        What may stand behind the number.

    Raises
    ------
    BadValueError
        When it is no number; a comma for the point is refused with what to write instead.

    Examples
    --------
    >>> typed_number("seeing", " 2.5 arcsec", ("arcsec",)), typed_number("latitude", "−33.9")
    (2.5, -33.9)
    """
    bare = text.strip().replace("\N{MINUS SIGN}", "-")
    for unit in units:
        bare = bare.removesuffix(unit).strip()
    if _NUMBER.fullmatch(bare):
        return float(bare)
    rule = "must be a number"
    if _NUMBER.fullmatch(bare.replace(",", ".", 1)):
        rule += f"; write a point for the comma: {bare.replace(',', '.', 1)}"
    raise BadValueError(name, text.strip(), rule)
