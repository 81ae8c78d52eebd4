"""Shelves and single rigs as files: to keep, to hand out, to take in.

A rig file holds one rig with all its parts and the currency of their prices, so that it can
be read without the shelf it comes from. Both formats are described by the JSON Schemas
beside the shelf that comes with the program.
"""

from pathlib import Path
from typing import Literal

from core.errors import CoreError
from core.gear.currency import Currency
from core.gear.rig import Rig
from core.gear.shelf.merge import shelf_of_rig
from core.gear.shelf.shelf import Shelf
from core.record.record_file import bytes_of, read_one_of, read_record, write_record
from core.record.short_json import short_json
from core.record.validation import Record

__all__ = ["RigFile", "bytes_of_shelf", "load_gear", "load_rig", "save_rig", "save_shelf"]


class RigFile(Record):
    """One rig with its parts, to be handed to somebody else."""

    format: Literal["skysill-rig"] = "skysill-rig"
    """Tells a rig from other files."""
    version: Literal[1] = 1
    """Version of the format."""
    currency: Currency
    """Currency of every price, three letters of ISO 4217."""
    rig: Rig
    """The rig with all of its parts."""


def save_shelf(shelf: Shelf, path: Path | str) -> bytes:
    """Write a shelf in place of what was there, and give what was written.

    Parameters
    ----------
    shelf : Shelf
    path : Path or str
        Its folder must exist.

    Raises
    ------
    StorageError
        When the disk is full or refuses; the file is then as it was.
    CoreError
        When the shelf is larger than what can be read again.
    """
    return write_record(Path(path), shelf, refused_as=CoreError, form=short_json)


def bytes_of_shelf(shelf: Shelf) -> bytes:
    """Give a shelf as `save_shelf` writes it."""
    return bytes_of(shelf, short_json)


def save_rig(rig: Rig, path: Path | str, *, currency: str) -> None:
    """Write one rig with its parts; raises like `save_shelf`."""
    file = RigFile(currency=currency, rig=rig)
    write_record(Path(path), file, refused_as=CoreError, form=short_json)


def load_rig(path: Path | str) -> RigFile:
    """Read one rig with its parts.

    Raises
    ------
    CoreError
        When it is no rig file; names the file, the place, the value and the rule.
    StorageError
        When it cannot be read.
    """
    return read_record(Path(path), RigFile, refused_as=CoreError)


def load_gear(path: Path | str) -> Shelf:
    """Read a shelf file, or a rig file as a shelf of this one rig; raises like `load_rig`."""
    path = Path(path)
    found = read_one_of(path, (Shelf, RigFile), refused_as=CoreError)
    if isinstance(found, Shelf):
        return found
    assert isinstance(found, RigFile)
    try:
        return shelf_of_rig(found.rig, found.currency)
    except CoreError as error:
        raise CoreError(f"{path.name}: {error}") from None
