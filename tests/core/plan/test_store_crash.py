"""Killing a program in the middle of a save, and filling its disk, for real."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from core.plan.store import demo_plan, load_plan, save_plan
from tests.core.plan.plans import small_plan

ROOT = Path(__file__).resolve().parents[3]

#: Forks a child 30 times that saves two plans in turn, and kills it after a little while.
KILLER = """
import os, signal, sys, time
from core.plan.store import load_plan, save_plan
old, new, path = load_plan(sys.argv[1]), load_plan(sys.argv[2]), sys.argv[3]
parts = 0
for turn in range(30):
    heard, told = os.pipe()
    child = os.fork()
    if child == 0:
        os.write(told, b".")
        while True:
            for plan in (new, old):
                save_plan(plan, path)
    os.read(heard, 1)
    time.sleep(0.003 + turn * 0.00037)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WTERMSIG(status) == signal.SIGKILL
    os.close(heard), os.close(told)
    found = load_plan(path)
    assert found in (old, new), "neither the old plan nor the new"
    parts += any(name.endswith(".part") for name in os.listdir(os.path.dirname(path)))
print("killed", turn + 1, "left a part", parts)
"""

#: Lets a file grow to 2 kB only, then saves a plan of some 16 kB.
CRAMPED = """
import resource, sys
from core.errors import StorageError
from core.plan.store import load_plan, save_plan
new = load_plan(sys.argv[2])
resource.setrlimit(resource.RLIMIT_FSIZE, (2048, 2048))
try:
    save_plan(new, sys.argv[3])
except StorageError as error:
    print(error)
"""


@pytest.fixture
def files(tmp_path: Path) -> list[str]:
    """Write an old plan, a new one, and a file that holds the old one."""
    paths = [tmp_path / "old.json", tmp_path / "new.json", tmp_path / "saved" / "plan.json"]
    paths[2].parent.mkdir()
    for path, plan in zip(paths, (small_plan(), demo_plan(), small_plan()), strict=True):
        save_plan(plan, path)
    return [str(path) for path in paths]


def run(script: str, files: list[str]) -> str:
    done = subprocess.run(
        [sys.executable, "-c", script, *files],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_thirty_kills_in_the_middle_of_saving_leave_the_old_or_the_new_plan(
    files: list[str],
) -> None:
    said = run(KILLER, files)
    assert said.startswith("killed 30 left a part")
    # Some of the kills really fell into a save: they left the part they were writing.
    assert int(said.split()[-1]) > 0


def test_a_save_that_runs_out_of_room_leaves_the_old_plan(files: list[str]) -> None:
    assert "cannot write" in run(CRAMPED, files)
    assert load_plan(files[2]) == small_plan()
    assert os.listdir(Path(files[2]).parent) == ["plan.json"]
