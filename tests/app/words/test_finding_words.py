"""The findings in the window's words: the worst of them, short, at its level, kept."""

from collections.abc import Iterator

import pytest

from app.words import finding_words
from app.words.finding_words import (
    findings_of,
    level_of,
    short_words,
    worst_finding,
    worst_verdict,
)
from core.gear.checks import Conditions, Finding, findings
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.plan.store import demo_plan
from tests.core.gear.check_kits import kit, sensor, spacer, tube
from tests.core.gear.test_six_classes import six

NIGHTS = Conditions()


@pytest.fixture(autouse=True)
def forgetful() -> Iterator[None]:
    findings_of.cache_clear()
    yield
    findings_of.cache_clear()


def known_rigs() -> list[Rig]:
    shelf = Shelf.load()
    on_shelf = [
        kit(telescope=scope, camera=camera, mount=mount)
        for scope in shelf.telescopes
        for camera in shelf.cameras[:4]
        for mount in shelf.mounts[:3]
    ]
    bare = kit(telescope=tube(kind="newtonian"), corrector=None, camera=sensor(sensor="mono"))
    bare = bare.but(others=())
    return [*(planned.rig for planned in demo_plan().rigs), *six().values(), *on_shelf, bare]


def test_the_worst_finding_is_the_first_of_the_worst_severity() -> None:
    rig = six()["d"].but(camera=six()["d"].camera.but(mass_kg=9.0))
    worst = worst_finding(rig, NIGHTS)
    assert worst is not None
    assert (worst.rule, worst.severity) == ("load", "stop")
    assert worst == findings(rig, NIGHTS)[0]


def test_the_load_is_told_in_percent_and_the_level_is_bad() -> None:
    """2.6 + 0.1 + 0.4 + 0.3 and a camera of 9 kg are 12.4 of 8 kg: 155 %."""
    rig = six()["d"].but(camera=six()["d"].camera.but(mass_kg=9.0))
    verdict = worst_verdict(rig, NIGHTS)
    assert verdict is not None
    assert (verdict.level, verdict.short) == ("bad", "load 155 %")
    assert verdict.full.startswith("strain carries 12.4 kg of the 8 kg")


def test_a_missing_spacer_is_told_with_its_length() -> None:
    """55 mm wanted, 37.5 - 2.1 and a flange of 17.5 mm there: 2.1 mm are missing."""
    rig = six()["a"]
    short = rig.but(others=(spacer(length_mm=35.4), *rig.others[1:]))
    found = next(f for f in findings(short, NIGHTS) if f.rule == "back-focus")
    assert short_words(found) == "add 2.1 mm"
    long = rig.but(others=(spacer(length_mm=41.0), *rig.others[1:]))
    found = next(f for f in findings(long, NIGHTS) if f.rule == "back-focus")
    assert short_words(found) == "3.5 mm too long"


def test_what_is_not_known_has_no_level_and_says_so() -> None:
    rig = kit(telescope=tube(mass_kg=None))
    load = next(f for f in findings(rig, NIGHTS) if f.rule == "load")
    assert (level_of(load), short_words(load)) == ("", "load not known")
    carry = next(f for f in findings(rig, NIGHTS) if f.rule == "total-to-carry")
    assert (level_of(carry), short_words(carry)) == ("", "mass to carry not known")


def test_a_rig_with_nothing_to_say_against_it_says_that_its_parts_work_together() -> None:
    evening = demo_plan().rigs[3].rig
    assert evening.mount is not None
    lighter = tuple(part for part in evening.others if "battery" not in part.name)
    fine = evening.but(mount=evening.mount.but(mass_kg=5.0), others=lighter)
    assert {finding.severity for finding in findings(fine, NIGHTS)} <= {"good", "note"}
    verdict = worst_verdict(fine.but(mount=evening.mount.but(mass_kg=2.0)), NIGHTS)
    assert verdict is not None
    assert (verdict.level, verdict.short) == ("good", "parts work together")


def test_every_finding_of_every_known_rig_has_short_words_of_its_own() -> None:
    """Words that only repeat the rule's name would mean that a rule was forgotten."""
    rules = {finding.rule for finding in findings(known_rigs()[-1], NIGHTS)}
    assert rules >= {"coma", "colour"}, "the last rig is the one that has these"
    nights = [NIGHTS, NIGHTS.but(seeing_arcsec=0.4, exposure_s=1800.0, polar_error_arcmin=90.0)]
    for rig in known_rigs():
        for finding in (one for each in nights for one in findings(rig, each)):
            words = short_words(finding)
            assert 3 < len(words) <= 28, words
            if finding.severity != "unknown":
                assert words != finding.rule.replace("-", " "), finding.message


def test_a_rule_nobody_knows_is_told_by_its_name() -> None:
    found = Finding(rule="new-rule", severity="caution", message="x", value=1.0, source="s")
    assert short_words(found) == "new rule"


def test_of_fifty_rigs_only_the_changed_one_is_looked_at_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    looked: list[str] = []

    def counting(rig: Rig, nights: Conditions) -> tuple[Finding, ...]:
        looked.append(rig.name)
        return findings(rig, nights)

    monkeypatch.setattr(finding_words, "findings", counting)
    rigs = [six()["a"].but(name=f"rig {number}") for number in range(50)]
    for rig in rigs:
        worst_finding(rig, NIGHTS)
    assert len(looked) == 50
    rigs[7] = rigs[7].but(camera=rigs[7].camera.but(mass_kg=2.0))
    for rig in rigs:
        # as a plan that was read anew has them: equal, but other objects
        worst_finding(Rig(**dict(rig)), NIGHTS)
    assert looked[50:] == ["rig 7"]
    for rig in rigs:
        worst_finding(rig, NIGHTS.but(seeing_arcsec=4.0))
    assert len(looked) == 101
