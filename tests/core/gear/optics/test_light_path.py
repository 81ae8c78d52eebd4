"""Lengths from the corrector to the sensor, and what glass adds."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.optics.light_path import back_focus, glass_shift_mm, light_path
from tests.core.gear.check_kits import finding, guide_scope, kit, reducer, sensor, spacer, wheel


def test_the_usual_stack_is_55_mm() -> None:
    """17.5 camera + 20 wheel + 16.5 tube + 1 spacer = 55.0 mm, common practice."""
    tube, ring = spacer(length_mm=16.5), spacer(length_mm=1.0)
    path = light_path(kit(tube, ring, wheel(), guide_scope()))
    assert [e.length_mm for e in path.elements] == [16.5, 1.0, 20.0, 17.5]
    assert [e.to_sensor_mm for e in path.elements] == [55.0, 38.5, 37.5, 17.5]
    assert path.present_mm == 55.0


@pytest.mark.parametrize(
    ("thickness", "index", "shift"),
    [(2.0, 1.52, 0.684211), (3.0, 1.5168, 1.022152), (3.0, 1.5, 1.0), (0.0, 1.5, 0.0)],
)
def test_a_plate_moves_the_focus_by_a_third_of_its_thickness_at_index_one_and_a_half(
    thickness: float, index: float, shift: float
) -> None:
    """t(1 - 1/n), plane-parallel plate, textbook; by hand: 2 x 0.52/1.52 = 0.684211."""
    assert glass_shift_mm(thickness, index) == pytest.approx(shift, abs=1e-6)


def test_filter_and_window_are_both_counted() -> None:
    rig = kit(
        spacer(),
        wheel(glass_mm=2.0, glass_index=1.52),
        camera=sensor(cover_glass_mm=3.0, cover_index=1.5168),
    )
    focus = back_focus(rig)
    assert focus.required_mm == pytest.approx(55.0 + 0.684211 + 1.022152, abs=1e-6)
    assert focus.missing_mm == pytest.approx(1.706363, abs=1e-6)


def test_of_the_filters_in_a_wheel_one_is_in_the_beam_the_one_with_most_glass() -> None:
    thin = wheel(kind="filter", length_mm=None, glass_mm=1.0, glass_index=1.5)
    thick = thin.but(name="thick", glass_mm=3.0)
    rig = kit(spacer(), wheel(glass_mm=None), thin, thick)
    assert light_path(rig).shift_mm == pytest.approx(1.0)
    assert light_path(rig).present_mm == 55.0
    screwed_in = kit(spacer(), thin, thick)
    assert light_path(screwed_in).shift_mm == pytest.approx(1.0 + 1.0 / 3.0)


@given(thickness=st.floats(0.0, 20.0), more=st.floats(0.0, 20.0), index=st.floats(1.0, 4.0))
@settings(max_examples=60)
def test_more_glass_never_shortens_the_required_distance(
    thickness: float, more: float, index: float
) -> None:
    def required(glass_mm: float) -> float:
        found = back_focus(kit(spacer(), wheel(glass_mm=glass_mm, glass_index=index)))
        assert found.required_mm is not None
        return found.required_mm

    assert required(thickness + more) >= required(thickness) >= 55.0


@pytest.mark.parametrize(
    ("length_mm", "severity", "words"),
    [
        (17.5, "good", "it fits"),
        (17.0, "good", "it fits"),
        (16.7, "note", "add a spacer of 0.8 mm"),
        (15.5, "caution", "add a spacer of 2.0 mm"),
        (18.3, "note", "too long by 0.8 mm"),
        (19.5, "stop", "too long by 2.0 mm"),
    ],
)
def test_a_gap_is_told_with_its_spacer_and_an_excess_as_beyond_cure(
    length_mm: float, severity: str, words: str
) -> None:
    """0.5 and 1 mm, common practice."""
    found = finding("back-focus", kit(spacer(length_mm=length_mm), wheel()))
    assert found.severity == severity
    assert words in found.message
    assert found.value == pytest.approx(17.5 - length_mm)


def test_below_f4_half_the_tolerance_is_left() -> None:
    fast = {"telescope": kit().telescope.but(aperture_mm=120.0)}
    gap = (spacer(length_mm=17.1), wheel())
    assert finding("back-focus", kit(*gap)).severity == "good"
    assert finding("back-focus", kit(*gap, **fast)).severity == "note"


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        (
            {"corrector": reducer(back_focus_mm=None)},
            "the back focus of reducer (the distance to the sensor that it asks for)",
        ),
        (
            {"camera": sensor(flange_mm=None)},
            "the flange distance of sensor (from its front to its sensor)",
        ),
        ({"camera": sensor(cover_glass_mm=None)}, "the glass thickness of sensor"),
        ({"camera": sensor(cover_glass_mm=2.0)}, "the refractive index of the glass of sensor"),
        ({"others": (spacer(length_mm=None), wheel())}, "the length of spacer"),
        ({"others": (spacer(), wheel(glass_mm=None))}, "the glass thickness of wheel"),
        (
            {"corrector": None},
            "the back focus of tube (the distance to the sensor that it asks for)",
        ),
    ],
)
def test_an_unknown_figure_of_the_chain_is_asked_for(
    change: dict[str, object], wanted: str
) -> None:
    found = finding("back-focus", kit(**change))
    assert (found.severity, found.value) == ("unknown", None)
    assert found.message == f"Back focus not known: give {wanted}."


def test_a_telescope_that_focuses_by_its_focuser_alone_has_no_fixed_distance() -> None:
    free = kit(corrector=None, telescope=kit().telescope.but(back_focus_fixed=False))
    assert finding("back-focus", free).severity == "good"


def test_a_path_is_that_of_its_own_parts_even_where_others_are_shared() -> None:
    """17.5 mm of camera behind 17.5 and 20 mm, then behind 10 and 20; then 44 mm of camera."""
    shared = wheel()
    eye = sensor()
    first, short = (kit(spacer(length_mm=mm), shared, camera=eye) for mm in (17.5, 10.0))
    other_eye = first.but(camera=sensor(flange_mm=44.0))
    turned = first.but(others=first.others[::-1])
    found = [light_path(rig).present_mm for rig in (first, short, other_eye, first)]
    assert found == [55.0, 47.5, 81.5, 55.0]
    assert [e.part.name for e in light_path(turned).elements] == ["wheel", "spacer", "sensor"]
    assert light_path(first) is light_path(first.but(name="again")), "worked out once"
    twin = first.but(camera=sensor())
    assert light_path(twin).place_of(twin.camera) == 17.5, "its own camera, not an equal one"
