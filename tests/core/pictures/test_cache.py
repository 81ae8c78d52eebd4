"""The folder of pictures: what goes in comes out, what is damaged never does."""

import json
import multiprocessing
import os
import tempfile
from pathlib import Path

import pytest

from core.errors import BadValueError
from core.pictures.cache import Asked, PictureCache
from core.pictures.picture import PictureFrame
from core.sky.tangent_plane import TangentPlane

BODY = bytes(range(256)) * 40


def asked(ra_deg=10.0, form="jpg", survey="CDS/P/DSS2/color", **more):
    frame = PictureFrame.of_width(TangentPlane(ra_deg, 20.0), 1.0, (300, 200), **more)
    return Asked(survey, frame, form)


def test_what_is_kept_comes_back_with_its_credit_and_date(tmp_path):
    cache = PictureCache(tmp_path / "made" / "when missing")
    assert cache.get(asked()) is None
    assert cache.put(asked(), BODY, "thanks to all")
    kept = cache.get(asked())
    assert (kept.body, kept.credit) == (BODY, "thanks to all")
    assert kept.date.endswith("Z")
    assert PictureCache(cache.folder).get(asked()).body == BODY


def test_note_tells_survey_projection_and_checksum(tmp_path):
    PictureCache(tmp_path).put(asked(), BODY, "thanks")
    note = json.loads(next(tmp_path.glob("*.json")).read_text())
    assert note["survey"] == "CDS/P/DSS2/color"
    assert note["projection"]["CTYPE1"] == "RA---TAN"
    assert (note["bytes"], len(note["sha256"]), note["credit"]) == (len(BODY), 64, "thanks")


DIFFERENT = [
    asked(10.0000001),
    asked(form="png"),
    asked(survey="CDS/P/DSS2/red"),
    asked(mirrored=True),
    asked(up_pa_deg=1e-6),
]


@pytest.mark.parametrize("other", DIFFERENT)
def test_anything_else_asked_is_another_picture(tmp_path, other):
    cache = PictureCache(tmp_path)
    cache.put(asked(), BODY, "thanks")
    assert cache.get(other) is None
    assert cache.get(asked()) is not None


def test_longest_unused_goes_first(tmp_path):
    one = len(BODY) + 2000
    cache = PictureCache(tmp_path, limit_bytes=3 * one)
    for number in range(3):
        cache.put(asked(float(number)), BODY, "thanks")
        note = cache.folder / f"{asked(float(number)).key}.json"
        os.utime(note, (1000.0 + number, 1000.0 + number))
    assert cache.get(asked(0.0)) is not None
    cache.put(asked(3.0), BODY, "thanks")
    assert [cache.get(asked(float(n))) is not None for n in range(4)] == [True, False, True, True]
    assert cache.size_bytes() <= 3 * one


def test_picture_larger_than_the_whole_limit_is_not_kept(tmp_path):
    cache = PictureCache(tmp_path, limit_bytes=1000)
    assert not cache.put(asked(), BODY, "thanks")
    assert cache.size_bytes() == 0


