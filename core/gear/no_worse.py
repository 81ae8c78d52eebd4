"""Tells whether a rig that swaps have made is as safe to choose as the one it came from.

A check whose figure is not known forbids nothing; a search for the cheapest would make
use of that and put a heavy telescope on a mount of unknown rating. So here what was known
of a rig must be known of its successor too.
"""

from collections.abc import Callable

from core.gear.checks import Conditions, findings
from core.gear.rig import Rig

__all__ = ["no_worse_than"]


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
        Of a rig: True when no check stops it, and none is left without its figures that
        had them for `rig`.
    """
    before = _unknown_rules(rig, conditions)

    def asked(other: Rig) -> bool:
        found = findings(other, conditions)
        stopped = any(finding.severity == "stop" for finding in found)
        return not stopped and _unknown_rules(other, conditions) <= before

    return asked


def _unknown_rules(rig: Rig, conditions: Conditions | None) -> set[str]:
    """Name the checks that miss a figure."""
    found = findings(rig, conditions)
    return {finding.rule for finding in found if finding.severity == "unknown"}
