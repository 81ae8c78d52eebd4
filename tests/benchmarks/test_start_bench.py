"""The start: our first window and the demo's sky against a bare PySide6 window."""

import json
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ROUNDS = 15
PROBE = Path(__file__).with_name("start_probe.py")
ROOT = PROBE.parent.parent.parent


def one_start(kind: str, home: Path) -> dict[str, float]:
    """Spawn one process and read what it measured."""
    environment = {
        **os.environ,
        "QT_QPA_PLATFORM": "offscreen",
        "SKYSILL_HOME": str(home),
        "PYTHONPATH": str(ROOT),
    }
    done = subprocess.run(
        [sys.executable, str(PROBE), kind, repr(time.monotonic())],
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


Round = dict[str, dict[str, float]]


@pytest.fixture(scope="module")
def rounds(tmp_path_factory: pytest.TempPathFactory) -> list[Round]:
    """Each figure of each kind, the kinds in turns, after one round not counted."""
    home = tmp_path_factory.mktemp("home")
    kinds = ("bare", "window", "sky")
    return [{kind: one_start(kind, home) for kind in kinds} for _ in range(ROUNDS + 1)][1:]


def middle(rounds: list[Round], kind: str, figure: str) -> float:
    """Give the median of one figure."""
    return statistics.median(one[kind][figure] for one in rounds)


def times_bare(rounds: list[Round], kind: str, figure: str, bare: str = "ms") -> float:
    """Give the median ratio to the bare window of the same round.

    The machine's speed changes in the course of a minute, hardly within a round.
    """
    return statistics.median(one[kind][figure] / one["bare"][bare] for one in rounds)


def test_the_first_window_costs_at_most_1_3_bare_windows(rounds) -> None:
    ratio = times_bare(rounds, "window", "ms")
    print(f"\nfirst window: {middle(rounds, 'window', 'ms'):.0f} ms, "
          f"bare {middle(rounds, 'bare', 'ms'):.0f} ms: {ratio:.2f} times")  # fmt: skip
    assert ratio <= 1.3


def test_the_first_window_takes_at_most_1_2_times_the_memory(rounds) -> None:
    ratio = times_bare(rounds, "window", "kb", "kb")
    print(f"\nfirst window: {middle(rounds, 'window', 'kb') / 1024:.0f} MB, "
          f"bare {middle(rounds, 'bare', 'kb') / 1024:.0f} MB: {ratio:.2f} times")  # fmt: skip
    assert ratio <= 1.2


def test_the_sky_with_its_frames_costs_at_most_5_bare_windows(rounds) -> None:
    ratio = times_bare(rounds, "sky", "sky_ms")
    print(f"\nsky with frames: {middle(rounds, 'sky', 'sky_ms'):.0f} ms: {ratio:.2f} times bare; "
          f"all rooms: {times_bare(rounds, 'sky', 'ms'):.2f} times")  # fmt: skip
    assert ratio <= 5.0


def test_the_event_loop_is_never_silent_for_80_ms_meanwhile(rounds) -> None:
    silence = middle(rounds, "sky", "silence_ms")
    print(f"\nlongest silence: {silence:.0f} ms (median of {ROUNDS} starts)")
    assert silence <= 80.0
