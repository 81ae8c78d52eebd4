"""`skysill shelf build`, and the six classes of rig built by it, checked and swapped."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.gear.checks import findings
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.shelf.files import save_shelf
from core.gear.shelf.shelf import ROWS, Shelf
from tests.app.cli.conftest import Command
from tests.app.cli.test_shelf import refused, said
from tests.core.gear.test_six_classes import six

SMALL = Shelf(
    currency="EUR",
    telescopes=({"name": "tube", "aperture_mm": 80, "focal_length_mm": 400, "price": 500},),
    cameras=(
        {"name": "eye", "columns": 100, "rows": 80, "pixel_um": 4.0, "price": 300},
        {"name": "tube", "columns": 100, "rows": 80, "pixel_um": 4.0},
    ),
    mounts=({"name": "legs", "kind": "strain wave", "load_bare_kg": 5, "price": 700},),
    others=({"name": "bag", "price": 40}, {"name": "box", "kind": "power", "price": 60}),
)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A shelf with one name that two parts have."""
    save_shelf(SMALL.but(cameras=SMALL.cameras[:1]), tmp_path / "shelf.json")
    return tmp_path / "shelf.json"


def test_a_rig_is_built_of_named_parts_in_their_order(command: Command, file: Path) -> None:
    words = ("box", "eye", "tube", "bag", "legs", "--shelf", str(file), "--counterweight")
    answer = said(command("shelf", "build", "mine", *words))
    told, worst = answer.replace("\xa0", " ").splitlines()
    assert told == "mine is on the shelf: 1 600 €."
    assert worst.startswith("The worst finding, caution: Nothing guides legs.")
    assert worst.endswith("add a guider.")
    rig = Shelf.load(file).rig("mine")
    assert (rig.telescope.name, rig.camera.name, rig.corrector) == ("tube", "eye", None)
    assert [part.name for part in rig.others] == ["box", "bag"]
    assert rig.balanced


def test_without_a_word_on_it_the_counterweight_is_as_the_mount_has_it(
    command: Command, file: Path
) -> None:
    said(command("shelf", "build", "mine", "eye", "tube", "legs", "--shelf", str(file)))
    assert not Shelf.load(file).rig("mine").balanced


def test_a_rig_that_is_there_is_only_replaced_when_asked(command: Command, file: Path) -> None:
    there = ("--shelf", str(file))
    said(command("shelf", "build", "mine", "eye", "tube", *there))
    words = refused(command("shelf", "build", "Mine", "eye", "tube", "bag", *there))
    assert words == 'rig "Mine": is on the shelf already; give another name or --replace'
    assert Shelf.load(file).rig("mine").others == ()
    said(command("shelf", "build", "Mine", "eye", "tube", "bag", "--replace", *there))
    assert [rig.name for rig in Shelf.load(file).rigs] == ["Mine"]


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        (["eye"], 'rig "mine": has no telescope; name one of the shelf'),
        (["tube", "legs"], 'rig "mine": has no camera; name one of the shelf'),
        (["tube", "eye", "eye"], 'part "eye": is a second camera; "eye" is one'),
        (["tuba", "eye"], 'part "tuba": is not on the shelf; did you mean "tube"?'),
    ],
)
def test_what_makes_no_rig_is_refused_in_one_line(
    command: Command, file: Path, parts: list[str], words: str
) -> None:
    before = file.read_bytes()
    assert refused(command("shelf", "build", "mine", *parts, "--shelf", str(file))) == words
    assert file.read_bytes() == before


def test_a_name_of_two_parts_is_told(command: Command, tmp_path: Path) -> None:
    path = tmp_path / "two.json"
    save_shelf(SMALL, path)
    words = refused(command("shelf", "build", "mine", "tube", "eye", "--shelf", str(path)))
    assert words == 'part "tube": is a telescope and a camera on the shelf; rename one of them'


# The six classes -----------------------------------------------------------------

#: What every alternative costs less than the part whose place it takes.
LESS = 20.0


def stocked(rig: Rig) -> tuple[Shelf, list[str], float]:
    """Put a rig's parts on a shelf at prices of our own, each dear one with a cheaper twin."""
    rows: dict[str, list[Part]] = {row: [] for row in ROWS.values()}
    names, total = [], 0.0
    slots = [(slot, getattr(rig, slot)) for slot in ROWS if slot != "others"]
    slots += [("others", part) for part in rig.others]
    for number, (slot, part) in enumerate((s, p) for s, p in slots if p is not None):
        price = 100.0 + 7.0 * number
        dear = part.but(name=f"{slot} {number}", price=price)
        cheap = dear.but(name=f"{dear.name}, plain", price=price - LESS)
        rows[ROWS[slot]] += [dear.but(alternatives=(cheap.name,)), cheap]
        names.append(dear.name)
        total += price
    return Shelf(currency="EUR", **{row: tuple(held) for row, held in rows.items()}), names, total


def answered(command: Command, *words: str) -> Any:
    return json.loads(said(command(*words, "--json")))


@pytest.mark.parametrize("letter", list("abcdef"))
def test_each_of_the_six_is_built_checked_and_swapped(
    command: Command, tmp_path: Path, letter: str
) -> None:
    """Totals are sums by hand; findings are those that the class is known to have."""
    model = six()[letter]
    shelf, names, total = stocked(model)
    file = tmp_path / "shelf.json"
    save_shelf(shelf, file)
    there = ("--shelf", str(file))
    said(command("shelf", "build", f"class {letter}", *names, *there))
    checked = answered(command, "check", f"class {letter}", *there)
    assert checked["price"] == pytest.approx(total, abs=1e-9)
    assert checked["mass_kg"] == pytest.approx(model.mass_kg)
    assert checked["focal_length_mm"] == model.focal_length_mm
    assert [(f["rule"], f["severity"], f["value"]) for f in checked["findings"]] == [
        (f.rule, f.severity, f.value) for f in findings(model)
    ]
    swaps = answered(command, "swaps", f"class {letter}", *there)
    offered = [swap for slot in swaps["slots"] for swap in slot["swaps"]]
    assert len(swaps["slots"]) >= 3
    assert [swap["saving"] for swap in offered] == [LESS] * len(names)
    assert all(swap["passes"] for swap in offered)
    assert swaps["all_savings"]["saving"] == pytest.approx(LESS * len(names))
