"""The published JSON Schemas, held against a validator that knows nothing of this program.

Outside check: the library jsonschema with its Draft 2020-12 validator judges every document
like the records do, but for the rules that the schema says it cannot say.
"""

import json
from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from assets.build.build_schema import FILES, schema_of
from core.errors import CoreError
from core.gear.rig import Rig
from core.gear.shelf.files import RigFile
from core.gear.shelf.merge import shelf_of_rig
from core.gear.shelf.shelf import Shelf, ShelfRig
from core.paths import ASSETS
from core.plan.store import demo_plan
from core.record.record_file import record_of
from core.record.short_json import short_json
from core.record.validation import unit_of

Json = dict[str, Any]
SCHEMAS = {name: json.loads((ASSETS / "shelf" / name).read_bytes()) for name in FILES}
SHELF, RIG = (Draft202012Validator(SCHEMAS[name]) for name in FILES)
OWN = Shelf.load()
RIGS: list[Rig] = [*(p.rig for p in demo_plan().rigs), *(OWN.rig(rig.name) for rig in OWN.rigs)]

#: One good part of each class, by its row.
PARTS: list[tuple[str, Json]] = [
    ("telescopes", {"name": "a", "aperture_mm": 80, "focal_length_mm": 480}),
    ("correctors", {"name": "a"}),
    ("cameras", {"name": "a", "columns": 60, "rows": 40, "pixel_um": 3.76}),
    ("mounts", {"name": "a"}),
    *(
        ("others", {"name": "a", "kind": kind})
        for kind in ("power", "filter wheel", "adapter", "off-axis guider", "guide scope",
                     "guide camera", "tripod")
    ),
]  # fmt: skip
#: Values tried in every field: wrong types, and both sides of every bound there is.
VALUES: list[Any] = [
    None, True, "", " ", "text", "3.76", "3,76", "mono", "https://x.example/a", [], ["a"], [1], {},
    -1, 0, 1, 2, 0.05, 0.1, 0.5, 0.99, 1.01, 4, 4.01, 10, 10.1, 360, 359.9, 1000, 1001, 10_000,
    10_001, 50_000, 50_001, 100_000, 100_001, 200_000, 200_001, 1e6, 1.1e6, 1e8, 1.1e8, 1e9, 2e9,
    "x" * 120, "x" * 121, "x" * 4001, ["a"] * 51,
]  # fmt: skip
#: What a schema cannot say; the schema's own comment lists it.
NOT_SAID = ("must lie between f/0.5", "must be less than the aperture", "a whole number")


def refusal(content: Json, kind: type = Shelf) -> str:
    """Give what the records refuse a document with; empty when they take it."""
    try:
        record_of(json.dumps(content).encode(), "it", (kind,), refused_as=CoreError)
    except CoreError as error:
        return str(error)
    return ""


def shelf(**fields: Any) -> Json:
    return {"format": "skysill-shelf", "version": 1, "currency": "EUR", **fields}


def mutations() -> Iterator[tuple[str, str, Json]]:
    """Every field of every class with every value, and with none, and one field too many."""
    for row, part in PARTS:
        known = next(d for d in SCHEMAS["shelf.schema.json"]["$defs"].values() if fits(d, part))
        for field in [*known["properties"], "colour_of_the_tube"]:
            for value in VALUES:
                yield row, f"{field}={value!r:.20}", {**part, field: value}
            yield row, f"no {field}", {k: v for k, v in part.items() if k != field}


def fits(definition: Json, part: Json) -> bool:
    """Tell whether a class has the fields and the kind of a part."""
    properties, kind = definition["properties"], part.get("kind")
    kinds = properties.get("kind", {})
    return set(part) <= set(properties) and set(definition["required"]) <= set(part) and (
        kind is None or kind in kinds.get("enum", [kinds.get("const")])
    )  # fmt: skip


