"""Table files that are missing, cut short or damaged are refused in one sentence."""

import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from core.catalogue.targets import TargetTable
from core.catalogue.targets_format import FIELDS, NUMBERS, WORDS
from core.errors import CatalogueError
from core.paths import ASSETS

SHIPPED = ASSETS / "catalogues"


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    for name in (NUMBERS, WORDS):
        shutil.copy(SHIPPED / name, tmp_path / name)
    return tmp_path


def _refusal(folder: Path) -> str:
    with pytest.raises(CatalogueError) as caught:
        TargetTable.load(folder)
    assert "\n" not in str(caught.value)
    assert str(folder) in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize("name", [NUMBERS, WORDS])
def test_a_missing_file_is_named(copy: Path, name: str) -> None:
    (copy / name).unlink()
    assert "it is missing" in _refusal(copy)
    assert name in _refusal(copy)


@pytest.mark.parametrize("name", [NUMBERS, WORDS])
@pytest.mark.parametrize("size", [0, 5, 100, 5_000, -10])
def test_a_file_cut_short_is_refused(copy: Path, name: str, size: int) -> None:
    content = (copy / name).read_bytes()
    (copy / name).write_bytes(content[:size])
    _refusal(copy)


@pytest.mark.parametrize(
    "content",
    [b"\x80\x04\x95pickled", b"\xff\xfe\xff", b"PK\3\4zip", b"{}\n", b"[1]\na\tb\tc\td\n"],
)
@pytest.mark.parametrize("name", [NUMBERS, WORDS])
def test_a_file_of_another_kind_is_refused(copy: Path, name: str, content: bytes) -> None:
    (copy / name).write_bytes(content)
    _refusal(copy)


def test_objects_in_an_array_are_not_unpickled(copy: Path) -> None:
    np.save(copy / NUMBERS, np.array([{"a": 1}], dtype=object), allow_pickle=True)
    assert "cannot be read" in _refusal(copy)


def test_another_layout_of_columns_is_refused(copy: Path) -> None:
    np.save(copy / NUMBERS, np.zeros(5, np.dtype([("ra_deg", "<f8")])))
    assert "not a deep-sky table of this version" in _refusal(copy)


def test_a_table_in_two_dimensions_is_refused(copy: Path) -> None:
    np.save(copy / NUMBERS, np.zeros((5, 5), FIELDS))
    assert "not a deep-sky table of this version" in _refusal(copy)


@pytest.mark.parametrize(
    ("field", "value"),
    [("ra_deg", 360.0), ("ra_deg", np.nan), ("dec_deg", -90.5), ("major_arcmin", 0.0),
     ("minor_arcmin", 9e9), ("kind_code", 99), ("status", 9), ("angle_status", 9), ("band", 9),
     ("source", 65535), ("pa_deg", 180.0), ("pa_deg", -1.0)],
)  # fmt: skip
def test_figures_that_cannot_be_are_refused(copy: Path, field: str, value: float) -> None:
    numbers = np.load(copy / NUMBERS)
    numbers[field][3] = value
    np.save(copy / NUMBERS, numbers)
    assert "figures that cannot be" in _refusal(copy)


def _without_a_line(text: str) -> str:
    return text[: text.rindex("\n", 0, -1) + 1]


def _without_a_tab(text: str) -> str:
    return text[:200_000] + text[200_000:].replace("\t", " ", 1)


@pytest.mark.parametrize(
    ("damage", "says"),
    [(_without_a_line, "objects where"), (_without_a_tab, "has not 4 fields"),
     (lambda text: "{}" + text[text.index("\n") :], "no list of sources"),
     (lambda text: "[1, 2]" + text[text.index("\n") :], "no list of sources")],
)  # fmt: skip
def test_damaged_words_are_refused(copy: Path, damage: Callable[[str], str], says: str) -> None:
    path = copy / WORDS
    path.write_text(damage(path.read_text(encoding="utf-8")), encoding="utf-8")
    assert says in _refusal(copy)


def test_a_file_far_too_large_is_refused_unread(copy: Path) -> None:
    with (copy / WORDS).open("r+b") as content:
        content.truncate(100_000_000)
    assert "too large" in _refusal(copy)


def test_a_folder_in_place_of_a_file_is_refused(copy: Path) -> None:
    (copy / NUMBERS).unlink()
    (copy / NUMBERS).mkdir()
    _refusal(copy)


def test_the_note_beside_the_files_has_their_checksums() -> None:
    import hashlib

    note = (SHIPPED / "targets.md").read_text(encoding="utf-8")
    for name in (NUMBERS, WORDS):
        assert hashlib.sha256((SHIPPED / name).read_bytes()).hexdigest() in note


def test_loading_brings_no_heavy_library() -> None:
    import subprocess
    import sys

    code = (
        "import sys; from core.catalogue.targets import TargetTable as T; T.load().find('M 31');"
        "print([m for m in ('astropy', 'scipy', 'matplotlib', 'PySide6') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