def _flip(path):
    body = bytearray(path.read_bytes())
    body[len(body) // 2] ^= 1
    path.write_bytes(body)


def _edit(name, value):
    def damage(folder):
        path = next(folder.glob("*.json"))
        path.write_text(json.dumps(json.loads(path.read_text()) | {name: value}))

    return damage


DAMAGE = {
    "one bit": lambda folder: _flip(next(folder.glob("*.picture"))),
    "cut": lambda folder: os.truncate(next(folder.glob("*.picture")), 100),
    "empty picture": lambda folder: os.truncate(next(folder.glob("*.picture")), 0),
    "picture gone": lambda folder: next(folder.glob("*.picture")).unlink(),
    "empty note": lambda folder: os.truncate(next(folder.glob("*.json")), 0),
    "half a note": lambda folder: os.truncate(next(folder.glob("*.json")), 200),
    "note is a list": lambda folder: next(folder.glob("*.json")).write_text("[]"),
    "note is deep": lambda folder: next(folder.glob("*.json")).write_text("[" * 60000),
    "note is no text": lambda folder: next(folder.glob("*.json")).write_bytes(b"\xff\xfe\x00"),
    "another survey": _edit("survey", "CDS/P/DSS2/red"),
    "another place": _edit("projection", {"CRVAL1": 0.0}),
    "later version": _edit("version", 2),
    "checksum is a path": _edit("sha256", "../../../../etc/passwd"),
    "checksum is a number": _edit("sha256", 7),
    "credit is a number": _edit("credit", 7),
}


@pytest.mark.parametrize("name", DAMAGE)
def test_damaged_entry_is_dropped_and_the_place_is_free_again(tmp_path, name):
    cache = PictureCache(tmp_path)
    cache.put(asked(), BODY, "thanks")
    DAMAGE[name](tmp_path)
    assert cache.get(asked()) is None
    assert list(tmp_path.iterdir()) == []
    assert cache.put(asked(), BODY, "thanks")
    assert cache.get(asked()).body == BODY


def test_second_answer_replaces_the_first(tmp_path):
    cache = PictureCache(tmp_path)
    cache.put(asked(), BODY, "first")
    cache.put(asked(), BODY[::-1], "second")
    kept = cache.get(asked())
    assert (kept.body, kept.credit) == (BODY[::-1], "second")


def test_leftovers_of_a_crash_are_swept_when_old(tmp_path):
    cache = PictureCache(tmp_path)
    old, new = tmp_path / "new-old.part", tmp_path / "new-fresh.part"
    for path in (old, new):
        path.write_bytes(b"half")
    os.utime(old, (1000.0, 1000.0))
    foreign = tmp_path / "notes.txt"
    foreign.write_text("not ours")
    os.utime(foreign, (1000.0, 1000.0))
    cache.put(asked(), BODY, "thanks")
    assert not old.exists()
    assert new.exists()
    assert foreign.exists()


def test_folder_that_is_a_file_makes_every_picture_a_miss(tmp_path):
    place = tmp_path / "file"
    place.write_text("in the way")
    cache = PictureCache(place)
    assert not cache.put(asked(), BODY, "thanks")
    assert cache.get(asked()) is None
    assert cache.size_bytes() == 0
    assert place.read_text() == "in the way"


def test_disk_that_is_full_leaves_no_half_picture(tmp_path, monkeypatch):
    def full(_):
        raise OSError(28, "No space left on device")

    cache = PictureCache(tmp_path)
    monkeypatch.setattr(os, "fsync", full)
    assert not cache.put(asked(), BODY, "thanks")
    assert cache.get(asked()) is None
    assert list(tmp_path.iterdir()) == []


def test_folder_that_may_not_be_written_still_serves_what_it_holds(tmp_path, monkeypatch):
    def forbidden(*_, **__):
        raise PermissionError(13, "Permission denied")

    cache = PictureCache(tmp_path)
    cache.put(asked(), BODY, "thanks")
    for name in ("utime", "replace", "unlink"):
        monkeypatch.setattr(os, name, forbidden)
    monkeypatch.setattr(tempfile, "mkstemp", forbidden)
    assert not cache.put(asked(11.0), BODY, "thanks")
    assert cache.get(asked(11.0)) is None
    assert cache.get(asked()).body == BODY


def test_folder_that_may_not_be_read_is_a_miss(tmp_path, monkeypatch):
    def forbidden(*_, **__):
        raise PermissionError(13, "Permission denied")

    cache = PictureCache(tmp_path)
    cache.put(asked(), BODY, "thanks")
    for name in ("open", "iterdir"):
        monkeypatch.setattr(Path, name, forbidden)
    assert cache.get(asked()) is None
    assert cache.size_bytes() == 0


def _work(folder, seed):
    """Write and read in turns; a wrong picture ends the process with an error."""
    cache = PictureCache(folder, limit_bytes=6 * (len(BODY) + 2000))
    for step in range(40):
        number = (seed + step) % 10
        wanted = asked(float(number))
        cache.put(wanted, bytes([number]) * len(BODY), str(number))
        kept = cache.get(asked(float((number + 3) % 10)))
        if kept is not None and kept.body != bytes([(number + 3) % 10]) * len(BODY):
            os._exit(9)


def test_two_programs_may_use_one_folder(tmp_path):
    context = multiprocessing.get_context("spawn")
    programs = [context.Process(target=_work, args=(tmp_path, seed)) for seed in (0, 5)]
    for program in programs:
        program.start()
    for program in programs:
        program.join(60)
    assert [program.exitcode for program in programs] == [0, 0]
    cache = PictureCache(tmp_path, limit_bytes=6 * (len(BODY) + 2000))
    kept = [cache.get(asked(float(number))) for number in range(10)]
    assert any(kept)
    for number, entry in enumerate(kept):
        assert entry is None or entry.body == bytes([number]) * len(BODY)


def test_negative_limit_is_refused(tmp_path):
    with pytest.raises(BadValueError, match="cache size"):
        PictureCache(tmp_path, limit_bytes=-1)