def plain(schema: Any) -> Any:
    """Leave out what versions of the generator write differently and what means the same."""
    if isinstance(schema, list):
        return [plain(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    drop = {"enum"} if "const" in schema else set()
    return {key: plain(value) for key, value in schema.items() if key not in drop}


@pytest.mark.parametrize("name", FILES)
def test_the_published_file_is_up_to_date(name: str) -> None:
    assert plain(SCHEMAS[name]) == plain(schema_of(FILES[name])), "run assets.build.build_schema"


@pytest.mark.parametrize("schema", SCHEMAS.values(), ids=SCHEMAS)
def test_the_file_is_a_schema_of_2020_12_with_a_name_of_our_own(schema: Json) -> None:
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["$id"].startswith("urn:skysill:schema:")


@pytest.mark.parametrize("schema", SCHEMAS.values(), ids=SCHEMAS)
def test_every_field_is_described_in_a_line_with_its_unit(schema: Json) -> None:
    count = 0
    for record in (schema, *schema["$defs"].values()):
        assert record["description"]
        for field, about in record["properties"].items():
            count += 1
            assert 10 < len(about["description"]) < 120
            unit = unit_of(field)
            assert about.get("x-unit", "") == unit
            assert about["description"].endswith(f"Unit: {unit}." if unit else ".")
    assert count > 100


def test_the_two_files_describe_a_part_alike() -> None:
    ours, theirs = (SCHEMAS[name]["$defs"] for name in FILES)
    shared = set(ours) & set(theirs)
    assert len(shared) == 11
    assert all(ours[name] == theirs[name] for name in shared)


def test_the_shelf_of_the_program_fits() -> None:
    content = json.loads((ASSETS / "shelf" / "shelf.json").read_bytes())
    SHELF.validate(content)
    assert refusal(content) == ""


@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: rig.name)
def test_every_rig_fits_as_it_is_written(rig: Rig) -> None:
    file = RigFile(currency="EUR", rig=rig)
    RIG.validate(json.loads(file.model_dump_json()))
    written = json.loads(short_json(file))
    RIG.validate(written)
    assert refusal(written, RigFile) == ""
    SHELF.validate(json.loads(short_json(shelf_of_rig(rig, "EUR"))))


def test_both_judge_every_value_of_every_field_alike() -> None:
    """3000 documents and more; a difference is one of the rules that no schema can say."""
    judged = [0, 0]
    for row, what, part in mutations():
        content = shelf(**{row: [part]})
        ours, theirs = refusal(content), SHELF.is_valid(content)
        judged[theirs] += 1
        if theirs and ours:
            assert any(rule in ours for rule in NOT_SAID), f"{row}, {what}: {ours}"
        else:
            assert theirs or ours, f"{row}, {what}: refused by the schema alone"
    assert min(judged) > 500
    assert sum(judged) > 3000


GOOD_RIG: Json = {"name": "r", "telescope": "a", "camera": "a"}
BAD: list[tuple[str, Json]] = [
    ("no currency", {"format": "skysill-shelf", "version": 1}),
    ("no format", {"version": 1, "currency": "EUR"}),
    ("no version", {"format": "skysill-shelf", "currency": "EUR"}),
    ("another format", shelf(format="skysill-plan")),
    ("a later version", shelf(version=2)),
    ("a version in text", shelf(version="1")),
    ("an unknown currency", shelf(currency="EUX")),
    ("a small currency", shelf(currency="eur")),
    ("two currencies", shelf(currency=["EUR", "USD"])),
    ("an unknown list", shelf(eyepieces=[])),
    ("no list", shelf(mounts={})),
    ("null for a list", shelf(mounts=None)),
    ("a part that is none", shelf(mounts=["equatorial"])),
    ("an unknown kind", shelf(others=[{"name": "a", "kind": "eyepiece"}])),
    ("a figure of another kind", shelf(others=[{"name": "a", "kind": "power", "glass_mm": 2}])),
    *((f"a rig without {slot}", shelf(rigs=[{k: v for k, v in GOOD_RIG.items() if k != slot}]))
      for slot in GOOD_RIG),
    ("a rig with a part in it", shelf(rigs=[{**GOOD_RIG, "mount": {"name": "a"}}])),
    ("a rig with a price", shelf(rigs=[{**GOOD_RIG, "price": 3}])),
    ("a rig with one name for a list", shelf(rigs=[{**GOOD_RIG, "others": "a"}])),
]  # fmt: skip


@pytest.mark.parametrize(("what", "content"), BAD, ids=[what for what, _ in BAD])
def test_a_bad_document_is_refused_by_both(what: str, content: Json) -> None:
    assert not SHELF.is_valid(content)
    assert refusal(content)


@pytest.mark.parametrize("slot", ["name", "telescope", "camera"])
def test_a_rig_file_without_a_slot_that_every_rig_has_is_refused_by_both(slot: str) -> None:
    content = json.loads(RigFile(currency="EUR", rig=RIGS[0]).model_dump_json())
    del content["rig"][slot]
    assert not RIG.is_valid(content)
    assert f"rig, {slot}" in refusal(content, RigFile)
    assert "is needed here" in refusal(content, RigFile)


def test_what_the_schema_cannot_say_it_says_it_cannot() -> None:
    comment = SCHEMAS["shelf.schema.json"]["$comment"]
    twice = shelf(mounts=[{"name": "a"}, {"name": "a"}])
    unknown = shelf(rigs=[GOOD_RIG])
    for content, words in ((twice, "there once"), (unknown, "names parts that are on it")):
        assert SHELF.is_valid(content)
        assert refusal(content)
        assert words in comment


def test_a_shelf_rig_of_the_schema_is_the_one_of_the_record() -> None:
    fields = SCHEMAS["shelf.schema.json"]["$defs"]["ShelfRig"]["properties"]
    assert list(fields) == list(ShelfRig.model_fields)
