"""The two files of the deep-sky table and how they are read.

`targets.npy` holds the numbers, one record an object (little-endian; NaN where a figure
is not known; degrees, arcminutes, magnitudes). `targets.txt` is UTF-8: its first line a
JSON list of sources, then one line an object in the same order, with designations, names,
nicknames and members between tabs, several of one kind between bars. Neither can hold code.
"""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from core.errors import CatalogueError

__all__ = [
    "ANGLE_STATUSES",
    "BANDS",
    "FIELDS",
    "NUMBERS",
    "STATUSES",
    "WORDS",
    "Stored",
    "read_stored",
]

NUMBERS = "targets.npy"
WORDS = "targets.txt"
STATUSES = ("published", "catalogue", "partly", "unverified")
ANGLE_STATUSES = (
    "", "published", "catalogue", "described", "computed", "memory", "unverified",
)  # fmt: skip
BANDS = ("", "V", "B")
FIELDS = np.dtype(
    [
        ("ra_deg", "<f8"), ("dec_deg", "<f8"), ("major_arcmin", "<f4"), ("minor_arcmin", "<f4"),
        ("pa_deg", "<f4"), ("magnitude", "<f4"), ("rank", "<f4"), ("source", "<u2"),
        ("kind_code", "u1"), ("status", "u1"), ("angle_status", "u1"), ("band", "u1"),
        ("drawn", "?"),
    ]
)  # fmt: skip
_LARGEST_BYTES = 64_000_000
_WORD_COLUMNS = 4


@dataclass(frozen=True)
class Stored:
    """The table as it lies in its files."""

    numbers: NDArray[Any]
    lines: list[str]
    sources: list[str]


def read_stored(folder: Path, *, kinds: int) -> Stored:
    """Read and check both files.

    Parameters
    ----------
    folder : Path
        Where they lie.
    kinds : int
        How many kinds of target there are; a larger code means a damaged file.

    Raises
    ------
    CatalogueError
        When a file is missing, cut short, of another layout, or holds impossible figures.
    """
    numbers = _read_numbers(folder / NUMBERS)
    first, lines = _read_words(folder / WORDS)
    if len(lines) != numbers.size:
        raise CatalogueError(
            f"{folder / WORDS} is damaged: it has {len(lines)} objects where "
            f"{NUMBERS} has {numbers.size}; install the program again"
        )
    _check_ranges(numbers, folder / NUMBERS, kinds, len(first))
    return Stored(numbers, lines, first)


def _read_numbers(path: Path) -> NDArray[Any]:
    """Read the numeric columns."""
    try:
        _check_size(path)
        with path.open("rb") as content:
            numbers = np.lib.format.read_array(content, allow_pickle=False)
    except (OSError, ValueError, EOFError) as error:
        raise CatalogueError(_unreadable(path, error)) from error
    if numbers.dtype != FIELDS or numbers.ndim != 1:
        raise CatalogueError(f"{path} is not a deep-sky table of this version of the program")
    return numbers


def _read_words(path: Path) -> tuple[list[str], list[str]]:
    """Read the sources and the lines of words."""
    try:
        _check_size(path)
        first, *lines = path.read_text(encoding="utf-8").rstrip("\n").split("\n")
        sources = json.loads(first)
    except (OSError, ValueError) as error:
        raise CatalogueError(_unreadable(path, error)) from error
    if not isinstance(sources, list) or not all(isinstance(text, str) for text in sources):
        raise CatalogueError(f"{path} is damaged: its first line is no list of sources")
    wrong = [n for n, line in enumerate(lines, 2) if line.count("\t") != _WORD_COLUMNS - 1]
    if wrong:
        raise CatalogueError(f"{path} is damaged: line {wrong[0]} has not {_WORD_COLUMNS} fields")
    return sources, lines


def _check_size(path: Path) -> None:
    """Refuse a file far larger than any table of ours."""
    if path.stat().st_size > _LARGEST_BYTES:
        raise ValueError("the file is too large to be a deep-sky table")


def _check_ranges(numbers: NDArray[Any], path: Path, kinds: int, sources: int) -> None:
    """Refuse figures that cannot be, so that nothing downstream meets them."""
    ra, dec = numbers["ra_deg"], numbers["dec_deg"]
    sound = (
        np.all((ra >= 0.0) & (ra < 360.0) & (np.abs(dec) <= 90.0))
        and not np.any(numbers["major_arcmin"] <= 0.0)
        and not np.any(numbers["minor_arcmin"] > numbers["major_arcmin"])
        and not np.any((numbers["pa_deg"] < 0.0) | (numbers["pa_deg"] >= 180.0))
        and np.all(numbers["kind_code"] < kinds)
        and np.all(numbers["status"] < len(STATUSES))
        and np.all(numbers["angle_status"] < len(ANGLE_STATUSES))
        and np.all(numbers["band"] < len(BANDS))
        and np.all(numbers["source"] < max(sources, 1))
    )
    if not sound:
        raise CatalogueError(f"{path} is damaged: it holds figures that cannot be")


def _unreadable(path: Path, error: Exception) -> str:
    """Say which file failed and why."""
    reason = "it is missing" if isinstance(error, FileNotFoundError) else str(error)
    return f"the deep-sky table {path} cannot be read ({reason}); install the program again"
