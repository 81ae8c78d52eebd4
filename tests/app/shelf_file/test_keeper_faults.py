"""The shelf's file is no shelf, is another one, or is written by two in turns: nothing is lost."""

import random
from pathlib import Path

import pytest

from app.shelf_file import keeper as module
from core.errors import CoreError, StorageError
from core.gear.shelf.files import save_shelf
from core.gear.shelf.shelf import Shelf
from tests.app.shelf_file.conftest import OWN, Keeping, names, with_mounts

pytestmark = pytest.mark.gui

HALF = b'{"format": "skysill-shelf", "version": 1, "currency": "EUR", "mounts": [{"na'


# The file is no shelf -------------------------------------------------------------


def test_a_half_written_file_leaves_the_shelf_and_is_taken_when_it_is_whole(
    keeping: Keeping,
) -> None:
    save_shelf(with_mounts("good"), keeping.path)
    assert names(keeping.session.shelf) == {"good"}
    keeping.path.write_bytes(HALF)
    keeping.until_said("is cut off")
    words, level = keeping.said[0]
    assert words.startswith("shelf.json is cut off: it ends at line 1 column ")
    assert words.endswith("stays as it was here; the file is read again when it changes.")
    assert level == "bad"
    assert names(keeping.session.shelf) == {"good"}
    assert keeping.path.read_bytes() == HALF
    keeping.path.write_text(with_mounts("whole").model_dump_json())
    keeping.until(lambda: names(keeping.session.shelf) == {"whole"})
    assert keeping.litter == []


def test_a_file_that_is_whole_a_moment_later_is_never_spoken_of(
    keeping: Keeping, monkeypatch: pytest.MonkeyPatch, qtbot
) -> None:
    monkeypatch.setattr(module, "_AGAIN_MS", (10,) * 500)
    save_shelf(OWN, keeping.path)
    assert keeping.session.shelf == OWN
    whole = with_mounts("whole").model_dump_json().encode()
    keeping.path.write_bytes(whole[:500])
    qtbot.waitUntil(lambda: keeping.keeper._tries > 2)
    keeping.path.write_bytes(whole)
    keeping.until(lambda: names(keeping.session.shelf) == {"whole"})
    assert [level for _, level in keeping.said] == ["good"]


def test_a_change_of_ours_sets_a_file_aside_that_stays_no_shelf(keeping: Keeping) -> None:
    save_shelf(OWN, keeping.path)
    assert keeping.session.shelf == OWN
    keeping.path.write_bytes(HALF)
    keeping.until_said("is cut off")
    keeping.session.set_shelf(with_mounts("mine"))
    keeping.until_said("The shelf is saved; the file that was no shelf is kept as")
    assert names(Shelf.load(keeping.path)) == {"mine"}
    (aside,) = keeping.beside("damaged")
    assert aside.read_bytes() == HALF
    assert str(aside) in keeping.said[-1][0]


@pytest.mark.parametrize("told", [True, False])
def test_what_was_good_is_kept_at_the_end_though_the_file_is_not(
    keeping: Keeping, told: bool
) -> None:
    save_shelf(with_mounts("good"), keeping.path)
    assert names(keeping.session.shelf) == {"good"}
    keeping.path.write_bytes(HALF)
    if told:
        keeping.until_said("is cut off")
    assert keeping.keeper.finish() is None
    assert names(Shelf.load(keeping.path)) == {"good"}
    assert [path.read_bytes() for path in keeping.beside("damaged")] == [HALF]


def test_a_file_that_was_no_shelf_at_the_start_is_left_until_we_change_something(
    keeping: Keeping,
) -> None:
    keeping.path.write_bytes(HALF)
    assert keeping.session.shelf == OWN
    assert keeping.said[0][0].startswith("shelf.json is cut off")
    assert keeping.said[0][0].endswith("comes with the program; the file is left as it is.")
    assert keeping.keeper.finish() is None
    assert keeping.path.read_bytes() == HALF
    keeping.session.set_shelf(with_mounts("mine"))
    keeping.until(lambda: keeping.path.read_bytes() != HALF)
    assert names(Shelf.load(keeping.path)) == {"mine"}
    assert [path.read_bytes() for path in keeping.beside("damaged")] == [HALF]


