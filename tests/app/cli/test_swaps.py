"""What `skysill swaps` answers and refuses; the figures by hand from the parts' prices."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.gear.shelf.files import save_shelf
from core.plan.store import save_plan
from tests.app.cli.conftest import Command
from tests.app.cli.test_refusals import assert_refused
from tests.core.gear.small_shelf import other
from tests.core.sheets.sheets import SHELF, plan_of, small_rig

FIELDS = {
    **{"rig": str, "currency": str, "price": float | None},
    **{"slots": list, "all_savings": dict, "cheapest": dict},
}


@pytest.fixture
def answer(command: Command, tmp_path: Path) -> Any:
    """Ask for the swaps of tube 500, eye 900, legs 700, bag 40 from the small shelf."""
    save_plan(plan_of(small_rig("first")), tmp_path / "mine.json")
    save_shelf(SHELF, tmp_path / "shelf.json")
    files = ("--plan", str(tmp_path / "mine.json"), "--shelf", str(tmp_path / "shelf.json"))

    def ask(*words: str) -> Any:
        ran = command("swaps", "first", *files, *words)
        assert (ran.status, ran.err) == (0, "")
        return json.loads(ran.out) if "--json" in words else ran.out.replace("\xa0", " ")

    return ask


def test_json_has_every_field_that_is_promised_of_the_promised_type(answer) -> None:
    found = answer("--json")
    assert set(found) == set(FIELDS)
    for field, kind in FIELDS.items():
        assert isinstance(found[field], kind), field


def test_swaps_by_hand(answer) -> None:
    """The cheap tube saves 200; the dear eye costs 200; thin legs save 600 and break."""
    found = answer("--json")
    assert found["price"] == 2140.0
    slots = {slot["slot"]: slot for slot in found["slots"]}
    assert list(slots) == ["telescope", "camera", "mount", "others 1"]
    (tube,) = slots["telescope"]["swaps"]
    assert (tube["part"], tube["price"], tube["saving"], tube["passes"]) == (
        *("cheap tube", 300.0, 200.0),
        True,
    )
    assert tube["changes"] == {}
    assert slots["camera"]["swaps"][0]["saving"] == -200.0
    (legs,) = slots["mount"]["swaps"]
    assert (legs["saving"], legs["passes"]) == (600.0, False)
    worse = {one["rule"]: (one["from"], one["to"]) for one in legs["findings"]["worse"]}
    assert worse["load"][1] == "stop"
    assert slots["others 1"]["swaps"] == []


def test_all_savings_and_the_cheapest_by_hand(answer) -> None:
    """Only the cheap tube saves and passes: 2140 - 200 = 1940."""
    found = answer("--json")
    tube = {"slot": "telescope", "from": "tube", "to": "cheap tube", "saving": 200.0}
    assert found["all_savings"] == {"saving": 200.0, "passes": True, "swaps": [tube]}
    cheapest = found["cheapest"]["any_part"]
    assert (cheapest["saving"], cheapest["price"], cheapest["swaps"]) == (200.0, 1940.0, [tube])
    assert found["cheapest"]["same_picture"]["swaps"] == []


def test_the_table_lists_what_passes_and_counts_the_rest(answer) -> None:
    said = answer()
    assert "cheap tube" in said
    assert "thin legs" not in said
    assert (
        "1 more would bring what stops, a caution, or a figure not known; --all lists them." in said
    )
    assert "largest savings together: 200 €; the rig then passes its checks" in said
    assert "cheapest with the same picture: as it is" in said
    every = answer("--all")
    assert "thin legs" in every
    assert "✕" in every
    assert "✕" not in said
    assert "--all" not in every


def test_a_saving_that_is_not_known_is_null(command: Command, tmp_path: Path) -> None:
    rig = small_rig("open", others=[other("riddle", None)])
    save_plan(plan_of(rig), tmp_path / "mine.json")
    save_shelf(SHELF, tmp_path / "shelf.json")
    files = ("--plan", str(tmp_path / "mine.json"), "--shelf", str(tmp_path / "shelf.json"))
    found = json.loads(command("swaps", "open", *files, "--json").out)
    assert found["price"] is None
    slots = {slot["part"]: slot for slot in found["slots"]}
    assert [swap["saving"] for swap in slots["riddle"]["swaps"]] == [None]


def test_a_shelf_of_another_currency_is_refused(command: Command, tmp_path: Path) -> None:
    save_plan(plan_of(small_rig("first"), currency="SEK"), tmp_path / "mine.json")
    sentence = 'currency of the shelf "EUR": must be that of the plan, SEK'
    assert_refused(command("swaps", "first", "--plan", str(tmp_path / "mine.json")), sentence)


def test_the_demo_s_swaps_come_from_the_shelf_that_comes_along(command: Command) -> None:
    found = json.loads(command("swaps", "Evening rig", "--json").out)
    assert sum(bool(slot["swaps"]) for slot in found["slots"]) >= 3
    for slot in found["slots"]:
        for swap in slot["swaps"]:
            assert swap["saving"] == pytest.approx(slot["price"] - swap["price"])
