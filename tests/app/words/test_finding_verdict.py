"""What findings come to, in one sentence."""

import subprocess
import sys
from pathlib import Path

import pytest

from app.words.finding_verdict import verdict_of
from core.gear.checks import Finding

ROOT = Path(__file__).resolve().parents[3]
GAPS = "As far as is known this rig works, with care; not all is known."


def found(*severities: str) -> tuple[Finding, ...]:
    return tuple(
        Finding(rule="r", severity=severity, message="m", source="s") for severity in severities
    )


@pytest.mark.parametrize(
    ("severities", "words"),
    [
        (("stop", "caution", "unknown"), "This rig does not work as it stands."),
        (("caution", "note"), "This rig works, with care."),
        (("caution", "unknown"), GAPS),
        (("unknown", "note"), "Nothing known speaks against this rig, but not all is known."),
        (("note", "good"), "This rig works."),
        (("good",), "This rig works."),
    ],
)
def test_the_worst_decides_and_a_caution_hides_no_gap(severities, words: str) -> None:
    assert verdict_of(found(*severities)) == words


def test_the_command_says_it_without_qt() -> None:
    script = "import sys, app.cli.check; print('PySide6' in sys.modules)"
    ran = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert ran.stdout == "False\n"
