"""Files that are no shelf: cut at every byte, in another encoding, too deep, too large."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import CoreError
from core.gear.shelf.files import RigFile, load_gear
from core.gear.shelf.shelf import Shelf
from core.record.record_file import LARGEST_BYTES, record_of
from tests.core.gear.refused import refusal

HEAD: dict[str, Any] = {"format": "skysill-shelf", "version": 1, "currency": "EUR"}
CAMERA = {"name": "a", "columns": 60, "rows": 40, "pixel_um": 3.76, "note": "für µm",
          "price": 1.5e3, "alternatives": ["b"], "cooled": True}  # fmt: skip
SMALL = json.dumps({**HEAD, "cameras": [CAMERA]}, indent=1, ensure_ascii=False).encode()


def test_a_small_shelf_cut_at_every_byte_is_refused_and_whole_it_is_read() -> None:
    record_of(SMALL, "mine.json", (Shelf,), refused_as=CoreError)
    for length in range(len(SMALL)):
        words = refusal(SMALL[:length])
        told = ("mine.json is empty", "mine.json is cut off: it ends at line ",
                "mine.json is not text in UTF-8 (at line ")  # fmt: skip
        assert words.startswith(told), (length, words)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-32", "latin-1", "cp500"])
def test_another_encoding_than_utf_8_is_refused(encoding: str) -> None:
    assert "is not " in refusal(SMALL.decode().encode(encoding))


@pytest.mark.parametrize(
    "data", [b'{"a":' * 50_000, b"[" * 50_000, b'{"format": ' + b"[" * 5000 + b"]" * 5000 + b"}"]
)
def test_deep_nesting_is_refused(data: bytes) -> None:
    assert "is nested too deeply" in refusal(data)


def test_nesting_that_json_allows_is_still_no_shelf() -> None:
    deep: Any = 1
    for _ in range(100):
        deep = [deep]
    assert refusal({**HEAD, "mounts": deep}).startswith("mine.json: mount 1 ")


def test_a_file_that_is_too_large_is_refused_before_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "mine.json"
    with path.open("wb") as file:
        file.truncate(LARGEST_BYTES + 1)
    with pytest.raises(CoreError, match=r"^mine\.json is 17 MB large; at most 16 MB are read$"):
        load_gear(path)


@settings(max_examples=150)
@given(
    place=st.integers(0, len(SMALL) - 1),
    size=st.integers(0, 3),
    put=st.one_of(st.binary(max_size=4), st.sampled_from([b'"', b"{", b"}", b",", b"0", b"\\"])),
)
def test_whatever_happens_to_a_file_it_is_read_or_refused_in_one_line(
    place: int, size: int, put: bytes
) -> None:
    data = SMALL[:place] + put + SMALL[place + size :]
    words = ""
    try:
        record_of(data, "mine.json", (Shelf, RigFile), refused_as=CoreError)
    except CoreError as error:
        words = str(error)
    assert words.isprintable()
