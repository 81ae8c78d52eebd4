"""The command run in this process, with a home folder of its own."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from app.cli import run


class Ran(NamedTuple):
    """What a command left behind."""

    status: int
    out: str
    err: str


Command = Callable[..., Ran]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give a home folder with nothing in it."""
    monkeypatch.setenv("SKYSILL_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def command(home: Path, capsys: pytest.CaptureFixture[str]) -> Command:
    """Give a function that runs one command."""

    def run_it(*words: str) -> Ran:
        status = run(words)
        return Ran(status, *capsys.readouterr())

    return run_it
