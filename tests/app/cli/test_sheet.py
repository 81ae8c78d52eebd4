"""What `skysill sheet` writes and refuses."""

import csv
import json
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from core.gear.shelf.files import save_shelf
from core.plan.document import Plan
from core.plan.store import save_plan
from tests.app.cli.conftest import Command
from tests.app.cli.test_refusals import assert_refused
from tests.core.sheets.sheets import SHELF, plan_of, small_rig


@pytest.fixture
def plan_file(tmp_path: Path) -> str:
    """A plan of two rigs that share all but the camera, 2140 and 2340, without a target."""
    second = small_rig("second", camera=SHELF.cameras[1])
    save_plan(plan_of(small_rig("first"), second), tmp_path / "mine.json")
    return str(tmp_path / "mine.json")


@pytest.fixture
def shelf_file(tmp_path: Path) -> str:
    save_shelf(SHELF, tmp_path / "shelf.json")
    return str(tmp_path / "shelf.json")


def words_of(file: Path) -> list[str]:
    document = pdfium.PdfDocument(file.read_bytes())
    pages = [page.get_textpage().get_text_range().replace("\xa0", " ") for page in document]
    document.close()
    return pages


def test_the_name_says_as_what_it_is_written(command: Command, plan_file, tmp_path: Path) -> None:
    for name, start in (("a.PDF", b"%PDF-1."), ("a.html", b"<!DOCTYPE html>"), ("a.csv", b"\xef")):
        ran = command("sheet", "-o", str(tmp_path / name), "--plan", plan_file)
        assert (ran.status, ran.err) == (0, "")
        assert ran.out == f"{tmp_path / name} is written: 2 rigs.\n"
        assert (tmp_path / name).read_bytes().startswith(start)


def test_json_tells_what_is_on_the_sheet(command: Command, plan_file, tmp_path: Path) -> None:
    """By hand: 2140, 2340; the set buys the dear eye (1100) beside the first: 3240."""
    file = str(tmp_path / "a.csv")
    answer = json.loads(command("sheet", "-o", file, "--plan", plan_file, "--json").out)
    assert (answer["file"], answer["currency"], answer["set_price"]) == (file, "EUR", 3240.0)
    assert [(rig["name"], rig["price"], rig["parts"]) for rig in answer["rigs"]] == [
        ("first", 2140.0, 4),
        ("second", 2340.0, 4),
    ]


def test_only_the_rigs_named_are_on_it_in_their_order(command, plan_file, tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    ran = command("sheet", "second", "A", "-o", str(file), "--plan", plan_file)
    assert ran.status == 0
    with file.open(encoding="utf-8-sig", newline="") as opened:
        rigs = [row["rig"] for row in csv.DictReader(opened)]
    assert list(dict.fromkeys(rigs)) == ["second", "first", ""]


def test_a_target_is_framed_and_paper_is_chosen(command, plan_file, tmp_path: Path) -> None:
    file = tmp_path / "a.pdf"
    words = ("sheet", "first", "-o", str(file), "--plan", plan_file)
    assert command(*words).status == 0
    assert "camera's up" not in words_of(file)[0], "the plan has no target"
    ran = command(*words, "--target", "M 51", "--paper", "Letter")
    assert (ran.status, ran.err) == (0, "")
    assert "On Whirlpool Galaxy" in words_of(file)[0]
    assert "camera's up" in words_of(file)[0]
    document = pdfium.PdfDocument(file.read_bytes())
    assert document[0].get_size() == (612.0, 792.0)
    document.close()


def test_a_shelf_that_is_named_gives_swaps_and_rigs(
    command, plan_file, shelf_file, tmp_path: Path
) -> None:
    file = tmp_path / "a.html"
    ran = command("sheet", "B", "-o", str(file), "--plan", plan_file, "--shelf", shelf_file)
    assert (ran.status, ran.err) == (0, "")
    page = file.read_text("utf-8").replace("\xa0", " ")
    assert "in place of <bdi>dear eye</bdi>" in page
    assert "saves 200 €" in page


def refusals() -> dict[str, list[str]]:
    return {
        'rig sheet "a.doc": must be a file whose name ends in .pdf, .html or .csv': ["-o", "a.doc"],
        'rig sheet "pdf": must be a file': ["-o", "pdf"],
        'paper "a5": must be A4 or Letter': ["-o", "a.pdf", "--paper", "a5"],
        'rig "Z": is not in the plan, which has "first", "second"': ["Z", "-o", "a.pdf"],
        'no object is called "Kaboom 77"': ["-o", "a.pdf", "--target", "Kaboom 77"],
        "there is no file nowhere.json": ["-o", "a.pdf", "--shelf", "nowhere.json"],
        "Missing option '-o'": [],
    }


@pytest.mark.parametrize("sentence", refusals())
def test_bad_words_are_one_sentence_and_nothing_is_written(
    command: Command, plan_file, tmp_path: Path, monkeypatch, sentence: str
) -> None:
    monkeypatch.chdir(tmp_path)
    before = sorted(tmp_path.iterdir())
    assert_refused(command("sheet", *refusals()[sentence], "--plan", plan_file), sentence)
    assert sorted(tmp_path.iterdir()) == before


def test_a_plan_without_rigs_is_refused(command: Command, tmp_path: Path) -> None:
    save_plan(Plan(title="Empty"), tmp_path / "empty.json")
    words = ("sheet", "-o", str(tmp_path / "a.pdf"), "--plan", str(tmp_path / "empty.json"))
    assert_refused(command(*words), 'plan "Empty": has no rigs to put on a sheet')


def test_a_folder_that_is_not_there_is_told_before_the_work(command, plan_file, tmp_path) -> None:
    file = tmp_path / "no" / "a.pdf"
    sentence = f"cannot write {file}: there is no folder {file.parent}"
    assert_refused(command("sheet", "-o", str(file), "--plan", plan_file), sentence, 1)


def test_what_was_there_stays_when_the_disk_refuses(
    command: Command, plan_file, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.html"
    file.write_text("before", "utf-8")

    def full(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("core.record.record_file.os.fsync", full)
    ran = command("sheet", "-o", str(file), "--plan", plan_file)
    assert_refused(ran, f"cannot write {file}: no space left on device", 1)
    assert file.read_text("utf-8") == "before"
    assert [found.name for found in tmp_path.glob(".skysill*")] == []
