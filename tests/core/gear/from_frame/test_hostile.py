"""Files that are no frames, or bad ones: one sentence each, whatever is in them."""

import gzip
import os
import struct
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import CoreError, StorageError, WorldError
from core.gear.from_frame import fits_cards, frame_file
from core.gear.from_frame.figures import FrameFigures
from core.gear.from_frame.frame_file import FrameError
from core.gear.from_frame.read import figures_of
from tests.core.gear.from_frame.frames import WHOLE, camera_picture, frame, raw_frame

SIMPLE = b"SIMPLE  =                    T".ljust(80)


def refusal(path: Path) -> str:
    with pytest.raises(FrameError) as caught:
        figures_of(path)
    return str(caught.value)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "x.fits is empty"),
        (b"S", "x.fits is cut off after 1 bytes"),
        (b"\xff\xd8", "x.fits is cut off after 2 bytes"),
        (b"Dear diary", "x.fits is no picture that can be read here: FITS, JPEG or TIFF"),
        (bytes(100), "x.fits is no picture that can be read here: FITS, JPEG or TIFF"),
        (SIMPLE, "x.fits is cut off within its FITS header"),
        (SIMPLE + bytes(2800), "x.fits is cut off within its FITS header"),
        (b"\xff\xd8\xff\xe0garbage", "x.fits is JPEG, but damaged or cut off"),
        (b"II*\x00\xff\xff\xff\x7f", "x.fits is TIFF, but damaged or cut off"),
        (gzip.compress(b"Dear diary"), "x.fits is no picture that can be read here"),
        (gzip.compress(b"\xff\xd8\xff\xe0" * 9), "x.fits is no picture that can be read here"),
        (gzip.compress(SIMPLE * 99)[:30], "x.fits is cut off in what is packed in it"),
        (b"\x1f\x8bnothing of that kind", "x.fits is packed by gzip, and damaged"),
    ],
)
def test_what_is_no_frame_gets_one_sentence(tmp_path: Path, content: bytes, sentence: str) -> None:
    path = tmp_path / "x.fits"
    path.write_bytes(content)
    assert refusal(path).startswith(sentence)


def test_what_is_no_file_gets_one_sentence(tmp_path: Path) -> None:
    assert refusal(tmp_path) == f"{tmp_path.name} is a folder, not a file"
    assert refusal(tmp_path / "none") == f"there is no file {tmp_path / 'none'}"
    assert refusal(tmp_path / "a\0b").endswith("a b is no name of a file")
    os.mkfifo(tmp_path / "pipe")
    assert refusal(tmp_path / "pipe") == "pipe is a device, not a file"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_frame_without_the_right_to_read_is_a_failure_of_the_world(tmp_path: Path) -> None:
    path = frame(tmp_path / "shut.fits", **WHOLE)
    path.chmod(0)
    with pytest.raises(StorageError, match=r"cannot read .*shut.fits: permission denied"):
        figures_of(path)


