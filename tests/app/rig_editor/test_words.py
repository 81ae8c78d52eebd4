"""Every figure of every part has words, and reads back as it is written."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.rig_editor.figure_text import choices_of, read_figure, text_of
from app.words.part_words import FIELDS, SPECIAL, field_words, kind_words
from core.errors import InvalidRigError
from core.gear.accessories import (
    FilterPart,
    GuideCamera,
    GuideScope,
    OffAxisGuider,
    Spacer,
    Tripod,
)
from core.gear.kinds import KINDS
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Telescope
from core.gear.shelf.shelf import Shelf

CLASSES = (
    Telescope, Corrector, Camera, Mount, OtherPart, FilterPart, Spacer, OffAxisGuider,
    GuideScope, GuideCamera, Tripod,
)  # fmt: skip


@pytest.mark.parametrize("part_class", CLASSES)
def test_every_field_of_every_class_has_label_and_help(part_class: type) -> None:
    labels = [field_words(part_class, field).label for field in part_class.model_fields]
    assert len(set(labels)) == len(labels)
    for field in part_class.model_fields:
        words = field_words(part_class, field)
        assert words.label[:1].isupper()
        assert words.help
        assert len(words.help) < 80


def test_no_words_are_kept_for_fields_that_are_gone() -> None:
    fields = {field for part_class in CLASSES for field in part_class.model_fields}
    assert set(FIELDS) == fields
    names = {part_class.__name__: part_class for part_class in CLASSES}
    assert all(field in names[name].model_fields for name, field in SPECIAL)


def test_units_come_from_the_fields_names() -> None:
    assert field_words(Camera, "read_noise_e").unit == "e"
    assert field_words(Camera, "columns").unit == "px"
    assert field_words(OffAxisGuider, "prism_angle_deg").unit == "°"
    assert field_words(Mount, "rated_torque_n_m").unit == "N m"
    assert field_words(Camera, "peak_qe").unit == ""


def test_every_kind_has_words() -> None:
    assert len({kind_words(kind) for kind in KINDS}) == len(KINDS)


def test_every_figure_of_the_shelf_reads_back_as_it_is_written() -> None:
    for part in Shelf.load().parts:
        for field in type(part).model_fields:
            if field == "kind" or choices_of(type(part), field) is not None:
                continue
            value = getattr(part, field)
            assert read_figure(type(part), field, text_of(value)) == value, (part.name, field)


@given(st.floats(0.001, 9999.0))
@settings(max_examples=60)
def test_a_number_reads_back_to_ten_digits_with_and_without_its_unit(value: float) -> None:
    for text in (text_of(value), f"{text_of(value)} mm", f"  {text_of(value)}mm "):
        assert read_figure(Spacer, "length_mm", text) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("text", ["1_000", "٣", "0x10", "nan", "inf", "1 2", "--1", "1.2.3", "mm"])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(InvalidRigError, match="must be a number"):
        read_figure(Spacer, "length_mm", text)


def test_choices_are_offered_where_there_is_nothing_to_type() -> None:
    assert choices_of(Camera, "sensor") == {"not known": None, "mono": "mono", "colour": "colour"}
    assert choices_of(Spacer, "on_mount") == {"yes": True, "no": False}
    assert choices_of(Camera, "thread") is None
    assert choices_of(Camera, "alternatives") is None


def test_alternatives_are_names_with_a_semicolon_between() -> None:
    assert read_figure(Camera, "alternatives", " a, b;; c ") == ("a, b", "c")
    assert text_of(("a, b", "c")) == "a, b; c"
