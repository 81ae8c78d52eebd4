"""Keys in alphabetical order beside the rows they belong to: the cards of an index."""

from bisect import bisect_left
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from core.catalogue.typos import LetterTable

__all__ = ["SortedKeys"]

_LAST = "\U0010ffff"


class SortedKeys:
    """Keys that can be asked for their beginnings.

    Parameters
    ----------
    keys : list of str
        Plain keys (`core.catalogue.designation.key`); one may stand several times.
    rows : list of int
        The row each belongs to; a smaller number is a better-known object.
    """

    def __init__(self, keys: list[str], rows: list[int]) -> None:
        order = sorted(range(len(keys)), key=keys.__getitem__)
        self.keys = [keys[place] for place in order]
        self.rows: NDArray[np.int64] = np.array(rows, np.int64)[order]

    @classmethod
    def of_dict(cls, row_of: dict[str, int]) -> "SortedKeys":
        """Sort the keys of a dictionary, each with its one row."""
        made = cls([], [])
        made.keys = sorted(row_of)
        made.rows = np.array([row_of[word] for word in made.keys], np.int64)
        return made

    @cached_property
    def letters(self) -> LetterTable:
        """The keys laid out for counting slips of the keyboard."""
        return LetterTable(self.keys)

    def rows_beginning(self, start: str) -> NDArray[np.int64]:
        """Rows of the keys that begin so, in no promised order."""
        low = bisect_left(self.keys, start)
        return self.rows[low : bisect_left(self.keys, start + _LAST, low)]

    def beginning(self, start: str, limit: int) -> list[int]:
        """Find the best-known rows with a key that begins so, the best first."""
        rows = self.rows_beginning(start)
        if rows.size > 8 * limit:
            rows = np.partition(rows, 8 * limit)[: 8 * limit]
        return list(dict.fromkeys(np.sort(rows).tolist()))[:limit]
