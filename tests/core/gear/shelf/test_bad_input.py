"""Everything a shelf file can have wrong: one sentence with the place, the value, the rule."""

import json
from collections.abc import Iterator
from typing import Any

import pytest

from core.errors import CoreError
from core.gear.shelf.files import RigFile
from core.gear.shelf.shelf import Shelf
from core.paths import ASSETS
from core.record.record_file import record_of
from tests.core.gear.refused import refusal

Json = dict[str, Any]
SCHEMA = json.loads((ASSETS / "shelf" / "shelf.schema.json").read_bytes())

#: How a part of each class is called in a sentence, and a good one.
PARTS: dict[str, tuple[str, str, Json]] = {
    "Telescope": ("telescopes", "telescope", {"aperture_mm": 80, "focal_length_mm": 480}),
    "Corrector": ("correctors", "corrector", {}),
    "Camera": ("cameras", "camera", {"columns": 60, "rows": 40, "pixel_um": 3.76}),
    "Mount": ("mounts", "mount", {}),
    "OtherPart": ("others", "other part", {"kind": "power"}),
    "FilterPart": ("others", "other part", {"kind": "filter"}),
    "Spacer": ("others", "other part", {"kind": "spacer"}),
    "OffAxisGuider": ("others", "other part", {"kind": "off-axis guider"}),
    "GuideScope": ("others", "other part", {"kind": "guide scope"}),
    "GuideCamera": ("others", "other part", {"kind": "guide camera"}),
    "Tripod": ("others", "other part", {"kind": "tripod"}),
}
#: Units as people read them, by the ends of names; written again here on purpose.
UNITS = {"n_m": "N m", "mm": "mm", "um": "µm", "nm": "nm", "kg": "kg", "deg": "degrees",
         "e": "electrons", "arcsec": "arcsec", "arcmin": "arcmin"}  # fmt: skip
WORDS = {
    "pixel_um": "pixel pitch",
    "peak_qe": "peak quantum efficiency",
    "load_bare_kg": "rated load without counterweight",
    "load_balanced_kg": "rated load with counterweight",
}
#: The rule of each bound, and a step that breaks it.
BOUNDS = {
    "minimum": ("at least", -1.0),
    "exclusiveMinimum": ("more than", 0.0),
    "maximum": ("at most", 1.0),
    "exclusiveMaximum": ("less than", 0.0),
}


def ending(field: str) -> str:
    return next((end for end in UNITS if field.endswith(f"_{end}")), "")


def told_field(field: str) -> str:
    return WORDS.get(field, field.removesuffix(f"_{ending(field)}").replace("_", " "))


def told_value(field: str, value: float) -> str:
    return f"{value:.10g} {UNITS.get(ending(field), '')}".strip()


def figures(kind: str) -> Iterator[tuple[str, Json, bool]]:
    """Give every number of a class with its bounds, and whether it may be null."""
    for field, about in SCHEMA["$defs"][kind]["properties"].items():
        for way in about.get("anyOf", [about]):
            if way.get("type") in ("number", "integer"):
                yield field, way, "anyOf" in about


FIGURES = [(kind, field, way, null) for kind in PARTS for field, way, null in figures(kind)]
OUTSIDE = [
    (kind, field, bound, way[bound])
    for kind, field, way, _ in FIGURES
    for bound in BOUNDS
    if bound in way
]


def shelf(**fields: Any) -> Json:
    return {"format": "skysill-shelf", "version": 1, "currency": "EUR", **fields}


def with_part(kind: str, /, **fields: Any) -> Json:
    row, _, good = PARTS[kind]
    return shelf(**{row: [{"name": "a", **good, **fields}]})


def test_the_tables_have_every_class_and_both_ends_of_every_figure() -> None:
    assert set(SCHEMA["$defs"]) == {*PARTS, "ShelfRig"}
    assert len(FIGURES) >= 62
    assert len(OUTSIDE) == 2 * len(FIGURES)


