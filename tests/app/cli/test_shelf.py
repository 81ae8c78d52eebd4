"""`skysill shelf`, and rigs of a shelf in the other commands."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.gear.shelf.edits import with_part_changed
from core.gear.shelf.files import load_rig, save_rig, save_shelf
from core.gear.shelf.shelf import Shelf
from core.paths import ASSETS
from core.plan.document import Plan
from core.plan.edits import with_rig
from core.plan.store import demo_plan, save_plan
from tests.app.cli.conftest import Command, Ran

OWN = Shelf.load()
PROGRAMS = str(ASSETS / "shelf" / "shelf.json")
NEWTON = "150 mm Newtonian, colour"


@pytest.fixture
def kept(home: Path) -> Path:
    """Where the user's shelf lies."""
    return home / "data" / "shelf.json"


def cheaper() -> Shelf:
    return with_part_changed(
        OWN, "equatorial 15 kg", OWN.mount("equatorial 15 kg").but(price=900.0)
    )


def said(ran: Ran) -> str:
    """Give what a command said, when it did what was asked."""
    assert (ran.status, ran.err) == (0, "")
    return ran.out


def refused(ran: Ran) -> str:
    """Give the one line that a command was refused with."""
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.count("\n") == 1
    return ran.err.removeprefix("skysill: ").strip()


def listed(command: Command, *words: str) -> dict[str, Any]:
    return json.loads(said(command("shelf", "list", "--json", *words)))


def test_the_list_has_every_rig_and_part_with_its_figures(command: Command, kept: Path) -> None:
    answer = listed(command)
    assert list(answer) == ["currency", "rigs", "parts"]
    assert len(answer["parts"]) == len(OWN.parts)
    rig = next(rig for rig in answer["rigs"] if rig["name"] == NEWTON)
    assert (rig["aperture_mm"], rig["focal_length_mm"], rig["focal_ratio"]) == (150.0, 600.0, 4.0)
    assert rig["price"] == pytest.approx(OWN.rig(NEWTON).price)
    mount = next(part for part in answer["parts"] if part["name"] == "equatorial 15 kg")
    assert mount["kind"] == "mount"
    assert mount["used_by"] == ["80 mm refractor, mono with filters", NEWTON]
    assert not kept.exists()


def test_a_person_reads_two_tables(command: Command) -> None:
    out = said(command("shelf", "list"))
    for thing in (*OWN.parts, *OWN.rigs):
        assert thing.name in out
    (line,) = (line for line in out.splitlines() if "equatorial 15 kg" in line)
    assert line.split() == ["equatorial", "15", "kg", "mount", "2", "9.8", "kg", "1", "420", "€"]


def test_a_figure_that_is_not_known_is_a_dash_or_null(command: Command, tmp_path: Path) -> None:
    mount = OWN.mount("equatorial 25 kg").but(price=None, mass_kg=None)
    save_shelf(with_part_changed(OWN, mount.name, mount), tmp_path / "mine.json")
    where = ("--shelf", str(tmp_path / "mine.json"))
    (line,) = (
        line for line in said(command("shelf", "list", *where)).splitlines() if mount.name in line
    )
    assert line.split()[-3:] == ["–", "–", "–"]
    (found,) = (part for part in listed(command, *where)["parts"] if part["name"] == mount.name)
    assert (found["price"], found["mass_kg"]) == (None, None)


def test_a_rig_of_the_plan_goes_on_the_shelf_and_off_again(command: Command, kept: Path) -> None:
    out = said(command("shelf", "add", "evening RIG"))
    rig = next(p.rig for p in demo_plan().rigs if p.id == "Evening rig")
    assert out == f"1 new, {len(rig.parts)} the same.\n"
    assert Shelf.load(kept).rig("Evening rig") == rig
    assert said(command("shelf", "remove", "Evening rig")) == "Evening rig is off the shelf.\n"
    assert Shelf.load(kept) == OWN


