"""Each rule against its printed limits; what is not known is asked for."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.checks import findings, passes
from core.gear.checks.filters import band_shift_nm
from core.gear.checks.finding import SEVERITIES
from core.gear.checks.tracking import rotation_arcsec_s
from core.gear.optics.resolution import diffraction_arcsec, resolution_arcsec
from core.gear.parts import Mount, OtherPart
from core.gear.rig import rig_from_numbers
from core.gear.shelf.shelf import Shelf
from core.plan.store import demo_plan
from tests.core.gear.check_kits import (
    equatorial,
    finding,
    kit,
    sensor,
    spacer,
    tube,
    wheel,
)


def loaded(kg: float) -> OtherPart:
    """Give what brings the kit's 4.1 kg (3 tube, 0.3 reducer, 0.7 camera, 0.1 spacer) to kg."""
    return OtherPart(name="load", mass_kg=kg - 4.1)


@pytest.mark.parametrize(
    ("mass_kg", "severity"),
    [(7.5, "good"), (9.0, "note"), (10.05, "note"), (10.1, "caution"), (15.0, "caution"),
     (15.1, "stop")],
)  # fmt: skip
def test_the_load_is_graded_at_half_two_thirds_and_all_of_the_rating(
    mass_kg: float, severity: str
) -> None:
    """9.0 kg on rated 15 is 60 %, the usual most; 50, 67 and 100 %, common practice."""
    rig = kit(spacer(), loaded(mass_kg))
    assert rig.mass_kg == pytest.approx(mass_kg)
    assert finding("load", rig).severity == severity


def test_a_strain_wave_mount_is_judged_by_the_rating_it_is_used_at() -> None:
    mount = Mount(name="m", kind="strain wave", load_bare_kg=8, load_balanced_kg=13, mass_kg=5)
    bare = finding("load", kit(spacer(), loaded(6.5), mount=mount))
    assert (bare.severity, bare.value) == ("caution", pytest.approx(6.5 / 8))
    assert "; with its counterweight this mount is rated for 13 kg" in bare.message
    balanced = finding("load", kit(spacer(), loaded(6.5), mount=mount, counterweight=True))
    assert (balanced.severity, balanced.value) == ("good", pytest.approx(0.5))


@pytest.mark.parametrize(
    ("focal_mm", "mass_kg", "severity"),
    [(1000.0, 8.0, "note"), (1001.0, 7.5, "good"), (1001.0, 8.0, "caution"),
     (1001.0, 15.1, "stop")],
)  # fmt: skip
def test_above_a_metre_of_focal_length_half_of_the_rating_is_all(
    focal_mm: float, mass_kg: float, severity: str
) -> None:
    """A long focal length is at the low end of what mounts carry, common practice."""
    rig = kit(spacer(), loaded(mass_kg), telescope=tube(focal_length_mm=focal_mm / 0.8))
    found = finding("load", rig)
    assert found.severity == severity
    assert found.limit == (0.67 if focal_mm <= 1000.0 else 0.5)


@given(mass=st.floats(0.0, 50.0), more=st.floats(0.0, 50.0))
@settings(max_examples=50)
def test_a_heavier_part_never_lowers_the_load_nor_the_grade(mass: float, more: float) -> None:
    light, heavy = (
        finding("load", kit(spacer(), OtherPart(name="load", mass_kg=kg)))
        for kg in (mass, mass + more)
    )
    assert light.value is not None
    assert heavy.value is not None
    assert heavy.value >= light.value
    assert SEVERITIES.index(heavy.severity) <= SEVERITIES.index(light.severity)


def test_an_unknown_mass_rating_or_mount_is_asked_for() -> None:
    assert finding("load", kit(mount=None)).message == "Load not known: give the mount."
    unrated = finding("load", kit(mount=equatorial(load_balanced_kg=None)))
    assert "give the rated load of mount with counterweight" in unrated.message
    unweighed = kit(camera=sensor(mass_kg=None))
    assert "give the mass of sensor" in finding("load", unweighed).message
    assert "give the mass of sensor" in finding("total-to-carry", unweighed).message


