"""Round steps of right ascension and declination for a graticule, and their labels.

Conventions: declination steps are counted in whole seconds of arc, right ascension steps
in tenths of a second of time, so that every value and every label is exact.

Domain: steps from 1 arcsecond to 30 degrees, and from 0.1 seconds to 6 hours.

Sources: the divisions of the hour and of the degree that printed charts use (common
practice).
"""

import math

from core.sky.angles import format_dec, format_ra

__all__ = [
    "DEC_TICKS_PER_DEG",
    "RA_TICKS_PER_DEG",
    "RA_TICKS_PER_TURN",
    "coarser_ra_steps",
    "dec_label",
    "dec_step_ticks",
    "ra_label",
    "ra_step_ticks",
]

#: Seconds of arc in a degree of declination.
DEC_TICKS_PER_DEG = 3600
#: Tenths of a second of time in a degree and in a turn of right ascension.
RA_TICKS_PER_DEG = 2400
RA_TICKS_PER_TURN = 864_000

_DEC_STEPS = [
    *(1, 2, 5, 10, 20, 30),
    *(60 * minutes for minutes in (1, 2, 5, 10, 20, 30)),
    *(3600 * degrees for degrees in (1, 2, 5, 10, 20, 30)),
]
_RA_STEPS = [
    *(1, 2, 5, 10, 20, 50, 100, 200, 300),
    *(600 * minutes for minutes in (1, 2, 5, 10, 20, 30)),
    *(36_000 * hours for hours in (1, 2, 3, 6)),
]


def dec_step_ticks(spacing_deg: float) -> int:
    """Give the round declination step closest to a spacing, in seconds of arc.

    Examples
    --------
    >>> dec_step_ticks(0.8) / DEC_TICKS_PER_DEG
    1.0
    """
    return _closest(spacing_deg * DEC_TICKS_PER_DEG, _DEC_STEPS)


def ra_step_ticks(spacing_deg: float) -> int:
    """Give the round right ascension step closest to a spacing, in tenths of a second.

    Examples
    --------
    >>> ra_step_ticks(0.6) / 600
    2.0
    """
    return _closest(spacing_deg * RA_TICKS_PER_DEG, _RA_STEPS)


def coarser_ra_steps(step: int) -> list[int]:
    """List a step and the coarser ones that hold a part of its lines, up to 6 hours.

    Examples
    --------
    >>> [ticks / 36_000 for ticks in coarser_ra_steps(36_000)]
    [1.0, 2.0, 6.0]
    """
    chain = [step]
    for coarser in _RA_STEPS:
        if coarser >= 2 * chain[-1] and coarser % chain[-1] == 0:
            chain.append(coarser)
    if chain[-1] != _RA_STEPS[-1]:
        chain.append(_RA_STEPS[-1])
    return chain


def ra_label(ticks: int, step: int) -> str:
    """Write a right ascension with as many parts as its step needs.

    Examples
    --------
    >>> ra_label(180_000, 36_000), ra_label(180_000, 600), ra_label(180_005, 5)
    ('5h', '5h00m', '5h00m00.5s')
    """
    if step % 36_000 == 0:
        return f"{ticks // 36_000}h"
    places = -1 if step % 600 == 0 else 0 if step % 10 == 0 else 1
    return format_ra(ticks / RA_TICKS_PER_DEG, places=places)


def dec_label(ticks: int, step: int) -> str:
    """Write a declination with as many parts as its step needs; zero has no sign.

    Examples
    --------
    >>> dec_label(-36_000, 3600), dec_label(1800, 600), dec_label(0, 600)
    ('−10°', '+0°30′', '0°00′')
    """
    if step % 3600 == 0:
        text = format_dec(ticks / DEC_TICKS_PER_DEG, places=-1).removesuffix("00′")
    else:
        text = format_dec(ticks / DEC_TICKS_PER_DEG, places=-1 if step % 60 == 0 else 0)
    return text.lstrip("+") if ticks == 0 else text


def _closest(wanted: float, steps: list[int]) -> int:
    """Pick the step whose ratio to the wanted one is nearest to 1."""
    return min(steps, key=lambda step: abs(math.log(step / wanted)))
