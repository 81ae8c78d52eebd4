"""The findings about a rig in the window: which is the worst, in a few words, at which level.

Findings depend on nothing but the rig and its nights, so what was once looked at is kept;
after a change of the plan only the rigs that became others are looked at again.
"""

from collections.abc import Callable, Iterable
from functools import lru_cache

from app.words.fit_words import Verdict
from core.gear.checks import Conditions, Finding, findings
from core.gear.rig import Rig

__all__ = [
    "findings_of",
    "good_ones",
    "level_of",
    "level_words",
    "short_words",
    "worst_finding",
    "worst_verdict",
]

#: Rigs whose findings are kept; a plan has at most 500.
_KEPT = 600
#: The level of a severity, which gives its mark and its colour.
_LEVELS = {"stop": "bad", "caution": "caution", "unknown": "", "note": "note", "good": "good"}
#: What a level is called where no mark is seen.
_LEVEL_WORDS = {
    "bad": "Does not work",
    "caution": "Take care",
    "": "Not known",
    "note": "Worth knowing",
    "good": "Fine",
}


@lru_cache(maxsize=_KEPT)
def findings_of(rig: Rig, nights: Conditions) -> tuple[Finding, ...]:
    """Give every finding about a rig, the worst first; kept for the next time."""
    return findings(rig, nights)


def worst_finding(rig: Rig, nights: Conditions) -> Finding | None:
    """Give the worst finding about a rig; None where no rule has anything to look at."""
    return next(iter(findings_of(rig, nights)), None)


def worst_verdict(rig: Rig, nights: Conditions) -> Verdict | None:
    """Give the worst finding in the few words of a card; None where there is none."""
    worst = worst_finding(rig, nights)
    if worst is None:
        return None
    if worst.severity == "good":
        return Verdict("good", "parts work together", "Every check of its parts is fine.")
    return Verdict(level_of(worst), short_words(worst), worst.message)


def level_of(finding: Finding) -> str:
    """Give a finding's level: "bad", "caution", "" for not known, "note" or "good"."""
    return _LEVELS[finding.severity]


def level_words(finding: Finding) -> str:
    """Say a finding's level for those who see no mark."""
    return _LEVEL_WORDS[level_of(finding)]


def good_ones(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Give the findings with which nothing is to be done."""
    return tuple(finding for finding in found if finding.severity == "good")


def short_words(finding: Finding) -> str:
    """Give a finding in two or three words.

    Examples
    --------
    >>> from core.gear.checks import Finding
    >>> short_words(Finding(rule="load", severity="caution", message="", value=0.92, source=""))
    'load 92 %'
    """
    rule = finding.rule.replace("-", " ")
    if finding.severity == "unknown":
        return f"{_CALLED.get(finding.rule, rule)} not known"
    say = _SHORT.get(finding.rule)
    if say is None or (finding.value is None and finding.rule not in _PLAIN):
        return f"{rule} fine" if finding.severity == "good" else rule
    return say(finding)


def _value(finding: Finding) -> float:
    """Give the figure; only asked where there is one."""
    return finding.value or 0.0


def _back_focus(finding: Finding) -> str:
    """Say what is missing or too much behind the optics."""
    missing_mm = _value(finding)
    if finding.severity == "good":
        return "back focus fits"
    return f"add {missing_mm:.1f} mm" if missing_mm > 0.0 else f"{-missing_mm:.1f} mm too long"


def _sampling(finding: Finding) -> str:
    """Say on which side of the seeing the pixels lie."""
    if finding.severity == "good":
        return "fine sampling"
    return "coarse pixels" if _value(finding) > (finding.limit or 0.0) else "pixels finer than air"


def _percent(words: str) -> Callable[[Finding], str]:
    """Write the figure as a part of a whole."""
    return lambda finding: words.format(f"{100.0 * _value(finding):.0f} %")


def _figure(words: str, digits: int) -> Callable[[Finding], str]:
    """Write the figure with some digits behind its point."""
    return lambda finding: words.format(f"{_value(finding):.{digits}f}")


def _plain(words: str) -> Callable[[Finding], str]:
    """Say the same whatever the figure."""
    return lambda _: words


#: What is not known, where the rule's own name says too little.
_CALLED = {"torque": "pull on mount", "total-to-carry": "mass to carry"}
#: Rules that are told in a few words without a figure.
_PLAIN = {
    "threads": "threads do not fit",
    "colour": "grey pictures: no filter",
    "prism-shadow": "prism shades sensor",
    "prism-light": "prism in poor light",
}
_SHORT: dict[str, Callable[[Finding], str]] = {
    **{rule: _plain(words) for rule, words in _PLAIN.items()},
    "back-focus": _back_focus,
    "coma": _figure("coma {} arcsec", 1),
    "image-circle": _percent("{} of sensor sharp"),
    "clear-diameter": _figure("only {} mm clear", 0),
    "filter-size": _figure("filters {} mm clear", 0),
    "corner-light": _percent("corners {} bright"),
    "narrow-filter": _figure("filter band off {} nm", 1),
    "sampling": _sampling,
    "load": _percent("load {}"),
    "torque": _figure("pull {} N m", 1),
    "tripod": _figure("{} kg on tripod", 0),
    "total-to-carry": _figure("{} kg to carry", 0),
    "field-rotation": _figure("field turns {} px", 1),
    "polar-error": _figure("polar drift {} px", 1),
    "star-trails": _figure("star trails {} px", 0),
    "unguided": _figure("unguided, {} px astray", 1),
    "guide-scale": _figure("guide pixels {}×", 1),
    "guide-stars": _figure("{} guide stars", 1),
    "flexure": _figure("may bend at {} mm", 0),
}
