"""The guide scale, the bending of guide scopes and the place of the prism."""

import pytest

from core.gear.accessories import GuideScope
from core.gear.parts import OtherPart
from core.gear.rig import Rig
from tests.core.gear.check_kits import (
    finding,
    guide_camera,
    guide_scope,
    kit,
    off_axis,
    reducer,
    spacer,
    tube,
    wheel,
)


def test_the_guide_scale_of_120_mm_and_3_75_um_is_3_32_pictures_pixels() -> None:
    """206.264806 x 3.75 / 120 = 6.446 arcsec/px over 1.939: ratio 3.32 (derived)."""
    found = finding("guide-scale", kit(spacer(), wheel(), guide_scope(), guide_camera()))
    assert found.value == pytest.approx(6.4457752 / 1.9388892, rel=1e-6)
    assert found.severity == "good"


@pytest.mark.parametrize(
    ("focal_mm", "severity"), [(100.0, "good"), (90.0, "note"), (60.0, "caution")]
)
def test_guide_scales_are_graded_at_4_and_6(focal_mm: float, severity: str) -> None:
    rig = kit(spacer(), guide_scope(focal_length_mm=focal_mm), guide_camera())
    assert finding("guide-scale", rig).severity == severity


def test_a_guider_of_which_too_little_is_known_is_asked_about() -> None:
    old = OtherPart(name="guider", kind="guiding", mass_kg=0.4)
    assert "the focal length that guider guides at" in finding("guide-scale", kit(old)).message
    alone = kit(spacer(), guide_scope())
    assert finding("guide-scale", alone).message == (
        "Guide scale not known: give a guide camera behind small tube, with its pixel pitch."
    )
    blind = finding("guide-scale", kit(spacer(), guide_camera())).message
    assert "give what small sensor looks through (a guide scope" in blind
    bare = kit(spacer(), GuideScope(name="small tube", mass_kg=0.1), guide_camera())
    assert "focal length that small tube" in finding("guide-scale", bare).message


@pytest.mark.parametrize(
    ("focal", "severity"), [(600.0, "good"), (900.0, "note"), (1100.0, "caution")]
)
def test_a_guide_scope_on_long_optics_is_told_to_bend(focal: float, severity: str) -> None:
    long = tube(focal_length_mm=focal / 0.8)
    rig = kit(spacer(), guide_scope(), telescope=long)
    assert finding("flexure", rig).severity == severity


def prism_rig(radius_mm: float, **changes: object) -> Rig:
    """Build f/5 with a sensor 15.7 mm high and the prism's front 20 mm from it."""
    prism = off_axis(prism_radius_mm=radius_mm, length_mm=2.5, **changes)
    return kit(spacer(), prism, corrector=reducer(image_circle_mm=44.0))


@pytest.mark.parametrize(
    ("radius", "shadow", "light"),
    [
        (13.8, "caution", "good"),
        (13.9, "good", "good"),
        (18.0, "good", "good"),
        (18.1, "good", "note"),
    ],
)
def test_the_prism_stands_between_the_sensor_and_the_edge_of_the_circle(
    radius: float, shadow: str, light: str
) -> None:
    """Height 15.7, L 20, f/5, a 8: r at least 13.85 mm; circle 44: r at most 18 (derived)."""
    rig = prism_rig(radius)
    assert finding("prism-shadow", rig).severity == shadow
    assert finding("prism-light", rig).severity == light


def test_a_prism_beside_the_long_side_of_the_sensor_must_stand_farther_out() -> None:
    above = finding("prism-shadow", prism_rig(15.0)).limit
    beside = finding("prism-shadow", prism_rig(15.0, prism_angle_deg=90.0)).limit
    assert (above, beside) == (pytest.approx(7.85088 + 2.0), pytest.approx(11.74624 + 2.0))


def test_unknown_figures_of_the_prism_are_asked_for() -> None:
    rig = prism_rig(15.0, prism_mm=None, prism_angle_deg=None)
    assert "the angle of the prism of prism" in finding("prism-shadow", rig).message
    assert "the prism size of prism" in finding("prism-light", rig).message
    assert "the angle" not in finding("prism-light", rig).message
