"""Six classes of complete rig, from 40/180 on a tracker to 80 mm with wheel and prism.

Figures beside the optics' own are plausible for the class (common practice); the expected
findings are sums by hand and the bands of common practice.
"""

import pytest

from core.gear.accessories import FilterPart
from core.gear.checks import findings, passes
from core.gear.parts import Camera, Mount, OtherPart
from core.gear.rig import Rig
from tests.core.gear.check_kits import (
    finding,
    guide_camera,
    guide_scope,
    kit,
    off_axis,
    reducer,
    sensor,
    spacer,
    tube,
    wheel,
)

M42 = "M42x0.75"
TRACKER = Mount(name="tracker", kind="tracker", load_bare_kg=5.0, mass_kg=2.5)
STRAIN = Mount(
    name="strain", kind="strain wave", load_bare_kg=8.0, load_balanced_kg=13.0, mass_kg=3.5
)
LARGE = STRAIN.but(name="large", load_bare_kg=13.0, load_balanced_kg=20.0)
MOTOR = OtherPart(name="motor", kind="focusing", mass_kg=0.3)


def small(columns: int, rows: int, pixel_um: float) -> Camera:
    return sensor(columns=columns, rows=rows, pixel_um=pixel_um, mass_kg=0.45)


def optics(aperture: float, focal: float, mass: float, circle: float) -> dict[str, object]:
    """Give optics that are flat by themselves: no corrector, 55 mm to the sensor."""
    scope = tube(aperture_mm=aperture, focal_length_mm=focal, mass_kg=mass)
    flat = scope.but(back_focus_mm=55.0, image_circle_mm=circle)
    return {"telescope": flat, "corrector": None}


def six() -> dict[str, Rig]:
    ring = spacer(length_mm=37.5)
    guide = (guide_scope(), guide_camera())
    wide = {"camera": small(3856, 2180, 2.9), "mount": TRACKER}
    square = {"camera": small(3008, 3008, 3.76), "mount": TRACKER}
    seven = [
        FilterPart(name=f"filter {n}", glass_mm=2.0, glass_index=1.52, clear_diameter_mm=34.0,
                   band_nm=100.0, mass_kg=0.01) for n in range(7)
    ]  # fmt: skip
    train = (
        spacer(length_mm=2.0),
        off_axis(length_mm=16.5, prism_radius_mm=17.0),
        wheel(glass_mm=None),
        *seven,
    )
    return {
        "a": kit(ring, *guide, **optics(40, 180, 1.1, 30.0), **wide),
        "b": kit(ring, *guide, **optics(51, 250, 1.6, 34.0), **wide),
        "c": kit(ring, *guide, MOTOR, **optics(51, 250, 1.6, 34.0), **square),
        "d": kit(ring, *guide, MOTOR, **optics(71, 490, 2.6, 44.0), **{**square, "mount": STRAIN}),
        "e": kit(ring, *guide, MOTOR, **optics(71, 490, 2.6, 44.0), mount=STRAIN),
        "f": kit(
            *train,
            guide_camera(),
            MOTOR,
            telescope=tube(aperture_mm=80, focal_length_mm=608, mass_kg=3.9),
            corrector=reducer(factor=0.76),
            mount=LARGE,
        ),
    }


def test_none_of_the_six_is_refused_and_nothing_is_left_to_ask() -> None:
    for letter, rig in six().items():
        open_questions = [f.message for f in findings(rig) if f.severity == "unknown"]
        assert (letter, open_questions) == (letter, [])
        assert passes(rig), letter


@pytest.mark.parametrize(
    ("letter", "expected"),
    [
        ("a", {"sampling": "note"}),
        ("b", {"load": "note"}),
        ("c", {"sampling": "note", "load": "note"}),
        ("d", {"guide-scale": "note"}),
        ("e", {"load": "note", "guide-scale": "note"}),
        ("f", {}),
    ],
)
def test_what_is_said_beyond_good_is_what_the_sums_say(
    letter: str, expected: dict[str, str]
) -> None:
    """By hand, held against the bands of common practice.

    Scale over seeing of 2.5: 3.32, 2.39, 3.10, 1.58, 1.58, 1.68 arcsec: a and c are coarse.
    Load: 41, 51, 57, 48, 51, 49.8 %: b, c and e are past the half. Guide scale 6.446 over
    1.583: 4.07 in d and e. The prism of f: 17 - 4 = 13 mm clears 7.85 + 54 / 11.55 = 12.53
    mm, and 17 + 4 = 21 mm is inside the circle of 22 mm.
    """
    found = findings(six()[letter])
    assert {f.rule: f.severity for f in found if f.severity != "good"} == expected


@pytest.mark.parametrize(
    ("letter", "focal_mm", "ratio", "mass_kg", "rated_kg"),
    [
        ("a", 180.0, 4.5, 1.1 + 0.45 + 0.1 + 0.4, 5.0),
        ("b", 250.0, 4.902, 1.6 + 0.45 + 0.1 + 0.4, 5.0),
        ("c", 250.0, 4.902, 1.6 + 0.45 + 0.1 + 0.4 + 0.3, 5.0),
        ("d", 490.0, 6.901, 2.6 + 0.45 + 0.1 + 0.4 + 0.3, 8.0),
        ("e", 490.0, 6.901, 2.6 + 0.7 + 0.1 + 0.4 + 0.3, 8.0),
        ("f", 462.08, 5.776, 3.9 + 0.3 + 0.7 + 0.1 + 0.2 + 0.8 + 0.07 + 0.1 + 0.3, 13.0),
    ],
)
def test_the_sums_of_the_six_by_hand(
    letter: str, focal_mm: float, ratio: float, mass_kg: float, rated_kg: float
) -> None:
    rig = six()[letter]
    assert rig.focal_length_mm == pytest.approx(focal_mm)
    assert rig.focal_ratio == pytest.approx(ratio, abs=1e-3)
    assert finding("load", rig).value == pytest.approx(mass_kg / rated_kg)


def test_a_counterweight_raises_what_the_strain_wave_mount_may_carry() -> None:
    bench = six()["e"]
    assert finding("load", bench).severity == "note"
    assert finding("load", bench.but(counterweight=True)).value == pytest.approx(4.1 / 13.0)


def test_seven_filters_in_a_wheel_lengthen_the_way_by_one() -> None:
    """56.0 mm present; 55 + 2 x 0.52/1.52 = 55.684 needed."""
    found = finding("back-focus", six()["f"])
    assert found.value == pytest.approx(55.684211 - 56.0, abs=1e-6)
    assert found.severity == "good"