def test_a_shelf_of_ones_own_is_used_where_it_is_named(command: Command, tmp_path: Path) -> None:
    mine = tmp_path / "mine.json"
    save_shelf(Shelf(currency="EUR"), mine)
    said(command("shelf", "add", "A", "--shelf", str(mine)))
    assert [rig.name for rig in Shelf.load(mine).rigs] == ["Wide loan kit"]
    assert len(listed(command)["rigs"]) == len(OWN.rigs)


def test_what_differs_comes_in_beside_and_is_told(
    command: Command, kept: Path, tmp_path: Path
) -> None:
    save_shelf(cheaper(), tmp_path / "theirs.json")
    lines = said(command("shelf", "import", str(tmp_path / "theirs.json"))).splitlines()
    assert lines[0].startswith("0 new, ")
    assert lines[1] == (
        "equatorial 15 kg is there with other figures (price): both stay, the newcomer as "
        '"equatorial 15 kg (2)".'
    )
    assert len(lines) == 4
    prices = {mount.name: mount.price for mount in Shelf.load(kept).mounts}
    assert (prices["equatorial 15 kg"], prices["equatorial 15 kg (2)"]) == (1420.0, 900.0)


def test_what_differs_is_written_over_when_asked(
    command: Command, kept: Path, tmp_path: Path
) -> None:
    save_shelf(cheaper(), tmp_path / "theirs.json")
    out = said(command("shelf", "import", str(tmp_path / "theirs.json"), "--replace"))
    assert out.count("took") == 2
    assert Shelf.load(kept) == cheaper()


def test_a_rig_goes_out_and_comes_in_elsewhere(command: Command, tmp_path: Path) -> None:
    file, other = tmp_path / "rig.json", tmp_path / "other.json"
    assert said(command("shelf", "export", str(file), "--rig", NEWTON.upper())) == (
        f"{file} is written.\n"
    )
    assert load_rig(file).rig == OWN.rig(NEWTON)
    save_shelf(Shelf(currency="EUR"), other)
    said(command("shelf", "import", str(file), "--shelf", str(other)))
    assert Shelf.load(other).rig(NEWTON) == OWN.rig(NEWTON)


def test_the_whole_shelf_goes_out_but_over_no_file(command: Command, tmp_path: Path) -> None:
    file = tmp_path / "all.json"
    said(command("shelf", "export", str(file)))
    assert Shelf.load(file) == OWN
    file.write_text("precious")
    words = refused(command("shelf", "export", str(file)))
    assert words.startswith('file "')
    assert words.endswith("is there already; give another or --replace")
    assert file.read_text() == "precious"
    said(command("shelf", "export", str(file), "--replace"))
    assert Shelf.load(file) == OWN


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("remove", "refractor 80/480"), 'telescope "refractor 80/480": is used by the rig "80 mm'),
        (("remove", "refractor 80-480"), "is not on the shelf; did you mean"),
        (("remove", "x", "--kind", "lens"), 'kind of part "lens": must be one of telescope, corr'),
        (("add", "Morning rig"), 'rig "Morning rig": is not in the plan, which has'),
        (("export", "x.json", "--rig", "150mm Newton"), 'rig "150mm Newton": is not on the shelf'),
        (("import", "none.json"), "there is no file none.json"),
        (("list", "--shelf", "none.json"), "there is no file none.json"),
        (("import", str(ASSETS / "demo" / "plan.json")), 'not "skysill-shelf" or "skysill-rig"'),
        (("import",), "Missing argument 'FILE'"),
        (("sort",), "No such command 'sort'"),
    ],
)
def test_bad_words_are_told_in_one_line_and_change_nothing(
    command: Command, kept: Path, words: tuple[str, ...], told: str
) -> None:
    assert told in refused(command("shelf", *words))
    assert not kept.exists()


def test_another_currency_is_refused(command: Command, kept: Path, tmp_path: Path) -> None:
    save_rig(OWN.rig(NEWTON), tmp_path / "rig.json", currency="CHF")
    rule = "must be that of the shelf, EUR; no rate is known here"
    assert refused(command("shelf", "import", str(tmp_path / "rig.json"))) == (
        f'currency of what comes in "CHF": {rule}'
    )
    save_plan(with_rig(Plan(currency="SEK"), OWN.rig(NEWTON)), tmp_path / "plan.json")
    words = ("shelf", "add", "A", "--plan", str(tmp_path / "plan.json"))
    assert refused(command(*words)) == f'currency of what comes in "SEK": {rule}'
    assert not kept.exists()


