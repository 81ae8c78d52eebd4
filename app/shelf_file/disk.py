"""What lies in the shelf's file, told apart by a digest of its bytes, and how it gets there.

Nothing here knows Qt: the keeper calls it beside the window. A file that another program
changed since it was last seen is never written over; between the look and the write lies
a moment of some milliseconds in which that cannot be told.
"""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from core.errors import CoreError, StorageError
from core.gear.shelf.files import bytes_of_shelf, save_shelf
from core.gear.shelf.shelf import Shelf
from core.record.beside import free_beside, set_aside
from core.record.record_file import read_bytes, record_of

__all__ = ["ChangedError", "Seen", "Written", "digest_of", "keep_beside", "look", "write"]


class ChangedError(Exception):
    """The file is not the one that was seen last."""


@dataclass(frozen=True)
class Seen:
    """What was found: a shelf, or a refusal in `fault`, or no file at all (digest "")."""

    digest: str
    shelf: Shelf | None = None
    fault: str = ""


@dataclass(frozen=True)
class Written:
    """What was written; `aside` is where a file that was no shelf lies now."""

    digest: str
    shelf: Shelf
    aside: Path | None = None


def digest_of(shelf: Shelf) -> str:
    """Give the digest of a file that holds a shelf as this program writes it."""
    return _digest(bytes_of_shelf(shelf))


def look(path: Path) -> Seen:
    """Read the file.

    Raises
    ------
    StorageError
        When the disk or its rights refuse.
    """
    try:
        data = read_bytes(path, refused_as=CoreError)
    except CoreError as error:
        return Seen("") if not path.exists() else Seen("unread", fault=str(error))
    try:
        shelf = record_of(data, path.name, (Shelf,), refused_as=CoreError)
    except CoreError as error:
        return Seen(_digest(data), fault=str(error))
    assert isinstance(shelf, Shelf)
    return Seen(_digest(data), shelf)


def write(path: Path, shelf: Shelf, known: Seen) -> Written:
    """Write a shelf in place of what was seen last.

    Parameters
    ----------
    path : Path
        Its folder is made when it is missing.
    shelf : Shelf
    known : Seen
        What the file held when it was last looked at. When that was no shelf, the file is
        set aside under another name first.

    Raises
    ------
    ChangedError
        When the file holds something else by now.
    StorageError, CoreError
        When it cannot be written; what was there is then as it was, or set aside.
    """
    now = look(path)
    if now.digest not in ("", known.digest):
        raise ChangedError
    aside = set_aside(path) if now.fault else None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StorageError(f"cannot make {path.parent}: {error.strerror}") from error
    return Written(_digest(save_shelf(shelf, path)), shelf, aside)


def keep_beside(path: Path, shelf: Shelf) -> Path:
    """Write a shelf beside the file, under a name of its own; give the name."""
    beside = free_beside(path, "yours")
    save_shelf(shelf, beside)
    return beside


def _digest(data: bytes) -> str:
    """Give the digest of what a file holds."""
    return hashlib.blake2b(data, digest_size=16).hexdigest()