def test_a_disk_that_refuses_is_a_failure_of_the_world(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = frame(tmp_path / "light.fits", **WHOLE)

    def refused(*args: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refused)
    with pytest.raises(StorageError, match=r"cannot read .*light.fits: permission denied"):
        figures_of(path)


def test_fits_without_a_picture_is_told(tmp_path: Path) -> None:
    path = raw_frame(tmp_path / "x.fits")
    path.write_bytes(path.read_bytes().replace(b"NAXIS   =                    2",
                                               b"NAXIS   =                    0"))  # fmt: skip
    assert refusal(path) == "x.fits is FITS, but there is no picture in it"


@pytest.mark.parametrize("packed", [False, True])
def test_a_header_without_end_is_given_up(tmp_path: Path, packed: bool) -> None:
    path = tmp_path / "x.fits"
    content = SIMPLE + b"COMMENT for ever and ever".ljust(80) * 300_000
    path.write_bytes(gzip.compress(content) if packed else content)
    assert refusal(path) == "x.fits is FITS with a header that does not end"


def test_a_bomb_of_gzip_is_given_up_before_it_is_unpacked(tmp_path: Path) -> None:
    """A table of 64 MB before the picture, packed into 64 kB."""
    head = [b"SIMPLE  =                    T", b"BITPIX  =                    8",
            b"NAXIS   =                    1", b"NAXIS1  =             64000000",
            b"END"]  # fmt: skip
    path = tmp_path / "x.fits.gz"
    path.write_bytes(
        gzip.compress(b"".join(c.ljust(80) for c in head).ljust(2880) + bytes(64_000_000), 1)
    )
    tracemalloc.start()
    sentence = refusal(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert sentence == "x.fits.gz has no header within its first 16 MB"
    assert peak < 2 * frame_file.LARGEST_READ


def test_a_directory_of_tags_that_claims_too_much_is_given_up(tmp_path: Path) -> None:
    """A TIFF whose one tag points to 1 GB of bytes in a file that has them."""
    path = tmp_path / "x.tif"
    entry = struct.pack("<HHII", 0x010F, 2, 10**9, 100)
    with path.open("wb") as file:
        file.write(b"II*\x00" + struct.pack("<IH", 8, 1) + entry + bytes(4))
        file.truncate(10**9 + 100)
    tracemalloc.start()
    sentence = refusal(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert sentence.startswith("x.tif ")
    assert peak < 8 * frame_file.LARGEST_READ


def test_axes_of_any_size_are_counted_and_not_gone_through(tmp_path: Path) -> None:
    path = raw_frame(tmp_path / "x.fits")
    head = path.read_bytes()
    for number in (b"99999999999999999999", b"-1", b"0", b"'two'", b"1E9"):
        path.write_bytes(head.replace(b"NAXIS1  =                   40",
                                      b"NAXIS1  = " + number.rjust(20)))  # fmt: skip
        told(path)


def told(path: Path) -> FrameFigures | None:
    """Read what may be anything: figures, or one of the two families of failure."""
    failure = None
    try:
        figures = figures_of(path)
        if not figures.missing:
            figures.to_rig("it")
    except (CoreError, WorldError) as error:
        failure = str(error)
    if failure is not None:
        assert failure.isprintable()
        return None
    for figure in figures.figures:
        assert figure.value_words.isprintable()
    return figures


KEYWORDS = ("FOCALLEN", "APTDIA", "APTAREA", "FOCRATIO", "XPIXSZ", "YPIXSZ", "PIXSIZE1", "XBINNING",
            "INSTRUME", "BAYERPAT", "EXPTIME", "SET-TEMP", "SITELAT", "CTYPE1", "CTYPE2", "CUNIT1",
            "CD1_1", "CD2_2", "CDELT1", "CDELT2", "NAXIS", "NAXIS1", "ZIMAGE", "ZNAXIS", "PCOUNT",
            "BITPIX", "INHERIT", "CONTINUE", "CCDSUM", "GROUPS")  # fmt: skip
VALUES = st.one_of(
    st.text(st.characters(min_codepoint=32, max_codepoint=255), max_size=70),
    st.floats().map(lambda number: f"{number!r:>20}"),
    st.integers().map(lambda number: f"{number:>20}"),
    st.text("0123456789.,eE+-", max_size=12).map(lambda text: f"'{text}'"),
    st.sampled_from(["T", "F", "'RA---TAN'", "'DEC--TAN'", "(1.0, 2.0)", "'RGGB'", "''"]),
)
CARDS = st.lists(st.tuples(st.sampled_from(KEYWORDS), VALUES), max_size=25)


@given(cards=CARDS)
@settings(max_examples=150)
def test_whatever_cards_say_only_the_two_failures_come_out(
    tmp_path_factory: pytest.TempPathFactory, cards: list[tuple[str, str]]
) -> None:
    path = tmp_path_factory.getbasetemp() / "fuzz.fits"
    told(raw_frame(path, *(f"{word:8}= {worth}"[:80] for word, worth in cards)))


def test_frames_cut_or_changed_anywhere_give_only_the_two_failures(tmp_path: Path) -> None:
    whole = [frame(tmp_path / "a.fits", **WHOLE), frame(tmp_path / "b.fits.gz", **WHOLE)]
    tags = {0x920A: 135.0, 0x829D: 2.8, 0xA20E: 6500.0, 0xA210: 2, 0xA434: "glass" * 9}
    whole += [
        camera_picture(tmp_path / name, tags, **{"0x10f": "eye"}) for name in ("c.jpg", "d.tif")
    ]
    contents = [path.read_bytes() for path in whole]
    path = tmp_path / "spoilt"

    @given(
        content=st.sampled_from(contents),
        end=st.floats(0.0, 1.0),
        changes=st.lists(st.tuples(st.integers(0, 600), st.integers(0, 255)), max_size=8),
    )
    @settings(max_examples=300)
    def cut(content: bytes, end: float, changes: list[tuple[int, int]]) -> None:
        spoilt = bytearray(content)
        for place, byte in changes:
            spoilt[place % len(spoilt)] = byte
        path.write_bytes(spoilt[: int(len(spoilt) * end) if len(changes) % 2 else None])
        told(path)

    cut()


def test_a_header_of_very_many_cards_is_read_in_part(tmp_path: Path) -> None:
    """More cards that matter than are looked at; those before still count."""
    many = ["FOCALLEN= 400."] + ["FOCALLEN= 500."] * (fits_cards._MOST_CARDS + 9)
    figures = told(raw_frame(tmp_path / "x.fits", *many))
    assert figures is not None
    assert figures.remarks == ("FOCALLEN stands there twice with two values; the first counts",)
