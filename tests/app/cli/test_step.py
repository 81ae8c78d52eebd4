"""What `skysill step` answers and refuses; the figures by hand from the parts' prices."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.plan.document import Plan, PlannedRig
from core.plan.store import save_plan
from tests.app.cli.conftest import Command
from tests.app.cli.test_refusals import assert_refused, bad_plans
from tests.core.gear.money.test_step_up import large, small
from tests.core.gear.small_shelf import telescope

FIELDS = {
    **{"from": str, "to": str, "currency": str},
    **dict.fromkeys(("kept", "moved", "bought", "spared", "sold", "duties"), list),
    **{"buying": dict, "selling": dict, "changes": dict, "findings": dict},
    **{"resale_fraction": float | None, "proceeds": float | None, "cost": float | None},
}


def answer_of(command: Command, *words: str) -> dict[str, Any]:
    ran = command("step", *words, "--json")
    assert (ran.status, ran.err) == (0, "")
    return json.loads(ran.out)


def names(parts: list[dict[str, Any]]) -> list[str]:
    return [part["name"] for part in parts]


@pytest.fixture
def plan_file(tmp_path: Path) -> Path:
    """A plan of three rigs in crowns; the small telescope can guide the large one."""
    long = large(telescope=telescope("long tube", 1200, 1500.0)).but(name="long")
    rigs = tuple(PlannedRig(id=rig.name, rig=rig) for rig in (small(), large(), long))
    save_plan(Plan(currency="SEK", rigs=rigs), tmp_path / "mine.json")
    return tmp_path / "mine.json"


def edited(plan_file: Path, old: str, new: str) -> Path:
    text = plan_file.read_text("utf-8")
    assert old in text
    plan_file.write_text(text.replace(old, new, 1), "utf-8")
    return plan_file


@pytest.mark.parametrize("words", [("A", "D"), ("B", "G", "--resale", "0.5"), ("E", "E")])
def test_json_has_every_field_that_is_promised_of_the_promised_type(
    command: Command, words: tuple[str, ...]
) -> None:
    answer = answer_of(command, *words)
    assert set(answer) == set(FIELDS)
    for field, kind in FIELDS.items():
        assert isinstance(answer[field], kind), field


def test_a_step_by_hand(command: Command, plan_file: Path) -> None:
    """Bought 1500 + 2000 + 260 = 3760, sold 700 + 600 = 1300, half of it 650: 3110.

    The mount and the bag are the same in both.
    """
    words = ("SMALL", "c", "--plan", str(plan_file), "--resale", "0.5")
    answer = answer_of(command, *words)
    assert (answer["from"], answer["to"]) == ("small", "long")
    assert names(answer["kept"]) == ["legs", "bag"]
    assert names(answer["bought"]) == ["long tube", "eye", "guide scope"]
    assert names(answer["sold"]) == ["short", "small eye"]
    assert answer["buying"] == {"total": 3760.0, "known": 3760.0, "unpriced": []}
    assert answer["selling"]["total"] == 1300.0
    assert (answer["proceeds"], answer["cost"]) == (650.0, 3110.0)
    assert answer["changes"]["focal_length_mm"] == {"from": 250.0, "to": 1200.0}
    (duty,) = answer["duties"]
    assert (duty["duty"], duty["suits"]) == ("guide scope", False)
    assert duty["why"].startswith("at 1200 mm a guide scope bends away")


def test_findings_that_become_better_or_worse_are_told_with_what_is_said_then(
    command: Command,
) -> None:
    """Wide loan kit to Galaxy bench: a guider comes, 4.4 kg to carry become 32.4 kg."""
    found = answer_of(command, "A", "G")["findings"]
    assert list(found) == ["better", "worse"]
    (guided,) = (one for one in found["better"] if one["rule"] == "unguided")
    assert (guided["from"], guided["to"]) == ("note", None)
    (carried,) = (one for one in found["worse"] if one["rule"] == "total-to-carry")
    assert (carried["from"], carried["to"]) == ("good", "caution")
    assert carried["message"].startswith("All parts together are 32.4 kg")
    out = command("step", "A", "G").out
    assert "\nbetter, unguided: note → –\n" in out
    assert f"\nworse, total to carry: good → caution: {carried['message']}\n" in out
    assert answer_of(command, "E", "E")["findings"] == {"better": [], "worse": []}


def test_a_small_telescope_moves_to_guiding_and_the_guide_scope_is_spared(
    command: Command, plan_file: Path
) -> None:
    answer = answer_of(command, "small", "large", "--plan", str(plan_file))
    assert names(answer["moved"]) == ["short", "small eye"]
    assert names(answer["spared"]) == ["guide scope"]
    assert (answer["sold"], answer["cost"], answer["currency"]) == ([], 3500.0, "SEK")
    out = command("step", "small", "large", "--plan", str(plan_file)).out.replace("\xa0", " ")
    assert out.startswith("small → large\n")
    assert "buying: 3 500 SEK; nothing is sold\n" in out
    assert "\nshort as guide scope: yes, with small eye its scale is 3.1″/px, 2 times that" in out
    rows = [line.split() for line in out.splitlines()]
    assert ["short", "moved", "to", "guiding", "700", "SEK"] in rows
    assert ["guide", "scope", "not", "needed", "260", "SEK"] in rows
    assert ["tube", "bought", "1", "500", "SEK"] in rows


def test_a_long_sentence_stays_on_one_line_where_no_terminal_reads(
    command: Command, plan_file: Path
) -> None:
    edited(plan_file, '"name": "small eye"', f'"name": "{"small eye " * 11}"')
    lines = command("step", "small", "large", "--plan", str(plan_file)).out.splitlines()
    (line,) = [line for line in lines if line.startswith("short as guide scope: ")]
    assert len(line) > 200
    assert line.endswith(" of its rating")


def test_without_a_fraction_no_cost_is_told(command: Command) -> None:
    answer = answer_of(command, "A", "D")
    assert (answer["resale_fraction"], answer["proceeds"], answer["cost"]) == (None, None, None)
    assert "selling: not known, say what fraction of its price" in command("step", "A", "D").out


def test_a_price_that_is_not_known_is_null_and_not_0(command: Command, plan_file: Path) -> None:
    edited(plan_file, '"price": 1500.0', '"price": null')
    words = ("small", "large", "--plan", str(plan_file))
    answer = answer_of(command, *words)
    assert answer["buying"] == {"total": None, "known": 2000.0, "unpriced": ["tube"]}
    assert {"name": "tube", "price": None} in answer["bought"]
    assert answer["cost"] is None
    out = command("step", *words).out.replace("\xa0", " ")
    assert "buying: at least 2 000 SEK, 1 price not known; nothing is sold" in out
    assert ["tube", "bought", "not", "known"] in [line.split() for line in out.splitlines()]


@pytest.mark.parametrize("typed", ["0,25", "0.25", "25e-2"])
def test_a_fraction_may_be_typed_with_a_comma(command: Command, typed: str) -> None:
    assert answer_of(command, "A", "D", "--resale", typed)["resale_fraction"] == 0.25


def test_brackets_in_names_are_letters_and_no_markup(command: Command, plan_file: Path) -> None:
    edited(plan_file, '"name": "tube"', '"name": "tube [red]8[/red]"')
    edited(plan_file, '"name": "large"', '"name": "large [b]x[/b]"')
    out = command("step", "small", "large", "--plan", str(plan_file)).out
    assert "tube [red]8[/red]" in out
    assert out.startswith("small → large [b]x[/b]\n")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["A", "Z9"], 'rig "Z9": is not in the plan, which has "Wide loan kit", '),
        (["", "A"], 'rig "": is not in the plan, which has '),
        (["A"], "Missing argument 'TO'"),
        (["A", "B", "C"], "Got unexpected extra argument"),
        (["A", "B", "--resale", "1.5"], 'resale fraction "1.5": must lie between 0 and 1'),
        (["A", "B", "--resale", "-0.5"], 'resale fraction "-0.5": must lie between 0 and 1'),
        (["A", "B", "--resale", "nan"], 'resale fraction "nan": must lie between 0 and 1'),
        (["A", "B", "--resale", "half"], 'resale fraction "half": must be a number'),
        (["A", "B", "--resale"], "Option '--resale' requires an argument"),
    ],
)
def test_bad_input_gets_one_sentence_and_status_2(
    command: Command, words: list[str], sentence: str
) -> None:
    assert_refused(command("step", *words), sentence)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('"SEK"', '"kronor"', 'currency "kronor": must be three capital letters (ISO 4217)'),
        ('"SEK"', '"sek"', 'currency "sek": must be three capital letters (ISO 4217)'),
        ('"price": 1500.0', '"price": -1', 'rig 2, telescope, price "-1": must be at least 0'),
        ('"price": 1500.0', '"price": "12,50"', 'rig 2, telescope, price "12,50": must be a numb'),
        ('"price": 1500.0', '"price": 1e12', 'rig 2, telescope, price "1e+12": must be at most'),
    ],
)
def test_a_wrong_price_or_currency_in_the_plan_is_told_with_its_place(
    command: Command, plan_file: Path, old: str, new: str, sentence: str
) -> None:
    ran = command("step", "A", "B", "--plan", str(edited(plan_file, old, new)))
    assert_refused(ran, f"mine.json: {sentence}")


def test_a_plan_that_cannot_be_read_gets_one_sentence(command: Command, tmp_path: Path) -> None:
    for sentence, path in bad_plans(tmp_path).items():
        assert_refused(command("step", "A", "B", "--plan", str(path)), sentence)


def test_asking_for_a_step_writes_no_plan(command: Command, home: Path) -> None:
    assert command("step", "A", "B").status == 0
    assert not home.exists() or not list(home.rglob("*.json"))
