"""Tells whether a rig that swaps have made is as safe to choose as the one it came from.

A check whose figure is not known forbids nothing, and a caution does not either; a search
for the cheapest would make use of both: put a heavy telescope on a mount of unknown rating,
or leave out a spacer that has to be bought after all. So here what was known of a rig must
be known of its successor too, and no caution may come that was not there.
"""

from collections.abc import Callable, Iterable, Mapping, Set

from core.gear.checks import CHECKS, Conditions, Finding, findings
from core.gear.checks.finding import Severity
from core.gear.checks.threads import joins
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, fields_of

__all__ = ["can_join", "no_worse_than", "none_worse"]


def no_worse_than(rig: Rig, conditions: Conditions | None = None) -> Callable[[Rig], bool]:
    """Make the question that a search for the cheapest rig asks.

    Parameters
    ----------
    rig : Rig
        As it is.
    conditions : Conditions, optional
        The nights it is for; left out, usual ones.

    Returns
    -------
    callable
        Of a rig: True when no check stops it, none cautions that did not caution against
        `rig`, and none is left without its figures that had them for it.
    """
    nights = conditions or Conditions()
    before = findings(rig, nights)

    def asked(other: Rig) -> bool:
        found = (finding for check in CHECKS for finding in check(other, nights))
        return none_worse(before, found)

    return asked


def none_worse(before: Iterable[Finding], after: Iterable[Finding]) -> bool:
    """Tell the same from findings that are there already.

    Parameters
    ----------
    before, after : iterable of Finding
        About the rig as it is, and about its successor; of these no more are looked at than
        the answer needs.
    """
    had = {(finding.severity, finding.rule) for finding in before}
    return not any(_worse(finding, had) for finding in after)


def can_join(parts: Mapping[Slot, Part]) -> bool:
    """Tell quickly whether parts are worth making a rig of.

    Most of the combinations that a search meets cannot be screwed together. To see that, no
    rig need be made, which takes ten times as long.

    Parameters
    ----------
    parts : mapping of Slot to Part
        Every filled slot of the rig to be, in the order of `slots_of`.

    Returns
    -------
    bool
        False only for parts whose rig `no_worse_than` refuses, whatever the rig before.
    """
    fields = fields_of(parts)
    optics = (fields["telescope"], fields.get("corrector"))
    return joins(optics, fields.get("others", ()), fields["camera"])


def _worse(finding: Finding, before: Set[tuple[Severity, str]]) -> bool:
    """Tell whether a finding forbids, or warns or asks where nothing did before."""
    if finding.severity in ("caution", "unknown"):
        return (finding.severity, finding.rule) not in before
    return finding.severity == "stop"
