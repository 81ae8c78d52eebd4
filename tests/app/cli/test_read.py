"""``skysill read``: the figures of a frame, what is missing, and a rig for the plan."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.plan.store import demo_plan, load_plan, save_plan
from tests.app.cli.conftest import Command
from tests.app.cli.test_refusals import assert_refused
from tests.core.gear.from_frame.frames import WHOLE, frame

LACKING = {"FOCALLEN": 400.0, "INSTRUME": "eye [bold]"}


def answer(command: Command, *words: str) -> dict[str, Any]:
    ran = command("read", *words, "--json")
    assert (ran.status, ran.err) == (0, "")
    content: dict[str, Any] = json.loads(ran.out)
    return content


def test_table_shows_each_figure_with_its_keyword(command: Command, tmp_path: Path) -> None:
    ran = command("read", str(frame(tmp_path / "light.fits", **WHOLE)))
    assert ran.status == 0
    rows = [line.split() for line in ran.out.splitlines()]
    for row in (
        "focal length 400 mm FOCALLEN",
        "pixel pitch 3.76 µm XPIXSZ",
        "columns 40 px NAXIS1",
        "camera eye INSTRUME",
    ):
        assert row.split() in rows
    assert "80/400 with 40 × 30 px: 80/400 f/5 · 1.94″/px · " in ran.out


def test_json_has_figures_sources_and_the_rig_in_numbers(command: Command, tmp_path: Path) -> None:
    """1.938889 arcsec a pixel for 3.76 µm at 400 mm: the worked example of the scale."""
    told = answer(command, str(frame(tmp_path / "light.fits", **WHOLE)), "--name", "mine")
    assert told["figures"]["focal_length_mm"] == {
        "value": 400.0, "source": "FOCALLEN", "remark": "", "sure": True}  # fmt: skip
    assert (told["missing"], told["choices"], told["added_to"]) == ([], [], None)
    assert told["rig"]["scale_arcsec_px"] == pytest.approx(1.938889, rel=1e-6)
    assert told["rig"]["name"] == "mine"


def test_both_readings_of_a_binned_pixel_are_offered(command: Command, tmp_path: Path) -> None:
    path = str(frame(tmp_path / "light.fits", **{**WHOLE, "XBINNING": 2, "XPIXSZ": 7.52}))
    (choice,) = answer(command, path)["choices"]
    assert choice == {"figure": "pixel_um", "taken": "binned",
                      "readings": {"binned": 3.76, "plain": 7.52}}  # fmt: skip
    shown = " ".join(command("read", path).out.split())
    assert "? taken to count the binning of 2" in shown
    assert answer(command, path, "--pixel", "7,52")["rig"]["pixel_um"] == 7.52


def test_what_is_missing_is_said_with_the_options_that_give_it(
    command: Command, tmp_path: Path
) -> None:
    path = str(frame(tmp_path / "light.fits", **LACKING))
    ran = command("read", path)
    assert ran.status == 0
    assert "Not told: aperture, pixel pitch; give --aperture --pixel for a rig." in ran.out
    assert "eye [bold]" in ran.out, "brackets mean brackets"
    assert answer(command, path)["rig"] is None
    given = answer(command, path, "--aperture", "80", "--pixel", "3.76", "--pixels", "6248x4176")
    assert given["figures"]["columns"] == {
        "value": 6248, "source": "given", "remark": "", "sure": True}  # fmt: skip
    assert given["rig"]["width_deg"] == pytest.approx(3.364083115250293, rel=1e-12)


def test_odd_values_are_told_below_the_table(command: Command, tmp_path: Path) -> None:
    path = str(frame(tmp_path / "light.fits", **{**WHOLE, "APTDIA": "80,0", "EGAIN": -1.0}))
    out = command("read", path).out
    assert 'APTDIA is the text "80,0", read as 80.\n' in out
    assert "EGAIN is -1, not between " in out


def test_add_puts_the_rig_into_the_plan_named_and_says_so(command: Command, tmp_path: Path) -> None:
    plan = tmp_path / "plan.json"
    save_plan(demo_plan(), plan)
    path = str(frame(tmp_path / "light.fits", **WHOLE))
    ran = command("read", path, "--add", "--name", "new one", "--plan", str(plan))
    assert ran.status == 0
    assert ran.out.endswith(f'"new one" is added to {plan}.\n')
    after = load_plan(plan)
    assert after.rigs[:-1] == demo_plan().rigs
    assert (after.rigs[-1].rig.name, after.current_rig) == ("new one", "new one")
    assert after.rigs[-1].rig.focal_length_mm == 400.0
    told = answer(command, path, "--add", "--plan", str(plan))
    assert told["added_to"] == str(plan)
    assert len(load_plan(plan).rigs) == len(demo_plan().rigs) + 2


def test_add_without_a_plan_adds_to_the_plan_as_it_was_left(
    command: Command, home: Path, tmp_path: Path
) -> None:
    ran = command("read", str(frame(tmp_path / "light.fits", **WHOLE)), "--add", "--name", "n")
    assert '"n" is added to the plan as it was left; a window that is open does not' in ran.out
    assert load_plan(home / "data" / "open-plan.json").rigs[-1].id == "n"


def test_nothing_is_added_where_something_is_missing(command: Command, tmp_path: Path) -> None:
    plan = tmp_path / "plan.json"
    save_plan(demo_plan(), plan)
    before = plan.read_bytes()
    lacking = str(frame(tmp_path / "light.fits", **LACKING))
    assert_refused(
        command("read", lacking, "--add", "--plan", str(plan)),
        "light.fits does not tell the aperture and the pixel pitch that a rig needs; give that too",
    )
    assert plan.read_bytes() == before


def test_bad_input_gets_one_sentence(command: Command, tmp_path: Path) -> None:
    path = str(frame(tmp_path / "light.fits", **WHOLE))
    (tmp_path / "note.txt").write_text("Dear diary", "utf-8")
    for words, sentence in (
        ((str(tmp_path / "none.fits"),), f"there is no file {tmp_path / 'none.fits'}"),
        ((str(tmp_path),), f"{tmp_path.name} is a folder, not a file"),
        ((str(tmp_path / "note.txt"),), "note.txt is no picture that can be read here"),
        ((path, "--aperture", "wide"), 'aperture "wide": must be a number of mm'),
        ((path, "--aperture", "0"), 'aperture "0 mm": must lie between 0.1 and 50000 mm'),
        ((path, "--pixels", "12"), 'pixels "12": must be columns and rows'),
        ((path, "--name", ""), 'name "": must not be empty'),
        ((path, "--add", "--plan", str(tmp_path / "no.json")), "there is no file "),
        ((), "Missing argument 'FRAME'"),
    ):
        assert_refused(command("read", *words), sentence)