def test_what_is_carried_has_the_mount_and_all_that_stands_on_the_ground() -> None:
    tripod = OtherPart(name="legs", kind="tripod", mass_kg=6.0, on_mount=False)
    found = finding("total-to-carry", kit(spacer(), tripod))
    assert found.value == pytest.approx(4.1 + 9.0 + 6.0)
    assert found.severity == "note"


def test_diffraction_seeing_and_guiding_add_as_squares() -> None:
    """Airy width 1.028994 lambda/D (zero of its Bessel function): 1.45919 arcsec at 80 mm.

    With seeing 2.5 and guiding 0.7 arcsec on each axis: 3.3311 arcsec, by hand.
    """
    assert diffraction_arcsec(80.0) == pytest.approx(1.45919, abs=1e-5)
    width = resolution_arcsec(kit(), seeing_arcsec=2.5, guide_rms_arcsec=0.7)
    assert width == pytest.approx(3.3311, abs=1e-4)


@pytest.mark.parametrize(
    ("seeing", "severity", "words"),
    [
        (1.9, "note", "coarse"),
        (2.5, "good", "fair"),
        (3.8, "good", "fair"),
        (3.9, "good", "well sampled"),
        (7.7, "good", "well sampled"),
        (7.8, "note", "finer"),
    ],
)
def test_sampling_is_told_by_pixels_to_the_seeing(seeing: float, severity: str, words: str) -> None:
    """1.94 arcsec/px: s/4, s/2 and s are 7.76, 3.88 and 1.94; 2.5 is fair (common practice)."""
    found = finding("sampling", kit(), seeing_arcsec=seeing)
    assert found.severity == severity
    assert words in found.message


def test_field_rotation_at_the_equator_of_the_sky_is_17_9_arcsec_a_second_at_latitude_40() -> None:
    """Latitude 40, hour angle 0, declination 0: +17.9253 (SLALIB's formula, SUN/67)."""
    assert rotation_arcsec_s(40.0, 180.0, 50.0) == pytest.approx(17.9253, abs=1e-4)
    assert rotation_arcsec_s(40.0, 90.0, 30.0) == pytest.approx(0.0, abs=1e-12)


def test_an_alt_azimuth_mount_limits_the_exposure_and_others_do_not() -> None:
    """15.0410671787 x cos 45 / cos 60 = 21.2713 arcsec/s; corner at 3757.5 px: 0.3875 px/s."""
    mount = Mount(name="m", kind="alt-azimuth", load_bare_kg=20.0, mass_kg=4.0)
    found = finding("field-rotation", kit(mount=mount), exposure_s=10.0)
    assert found.value == pytest.approx(3.875, abs=1e-3)
    assert found.severity == "caution"
    assert "expose for 2.5 s at most" in found.message
    assert finding("field-rotation", kit(mount=mount), exposure_s=2.5).severity == "good"
    assert finding("field-rotation", kit(mount=mount), exposure_s=5.0).severity == "note"
    assert all(f.rule != "field-rotation" for f in findings(kit()))


def test_a_band_moves_to_the_blue_by_the_tilt_of_the_outermost_ray() -> None:
    """f/2: sin U = 0.242536, 656.28 (1 - sqrt(1 - 0.0147059)) = 4.843 nm (textbook, by hand)."""
    assert band_shift_nm(656.28, 2.0) == pytest.approx(4.843, abs=1e-3)


@pytest.mark.parametrize(
    ("band_nm", "aperture", "severity"),
    [(3.0, 80.0, "note"), (7.0, 80.0, "good"), (7.0, 200.0, "caution"), (3.0, 40.0, "good")],
)
def test_narrow_filters_suit_slow_beams(band_nm: float, aperture: float, severity: str) -> None:
    """0.82 nm at f/5, 4.84 nm at f/2, 0.21 nm at f/10, over the width of the band."""
    rig = kit(spacer(), wheel(band_nm=band_nm), telescope=tube(aperture_mm=aperture))
    assert finding("narrow-filter", rig).severity == severity


