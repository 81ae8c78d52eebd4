"""Rigs on the shelf: built from parts by name, and told when they cannot be."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.errors import BadValueError, CoreError
from core.gear.checks import findings
from core.gear.rig import Rig
from core.gear.shelf.files import save_shelf
from core.gear.shelf.shelf import ROWS, Shelf, ShelfRig
from core.paths import ASSETS
from core.plan.store import demo_plan

OWN = Shelf.load()


def spoiled(tmp_path: Path, **fields: Any) -> Path:
    """Write the program's shelf with fields of its third rig changed."""
    content = json.loads((ASSETS / "shelf" / "shelf.json").read_bytes())
    content["rigs"][2].update(fields)
    path = tmp_path / "mine.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    return path


def test_a_rig_of_the_shelf_has_every_field_of_a_rig() -> None:
    """Whatever a rig can hold beside its parts must survive on the shelf."""
    assert set(ShelfRig.model_fields) == set(Rig.model_fields)
    assert set(ROWS) < set(Rig.model_fields)


@pytest.mark.parametrize("planned", demo_plan().rigs, ids=lambda planned: planned.id)
def test_every_rig_of_the_demo_comes_back_from_the_names_of_its_parts(planned: Any) -> None:
    shelf = OWN.but(rigs=(ShelfRig.of(planned.rig),))
    assert shelf.rig(planned.rig.name) == planned.rig


@pytest.mark.parametrize("rig", OWN.rigs, ids=lambda rig: rig.name)
def test_the_rigs_of_the_program_work(rig: ShelfRig) -> None:
    built = OWN.rig(rig.name)
    assert {finding.severity for finding in findings(built)}.isdisjoint({"stop", "unknown"})
    assert built.price is not None


def test_the_rigs_of_the_program_have_other_names_than_the_demo() -> None:
    assert len(OWN.rigs) >= 4
    assert not {rig.name for rig in OWN.rigs} & {p.rig.name for p in demo_plan().rigs}


def test_a_rig_follows_the_figures_of_its_parts() -> None:
    heavy = tuple(c.but(mass_kg=c.mass_kg + 1.0) for c in OWN.cameras)
    name = OWN.rigs[0].name
    assert OWN.but(cameras=heavy).rig(name).mass_kg == pytest.approx(OWN.rig(name).mass_kg + 1.0)


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        (
            {"camera": "four thirds 16 MP 3.8 um, mono"},
            'rig 3, camera "four thirds 16 MP 3.8 um, mono": the rig "80 mm refractor, mono with '
            'filters" names it, but it is not on the shelf; did you mean "four thirds 16 MP 3.8 µm',
        ),
        ({"telescope": "hubble"}, 'rig 3, telescope "hubble": the rig .* not on the shelf$'),
        ({"mount": "equatorial 15kg"}, 'rig 3, mount .*did you mean "equatorial 15 kg"'),
        ({"corrector": "none"}, 'rig 3, corrector "none": the rig'),
        ({"others": ["tripod"]}, 'rig 3, other part "tripod": .*did you mean "tripod, '),
        ({"corrector": "tripod, steel"}, 'rig 3, corrector "tripod, steel": .*not on the shelf'),
        ({"name": "small refractor, colour"}, "rigs, name .*: must be there only once"),
        ({"counterweight": "yes"}, 'rig 3, counterweight "yes": must be true or false'),
        ({"price": 3.0}, 'rig 3, price "3": is not a field that belongs here'),
        ({"camera": None}, 'rig 3, camera "nothing": must be text'),
        ({"others": "tripod, steel"}, "rig 3, other parts .*: must be a list"),
    ],
)
def test_a_fault_in_a_rig_of_the_shelf_is_told(
    tmp_path: Path, fields: dict[str, Any], message: str
) -> None:
    with pytest.raises(CoreError, match=f"^mine.json: {message}"):
        Shelf.load(spoiled(tmp_path, **fields))


def test_parts_that_make_no_rig_are_told_with_the_name_of_the_rig() -> None:
    fast = OWN.corrector("reducer 0.8x, small").but(factor=0.1)
    row = tuple(fast if c.name == fast.name else c for c in OWN.correctors)
    tube = OWN.telescope("refractor 80/480").but(focal_length_mm=200.0)
    tubes = tuple(tube if t.name == tube.name else t for t in OWN.telescopes)
    with pytest.raises(BadValueError, match=r"rig 3, focal ratio .*f/0\.25.*mono with filters"):
        OWN.but(correctors=row, telescopes=tubes)


def test_a_rig_that_is_not_there_is_named_with_near_names() -> None:
    with pytest.raises(BadValueError, match=r'rig "150mm Newtonian": .*mean "150 mm Newtonian, '):
        OWN.rig("150mm Newtonian")


def test_a_shelf_is_the_same_after_it_was_written_and_read(tmp_path: Path) -> None:
    save_shelf(OWN, tmp_path / "shelf.json")
    assert Shelf.load(tmp_path / "shelf.json") == OWN
