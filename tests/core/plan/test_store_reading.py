"""Plans that cannot be read: each is refused in one sentence, and left as it is."""

import errno
import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.errors import PlanFileError, StorageError
from core.paths import ASSETS
from core.plan.store import demo_plan, load_plan, save_plan
from core.record.record_file import LARGEST_BYTES
from tests.core.plan.plans import small_plan

DEMO = (ASSETS / "demo" / "plan.json").read_bytes()


def refused(path: Path) -> str:
    """Give the sentence a file is refused with."""
    with pytest.raises(PlanFileError) as caught:
        load_plan(path)
    message = str(caught.value)
    assert "\n" not in message
    assert path.name in message
    return message


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "is empty"),
        (b" \n ", "is empty"),
        (DEMO[:5000], "is cut off: it ends at line"),
        (DEMO[:-3], "is cut off: it ends at line"),
        (DEMO[:40], "is cut off: it ends at line 3"),
        (DEMO + b"x", "is not JSON: trailing characters at line"),
        (b"<html></html>", "is not JSON: .* at line 1 column 1"),
        (bytes(range(256)) * 20, "is not JSON"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 500, "is not JSON"),
        ('{"format": "skysill-plan"}'.encode("utf-16"), "is not JSON"),
        ('{"format": "é"}'.encode("latin-1"), "is not text in UTF-8"),
        (b'{"a":' * 100_000, "is nested too deeply"),
        (b"[" * 100_000, "is nested too deeply"),
        (b"[1, 2]", "is JSON, but not an object"),
        (b"null", "is JSON, but not an object"),
        (b"{}", 'its format is not "skysill-plan"'),
        (b'{"format": "skysill-shelf"}', 'its format is not "skysill-plan"'),
        (DEMO.replace(b'"version": 1', b'"version": 3'), r"later version \(3\).* reads up to 1"),
        (
            DEMO.replace(b'"version": 1', b'"version": 1' + b"0" * 400),
            "later version; this program",
        ),
        (DEMO.replace(b'"version": 1', b'"version": true'), "has no version that is known"),
        (DEMO.replace(b'"version": 1', b'"version": 0'), "has no version that is known"),
        (DEMO.replace(b"41.269056", b"NaN"), "is not JSON: .* at line"),
        (DEMO.replace(b"41.269056", b"-Infinity"), "is not JSON: .* at line"),
        (DEMO.replace(b"41.269056", b"1e999"), "declination .* must be a finite number"),
        (DEMO.replace(b"41.269056", b"41,269056"), "is not JSON: .* at line"),
        (DEMO.replace(b"41.269056", b"9" * 400), "declination .*must be"),
        (DEMO.replace(b"North", b"\\ud800"), "is not JSON: .* at line"),
    ],
)
def test_a_file_that_is_no_plan_is_refused_in_one_sentence_and_left_alone(
    tmp_path: Path, data: bytes, message: str
) -> None:
    path = tmp_path / "night.json"
    path.write_bytes(data)
    with pytest.raises(PlanFileError, match=f"^night.json.*{message}"):
        load_plan(path)
    refused(path)
    assert path.read_bytes() == data


def test_the_demo_really_contains_what_the_table_above_spoils() -> None:
    for needle in (b'"version": 1', b"41.269056", b"North"):
        assert needle in DEMO


@pytest.mark.parametrize(
    ("spoil", "message"),
    [
        (lambda p: p["framings"][1].update(rig="Nobody"), 'framing 2, rig "Nobody": names no rig'),
        (lambda p: p["rigs"].append(p["rigs"][0]), 'rigs, id "Wide loan kit": .*only once'),
        (lambda p: p["targets"].append(p["targets"][0]), 'targets, id "NGC 7000": .*only once'),
        (lambda p: p["targets"][0].update(dec_deg=95), r'target 1, declination "95 degrees": must'),
        (lambda p: p["targets"][0].pop("ra_deg"), "target 1, right ascension .*is needed here"),
        (lambda p: p["targets"][2].update(kind="blob"), 'target 3, kind "blob": must be one of'),
        (
            lambda p: p["rigs"][2]["rig"]["telescope"].update(aperture_mm=-80),
            r'rig 3, telescope, aperture "-80 mm": must be at least 0.1 mm',
        ),
        (
            lambda p: p["rigs"][2]["rig"]["telescope"].update(aperture_mm=8000),
            "rig 3, telescope, focal ratio .*must lie between",
        ),
        (
            lambda p: p["rigs"][1]["rig"]["others"][2].update(mass_kg="4,6"),
            'rig 2, other part 3, mass "4,6": must be a number',
        ),
        (lambda p: p["view"].update(zoom=2), 'view, zoom "2": is not a field that belongs here'),
        (lambda p: p["view"].update(labels=["ufo"]), 'view, labels "ufo": must be one of'),
        (lambda p: p.update(rigs=None), 'rigs "nothing": must be a list'),
        (lambda p: p["rigs"].__setitem__(0, 7), 'rig 1 "7": must be an object'),
        (lambda p: p.update(current_rig="x"), 'current rig "x": names no rig'),
        (lambda p: p.update({"q" * 100_000: 1}), "q{80} .*is not a field that belongs here"),
        (lambda p: p.update(title="x" * 100_000), "title .*at most 120 characters"),
    ],
)
def test_a_wrong_field_is_named_by_its_place_with_value_and_rule(
    tmp_path: Path, spoil: Callable[[dict[str, Any]], object], message: str
) -> None:
    content = json.loads(DEMO)
    spoil(content)
    path = tmp_path / "night.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    with pytest.raises(PlanFileError, match=f"^night.json: {message}"):
        load_plan(path)
    assert len(refused(path)) < 400


@pytest.mark.parametrize(
    ("size", "told"), [(LARGEST_BYTES + 1, "17 MB"), (200 * 1024**2, "200 MB")]
)
def test_a_file_above_16_mb_is_refused_before_it_is_opened(
    tmp_path: Path, size: int, told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "huge.json"
    with path.open("wb") as file:
        file.truncate(size)

    def opened(*_: object, **__: object) -> None:
        raise AssertionError("the file was opened")

    monkeypatch.setattr(Path, "open", opened)
    message = refused(path)
    assert f"{told} large; at most 16 MB" in message


def test_a_byte_order_mark_does_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    path.write_bytes(b"\xef\xbb\xbf" + DEMO)
    assert load_plan(path) == demo_plan()


def test_what_is_missing_or_no_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(PlanFileError, match=r"^there is no file .*none\.json$"):
        load_plan(tmp_path / "none.json")
    with pytest.raises(PlanFileError, match="is a folder, not a file"):
        load_plan(tmp_path)
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(PlanFileError, match="pipe is a device, not a file"):
        load_plan(pipe)
    with pytest.raises(StorageError, match="not a directory"):
        load_plan(__file__ + "/plan.json")
    with pytest.raises(StorageError, match="null"):
        load_plan(tmp_path / "a\0b.json")


def test_a_refusal_of_the_system_is_the_worlds_failure(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "plan.json"
    save_plan(small_plan(), path)

    def deny(*_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(Path, "open", deny)
    with pytest.raises(StorageError, match=r"^cannot read .*plan\.json: permission denied$"):
        load_plan(path)
