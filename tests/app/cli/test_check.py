"""``skysill check``: fields, order, shelf and refusals."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.gear.checks.finding import SEVERITIES
from core.paths import ASSETS
from core.plan.store import demo_plan, save_plan
from tests.app.cli.conftest import Command

FIELDS = [
    "rig",
    "focal_length_mm",
    "focal_ratio",
    "scale_arcsec_px",
    "mass_kg",
    "load_fraction",
    "back_focus",
    "image_circle_fraction",
    "price",
    "findings",
]
FINDING = ["rule", "severity", "message", "value", "limit", "unit", "source"]


def answer_of(command: Command, *words: str) -> dict[str, Any]:
    ran = command("check", *words, "--json")
    assert (ran.status, ran.err) == (0, "")
    answer = json.loads(ran.out)
    assert isinstance(answer, dict)
    return answer


def shelf_with(tmp_path: Path, **changes: object) -> str:
    """Write the program's shelf with another figure for the short adapter."""
    content = json.loads((ASSETS / "shelf" / "shelf.json").read_bytes())
    (adapter,) = (p for p in content["others"] if p["name"] == "adapter M48 to M42, 18.5 mm")
    adapter.update(changes)
    content["rigs"] = []  # they would go on naming the adapter
    path = tmp_path / "mine.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    return str(path)


def test_the_fields_are_those_that_are_promised(command: Command) -> None:
    answer = answer_of(command, "Evening rig")
    assert list(answer) == FIELDS
    assert list(answer["back_focus"]) == ["required_mm", "present_mm", "missing_mm"]
    assert all(list(found) == FINDING for found in answer["findings"])
    order = [SEVERITIES.index(found["severity"]) for found in answer["findings"]]
    assert order == sorted(order)


def test_the_evening_rig_is_as_a_sum_by_hand_has_it(command: Command) -> None:
    """Back focus 55 + twice 2 mm of index 1.52 (2 x 0.684211); 18.5 + 20 + 17.5 = 56.0.

    Mass 3.2 + 0.32 + 0.65 + 0.05 + 0.86 + 0.31 + 0.14 + 0.31 = 5.84 kg, on 15 rated.
    """
    answer = answer_of(command, "evening RIG")
    assert answer["back_focus"]["required_mm"] == pytest.approx(56.368421, abs=1e-6)
    assert answer["back_focus"]["present_mm"] == pytest.approx(56.0)
    assert answer["back_focus"]["missing_mm"] == pytest.approx(0.368421, abs=1e-6)
    assert answer["mass_kg"] == pytest.approx(5.84)
    assert answer["load_fraction"] == pytest.approx(5.84 / 15)
    assert answer["image_circle_fraction"] == 1.0


def test_what_is_not_known_is_null_and_asked_for(command: Command, tmp_path: Path) -> None:
    plan = demo_plan()
    (evening,) = (planned for planned in plan.rigs if planned.id == "Evening rig")
    camera = evening.rig.camera.but(flange_mm=None)
    rigs = (evening.but(rig=evening.rig.but(camera=camera)),)
    file = tmp_path / "plan.json"
    save_plan(plan.but(rigs=rigs, current_rig=None, framings=()), file)
    answer = answer_of(command, "A", "--plan", str(file))
    assert answer["back_focus"]["missing_mm"] is None
    (found,) = (f for f in answer["findings"] if f["rule"] == "back-focus")
    assert (found["severity"], found["value"]) == ("unknown", None)
    assert "give the flange distance of" in found["message"]


def test_the_figures_of_another_shelf_count(command: Command, tmp_path: Path) -> None:
    longer = shelf_with(tmp_path, length_mm=22.0)
    answer = answer_of(command, "Evening rig", "--shelf", longer)
    assert answer["back_focus"]["missing_mm"] == pytest.approx(-3.131579, abs=1e-6)
    assert answer["findings"][0]["rule"] == "back-focus"
    assert answer["findings"][0]["severity"] == "stop"
    renamed = shelf_with(tmp_path, name="something else", length_mm=22.0)
    kept = answer_of(command, "Evening rig", "--shelf", renamed)
    assert kept["back_focus"]["missing_mm"] == pytest.approx(0.368421, abs=1e-6)


def test_a_person_reads_a_table_with_word_and_mark_and_every_sentence(command: Command) -> None:
    ran = command("check", "Nebula bench")
    lines = ran.out.splitlines()
    assert lines[0].startswith("Nebula bench · 90/500 f/5.56 · 1.55″/px · 7.13 kg on the mount")
    marks = [line.split()[:2] for line in lines if line.strip()[:1] in ("✕", "▲", "?", "·", "✓")]
    assert marks[0] == ["▲", "caution"]
    assert marks[-1] == ["✓", "good"]
    assert lines[-1] == "This rig works, with care."
    words = " ".join(ran.out.split())
    for found in answer_of(command, "Nebula bench")["findings"]:
        assert found["message"] in words


def test_a_rig_of_ones_own_shelf_needs_no_path(command: Command) -> None:
    parts = ("refractor 72/430", "APS-C 26 MP 3.76 µm, mono", "equatorial 10 kg")
    assert command("shelf", "build", "Mist rig", *parts).status == 0
    answer = answer_of(command, "mist RIG")
    assert (answer["rig"], answer["focal_length_mm"]) == ("Mist rig", 430.0)
    both = command("step", "Mist rig", "Evening rig")
    assert (both.status, both.err) == (0, "")
    assert both.out.startswith("Mist rig → Evening rig")


def test_a_caution_hides_no_figure_that_is_not_known(command: Command, tmp_path: Path) -> None:
    gap = shelf_with(tmp_path, thread=None)
    ran = command("check", "Evening rig", "--shelf", gap)
    severities = {
        f["severity"] for f in answer_of(command, "Evening rig", "--shelf", gap)["findings"]
    }
    assert {"caution", "unknown"} <= severities
    assert "stop" not in severities
    assert ran.out.splitlines()[-1] == (
        "As far as is known this rig works, with care; not all is known."
    )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("Morning rig",), 'rig "Morning rig": is not in the plan, which has "Wide loan kit"'),
        ((), "Missing argument 'RIG'"),
        (("Evening rig", "--plan", "none.json"), "none.json"),
        (("Evening rig", "--shelf", "none.json"), "none.json"),
        (("Evening rig", "--shelf", str(ASSETS / "demo" / "plan.json")), "plan.json: its format"),
    ],
)
def test_bad_words_are_told_in_one_line(
    command: Command, words: tuple[str, ...], told: str
) -> None:
    ran = command("check", *words)
    assert ran.status in (1, 2)
    assert ran.out == ""
    assert told.removeprefix("plan.json: ") in ran.err
    assert ran.err.count("\n") == 1


def test_a_shelf_with_a_wrong_figure_or_another_currency_is_refused(
    command: Command, tmp_path: Path
) -> None:
    wrong = command("check", "Evening rig", "--shelf", shelf_with(tmp_path, length_mm=-3))
    assert wrong.status == 2
    assert 'mine.json: other part 9, length "-3 mm": must be at least 0 mm' in wrong.err
    file = tmp_path / "mine.json"
    text = (ASSETS / "shelf" / "shelf.json").read_text("utf-8")
    file.write_text(text.replace('"EUR"', '"SEK"'), encoding="utf-8")
    foreign = command("check", "Evening rig", "--shelf", str(file))
    assert foreign.status == 2
    assert 'currency of the shelf "SEK"' in foreign.err
