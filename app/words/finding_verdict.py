"""What the findings about a rig come to, in one sentence; the window and the command say it."""

from collections.abc import Sequence

from core.gear.checks import Finding

__all__ = ["verdict_of"]

_BY_SEVERITY = {
    "stop": "This rig does not work as it stands.",
    "caution": "This rig works, with care.",
    "unknown": "Nothing known speaks against this rig, but not all is known.",
    "note": "This rig works.",
    "good": "This rig works.",
}


def verdict_of(found: Sequence[Finding]) -> str:
    """Say what findings come to.

    Parameters
    ----------
    found : sequence of Finding
        At least one, the worst first. A caution hides no gap.
    """
    every = {finding.severity for finding in found}
    if every >= {"caution", "unknown"} and "stop" not in every:
        return "As far as is known this rig works, with care; not all is known."
    return _BY_SEVERITY[found[0].severity]
