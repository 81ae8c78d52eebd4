"""What a check finds, and under which conditions it looks."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from core.gear.nights import Conditions
from core.gear.rig import Rig
from core.record.validation import Record

__all__ = [
    "SEVERITIES",
    "Band",
    "Check",
    "Conditions",
    "Finding",
    "Severity",
    "at_most",
    "graded",
    "unknown",
]

Severity = Literal["stop", "caution", "unknown", "note", "good"]
#: The worst first.
SEVERITIES: tuple[Severity, ...] = ("stop", "caution", "unknown", "note", "good")


class Finding(Record):
    """One answer of one rule.

    `message` is a sentence for a beginner, with what to do; `value` and `limit` are in
    `unit`, None when not known; `source` tells where the limit comes from; `part` is the
    name of the part it concerns, "" when it is the whole rig.
    """

    rule: str
    severity: Severity
    message: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    source: str
    part: str = ""


#: Looks at a rig; gives nothing where it has nothing to look at.
Check = Callable[[Rig, Conditions], Iterable[Finding]]


@dataclass(frozen=True)
class Band:
    """A severity, and what to say, for values up to and with `upto`."""

    upto: float
    severity: Severity
    advice: str


def graded(bands: Iterable[Band], value: float) -> Band:
    """Give the first band that a value is in; bands stand in rising order, the last open."""
    found = list(bands)
    return next((band for band in found if value <= band.upto), found[-1])


def at_most(value: float) -> str:
    """Write a limit with two digits, rounded down so that it still holds.

    Examples
    --------
    >>> at_most(156.8), at_most(2.58), at_most(0.0391)
    ('150', '2.5', '0.039')
    """
    if value <= 0.0 or not math.isfinite(value):
        return f"{value:g}"
    step = math.floor(math.log10(value)) - 1
    digits = math.floor(value / 10.0**step * (1.0 + 1e-12))
    return f"{digits * 10**step:d}" if step >= 0 else f"{digits / 10**-step:.10g}"


def unknown(
    rule: str, figures: Iterable[str], *, source: str, part: str = "", about: str = ""
) -> Finding:
    """Say which figures a rule still needs."""
    wanted = list(dict.fromkeys(figures))
    words = " and ".join([", ".join(wanted[:-1]), wanted[-1]] if len(wanted) > 1 else wanted)
    about = about or rule.replace("-", " ")
    message = f"{about[0].upper()}{about[1:]} not known: give {words}."
    return Finding(rule=rule, severity="unknown", message=message, source=source, part=part)
