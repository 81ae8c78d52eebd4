"""Severities as small whole numbers, for many rigs at once.

A code is the place of a severity in `SEVERITIES`, so the least code is the worst; `NOTHING`
stands where a check has nothing to look at.
"""

from collections.abc import Iterable, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from core.gear.checks.finding import SEVERITIES, Band, Finding, Severity

__all__ = ["NOTHING", "Codes", "Floats", "code_of", "graded_codes", "no_codes", "worst_code"]

Codes: TypeAlias = NDArray[np.int8]
Floats: TypeAlias = NDArray[np.float64]

#: No finding; larger than every severity, so that the least of several codes is the worst.
NOTHING = len(SEVERITIES)


def code_of(severity: Severity) -> int:
    """Give the code of a severity.

    Examples
    --------
    >>> code_of("stop"), code_of("good")
    (0, 4)
    """
    return SEVERITIES.index(severity)


def worst_code(found: Iterable[Finding]) -> int:
    """Give the code of the worst of several findings; `NOTHING` for none."""
    return min((code_of(finding.severity) for finding in found), default=NOTHING)


def graded_codes(bands: Sequence[Band], values: Floats) -> Codes:
    """Grade many values at once.

    Parameters
    ----------
    bands : sequence of Band
        In rising order, the last open, as `graded` takes them.
    values : array of float, any shape
        NaN where not known.

    Returns
    -------
    array of int8, of the same shape
        "unknown" for NaN.
    """
    ends = np.array([band.upto for band in bands])
    codes = np.array([code_of(band.severity) for band in bands], np.int8)
    place = np.minimum(np.searchsorted(ends, values, side="left"), len(bands) - 1)
    unknown = np.int8(code_of("unknown"))
    return np.where(np.isnan(values), unknown, codes[place]).astype(np.int8)


def no_codes() -> Codes:
    """Give what fits any grid and says nothing."""
    return np.full((1, 1, 1), NOTHING, np.int8)
