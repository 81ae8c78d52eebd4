"""Every kind of bad input: one line on standard error, a status, nothing lost."""

import json
import os
from pathlib import Path

import pytest

from app.cli import frame as frame_command
from core.errors import CatalogueError
from core.plan.store import demo_plan, save_plan
from tests.app.cli.conftest import Command, Ran

NUMBERS = {"--focal-length": "400", "--aperture": "80", "--pixel": "3.76", "--pixels": "6248x4176"}


def numbers(**changes: str | None) -> list[str]:
    options = NUMBERS | {f"--{name.replace('_', '-')}": value for name, value in changes.items()}
    return [word for option, value in options.items() if value for word in (option, value)]


REFUSED = {
    'target "": is empty; type a name ("M 31") or "RA Dec"': ["frame", ""],
    'no object is called "Kaboom 77"': ["frame", "Kaboom 77"],
    'right ascension "25h": must lie between 0h and 24h': ["frame", "25h +10"],
    'declination "91": must lie between -90 and +90 degrees': ["frame", "10 91"],
    'focal length "-400 mm": must be at least 1 mm': numbers(focal_length="-400"),
    'focal length "abc": must be a number of mm': numbers(focal_length="abc"),
    'focal length "nan mm": must be a finite number': numbers(focal_length="nan"),
    'columns "0": must be at least 1': numbers(pixels="0x4176"),
    'rows "-3": must be at least 1': numbers(pixels="100x-3"),
    'pixels "6248": must be columns and rows, like "6248x4176"': numbers(pixels="6248"),
    "a rig in numbers needs --aperture too": numbers(aperture=None),
    "a rig in numbers needs --aperture and --pixels too": numbers(aperture=None, pixels=None),
    'factor "x": must be a number': numbers(factor="x"),
    'camera angle "up": is not an angle; write it in degrees, as "35.5" or "35 30"': [
        *("frame", "M 31", "--pa", "up")
    ],
    'centre, declination "91": must lie between -90 and +90 degrees': [
        *("frame", "M 31", "--centre", "10 91")
    ],
    'rig "Z9": is not in the plan, which has ': ["frame", "M 31", "--rig", "Z9"],
    "No such option: --colour": ["frame", "M 31", "--colour", "red"],
    "Option '--pa' requires an argument": ["frame", "M 31", "--pa"],
    "Missing argument 'TARGET'": ["frame"],
    "No such command 'faint'": ["faint"],
    'picture "sky.jpg": must be a file whose name ends in ".png"': [
        *("frame", "M 31", "--picture", "sky.jpg")
    ],
}


def assert_refused(ran: Ran, sentence: str, status: int = 2) -> None:
    assert ran.status == status
    assert ran.out == "", "nothing half-done on standard output"
    assert ran.err.startswith(f"skysill: {sentence}"), ran.err
    assert ran.err.count("\n") == 1
    assert "Traceback" not in ran.err


@pytest.mark.parametrize("sentence", REFUSED)
def test_bad_input_gets_one_sentence_and_status_2(command: Command, sentence: str) -> None:
    words = REFUSED[sentence]
    ran = command(*(words if words[0] in ("frame", "faint") else ["frame", "M 31", *words]))
    assert_refused(ran, sentence)


def test_near_misses_are_offered_for_a_name_close_to_several(command: Command) -> None:
    ran = command("frame", "NGC 70000")
    assert_refused(ran, 'no object is called "NGC 70000"; did you mean NGC 7')


def bad_plans(folder: Path) -> dict[str, Path]:
    """Make plan files, each wrong in its way; the key begins the sentence."""
    whole = folder / "whole.json"
    save_plan(demo_plan(), whole)
    text = whole.read_text("utf-8")
    made = {
        "cut.json is cut off: it ends at line ": ("cut.json", text[: len(text) // 2]),
        "later.json was made by a later version (7); this program reads up to 1": (
            *("later.json", json.dumps(json.loads(text) | {"version": 7})),
        ),
        "prose.json is not JSON: ": ("prose.json", "Dear diary, the sky was clear."),
        "other.json is JSON of another kind": ("other.json", '{"format": "shopping"}'),
        'wrong.json: rigs "12": must be a list': (
            *("wrong.json", json.dumps(json.loads(text) | {"rigs": 12})),
        ),
    }
    for name, content in made.values():
        (folder / name).write_text(content, "utf-8")
    huge = folder / "huge.json"
    with huge.open("wb") as file:
        file.truncate(200 * 1024**2)
    return {sentence: folder / name for sentence, (name, _) in made.items()} | {
        "huge.json is 200 MB large; at most 16 MB are read": huge,
        f"there is no file {folder / 'missing.json'}": folder / "missing.json",
        f"{folder.name} is a folder, not a file": folder,
    }


def test_a_plan_that_cannot_be_read_gets_one_sentence_and_stays_as_it_was(
    command: Command, tmp_path: Path
) -> None:
    plans = bad_plans(tmp_path)
    assert len(plans) == 8
    for sentence, path in plans.items():
        before = path.stat() if path.exists() else None
        assert_refused(command("frame", "M 31", "--plan", str(path)), sentence)
        after = path.stat() if path.exists() else None
        assert (before and (before.st_size, before.st_mtime_ns)) == (
            after and (after.st_size, after.st_mtime_ns)
        )


def test_a_damaged_plan_as_it_was_left_is_told_and_not_touched(
    command: Command, home: Path
) -> None:
    (home / "data").mkdir(parents=True)
    left = home / "data" / "open-plan.json"
    left.write_text("{", "utf-8")
    assert_refused(command("frame", "M 31"), "the plan as it was left: open-plan.json is cut off")
    assert left.read_text("utf-8") == "{"


def test_a_failing_world_gives_status_1(
    command: Command, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    ran = command("frame", "M 31", "--picture", str(tmp_path / "no" / "sky.png"))
    assert_refused(ran, f"cannot write {tmp_path}/no/sky.png: there is no folder", status=1)

    def damaged(asked: object) -> None:
        raise CatalogueError("the targets are damaged")

    monkeypatch.setattr(frame_command, "asked_frames", damaged)
    assert_refused(command("frame", "M 31"), "the targets are damaged", status=1)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_plan_without_the_right_to_read_gives_status_1(command: Command, tmp_path: Path) -> None:
    plan = tmp_path / "shut.json"
    save_plan(demo_plan(), plan)
    plan.chmod(0)
    ran = command("frame", "M 31", "--plan", str(plan))
    assert_refused(ran, f"cannot read {plan}: permission denied", status=1)


def test_breaking_off_says_so(command: Command, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken_off(asked: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(frame_command, "asked_frames", broken_off)
    assert_refused(command("frame", "M 31"), "broken off", status=1)


def test_a_mistake_of_the_program_goes_to_the_log_and_not_to_the_screen(
    command: Command, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def wrong(asked: object) -> None:
        raise RuntimeError("a bug")

    monkeypatch.setattr(frame_command, "asked_frames", wrong)
    ran = command("frame", "M 31")
    log = home / "data" / "skysill.log"
    assert_refused(ran, f"a mistake of the program (RuntimeError), written to {log}", status=1)
    assert "a bug" in log.read_text("utf-8")
    assert "Traceback" in log.read_text("utf-8")
