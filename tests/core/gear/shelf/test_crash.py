"""Killing a program in the middle of saving a shelf, 200 times: nothing is ever lost.

Each round a child saves two shelves in turn and says a number on a pipe after every save; the
parent kills it (SIGKILL) at a random moment. Afterwards the file is one of the two, whole, and
never older than the last save that was told.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from core.gear.parts import Mount
from core.gear.shelf.files import save_shelf
from core.gear.shelf.shelf import Shelf
from core.record import atomic_file

ROOT = Path(__file__).resolve().parents[4]
KILLS = 200

#: Forks children that save shelves numbered in a mount's name, and kills each of them.
KILLER = """
import os, random, signal, struct, sys, time
from pathlib import Path
from core.gear.parts import Mount
from core.gear.shelf.shelf import Shelf
from core.gear.shelf.files import save_shelf
own, path = Shelf.load(), Path(sys.argv[1])
moments, kills = random.Random(int(sys.argv[2])), int(sys.argv[3])
last = parts = most = 0
def numbered(number):
    return own.but(mounts=(*own.mounts, Mount(name=f"number {number}")))
for turn in range(kills):
    heard, told = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(heard)
        number = last
        while True:
            number += 1
            save_shelf(numbered(number), path)
            os.write(told, struct.pack("<q", number))
    os.close(told)
    first = os.read(heard, 8)
    time.sleep(moments.uniform(0.0, 0.012))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WTERMSIG(status) == signal.SIGKILL
    heard_all = b"".join([first, *iter(lambda: os.read(heard, 8), b"")])
    os.close(heard)
    last = struct.unpack("<q", heard_all[-8:])[0]
    found = Shelf.load(path)
    number = int(found.mounts[-1].name.removeprefix("number "))
    assert found == numbered(number), "not a shelf that was saved"
    assert last <= number <= last + 1, f"saved {last}, found {number}"
    last = number
    left = [name for name in os.listdir(path.parent) if name != path.name]
    parts, most = parts + len(left), max(most, len(left))
    assert all(name.startswith(".skysill-") and name.endswith(".part") for name in left), left
print(kills, last, parts, most)
"""


@pytest.mark.slow
def test_200_kills_in_the_middle_of_saving_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "saved" / "shelf.json"
    path.parent.mkdir()
    save_shelf(Shelf.load().but(mounts=(Mount(name="number 0"),), rigs=()), path)
    done = subprocess.run(
        [sys.executable, "-c", KILLER, str(path), "20261125", str(KILLS)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert done.returncode == 0, done.stderr
    kills, saves, parts, most = map(int, done.stdout.split())
    assert kills == KILLS
    assert saves >= KILLS
    # Some of the kills really fell into a save: they left the part they were writing.
    assert parts >= 20
    # The next save clears it away, so that never more than one lies there.
    assert most == 1
    save_shelf(Shelf.load(path), path)
    assert os.listdir(path.parent) == ["shelf.json"]


def test_what_another_computer_or_a_living_process_writes_is_left(tmp_path: Path) -> None:
    """A part is cleared away at once only where its process is known to be gone."""
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    mine, theirs = (f"{atomic_file._host()}{pid}-00.part" for pid in (os.getpid(), gone.pid))
    elsewhere = f".skysill-{'0' * 8}-{gone.pid}-00.part"
    beyond = f"{atomic_file._host()}{10**30}-00.part"
    for name in (mine, theirs, elsewhere, beyond, ".skysill-11.part"):
        (tmp_path / name).write_bytes(b"half")
    save_shelf(Shelf.load(), tmp_path / "shelf.json")
    left = {path.name for path in tmp_path.iterdir()}
    assert left == {"shelf.json", mine, elsewhere, beyond, ".skysill-11.part"}