# A field ------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "field", "bound", "limit"), OUTSIDE)
def test_out_of_range_on_either_side_is_told(
    kind: str, field: str, bound: str, limit: float
) -> None:
    word, step = BOUNDS[bound]
    value = limit + step
    if field in ("columns", "rows"):
        value = int(value)
    told = f'{PARTS[kind][1]} 1, {told_field(field)} "{told_value(field, value)}"'
    rule = f"must be {word} {told_value(field, limit)}"
    assert refusal(with_part(kind, **{field: value})) == f"mine.json: {told}: {rule}"


@pytest.mark.parametrize(("kind", "field"), [row[:2] for row in FIGURES])
@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("3,76", "; write a point for the comma and no quotation marks: 3.76"),
        ("+3,76", "; write a point for the comma and no quotation marks: 3.76"),
        ("3.76", "; write no quotation marks: 3.76"),
        ("-12", "; write no quotation marks: -12"),
        ("1.234,5", ""),
        ("3.76 mm", ""),
        ("", ""),
        ("١٢", ""),
    ],
)
def test_text_in_a_number_is_told_how_to_be_written(
    kind: str, field: str, text: str, hint: str
) -> None:
    words = refusal(with_part(kind, **{field: text}))
    assert words.startswith(f'mine.json: {PARTS[kind][1]} 1, {told_field(field)} "{text}": must ')
    assert words.endswith(f" number{hint}")


@pytest.mark.parametrize(("kind", "field", "way", "null"), FIGURES)
def test_null_stands_for_what_is_not_known_and_only_for_that(
    kind: str, field: str, way: Json, null: bool
) -> None:
    content = with_part(kind, **{field: None})
    if null:
        record_of(json.dumps(content).encode(), "mine.json", (Shelf,), refused_as=CoreError)
    else:
        words = refusal(content)
        what = "a whole number" if way["type"] == "integer" else "a number"
        assert f'1, {told_field(field)} "nothing": must be {what}' in words


@pytest.mark.parametrize("kind", PARTS)
def test_what_a_part_needs_is_asked_for_by_name(kind: str) -> None:
    row, called, good = PARTS[kind]
    needed = [field for field in SCHEMA["$defs"][kind]["required"] if field != "kind"]
    assert needed == ["name", *(field for field in good if field != "kind")]
    for field in needed:
        part = {key: value for key, value in {"name": "a", **good}.items() if key != field}
        words = refusal(shelf(**{row: [part]}))
        told = f'{called} 1, {told_field(field)} "not given": is needed here'
        assert words == f"mine.json: {told}"


@pytest.mark.parametrize("kind", PARTS)
@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "0x10", "1_000", ".5"])
def test_what_is_no_finite_json_number_is_told_with_its_place(kind: str, number: str) -> None:
    text = json.dumps(with_part(kind, mass_kg=7)).replace('"mass_kg": 7', f'"mass_kg": {number}')
    words = refusal(text.encode())
    if number == "1e999":
        assert words.endswith('mass "inf kg": must be a finite number')
    else:
        assert words.startswith("mine.json is not JSON: ")
        assert " at line 1 column " in words


@pytest.mark.parametrize("kind", PARTS)
def test_a_decimal_comma_is_told_to_be_a_point(kind: str) -> None:
    text = json.dumps(with_part(kind, mass_kg=7), indent=1).replace(": 7", ": 3,76")
    words = refusal(text.encode())
    assert words.startswith("mine.json is not JSON: ")
    assert words.endswith("; write a point for the comma: 3.76")


def test_a_comma_that_belongs_there_gives_no_such_hint() -> None:
    for text in (
        '{"a": 1, 2: 3}',
        '{"a": [1,2], b: 1}',
        '{"a": "1,2", b: 1}',
        '{"a": 1,\n2}',
        '{"a": "b: 1,5", c: 1}',
    ):
        assert "comma:" not in refusal(text.encode())


