"""Speed of finding a target while it is typed, as a ratio against difflib in the same run."""

import difflib
import statistics
import time

from core.catalogue.targets import TargetTable
from tests.benchmarks.timing import ratio

#: Every keystroke of these is asked: names, designations, and names with slips.
TYPED = (
    "Andromeda Galaxy", "NGC 7000", "Elephant's Trunk", "Sh2-155", "Horsehead", "androoomeda",
    "pelcan nebula", "LDN 1251", "Barnard 33", "markarians chain", "xyzzyq plugh",
)  # fmt: skip
KEYSTROKES = [name[:end] for name in TYPED for end in range(1, len(name) + 1)]


def _every_name(table: TargetTable) -> list[str]:
    targets = [table.target(row) for row in range(len(table))]
    return [name.lower() for t in targets for name in (*t.aliases, *t.common_names)]


def test_a_suggestion_is_50_times_faster_than_close_matches_of_difflib() -> None:
    table = TargetTable.load()
    names = _every_name(table)
    assert len(names) > 50_000
    asked = ["andromda", "ngc 700", "elefants trunk"]

    def named() -> object:
        return [difflib.get_close_matches(text, names, n=8) for text in asked]

    def ours() -> object:
        return [table.suggest(text, limit=8) for text in asked]

    found = ratio(named, ours, rounds=3, label=f"3 suggestions among {len(names):,} names")
    assert found.times_faster >= 50.0


def test_each_keystroke_and_the_making_of_the_index_are_printed() -> None:
    start = time.perf_counter()
    table = TargetTable.load()
    loaded = time.perf_counter()
    table.suggest("androoomeda")
    indexed = time.perf_counter()
    spent = []
    for text in KEYSTROKES:
        before = time.perf_counter()
        offered = table.suggest(text)
        spent.append(time.perf_counter() - before)
        assert len(offered) <= 8
    print(
        f"\nload {1e3 * (loaded - start):.1f} ms, first suggestion with its index "
        f"{1e3 * (indexed - loaded):.1f} ms, then {len(spent)} keystrokes: median "
        f"{1e3 * statistics.median(spent):.2f} ms, slowest {1e3 * max(spent):.2f} ms"
    )
