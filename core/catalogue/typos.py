"""How many slips of the keyboard lie between a typed word and many names at once.

A slip is a letter left out, put in, changed, or two neighbours swapped (the "optimal
string alignment" distance). One column of the dynamic programme is held as the bits of
one 64-bit word for each name, so that all names advance together.

Domain: the typed word is cut at 60 letters; letters are the bytes of Latin-1 text, but
for the byte 0, which fills short names.

Sources: Myers 1999, J. ACM 46, 395 (bit-parallel edit distance); Hyyro 2003, Nordic J.
Computing 10, 29 (its form with transpositions).
"""

import numpy as np
from numpy.typing import NDArray

__all__ = ["LetterTable", "slips"]

_LONGEST = 60
_ONE = np.uint64(1)


class LetterTable:
    """Names laid out by columns of letters, ready to be compared.

    Parameters
    ----------
    words : list of str
        Plain keys; letters beyond Latin-1 count as unknown ones.
    """

    def __init__(self, words: list[str]) -> None:
        self.lengths: NDArray[np.intp] = np.array([len(word) for word in words], np.intp)
        width = int(self.lengths.max(initial=0))
        packed = b"".join(word.encode("latin-1", "replace").ljust(width, b"\0") for word in words)
        letters = np.frombuffer(packed, np.uint8).reshape(len(words), width)
        self.columns: NDArray[np.uint8] = np.ascontiguousarray(letters.T)


def slips(
    typed: str, table: LetterTable, *, most: int
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Count slips between a typed word and every name.

    Parameters
    ----------
    typed : str
        What was typed, as a plain key, at least one letter.
    table : LetterTable
    most : int
        Counts above this need not be exact; they are larger than `most` all the same.

    Returns
    -------
    whole : (N,) int array
        Slips to the whole name.
    begun : (N,) int array
        Slips to the best beginning of the name.
    """
    typed = typed[:_LONGEST]
    length = len(typed)
    masks = _masks(typed)
    count = table.lengths.size
    up, down = np.full(count, (1 << length) - 1, np.uint64), np.zeros(count, np.uint64)
    last_equal, last_zero = np.zeros(count, np.uint64), np.zeros(count, np.uint64)
    score = np.full(count, length, np.int64)
    whole, begun = np.full(count, length, np.int64), score.copy()
    whole[table.lengths > 0] = most + 1
    top = np.uint64(length - 1)
    for column in range(min(table.columns.shape[0], length + most)):
        equal = masks[table.columns[column]]
        swapped = ((~last_zero & equal) << _ONE) & last_equal
        zero = swapped | (((equal & up) + up) ^ up) | equal | down
        rise, fall = down | ~(zero | up), zero & up
        score += ((rise >> top) & _ONE).astype(np.int64)
        score -= ((fall >> top) & _ONE).astype(np.int64)
        rise = (rise << _ONE) | _ONE
        up, down = (fall << _ONE) | ~(zero | rise), rise & zero
        last_equal, last_zero = equal, zero
        np.minimum(begun, score, out=begun)  # beyond its end a name gains nothing
        np.copyto(whole, score, where=table.lengths == column + 1)
    return whole, begun


def _masks(typed: str) -> NDArray[np.uint64]:
    """For each letter, the places where it stands in the typed word, as bits."""
    masks = np.zeros(256, np.uint64)
    for place, letter in enumerate(typed.encode("latin-1", "replace")):
        masks[letter] |= np.uint64(1 << place)
    return masks