# Another file ---------------------------------------------------------------------


def test_going_over_to_another_file_saves_the_first_and_follows_the_second(
    keeping: Keeping, tmp_path: Path
) -> None:
    other = tmp_path / "other" / "club.json"
    other.parent.mkdir()
    save_shelf(with_mounts("club"), other)
    keeping.session.set_shelf(with_mounts("mine"))
    keeping.keeper.open(other)
    assert names(Shelf.load(keeping.path)) == {"mine"}
    assert names(keeping.session.shelf) == {"club"}
    save_shelf(with_mounts("club 2"), other)
    keeping.until(lambda: names(keeping.session.shelf) == {"club 2"})
    keeping.session.set_shelf(with_mounts("club 3"))
    keeping.until(lambda: names(Shelf.load(other)) == {"club 3"})
    assert names(Shelf.load(keeping.path)) == {"mine"}


def test_a_file_that_is_no_shelf_is_not_gone_over_to(keeping: Keeping, tmp_path: Path) -> None:
    (tmp_path / "bad.json").write_bytes(HALF)
    keeping.session.set_shelf(with_mounts("mine"))
    with pytest.raises(CoreError, match=r"^bad\.json is cut off"):
        keeping.keeper.open(tmp_path / "bad.json")
    assert keeping.keeper.path == keeping.path
    assert names(keeping.session.shelf) == {"mine"}


def test_a_shelf_that_cannot_be_saved_is_not_left(
    keeping: Keeping, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise StorageError("the disk is full")

    save_shelf(with_mounts("club"), tmp_path / "club.json")
    keeping.session.set_shelf(with_mounts("mine"))
    with monkeypatch.context() as full:
        full.setattr(module, "write", refuse)
        with pytest.raises(StorageError, match="the disk is full"):
            keeping.keeper.open(tmp_path / "club.json")
    assert names(keeping.session.shelf) == {"mine"}
    assert keeping.keeper.path == keeping.path


# Nothing is ever lost -------------------------------------------------------------


@pytest.mark.parametrize("seed", range(4))
def test_whatever_both_do_in_turns_is_in_the_file_or_beside_it(
    keeping: Keeping, seed: int, qtbot
) -> None:
    """Each writes a shelf with one more mount; every mount of both is found at the end."""
    turns, done = random.Random(seed), set[str]()
    assert keeping.session.shelf == OWN
    for number in range(12):
        what = turns.choice(["ours", "theirs", "both", "half"])
        if what in ("ours", "both"):
            done.add(f"ours {number}")
            ours = with_mounts(f"ours {number}", shelf=keeping.session.shelf)
            keeping.session.set_shelf(ours)
        if what in ("theirs", "both"):
            done.add(f"theirs {number}")
            there = Shelf.load(keeping.path) if keeping.path.exists() else OWN
            save_shelf(with_mounts(f"theirs {number}", shelf=there), keeping.path)
        if what == "half" and keeping.path.exists():
            whole = keeping.path.read_bytes()
            keeping.path.write_bytes(whole[: len(whole) // 2])
            keeping.path.write_bytes(whole)
        keeping.until(lambda: agrees(keeping))
    kept = [Shelf.load(path) for path in (keeping.path, *keeping.beside("yours"))]
    assert done <= set[str]().union(*map(names, kept))
    assert keeping.beside("damaged") == []


def agrees(keeping: Keeping) -> bool:
    """Tell whether what is open is what the file holds."""
    seen = module.look(keeping.path)
    return (seen.shelf or OWN) == keeping.session.shelf