def test_a_wide_filter_is_no_narrow_one_and_an_unknown_one_is_asked_about() -> None:
    assert all(f.rule != "narrow-filter" for f in findings(kit()))
    found = finding("narrow-filter", kit(spacer(), wheel(band_nm=None)))
    assert found.severity == "unknown"


def test_a_joint_with_two_threads_is_refused_and_names_both() -> None:
    found = finding("threads", kit(wheel()))
    assert (found.severity, found.part) == ("stop", "wheel")
    assert "reducer ends in M48x0.75 but wheel begins with M42x0.75" in found.message
    assert not passes(kit(wheel()))


def test_threads_that_fit_are_told_whatever_their_spelling() -> None:
    assert finding("threads", kit(spacer(thread="m42 × 0.75"), wheel())).severity == "good"


@pytest.mark.parametrize(
    ("behind", "front", "fits"),
    [
        ("M42x0.75 female", "M42x0.75 male", True),
        ("M42x0.75", "M42x0.75 male", True),
        ("M42x0.75 external", "m42 × 0.75 internal", True),
        ("M42x0.75 male", "M42x0.75 external", False),
        ("M42x0.75 female", "M42x0.75 female", False),
        ("M48x0.75 female", "M42x0.75 male", False),
    ],
)
def test_a_male_thread_meets_a_female_one_and_a_side_that_is_not_said_fits(
    behind: str, front: str, fits: bool
) -> None:
    found = finding("threads", kit(spacer(thread=behind), wheel(thread_front=front)))
    assert found.severity == ("good" if fits else "stop")
    twins = not fits and behind[:3] == front[:3]
    assert ("put a ring with" in found.message) == twins


def test_a_filter_inside_a_wheel_has_no_thread_to_ask_about() -> None:
    inside = wheel(kind="filter", length_mm=None, thread=None, thread_front=None)
    assert finding("threads", kit(spacer(), wheel(), inside)).severity == "good"
    found = finding("threads", kit(spacer(thread_front=None), wheel()))
    assert found.message == "Threads not known: give the thread in front of spacer."
    assert found.part == "spacer"
    two = finding("threads", kit(spacer(thread_front=None), wheel(thread=None)))
    assert two.part == ""


def test_findings_stand_worst_first_and_say_their_limit_and_source() -> None:
    found = findings(kit(wheel(), loaded(20.0), camera=sensor(flange_mm=None)))
    order = [SEVERITIES.index(f.severity) for f in found]
    assert order == sorted(order)
    assert {"stop", "unknown", "good"} <= {f.severity for f in found}
    for one in found:
        assert one.source
        assert one.message.endswith(".")
        assert "\n" not in one.message
        assert one.value is None or math.isfinite(one.value)


def test_a_rig_in_numbers_passes_no_check_in_silence() -> None:
    numbers = {"focal_length_mm": 400, "aperture_mm": 80, "pixel_um": 3.76}
    rig = rig_from_numbers("mine", **numbers, columns=6248, rows=4176)
    severities = {f.rule: f.severity for f in findings(rig)}
    assert severities == {
        "threads": "unknown",
        "back-focus": "unknown",
        "image-circle": "unknown",
        "load": "unknown",
        "total-to-carry": "unknown",
        "sampling": "good",
        "corner-light": "good",
    }


@pytest.mark.parametrize("planned", demo_plan().rigs, ids=lambda planned: planned.id)
def test_the_demo_works_and_leaves_no_question_open(planned: object) -> None:
    found = findings(planned.rig)  # type: ignore[attr-defined]
    assert not [f.message for f in found if f.severity in ("stop", "unknown")]


def test_the_demo_has_a_rig_that_should_use_its_counterweight() -> None:
    bench = demo_plan().rig("Nebula bench").rig
    assert finding("load", bench).severity == "caution"
    assert finding("load", bench.but(counterweight=True)).severity == "note"


def test_the_shelf_holds_an_adapter_for_each_thread_of_its_beam() -> None:
    shelf = Shelf.load()
    fronts = {getattr(part, "thread_front", None) for part in shelf.others}
    assert {"M42x0.75", "M48x0.75", "M54x0.75", "M68x1"} <= fronts
