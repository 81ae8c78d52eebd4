"""The shelf's file while the window is open: saved, followed, and nothing lost."""

import json
import time
from pathlib import Path

import pytest

from app.shelf_file import keeper as module
from core.errors import StorageError
from core.gear.shelf.files import save_shelf
from core.gear.shelf.shelf import Shelf
from tests.app.shelf_file.conftest import OWN, Keeping, names, with_mounts

pytestmark = pytest.mark.gui


# Reading and saving ---------------------------------------------------------------


def test_where_there_is_no_file_the_shelf_of_the_program_is_open_and_nothing_written(
    keeping: Keeping,
) -> None:
    assert keeping.session.shelf == OWN
    assert keeping.keeper.finish() is None
    assert not keeping.path.exists()
    assert keeping.said == []


def test_a_change_is_saved_a_moment_later(keeping: Keeping) -> None:
    keeping.session.set_shelf(with_mounts("mine"))
    keeping.until(keeping.path.exists)
    assert names(Shelf.load(keeping.path)) == {"mine"}
    assert keeping.litter == []
    assert keeping.said == []


def test_the_file_is_the_shelf_at_the_next_start(keeping: Keeping) -> None:
    save_shelf(with_mounts("kept"), keeping.path)
    assert names(keeping.session.shelf) == {"kept"}


def test_the_last_of_many_changes_is_saved(keeping: Keeping) -> None:
    for number in range(20):
        keeping.session.set_shelf(with_mounts(f"mine {number}"))
    keeping.until(keeping.path.exists)
    assert names(Shelf.load(keeping.path)) == {"mine 19"}


def test_what_waits_is_saved_at_the_end(keeping: Keeping) -> None:
    keeping.session.set_shelf(with_mounts("mine"))
    assert not keeping.path.exists()
    assert keeping.keeper.finish() is None
    assert names(Shelf.load(keeping.path)) == {"mine"}


def test_an_earlier_save_of_ours_is_not_taken_for_another_programs(
    keeping: Keeping, monkeypatch: pytest.MonkeyPatch, qtbot
) -> None:
    """The end comes while a save runs whose answer nobody waits for any more."""
    real = module.write

    def slow(*given):
        time.sleep(0.05)
        return real(*given)

    monkeypatch.setattr(module, "write", slow)
    keeping.session.set_shelf(with_mounts("first"))
    qtbot.waitUntil(lambda: keeping.keeper._lane.busy)
    keeping.session.set_shelf(with_mounts("first", "second"))
    assert keeping.keeper.finish() is None
    assert names(Shelf.load(keeping.path)) == {"first", "second"}
    assert keeping.litter == []


def test_a_save_that_fails_is_said_and_told_at_the_end(keeping: Keeping, qtbot) -> None:
    shelf = keeping.session.shelf
    keeping.path.parent.rmdir()
    keeping.path.parent.write_text("a file where the folder was")
    keeping.session.set_shelf(with_mounts("mine", shelf=shelf))
    qtbot.waitUntil(lambda: bool(keeping.said))
    words, level = keeping.said[0]
    assert words.startswith("The shelf is not kept: ")
    assert str(keeping.path) in words
    assert level == "bad"
    assert isinstance(keeping.keeper.finish(), StorageError)
    keeping.path.parent.unlink()
    assert keeping.keeper.finish() is None
    assert names(Shelf.load(keeping.path)) == {"mine"}


# Another program changes the file -------------------------------------------------


def test_a_change_by_another_program_is_taken_over_and_told(keeping: Keeping) -> None:
    save_shelf(with_mounts("old"), keeping.path)
    assert names(keeping.session.shelf) == {"old"}
    save_shelf(with_mounts("a", "b"), keeping.path)
    keeping.until(lambda: names(keeping.session.shelf) == {"a", "b"})
    words = "Another program changed the shelf: 2 new, 0 changed, 1 gone."
    assert keeping.said == [(words, "good")]
    assert keeping.litter == []


