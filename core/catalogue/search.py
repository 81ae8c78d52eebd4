"""Find rows of the deep-sky table by anything a person may type.

`NameIndex` knows every designation and name of the table. Rows are numbered in the
order of their rank, so a smaller number is the better-known object. Suggestions come in
this order: the exact name, beginnings of names and designations, words inside names,
words in any order, then names a slip or two of the keyboard away.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.catalogue.designation import LONGEST, canonical, key, number_alone
from core.catalogue.keys import SortedKeys
from core.catalogue.typos import slips

__all__ = ["Hit", "NameIndex"]

_EXACT, _NUMBER, _BEGINS, _WORD, _WORDS, _SLIP = 100.0, 90.0, 80.0, 60.0, 50.0, 40.0
_SCORE_OF_A_SLIP = 8.0
#: Words that say what a thing is, not which; people leave them out.
_GENERIC = (
    "globularcluster", "starcluster", "opencluster", "supernovaremnant", "planetarynebula",
    "nebulae", "nebula", "galaxies", "galaxy", "cluster", "complex", "region", "clouds", "group",
)  # fmt: skip
_SMALL_WORDS = frozenset({"", "the", "of", "in", "and"})
#: Letters from which on one slip and two slips are forgiven.
_FORGIVES_ONE, _FORGIVES_TWO = 5, 8
_CATALOGUES = ("M", "NGC", "IC", "Sh2", "C")
#: Two numbers are never read as one: "NGC 70 00" is not NGC 7000.
_TWO_NUMBERS = re.compile(r"\d[^\w]+\d")
#: What `key` drops from a plain designation, done here for all of them at once.
_DROPPED = " -._'"


@dataclass(frozen=True)
class Hit:
    """A row that answers a typed text: which, by what words, and how well (0..100)."""

    row: int
    matched: str
    score: float


class NameIndex:
    """All ways to call the rows of a table.

    Parameters
    ----------
    designations, names, nicknames : list of str
        For each row, what it is called, parted by bars; the best first. A nickname
        gives way to a name.
    """

    def __init__(self, designations: list[str], names: list[str], nicknames: list[str]) -> None:
        self._designations = designations
        self._names = names
        self._nicknames = nicknames

    def exactly(self, text: str) -> int | None:
        """Find the row that a designation or a whole name belongs to; None if there is none.

        The words "nebula", "galaxy", "cluster" and their like may be left out.
        """
        if len(text) > LONGEST:
            return None
        spelled = canonical(text)
        typed = key(text)
        if spelled and (row := self._row_of.get(key(spelled))) is not None:
            return row
        if not _TWO_NUMBERS.search(text) and typed in self._row_of:
            return self._row_of[typed]
        for word in (typed, typed.removeprefix("the")):
            if word and word in self._row_of_name:
                return self._row_of_name[word]
        return self._row_of_bare_name.get(typed.removeprefix("the"))

    def forgivingly(self, text: str) -> int | None:
        """Find the one row whose name is a slip or two away; None if none or several are.

        Numbers are never forgiven: NGC 7001 is not NGC 7000.
        """
        typed = key(text)
        allowed = 2 if len(typed) >= _FORGIVES_TWO else 1 if len(typed) >= _FORGIVES_ONE else 0
        if not allowed or len(text) > LONGEST or any(mark.isdigit() for mark in typed):
            return None
        whole, _ = slips(typed, self._forgiven.letters, most=allowed)
        best = int(whole.min(initial=allowed + 1))
        rows = set(self._forgiven.rows[whole == best].tolist()) if best <= allowed else set()
        return rows.pop() if len(rows) == 1 else None

    def suggest(self, text: str, *, limit: int) -> list[Hit]:
        """Rank the rows that a text, perhaps still being typed, may mean."""
        typed = key(text).removeprefix("the") or key(text)
        if limit <= 0 or not typed or len(text) > LONGEST:
            return []
        found: dict[int, Hit] = {}
        for hit in self._fitting(text, typed, limit):
            found.setdefault(hit.row, hit)
            if len(found) >= limit:
                return list(found.values())
        if _worth_forgiving(text, typed, list(found.values())):
            for hit in self._slipped(typed, limit):
                found.setdefault(hit.row, hit)
        return list(found.values())[:limit]

    def near_numbers(self, text: str, *, limit: int) -> list[int]:
        """Rows that a number, alone or in a catalogue that lacks it, may have meant."""
        number, spelled = number_alone(text), canonical(text)
        wanted = [f"{name}-{number}" for name in _CATALOGUES] if number is not None else []
        if spelled and spelled[-1].isdigit():
            stem = spelled.rstrip("0123456789")
            number = int(spelled[len(stem) :])
            wanted = [f"{stem}{number + step}" for step in (-1, 1, -2, 2)]
            wanted += [spelled[:-1], *(f"{name} {number}" for name in _CATALOGUES)]
        rows = [self._row_of.get(key(word)) for word in wanted]
        return list(dict.fromkeys(row for row in rows if row is not None))[:limit]

    def _fitting(self, text: str, typed: str, limit: int) -> Iterator[Hit]:
        """Yield rows that fit the text as it stands, best first, each kind only when needed."""
        spelled = canonical(text)
        exact = self.exactly(text)
        if exact is not None:
            yield self._hit(exact, [key(spelled or ""), typed], _EXACT)
        number = number_alone(text)
        if number is not None:
            asked = [key(f"{name} {number}") for name in _CATALOGUES]
            for row in self.near_numbers(text, limit=limit):
                yield self._hit(row, asked, _NUMBER)
        starts = [key(spelled) if spelled else typed, typed]
        begun = [row for s in _starts(text, starts) for row in self._sorted.beginning(s, limit)]
        begun += self._named.beginning(typed, limit)
        for row in sorted(set(begun)):
            yield self._hit(row, starts, _BEGINS)
        for row in self._inner.beginning(typed, limit):
            yield self._hit(row, [typed], _WORD)
        yield from self._any_order(text, limit)

    def _any_order(self, text: str, limit: int) -> Iterator[Hit]:
        """Yield rows that have every typed word in their names, in any order."""
        words = [word for word in map(key, text.split()) if word not in _SMALL_WORDS]
        if len(words) < 2:
            return
        sets = [set(self._inner.rows_beginning(word).tolist()) for word in words]
        for row in sorted(set.intersection(*sets))[:limit]:
            yield self._hit(row, words, _WORDS)

    def _slipped(self, typed: str, limit: int) -> Iterator[Hit]:
        """Yield rows with a name, or the end of one, that begins a slip or two away."""
        allowed = 2 if len(typed) >= _FORGIVES_TWO else 1
        whole, begun = slips(typed, self._inner.letters, most=allowed)
        cost = np.minimum(2 * whole, 2 * begun + 1)
        near = np.flatnonzero(begun <= allowed)
        order = near[np.lexsort((self._inner.rows[near], cost[near]))]
        for place in order[: 4 * limit].tolist():
            score = _SLIP - _SCORE_OF_A_SLIP * float(cost[place]) / 2.0
            meant = self._inner.keys[place][: len(typed)]
            yield self._hit(int(self._inner.rows[place]), [meant], score)

    def _hit(self, row: int, starts: list[str], score: float) -> Hit:
        """Make a hit; what it shows is the name or designation that was meant."""
        words = [*self._names_of(row), *self._designations[row].split("|")]
        keys = [key(word) for word in words]
        for start in filter(None, starts):
            for fits in (str.__eq__, str.startswith, str.__contains__):
                for word, plain in zip(words, keys, strict=True):
                    if fits(plain, start):
                        return Hit(row, word, score)
        return Hit(row, words[0], score)

    def _names_of(self, row: int) -> list[str]:
        """Names and nicknames of a row."""
        together = f"{self._names[row]}|{self._nicknames[row]}"
        return [name for name in together.split("|") if name]

    def _every_name(self) -> Iterator[tuple[str, int]]:
        """Every name with its row, best-known first; then every nickname."""
        for column in (self._names, self._nicknames):
            for row, names in enumerate(column):
                if names:
                    for name in names.split("|"):
                        yield name, row

    @cached_property
    def _row_of(self) -> dict[str, int]:
        """Row of every designation; the better-known row keeps one that several have."""
        plain = [line if line.isascii() else "" for line in self._designations]
        joined = "|".join(plain).lower().replace("+", "plus")
        for mark in _DROPPED:
            joined = joined.replace(mark, "")
        words = joined.split("|")
        rows = np.repeat(np.arange(len(plain)), [line.count("|") + 1 for line in plain]).tolist()
        row_of = dict(zip(reversed(words), reversed(rows), strict=True))
        row_of.pop("", None)
        for row, line in enumerate(self._designations):
            if not line.isascii():
                for word in line.split("|"):
                    row_of.setdefault(key(word), row)
        return row_of

    @cached_property
    def _row_of_name(self) -> dict[str, int]:
        """Row of every whole name."""
        row_of: dict[str, int] = {}
        for name, row in self._every_name():
            row_of.setdefault(key(name), row)
        return row_of

    @cached_property
    def _row_of_bare_name(self) -> dict[str, int]:
        """Row of every name without the word that says what it is."""
        row_of: dict[str, int] = {}
        for name, row in self._every_name():
            row_of.setdefault(_without_generic(key(name)), row)
        for generic in _GENERIC:
            row_of.pop(generic, None)
        return row_of

    @cached_property
    def _sorted(self) -> SortedKeys:
        """Every designation, in order."""
        return SortedKeys.of_dict(self._row_of)

    @cached_property
    def _named(self) -> SortedKeys:
        """Every whole name, in order."""
        pairs = [(key(name), row) for name, row in self._every_name()]
        return SortedKeys([word for word, _ in pairs], [row for _, row in pairs])

    @cached_property
    def _inner(self) -> SortedKeys:
        """Every name from each of its words on, in order."""
        pairs = [(tail, row) for name, row in self._every_name() for tail in _tails(name)]
        return SortedKeys([tail for tail, _ in pairs], [row for _, row in pairs])

    @cached_property
    def _forgiven(self) -> SortedKeys:
        """Every name with and without its generic word, if long enough to forgive a slip."""
        pairs = list(zip(self._named.keys, self._named.rows.tolist(), strict=True))
        pairs += [(_without_generic(word), row) for word, row in pairs]
        kept = [(word, row) for word, row in pairs if len(word) >= _FORGIVES_ONE - 1]
        return SortedKeys([word for word, _ in kept], [row for _, row in kept])


def _worth_forgiving(text: str, typed: str, found: list[Hit]) -> bool:
    """Look for slips only in names, long enough, and when the exact name was not typed."""
    if len(typed) < _FORGIVES_ONE - 1 or canonical(text) is not None:
        return False
    return not found or (len(typed) >= _FORGIVES_ONE and found[0].score < _EXACT)


def _starts(text: str, starts: list[str]) -> list[str]:
    """Add to the beginnings to look for those that a catalogue's full name stands for."""
    first = None if any(map(str.isdigit, text)) else canonical(f"{text} 1")
    digits = [key(first)[:-1] + digit for digit in "123456789"] if first else []
    return list(dict.fromkeys([*starts, *digits]))


def _tails(name: str) -> list[str]:
    """Give a name's keys from each of its words on."""
    words = [key(word) for word in name.split()]
    return [tail for tail in ("".join(words[start:]) for start in range(len(words))) if tail]


def _without_generic(word: str) -> str:
    """Give a name's key without the word that says what it is."""
    for generic in _GENERIC:
        if word.endswith(generic) and len(word) > len(generic):
            return word.removesuffix(generic)
    return word
