"""The README says what the commands really answer, and its test line can be found."""

import json
import re
import shlex
import subprocess
from pathlib import Path

import pytest

from tests.app.cli.conftest import Command

ROOT = Path(__file__).resolve().parents[3]
README = (ROOT / "README.md").read_text("utf-8")
EXAMPLES = re.findall(r"```console\n\$ skysill (.*)\n((?:.*\n)*?)```", README)


def plain(text: str) -> str:
    return "\n".join(line.rstrip() for line in text.strip("\n").splitlines())


def flat(value: object) -> list[object]:
    if isinstance(value, dict):
        return [leaf for key in value for leaf in (key, *flat(value[key]))]
    return [leaf for item in value for leaf in flat(item)] if isinstance(value, list) else [value]


@pytest.mark.parametrize(("words", "shown"), EXAMPLES, ids=[words for words, _ in EXAMPLES])
def test_an_example_shows_what_the_command_answers(
    command: Command, words: str, shown: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)  # an example may write a file
    ran = command(*shlex.split(words))
    if not words.endswith("--json"):
        assert plain(ran.out + ran.err) == plain(shown)
        return
    for found, told in zip(flat(json.loads(ran.out)), flat(json.loads(shown)), strict=True):
        if isinstance(told, float):
            assert found == pytest.approx(told, rel=1e-12)
        else:
            assert found == told


def test_there_are_examples() -> None:
    assert len(EXAMPLES) >= 6


def test_the_gate_finds_the_test_line_and_nothing_else() -> None:
    """By the same sed and grep as .ci/run."""
    gate = (ROOT / ".ci" / "run").read_text("utf-8")
    found = re.search(r"test_line=\$\((.*)\)\n", gate)
    assert found is not None
    line = subprocess.run(
        ["bash", "-c", found.group(1)], capture_output=True, cwd=ROOT, text=True, check=True
    ).stdout
    assert len(line.splitlines()) == 1
    assert line.startswith("python3 -m venv .venv && ")
    assert line.rstrip().endswith("-m pytest")


def test_files_the_pages_speak_of_exist() -> None:
    for page in ("README.md", "DEVELOPERS.md"):
        text = (ROOT / page).read_text("utf-8")
        for path in re.findall(r"`((?:app|core|tests|assets)/[\w./-]+)`", text):
            assert (ROOT / path).exists(), f"{page}: {path}"
