"""The command itself: a window where there is a screen, one sentence where there is none."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.__main__ import main

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="asks X11 and Wayland")
def test_without_a_screen_it_says_so_instead_of_aborting(tmp_path: Path) -> None:
    bare = {
        name: value
        for name, value in os.environ.items()
        if name not in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")
    }
    done = subprocess.run(
        [sys.executable, "-m", "app"],
        cwd=ROOT,
        env={**bare, "SKYSILL_HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "no screen" in done.stderr


@pytest.mark.parametrize(
    ("given", "expected"),
    [([], ()), (["autumn.json"], ("autumn.json",)), (["A.JSON"], ("A.JSON",))],
)
def test_nothing_or_a_plan_file_opens_the_window(monkeypatch, given, expected) -> None:
    asked: list[tuple[str, ...]] = []
    monkeypatch.setattr("app.window.startup.run", lambda *plan: asked.append(plan) or 0)
    monkeypatch.setattr(sys, "argv", ["skysill", *given])
    assert main() == 0
    assert asked == [expected]


@pytest.mark.parametrize("given", [["frame", "M 31"], ["--help"], ["-x.json"]])
def test_anything_else_is_a_command(monkeypatch, given: list[str]) -> None:
    asked: list[list[str]] = []
    monkeypatch.setattr("app.cli.run", lambda words: asked.append(words) or 7)
    monkeypatch.setattr("app.window.startup.run", lambda *plan: 0)
    monkeypatch.setattr(sys, "argv", ["skysill", *given])
    assert main() == 7
    assert asked == [given]
