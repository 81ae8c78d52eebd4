"""A keeper that does not rest long, and another program that writes its file."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shelf_file import keeper as module
from app.shelf_file.keeper import ShelfKeeper
from core.gear.parts import Mount
from core.gear.shelf.shelf import Shelf

OWN = Shelf.load()


def with_mounts(*names: str, shelf: Shelf = OWN) -> Shelf:
    """The shelf with mounts of these names on it."""
    return shelf.but(mounts=(*shelf.mounts, *(Mount(name=name) for name in names)))


def names(shelf: Shelf) -> set[str]:
    """Give the names of the mounts that the program's shelf does not have."""
    return {mount.name for mount in shelf.mounts} - {mount.name for mount in OWN.mounts}


class Keeping:
    """A session, the keeper of its shelf, and what was said."""

    def __init__(self, session: Session, path: Path, qtbot: QtBot) -> None:
        self.session, self.path, self._qtbot = session, path, qtbot
        self.said: list[tuple[str, str]] = []
        session.said.connect(lambda words, level: self.said.append((words, level)))
        self.keeper = ShelfKeeper(session, path)
        session.read_shelf = self.keeper.read

    def until(self, holds: Callable[[], bool]) -> None:
        """Wait until something holds and nothing waits any more."""
        self._qtbot.waitUntil(lambda: holds() and not self.keeper.waits, timeout=10_000)

    def until_said(self, words: str) -> None:
        """Wait until something with these words is said."""
        self.until(lambda: any(words in said for said, _ in self.said))

    def beside(self, word: str) -> list[Path]:
        """Give the files beside the shelf's with a word in their names."""
        return sorted(self.path.parent.glob(f"shelf.{word}-*.json"))

    @property
    def litter(self) -> list[str]:
        """Give what lies in the folder beside the shelf."""
        return sorted(path.name for path in self.path.parent.iterdir() if path != self.path)


@pytest.fixture
def keeping(
    session: Session, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Keeping]:
    """A keeper of a file that is not there yet, in a folder of its own."""
    monkeypatch.setattr(module, "_SAVE_REST_MS", 10)
    monkeypatch.setattr(module, "_LOOK_REST_MS", 5)
    monkeypatch.setattr(module, "_AGAIN_MS", (5, 10, 20))
    (tmp_path / "data").mkdir()
    kept = Keeping(session, tmp_path / "data" / "shelf.json", qtbot)
    yield kept
    kept.keeper.finish()
