"""Plans as files: what is written comes back, and a save that fails loses nothing."""

import errno
import json
import os
import stat
from pathlib import Path

import pytest
from hypothesis import given, settings

from core.errors import PlanFileError, StorageError
from core.plan.document import Plan
from core.plan.store import demo_plan, load_plan, save_plan, set_aside
from core.record import record_file
from tests.core.plan.plans import plans, small_plan


@given(plan=plans())
@settings(max_examples=60)
def test_what_is_saved_comes_back_equal(
    plan: Plan, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.getbasetemp() / "round.json"
    save_plan(plan, path)
    assert load_plan(path) == plan


def test_a_saved_plan_is_readable_text_and_stays_the_same_when_saved_again(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    save_plan(small_plan(), path)
    first = path.read_bytes()
    save_plan(load_plan(path), path)
    assert path.read_bytes() == first
    assert json.loads(first)["title"] == "Two nights"
    assert len(first.splitlines()) > 50


def test_a_file_from_before_there_were_nights_opens_with_usual_ones(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    save_plan(small_plan(), path)
    content = json.loads(path.read_bytes())
    assert content.pop("nights")["polar_error_arcmin"] == 5.0
    path.write_text(json.dumps(content), encoding="utf-8")
    assert load_plan(path) == small_plan()


def test_a_plan_that_could_not_be_read_again_is_not_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, large = tmp_path / "plan.json", demo_plan()
    save_plan(small_plan(), path)
    monkeypatch.setattr(record_file, "LARGEST_BYTES", 8192)
    with pytest.raises(PlanFileError, match=r"plan\.json would be larger than"):
        save_plan(large, path)
    assert load_plan(path) == small_plan()


def test_saving_replaces_neither_a_folder_nor_a_device(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(StorageError, match="it is a device, not a file"):
        save_plan(small_plan(), pipe)
    assert stat.S_ISFIFO(pipe.stat().st_mode)
    with pytest.raises(StorageError, match="it is a folder, not a file"):
        save_plan(small_plan(), tmp_path)
    with pytest.raises(StorageError, match="no such file or directory"):
        save_plan(small_plan(), tmp_path / "nowhere" / "plan.json")


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_disk_that_is_full_leaves_the_old_plan_and_no_litter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = tmp_path / "plan.json"
    save_plan(small_plan(), path)

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, step, full)
    with pytest.raises(StorageError, match=r"^cannot write .*plan\.json: no space left on device$"):
        save_plan(demo_plan(), path)
    monkeypatch.undo()
    assert load_plan(path) == small_plan()
    assert os.listdir(tmp_path) == ["plan.json"]


def test_the_new_content_is_on_the_disk_before_it_takes_the_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    order: list[str] = []
    fsync, replace = os.fsync, os.replace

    def sync(handle: int) -> None:
        order.append("fsync folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "fsync file")
        fsync(handle)

    def take(source: Path, name: Path) -> None:
        order.append("replace")
        assert Path(source).parent == Path(name).parent
        replace(source, name)

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(os, "replace", take)
    save_plan(small_plan(), tmp_path / "plan.json")
    assert order == ["fsync file", "replace", "fsync folder"]


def test_a_link_is_followed_and_rights_are_kept(tmp_path: Path) -> None:
    real, link = tmp_path / "real.json", tmp_path / "link.json"
    save_plan(small_plan(), real)
    real.chmod(0o640)
    link.symlink_to(real)
    save_plan(demo_plan(), link)
    assert link.is_symlink()
    assert load_plan(real) == demo_plan()
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_leftovers_of_long_ago_are_cleared_and_fresh_ones_kept(tmp_path: Path) -> None:
    old, fresh = tmp_path / ".skysill-00.part", tmp_path / ".skysill-11.part"
    for part in (old, fresh):
        part.write_bytes(b"half")
    os.utime(old, (1.0, 1.0))
    save_plan(small_plan(), tmp_path / "plan.json")
    assert not old.exists()
    assert fresh.exists()


def test_a_damaged_file_is_set_aside_under_the_first_free_number(tmp_path: Path) -> None:
    path = tmp_path / "last.json"
    kept = []
    for number in (1, 2, 3):
        path.write_bytes(b"damage %d" % number)
        kept.append(set_aside(path))
        assert not path.exists()
    assert [aside.name for aside in kept] == [f"last.damaged-{n}.json" for n in (1, 2, 3)]
    assert [aside.read_bytes() for aside in kept] == [b"damage 1", b"damage 2", b"damage 3"]
    with pytest.raises(StorageError, match=r"^cannot rename .*last\.json: No such file"):
        set_aside(path)
