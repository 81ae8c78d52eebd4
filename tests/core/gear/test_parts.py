"""Every field of every part refuses what it cannot be, in one sentence."""

import json
import math

import pytest
from pydantic import ValidationError

from core.errors import BadValueError, InvalidRigError
from core.gear.accessories import FilterPart, GuideCamera, GuideScope, OffAxisGuider, Spacer, Tripod
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Part, Telescope
from core.gear.rig import Rig

GOOD: dict[type[Part], dict[str, object]] = {
    Telescope: {"name": "tube", "aperture_mm": 80.0, "focal_length_mm": 480.0},
    Corrector: {"name": "glass", "factor": 0.8},
    Camera: {"name": "sensor", "columns": 6248, "rows": 4176, "pixel_um": 3.76},
    Mount: {"name": "mount"},
    OtherPart: {"name": "thing"},
    FilterPart: {"name": "wheel"},
    Spacer: {"name": "tube"},
    OffAxisGuider: {"name": "prism"},
    GuideScope: {"name": "small tube"},
    GuideCamera: {"name": "small sensor"},
    Tripod: {"name": "legs"},
}

#: Part, field, value, the value as it is told, the rule as it is told.
OUT_OF_RANGE = [
    (Telescope, "aperture_mm", 0.0, '"0 mm"', "at least 0.1 mm"),
    (Telescope, "aperture_mm", -80.0, '"-80 mm"', "at least 0.1 mm"),
    (Telescope, "aperture_mm", 50_001.0, '"50001 mm"', "at most 50000 mm"),
    (Telescope, "focal_length_mm", -480.0, '"-480 mm"', "at least 1 mm"),
    (Telescope, "focal_length_mm", 1e7, '"10000000 mm"', "at most 1000000 mm"),
    (Telescope, "obstruction_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (Telescope, "obstruction_mm", 80.0, '"80 mm"', "less than the aperture of 80 mm"),
    (Telescope, "image_circle_mm", 0.0, '"0 mm"', "more than 0 mm"),
    (Telescope, "back_focus_mm", -55.0, '"-55 mm"', "at least 0 mm"),
    (Telescope, "length_mm", 10_001.0, '"10001 mm"', "at most 10000 mm"),
    (Telescope, "mass_kg", -3.0, '"-3 kg"', "at least 0 kg"),
    (Telescope, "price", -1.0, '"-1"', "at least 0"),
    (Telescope, "price", 2e9, '"2000000000"', "at most 1000000000"),
    (Telescope, "thread", "", '""', "must not be empty"),
    (Telescope, "kind", "spyglass", '"spyglass"', "must be one of"),
    (Telescope, "name", "  ", '""', "must not be empty"),
    (Telescope, "name", "x" * 121, "xxx...", "at most 120 characters"),
    (Telescope, "name", "two\nlines", '"two lines"', "characters that do not belong"),
    (Telescope, "note", "x" * 4001, "xxx...", "at most 4000 characters"),
    (Corrector, "factor", 0.0, '"0"', "at least 0.1"),
    (Corrector, "factor", 11.0, '"11"', "at most 10"),
    (Corrector, "image_circle_mm", -1.0, '"-1 mm"', "more than 0 mm"),
    (Corrector, "back_focus_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (Camera, "columns", 0, '"0"', "at least 1"),
    (Camera, "rows", -5, '"-5"', "at least 1"),
    (Camera, "columns", 1_000_001, '"1000001"', "at most 200000"),
    (Camera, "rows", 2.5, '"2.5"', "a whole number"),
    (Camera, "pixel_um", 0.0, '"0 µm"', "at least 0.1 µm"),
    (Camera, "pixel_um", 1001.0, '"1001 µm"', "at most 1000 µm"),
    (Camera, "flange_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (Camera, "read_noise_e", -1.0, '"-1 electrons"', "at least 0 electrons"),
    (Camera, "full_well_e", 0.0, '"0 electrons"', "more than 0 electrons"),
    (Camera, "peak_qe", 1.1, '"1.1"', "at most 1"),
    (Camera, "sensor", "sepia", '"sepia"', "must be one of"),
    (Camera, "cooled", "yes", '"yes"', "must be true or false"),
    (Mount, "load_bare_kg", 0.0, '"0 kg"', "more than 0 kg"),
    (Mount, "load_balanced_kg", 10_001.0, '"10001 kg"', "at most 10000 kg"),
    (Mount, "rated_torque_n_m", 0.0, '"0 N m"', "more than 0 N m"),
    (Mount, "axis_to_saddle_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (Tripod, "rated_load_kg", 0.0, '"0 kg"', "more than 0 kg"),
    (Mount, "kind", "shoulder", '"shoulder"', "must be one of"),
    (Telescope, "link", "http://x.example/a", '"http://x.example/a"', "do not belong there"),
    (Telescope, "link", "https://a b", '"https://a b"', "do not belong there"),
    (Telescope, "link", "javascript:alert(1)", '"javascript:alert(1)"', "do not belong there"),
    (Telescope, "back_focus_fixed", 1, '"1"', "must be true or false"),
    (Corrector, "thread_front", "", '""', "must not be empty"),
    (Camera, "cover_glass_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (Camera, "cover_index", 0.9, '"0.9"', "at least 1"),
    (FilterPart, "glass_mm", -2.0, '"-2 mm"', "at least 0 mm"),
    (FilterPart, "glass_index", 4.5, '"4.5"', "at most 4"),
    (FilterPart, "band_nm", 0.0, '"0 nm"', "more than 0 nm"),
    (FilterPart, "centre_nm", -656.0, '"-656 nm"', "more than 0 nm"),
    (FilterPart, "kind", "spacer", '"spacer"', "must be one of"),
    (Spacer, "clear_diameter_mm", 0.0, '"0 mm"', "more than 0 mm"),
    (OffAxisGuider, "prism_mm", 0.0, '"0 mm"', "more than 0 mm"),
    (OffAxisGuider, "prism_radius_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (OffAxisGuider, "prism_angle_deg", 360.0, '"360 degrees"', "less than 360 degrees"),
    (GuideScope, "focal_length_mm", 0.0, '"0 mm"', "at least 1 mm"),
    (GuideScope, "aperture_mm", 0.0, '"0 mm"', "more than 0 mm"),
    (GuideCamera, "pixel_um", 0.0, '"0 µm"', "at least 0.1 µm"),
    (GuideCamera, "rows", 0, '"0"', "at least 1"),
    (OtherPart, "length_mm", -1.0, '"-1 mm"', "at least 0 mm"),
    (OtherPart, "on_mount", None, '"nothing"', "must be true or false"),
]


@pytest.mark.parametrize(("part", "field", "value", "told", "rule"), OUT_OF_RANGE)
def test_a_figure_out_of_range_is_refused_with_its_value_unit_and_rule(
    part: type[Part], field: str, value: object, told: str, rule: str
) -> None:
    with pytest.raises(InvalidRigError) as caught:
        part(**{**GOOD[part], field: value})
    message = str(caught.value)
    assert told in message
    assert rule in message
    assert "\n" not in message


NUMBERS = [
    (part, field)
    for part in GOOD
    for field, info in part.model_fields.items()
    if "float" in str(info.annotation) or field in ("columns", "rows")
]


def test_the_table_of_numbers_has_all_of_them() -> None:
    """Counted by hand.

    Telescope 8, corrector 6, camera 11, mount 6, other 3; filter 8, spacer 4, off-axis
    guider 7, guide scope 5, guide camera 6, tripod 4.
    """
    assert len(NUMBERS) == 68


@pytest.mark.parametrize(("part", "field"), NUMBERS)
@pytest.mark.parametrize(
    "value", [math.nan, math.inf, -math.inf, "3,5", "3.5", "", True, [1.0], 10**400, -(10**400)]
)
def test_no_number_takes_what_is_not_a_finite_number(
    part: type[Part], field: str, value: object
) -> None:
    with pytest.raises(InvalidRigError) as caught:
        part(**{**GOOD[part], field: value})
    message = str(caught.value)
    assert message.startswith(message_start(field))
    assert len(message) < 120


def message_start(field: str) -> str:
    """Give the words a message about a field begins with."""
    words = {
        "pixel_um": "pixel pitch",
        "peak_qe": "peak quantum efficiency",
        "load_bare_kg": "rated load without counterweight",
        "load_balanced_kg": "rated load with counterweight",
    }
    plain = field
    for ending in ("_n_m", "_mm", "_kg", "_deg", "_nm", "_e"):
        plain = plain.removesuffix(ending)
    return words.get(field, plain.replace("_", " "))


@pytest.mark.parametrize("part", list(GOOD))
def test_what_is_not_given_is_unknown_and_what_is_needed_is_named(part: type[Part]) -> None:
    made = part(**GOOD[part])
    assert made.mass_kg is None
    assert made.price is None
    for field in GOOD[part]:
        if part.model_fields[field].is_required():
            fewer = {name: value for name, value in GOOD[part].items() if name != field}
            with pytest.raises(InvalidRigError, match=r"not given.*is needed here"):
                part(**fewer)


def test_a_field_that_does_not_exist_is_named() -> None:
    with pytest.raises(InvalidRigError, match='focal "480": is not a field that belongs here'):
        Telescope(name="tube", aperture_mm=80.0, focal_length_mm=480.0, focal=480)  # type: ignore[call-arg]


def test_the_first_fault_is_told_and_the_others_counted() -> None:
    with pytest.raises(InvalidRigError, match=r"columns \"0\": must be at least 1 \(and 2 more\)"):
        Camera(name="sensor", columns=0, rows=0, pixel_um=0.0)


@pytest.mark.parametrize(
    ("aperture_mm", "focal_length_mm", "told"),
    [(4000.0, 400.0, "f/0.1"), (1000.0, 499.0, "f/0.499"), (0.5, 1000.0, "f/2000")],
)
def test_a_focal_ratio_that_no_optics_have_is_refused(
    aperture_mm: float, focal_length_mm: float, told: str
) -> None:
    """f/0.5 is the limit of optics in air (Abbe sine condition, sin U <= 1)."""
    with pytest.raises(InvalidRigError, match=r"between f/0\.5 and f/1000") as caught:
        Telescope(name="tube", aperture_mm=aperture_mm, focal_length_mm=focal_length_mm)
    assert told in str(caught.value)


def test_parts_are_frozen_and_a_changed_copy_is_checked() -> None:
    tube = Telescope(name="tube", aperture_mm=80.0, focal_length_mm=480.0)
    with pytest.raises(ValidationError, match="frozen"):
        tube.aperture_mm = 90.0  # type: ignore[misc]
    assert tube.but(aperture_mm=90.0).aperture_mm == 90.0
    assert tube.aperture_mm == 80.0
    with pytest.raises(InvalidRigError, match="aperture"):
        tube.but(aperture_mm=-90.0)


def test_a_fault_deep_inside_names_the_whole_way() -> None:
    text = """{"name": "kit",
      "telescope": {"name": "tube", "aperture_mm": 80, "focal_length_mm": 480},
      "camera": {"name": "sensor", "columns": 10, "rows": 10, "pixel_um": 3.76},
      "others": [{"name": "a"}, {"name": "b", "mass_kg": -2}]}"""
    with pytest.raises(InvalidRigError, match=r'^other part 2, mass "-2 kg": must be at least 0'):
        Rig.from_json(text)
    deep = text.replace('"aperture_mm": 80', '"aperture_mm": 80, "obstruction_mm": 90')
    with pytest.raises(
        BadValueError, match=r"^telescope, obstruction \"90 mm\": must be less than"
    ):
        Rig.from_json(deep.replace("-2", "2"))


@pytest.mark.parametrize(
    ("kind", "made"),
    [
        ("filter", FilterPart),
        ("filter wheel", FilterPart),
        ("filter drawer", FilterPart),
        ("spacer", Spacer),
        ("adapter", Spacer),
        ("off-axis guider", OffAxisGuider),
        ("guide scope", GuideScope),
        ("guide camera", GuideCamera),
        ("guiding", OtherPart),
        ("tripod", Tripod),
        (None, OtherPart),
    ],
)
def test_a_part_is_read_as_its_kind_says_and_comes_back_the_same(
    kind: str | None, made: type[OtherPart]
) -> None:
    """The kinds of the first files are among them, with the figures that those had."""
    part = {"name": "part", "mass_kg": 0.3, "length_mm": 20.0, "on_mount": True}
    part |= {} if kind is None else {"kind": kind}
    kit = {
        "name": "kit",
        "telescope": {"name": "tube", "aperture_mm": 80, "focal_length_mm": 480},
        "camera": {"name": "sensor", "columns": 10, "rows": 10, "pixel_um": 3.76},
        "others": [part],
    }
    rig = Rig.from_json(json.dumps(kit))
    assert type(rig.others[0]) is made
    assert Rig.from_json(rig.model_dump_json()) == rig
    assert rig.but(name="kit").others[0] == rig.others[0]


@pytest.mark.parametrize("kind", ["wheelbarrow", 7, None, ["filter"], {}])
def test_a_kind_that_does_not_exist_is_told_with_those_that_do(kind: object) -> None:
    kit = {
        "name": "kit",
        "telescope": {"name": "tube", "aperture_mm": 80, "focal_length_mm": 480},
        "camera": {"name": "sensor", "columns": 10, "rows": 10, "pixel_um": 3.76},
        "others": [{"name": "part", "kind": kind}],
    }
    rule = r"^other part 1, kind .*: must be one of .*filter wheel.*guide scope"
    with pytest.raises(InvalidRigError, match=rule):
        Rig.from_json(json.dumps(kit))


def test_a_link_over_a_safe_connection_and_alternatives_are_kept() -> None:
    part = OtherPart(name="part", link="https://x.example/a?b=1", alternatives=("one", "two"))
    assert OtherPart.from_json(part.model_dump_json()) == part
