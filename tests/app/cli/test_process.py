"""The command as a process of its own: streams, status, and what it does not import."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]


def process(
    *words: str, home: Path, code: str | None = None, **more: str
) -> subprocess.CompletedProcess[bytes]:
    start = ["-c", code] if code else ["-m", "app"]
    environment = os.environ | {"SKYSILL_HOME": str(home)} | more
    return subprocess.run(
        [sys.executable, *start, *words],
        capture_output=True,
        cwd=ROOT,
        env=environment,
        check=False,
    )


def test_json_alone_stands_on_standard_output(tmp_path: Path) -> None:
    ran = process("frame", "M 31", "--json", home=tmp_path)
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert json.loads(ran.stdout)["target"]["name"] == "Andromeda Galaxy"
    assert list(tmp_path.iterdir()) == [], "asking leaves nothing behind"


def test_bad_input_ends_with_status_2_and_one_line(tmp_path: Path) -> None:
    ran = process("frame", "25h 10", "--json", home=tmp_path)
    assert (ran.returncode, ran.stdout) == (2, b"")
    assert ran.stderr == b'skysill: right ascension "25h": must lie between 0h and 24h\n'


@pytest.mark.parametrize(
    "asked", [("--version",), ("frame", "M 31", "--json"), ("frame", "M 31")], ids=str
)
@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_a_reader_that_goes_away_is_no_traceback(
    tmp_path: Path, asked: tuple[str, ...], unbuffered: str
) -> None:
    """Found out while writing, or only when the rest is flushed at the end."""
    words = [sys.executable, "-m", "app", *asked]
    environment = os.environ | {"SKYSILL_HOME": str(tmp_path), "PYTHONUNBUFFERED": unbuffered}
    reading, writing = os.pipe()
    os.close(reading)
    ran = subprocess.run(
        words, stdout=writing, stderr=subprocess.PIPE, cwd=ROOT, env=environment, check=False
    )
    os.close(writing)
    assert (ran.returncode, ran.stderr) == (1, b"")


def test_a_terminal_that_knows_no_degree_sign_still_gets_its_table(tmp_path: Path) -> None:
    ran = process("frame", "M 31", home=tmp_path, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert b"Andromeda Galaxy" in ran.stdout


@pytest.mark.parametrize("module", ["PySide6", "astropy", "scipy", "matplotlib"])
def test_nothing_large_is_imported_for_an_answer_without_a_picture(
    tmp_path: Path, module: str
) -> None:
    code = (
        "import sys; from app.cli import run; status = run(['frame', 'M 31', '--json']);"
        f"sys.exit(9 if '{module}' in sys.modules else status)"
    )
    assert process(home=tmp_path, code=code).returncode == 0


def test_version_and_help_are_answers_and_no_errors(tmp_path: Path) -> None:
    ran = process("--version", home=tmp_path)
    assert ran.returncode == 0
    assert ran.stdout.startswith(b"skysill")
    ran = process("frame", "--help", home=tmp_path)
    assert ran.returncode == 0
    for option in (b"--rig", b"--focal-length", b"--pixels", b"--pa", b"--centre", b"--picture"):
        assert option in ran.stdout
