"""What a check finds, and under which conditions it looks."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from core.gear.rig import Rig
from core.gear.validation import Record

__all__ = ["SEVERITIES", "Band", "Check", "Conditions", "Finding", "Severity", "graded", "unknown"]

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


class Conditions(Record):
    """The nights the rig is for.

    `guide_rms_arcsec` is the guiding error on each axis, `exposure_s` one sub-exposure.
    """

    seeing_arcsec: Annotated[float, Field(gt=0.0, le=60.0)] = 2.5
    guide_rms_arcsec: Annotated[float, Field(ge=0.0, le=60.0)] = 0.7
    exposure_s: Annotated[float, Field(gt=0.0, le=86_400.0)] = 120.0
    latitude_deg: Annotated[float, Field(ge=-90.0, le=90.0)] = 45.0


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


def unknown(rule: str, figures: Iterable[str], *, source: str, part: str = "") -> Finding:
    """Say which figures a rule still needs."""
    wanted = list(dict.fromkeys(figures))
    words = " and ".join([", ".join(wanted[:-1]), wanted[-1]] if len(wanted) > 1 else wanted)
    about = rule.replace("-", " ")
    message = f"{about[0].upper()}{about[1:]} not known: give {words}."
    return Finding(rule=rule, severity="unknown", message=message, source=source, part=part)
