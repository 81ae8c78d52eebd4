"""Slips of the keyboard, counted for many names at once, against the textbook recursion."""

from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue.typos import LetterTable, slips

WORDS = st.text(alphabet="abcde", max_size=12)


def _textbook(typed: str, name: str) -> list[int]:
    """Optimal string alignment distance to every beginning of the name, full matrix."""
    rows, columns = len(typed) + 1, len(name) + 1
    d = [[max(i, j) if 0 in (i, j) else 0 for j in range(columns)] for i in range(rows)]
    for i in range(1, rows):
        for j in range(1, columns):
            change = typed[i - 1] != name[j - 1]
            d[i][j] = min(d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change)
            swapped = typed[i - 1] == name[j - 2] and typed[i - 2] == name[j - 1]
            if i > 1 and j > 1 and swapped:
                d[i][j] = min(d[i][j], d[i - 2][j - 2] + 1)
    return d[-1]


@settings(max_examples=150)
@given(WORDS.filter(bool), st.lists(WORDS, min_size=1, max_size=6))
def test_slips_are_those_of_the_textbook_recursion(typed: str, names: list[str]) -> None:
    whole, begun = slips(typed, LetterTable(names), most=99)
    assert whole.tolist() == [_textbook(typed, name)[-1] for name in names]
    assert begun.tolist() == [min(_textbook(typed, name)) for name in names]


@settings(max_examples=100)
@given(WORDS.filter(bool), st.lists(WORDS, min_size=1, max_size=6), st.integers(0, 3))
def test_counts_up_to_the_limit_are_exact_and_others_lie_above_it(
    typed: str, names: list[str], most: int
) -> None:
    whole, begun = slips(typed, LetterTable(names), most=most)
    for name, w, b in zip(names, whole, begun, strict=True):
        expected = _textbook(typed, name)
        assert w == expected[-1] if expected[-1] <= most else w > most
        assert b == min(expected) if min(expected) <= most else b > most


def test_each_kind_of_slip_counts_one() -> None:
    table = LetterTable(["rosette"])
    for typed in ("rosete", "rossette", "rosetta", "orsette"):
        assert slips(typed, table, most=2)[0].tolist() == [1]


def test_long_words_are_cut_and_strange_letters_count_as_wrong_ones() -> None:
    table = LetterTable(["a" * 70, "\u2603x"])
    assert slips("a" * 70, table, most=2)[1].tolist()[0] == 0
    assert slips("x", table, most=2)[0].tolist()[1] == 1


def test_an_empty_table_gives_empty_counts() -> None:
    whole, begun = slips("abc", LetterTable([]), most=2)
    assert whole.size == begun.size == 0