@pytest.mark.parametrize("kind", PARTS)
def test_an_unknown_field_and_an_unknown_kind_are_told(kind: str) -> None:
    called = PARTS[kind][1]
    words = refusal(with_part(kind, colour="red"))
    assert words == f'mine.json: {called} 1, colour "red": is not a field that belongs here'
    if "kind" in SCHEMA["$defs"][kind]["properties"]:
        words = refusal(with_part(kind, kind="eyepiece"))
        assert words.startswith(f'mine.json: {called} 1, kind "eyepiece": must be one of \'')


def test_a_figure_of_another_kind_of_part_is_told() -> None:
    words = refusal(with_part("OtherPart", glass_mm=2))
    assert words == (
        'mine.json: other part 1, glass "2 mm": is not a field that belongs here'
    )  # fmt: skip


# The whole ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("currency", "rule"),
    [
        ("EUX", '"EUX": is no currency of ISO 4217, such as EUR or USD'),
        ("eur", '"eur": must be three capital letters (ISO 4217)'),
        ("€", '"€": must be three capital letters (ISO 4217)'),
        (None, '"nothing": must be text'),
        (978, '"978": must be text'),
        (["EUR", "USD"], '"a list": must be text'),
    ],
)
def test_a_currency_that_is_none_is_told(currency: Any, rule: str) -> None:
    assert refusal(shelf(currency=currency)) == f"mine.json: currency {rule}"


def test_a_part_cannot_have_a_currency_of_its_own() -> None:
    words = refusal(with_part("Mount", price=900, currency="CHF"))
    assert words == 'mine.json: mount 1, currency "CHF": is not a field that belongs here'
    words = refusal(with_part("Mount", price="900 CHF"))
    assert words == 'mine.json: mount 1, price "900 CHF": must be a number'


@pytest.mark.parametrize("row", ["telescopes", "correctors", "cameras", "mounts", "others"])
def test_a_name_that_is_there_twice_is_told(row: str) -> None:
    good = next(part for held, _, part in PARTS.values() if held == row)
    part = {"name": "the same", **good}
    words = refusal(shelf(**{row: [part, part]}))
    told = row.replace("others", "other parts")
    assert words == f'mine.json: {told}, name "the same": must be there only once'


@pytest.mark.parametrize("slot", ["telescope", "camera", "name"])
def test_a_rig_without_what_every_rig_has_is_told(slot: str) -> None:
    rig = {"name": "r", "telescope": "a", "camera": "a"}
    del rig[slot]
    assert refusal(shelf(rigs=[rig])) == f'mine.json: rig 1, {slot} "not given": is needed here'
    whole = {"name": "r", "telescope": {"name": "a", "aperture_mm": 80, "focal_length_mm": 480},
             "camera": {"name": "a", "columns": 6, "rows": 4, "pixel_um": 3.76}}  # fmt: skip
    del whole[slot]
    file = {"format": "skysill-rig", "version": 1, "currency": "EUR", "rig": whole}
    words = refusal(file, RigFile)
    assert words == f'mine.json: rig, {slot} "not given": is needed here'


def test_a_rig_file_of_parts_in_another_place_is_told() -> None:
    rig = {"name": "r", "telescope": {"name": "a", "columns": 6, "rows": 4, "pixel_um": 3.76},
           "camera": {"name": "a", "columns": 6, "rows": 4, "pixel_um": 3.76}}  # fmt: skip
    file = {"format": "skysill-rig", "version": 1, "currency": "EUR", "rig": rig}
    assert refusal(file, RigFile).startswith(
        'mine.json: rig, telescope, aperture "not given": is needed here (and '
    )
    file["rig"] = {**rig, "telescope": "refractor 80/480"}
    words = refusal(file, RigFile)
    assert words == 'mine.json: rig, telescope "refractor 80/480": must be an object'