def test_a_name_that_stands_for_two_asks_which(command: Command, tmp_path: Path) -> None:
    mine = tmp_path / "mine.json"
    twin = OWN.rigs[0].but(name="tripod, light")
    save_shelf(OWN.but(rigs=(*OWN.rigs, twin)), mine)
    words = ("shelf", "remove", "tripod, light", "--shelf", str(mine))
    told = '"tripod, light" is the name of several things (rig, other); say which by --kind'
    assert refused(command(*words)) == told
    said(command(*words, "--kind", "rig"))
    assert Shelf.load(mine) == OWN


def test_a_damaged_shelf_of_the_user_is_told_and_left(command: Command, kept: Path) -> None:
    kept.parent.mkdir(parents=True)
    kept.write_text('{"format": "skysill-shelf", "version": 1, "curr')
    assert "shelf.json is cut off" in refused(command("shelf", "add", "A"))
    assert kept.read_text().endswith('"curr')


# Rigs of a shelf in the other commands ----------------------------------------------


def test_check_takes_a_rig_of_the_shelf_that_is_named(command: Command) -> None:
    answer = json.loads(said(command("check", "150 MM newtonian, colour", "--shelf", PROGRAMS,
                                     "--json")))  # fmt: skip
    assert answer["rig"] == NEWTON
    assert answer["price"] == pytest.approx(OWN.rig(NEWTON).price)


def test_a_rig_of_the_plan_comes_before_one_of_the_shelf(command: Command, tmp_path: Path) -> None:
    mine = tmp_path / "mine.json"
    save_shelf(OWN.but(rigs=(OWN.rigs[0].but(name="Evening rig"),)), mine)
    answer = json.loads(said(command("check", "Evening rig", "--shelf", str(mine), "--json")))
    assert answer["focal_length_mm"] == 384.0


def test_a_rig_that_is_in_neither_is_told_with_what_there_is(command: Command) -> None:
    words = refused(command("check", "none", "--shelf", PROGRAMS))
    assert words.startswith('rig "none": is neither in the plan, which has "Wide loan kit", ')
    assert words.endswith(f'nor on the shelf, which has "{OWN.rigs[0].name}", '
                          + ", ".join(f'"{rig.name}"' for rig in OWN.rigs[1:]))  # fmt: skip


def test_a_step_leads_from_the_plan_to_the_shelf(command: Command, tmp_path: Path) -> None:
    """By hand: a mount of 900 instead of 1420 is all that differs, sold for nothing."""
    mine = tmp_path / "mine.json"
    save_shelf(OWN, mine)
    rig = OWN.rig(NEWTON)
    old = rig.but(name="old", mount=rig.mount.but(name="old mount"))
    save_plan(with_rig(Plan(currency="EUR"), old), tmp_path / "plan.json")
    words = ("step", "A", NEWTON, "--plan", str(tmp_path / "plan.json"), "--shelf", str(mine))
    answer = json.loads(said(command(*words, "--json")))
    assert [part["name"] for part in answer["bought"]] == ["equatorial 15 kg"]
    assert [part["name"] for part in answer["sold"]] == ["old mount"]
    assert answer["buying"]["total"] == 1420.0


def test_two_rigs_of_a_shelf_count_in_its_currency(command: Command, tmp_path: Path) -> None:
    mine = tmp_path / "mine.json"
    save_shelf(OWN.but(currency="SEK"), mine)
    names = [rig.name for rig in OWN.rigs[:2]]
    answer = json.loads(said(command("step", *names, "--shelf", str(mine), "--json")))
    assert answer["currency"] == "SEK"
    words = refused(command("step", "Evening rig", names[0], "--shelf", str(mine)))
    assert words.startswith('currency of the shelf "SEK": must be that of the plan, EUR')
