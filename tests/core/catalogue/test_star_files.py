"""Star files that are missing, cut short or damaged are refused in one sentence."""

import hashlib
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from core.catalogue import star_format as fmt
from core.catalogue.stars import StarCatalogue
from core.errors import CatalogueError
from core.paths import ASSETS

SHIPPED = ASSETS / "catalogues"


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    for name in fmt.FILES:
        shutil.copy(SHIPPED / name, tmp_path / name)
    return tmp_path


def _refusal(folder: Path) -> str:
    with pytest.raises(CatalogueError) as caught:
        StarCatalogue.open(folder)
    assert "\n" not in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize("name", fmt.FILES)
def test_a_missing_file_is_named(copy: Path, name: str) -> None:
    (copy / name).unlink()
    assert f"lacks its file {copy / name}" in _refusal(copy)


def _cut_to(size: int) -> Callable[[bytes], bytes]:
    return lambda content: content[:size]


@pytest.mark.parametrize("name", fmt.FILES)
@pytest.mark.parametrize(
    "damage",
    [
        _cut_to(0),
        _cut_to(5),
        _cut_to(100),
        _cut_to(5_000),
        lambda content: content[:-1],
        lambda content: content + b"\0",
        lambda content: b"PK\3\4" + content[4:],
        lambda content: content[:8] + b"\xff" * 40 + content[48:],
        lambda content: content.replace(b"(", b"[", 1),
    ],
    ids=["empty", "magic", "header", "start", "last byte", "longer", "zip", "garbled", "no shape"],
)
def test_a_damaged_file_is_named(copy: Path, name: str, damage: Callable[[bytes], bytes]) -> None:
    (copy / name).write_bytes(damage((SHIPPED / name).read_bytes()))
    message = _refusal(copy)
    assert str(copy / name) in message
    assert "damaged" in message


@pytest.mark.parametrize("name", fmt.FILES)
def test_other_numbers_than_expected_are_named(copy: Path, name: str) -> None:
    array = np.load(SHIPPED / name)
    np.save(copy / name, array.astype(np.float32))
    assert str(copy / name) in _refusal(copy)
    assert "numbers of type" in _refusal(copy)
    np.save(copy / name, array.reshape(1, -1))
    assert "values where" in _refusal(copy)
    np.save(copy / name, np.array(array.flat[0]))
    assert "values where" in _refusal(copy)


def test_a_file_of_python_objects_is_not_unpacked(copy: Path) -> None:
    np.save(copy / fmt.PLACES_FILE, np.array([print], dtype=object), allow_pickle=True)
    assert "not a .npy file" in _refusal(copy)


def test_a_folder_in_the_place_of_a_file_is_named(copy: Path) -> None:
    (copy / fmt.CELLS_FILE).unlink()
    (copy / fmt.CELLS_FILE).mkdir()
    assert "cannot be read" in _refusal(copy)


@pytest.mark.parametrize("place", [0, 70_000, -1])
def test_an_index_that_does_not_fit_is_refused(copy: Path, place: int) -> None:
    cells = np.load(SHIPPED / fmt.CELLS_FILE)
    cells[place] += 1_000_000
    np.save(copy / fmt.CELLS_FILE, cells)
    assert "index does not fit" in _refusal(copy)


@pytest.mark.parametrize("number", [0, 4_000_000_000])
def test_star_numbers_out_of_order_are_refused(copy: Path, number: int) -> None:
    moving = np.load(SHIPPED / fmt.MOVING_FILE)
    moving[-1] = number
    np.save(copy / fmt.MOVING_FILE, moving)
    assert "out of order" in _refusal(copy)


def test_shipped_files_are_those_of_the_note() -> None:
    note = (SHIPPED / "stars.md").read_text(encoding="utf-8")
    for name in fmt.FILES:
        digest = hashlib.sha256((SHIPPED / name).read_bytes()).hexdigest()
        assert f"{digest}  {name}" in note


def test_opening_imports_no_heavy_library() -> None:
    code = (
        "import sys; from core.catalogue.stars import StarCatalogue; StarCatalogue.open();"
        "print([m for m in ('astropy', 'scipy', 'matplotlib', 'PySide6', 'pydantic')"
        " if m in sys.modules])"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=ASSETS.parent, capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "[]"
