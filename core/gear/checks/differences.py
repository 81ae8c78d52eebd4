"""Which findings become better or worse from one rig to another.

A finding of one rig meets the one of the other that is of the same rule and about the same
part; what is left of a rule meets by severity, the worst with the worst. Where a rule has
nothing to say of one of the rigs, that counts like "good".
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.gear.checks import findings
from core.gear.checks.finding import SEVERITIES, Conditions, Finding
from core.gear.rig import Rig

__all__ = ["FindingChange", "FindingChanges", "changes_of", "finding_changes"]

_GOOD = SEVERITIES.index("good")


@dataclass(frozen=True)
class FindingChange:
    """What a rule says of two rigs; None where it says nothing of one of them."""

    before: Finding | None
    after: Finding | None

    @property
    def rule(self) -> str:
        """Name of the rule."""
        return self._told.rule

    @property
    def steps(self) -> int:
        """By how many severities it becomes worse; negative where it becomes better."""
        return _rank(self.before) - _rank(self.after)

    @property
    def message(self) -> str:
        """What the rule says of the second rig; of the first where it has become silent."""
        return self._told.message

    @property
    def words(self) -> str:
        """The change for a person: "load: caution → good"."""
        before, after = (one.severity if one else "–" for one in (self.before, self.after))
        return f"{self.rule.replace('-', ' ')}: {before} → {after}"

    @property
    def _told(self) -> Finding:
        """Give the finding that counts."""
        told = self.after or self.before
        assert told is not None
        return told


@dataclass(frozen=True)
class FindingChanges:
    """What becomes better and what becomes worse or new, the worst first in each."""

    better: tuple[FindingChange, ...] = ()
    worse: tuple[FindingChange, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.better or self.worse)


def finding_changes(before: Rig, after: Rig, nights: Conditions | None = None) -> FindingChanges:
    """Tell which findings two rigs differ in.

    Parameters
    ----------
    before, after : Rig
    nights : Conditions, optional
        The nights both are for; left out, usual ones.

    Returns
    -------
    FindingChanges
    """
    return changes_of(findings(before, nights), findings(after, nights))


def changes_of(before: Sequence[Finding], after: Sequence[Finding]) -> FindingChanges:
    """Tell which findings differ, of two rigs whose findings are known already.

    Parameters
    ----------
    before, after : sequence of Finding
        The worst first, as `findings` gives them.
    """
    rules = dict.fromkeys(one.rule for one in (*before, *after))
    changes = [
        change
        for rule in rules
        for change in _of_rule(
            [one for one in before if one.rule == rule], [one for one in after if one.rule == rule]
        )
    ]
    better = sorted((c for c in changes if c.steps < 0), key=lambda c: _rank(c.before))
    worse = sorted((c for c in changes if c.steps > 0), key=lambda c: _rank(c.after))
    return FindingChanges(tuple(better), tuple(worse))


def _of_rule(before: list[Finding], after: list[Finding]) -> Iterator[FindingChange]:
    """Pair the findings of one rule."""
    for one in list(before):
        twin = next((other for other in after if other.part == one.part), None)
        if twin is not None:
            before.remove(one)
            after.remove(twin)
            yield FindingChange(one, twin)
    for place in range(max(len(before), len(after))):
        yield FindingChange(
            before[place] if place < len(before) else None,
            after[place] if place < len(after) else None,
        )


def _rank(finding: Finding | None) -> int:
    """Order by severity, 0 the worst; nothing said is good."""
    return _GOOD if finding is None else SEVERITIES.index(finding.severity)