def test_a_file_written_in_place_is_followed_like_one_that_was_replaced(keeping: Keeping) -> None:
    save_shelf(OWN, keeping.path)
    assert keeping.session.shelf == OWN
    for round_ in range(3):
        keeping.path.write_text(with_mounts(f"round {round_}").model_dump_json())
        keeping.until(lambda wanted=f"round {round_}": wanted in names(keeping.session.shelf))


def test_a_file_that_comes_later_is_found(keeping: Keeping) -> None:
    assert keeping.session.shelf == OWN
    save_shelf(with_mounts("new"), keeping.path)
    keeping.until(lambda: names(keeping.session.shelf) == {"new"})


def test_the_same_shelf_written_otherwise_is_no_change(keeping: Keeping, qtbot) -> None:
    save_shelf(with_mounts("a"), keeping.path)
    shelf = keeping.session.shelf
    content = json.loads(keeping.path.read_bytes())
    keeping.path.write_text(json.dumps(content, indent=8), "utf-8")
    seen = module.look(keeping.path).digest
    keeping.until(lambda: keeping.keeper._known.digest == seen)
    assert keeping.session.shelf is shelf
    assert keeping.said == []
    keeping.session.set_shelf(with_mounts("a", "b"))
    keeping.until(lambda: names(Shelf.load(keeping.path)) == {"a", "b"})
    assert keeping.litter == []


def test_when_both_changed_theirs_is_open_and_ours_is_beside(keeping: Keeping) -> None:
    save_shelf(OWN, keeping.path)
    assert keeping.session.shelf == OWN
    keeping.session.set_shelf(with_mounts("mine"))
    save_shelf(with_mounts("theirs"), keeping.path)
    keeping.until_said("You and another program")
    (beside,) = keeping.beside("yours")
    assert names(Shelf.load(beside)) == {"mine"}
    assert names(Shelf.load(keeping.path)) == names(keeping.session.shelf) == {"theirs"}
    assert keeping.said == [
        (
            "You and another program changed the shelf: theirs is open, yours is kept as "
            f"{beside}; import it to bring it back.",
            "caution",
        )
    ]


def test_when_both_changed_at_the_end_nothing_is_lost_either(keeping: Keeping) -> None:
    save_shelf(OWN, keeping.path)
    assert keeping.session.shelf == OWN
    keeping.session.set_shelf(with_mounts("mine"))
    save_shelf(with_mounts("theirs"), keeping.path)
    assert keeping.keeper.finish() is None
    assert names(Shelf.load(keeping.path)) == {"theirs"}
    assert [names(Shelf.load(path)) for path in keeping.beside("yours")] == [{"mine"}]


def test_ours_that_cannot_be_put_beside_stays_open(
    keeping: Keeping, monkeypatch: pytest.MonkeyPatch, qtbot
) -> None:
    def refuse(*_: object) -> Path:
        raise StorageError("the disk is full")

    save_shelf(OWN, keeping.path)
    assert keeping.session.shelf == OWN
    with monkeypatch.context() as full:
        full.setattr(module, "keep_beside", refuse)
        keeping.session.set_shelf(with_mounts("mine"))
        save_shelf(with_mounts("theirs"), keeping.path)
        qtbot.waitUntil(lambda: bool(keeping.said))
        assert "yours stays open, not kept: the disk is full." in keeping.said[0][0]
        assert names(keeping.session.shelf) == {"mine"}
        assert isinstance(keeping.keeper.finish(), StorageError)
    assert keeping.keeper.finish() is None
    assert names(Shelf.load(keeping.beside("yours")[0])) == {"mine"}


def test_a_file_that_is_gone_is_written_again(keeping: Keeping) -> None:
    save_shelf(with_mounts("a"), keeping.path)
    assert names(keeping.session.shelf) == {"a"}
    keeping.path.unlink()
    keeping.until(keeping.path.exists)
    assert names(Shelf.load(keeping.path)) == {"a"}
    assert keeping.said == [("The file of the shelf is gone; it is written again.", "caution")]
