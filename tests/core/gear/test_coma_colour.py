"""Newtonians without a coma corrector, and mono cameras without a filter."""

import numpy as np
import pytest

from core.gear.checks import Conditions, findings
from core.gear.checks.colour import check_colour
from core.gear.checks.coma import check_coma, coma_arcsec_mm
from core.gear.grid import check_grid
from core.gear.grid.axes import Optics
from core.gear.grid.severity import worst_code
from core.gear.rig import Rig
from tests.core.gear.check_kits import (
    equatorial,
    finding,
    kit,
    reducer,
    sensor,
    spacer,
    tube,
    wheel,
)

MIRROR = tube(kind="newtonian", aperture_mm=200.0, focal_length_mm=800.0, image_circle_mm=40.0)


def mirror_rig(**changes: object) -> Rig:
    return kit(**{"telescope": MIRROR, "corrector": None, **changes})


def test_coma_is_three_sixteenths_of_the_angle_over_the_square_of_the_ratio() -> None:
    """10 mm at 1000 mm is 2062.65 arcsec; f/5: 3 x 2062.65 / 400 = 15.470 (Schroeder)."""
    length = 10.0 * coma_arcsec_mm(1000.0, 5.0)
    assert length == pytest.approx(15.4699, abs=1e-4)
    assert coma_arcsec_mm(1000.0, 10.0) == pytest.approx(length / 40)


def test_a_fast_mirror_alone_draws_the_corners_of_aps_c_into_comets() -> None:
    """Height 14.1284 mm at 800 mm, f/4: 3 x 3642.72 / 256 = 42.69 arcsec."""
    found = finding("coma", mirror_rig())
    assert found.value == pytest.approx(42.688, abs=2e-3)
    assert (found.severity, found.part) == ("caution", "tube")
    assert "draws stars in the corners out to 42.7 arcsec (coma)" in found.message
    assert "take a coma corrector, or a smaller sensor" in found.message


@pytest.mark.parametrize(("pixels", "severity"), [(370, "good"), (500, "note"), (800, "caution")])
def test_coma_is_graded_by_the_width_of_a_star(pixels: int, severity: str) -> None:
    """Derived: a square of n pixels of 3.76 um draws 0.0080332 n arcsec at 800 mm and f/4.

    Stars are hypot(2.5, 0.5837, 1.6484) = 3.051 arcsec wide: one width at 379 px, two at 759.
    """
    small = mirror_rig(camera=sensor(columns=pixels, rows=pixels))
    found = finding("coma", small)
    assert found.value == pytest.approx(0.0080332 * pixels, rel=1e-4)
    assert found.limit == pytest.approx(3.051, abs=1e-3)
    assert found.severity == severity


def test_only_mirrors_without_a_corrector_are_asked_about_coma() -> None:
    for rig in (kit(), mirror_rig(corrector=reducer()), mirror_rig(telescope=tube())):
        assert "coma" not in [found.rule for found in findings(rig)]


def test_a_mono_camera_without_any_filter_is_told_to_take_grey_pictures() -> None:
    found = finding("colour", kit(spacer(), camera=sensor(sensor="mono")))
    assert (found.severity, found.part) == ("note", "sensor")
    assert "pictures come out grey" in found.message
    for rig in (kit(camera=sensor(sensor="mono")), kit(spacer(), camera=sensor(sensor="colour"))):
        assert "colour" not in [one.rule for one in findings(rig)]
    assert "colour" not in [one.rule for one in findings(kit(spacer()))], "nobody said which"


def test_the_grid_grades_both_as_the_checks_do() -> None:
    """A mirror alone, one corrected, a lens; grey, colour, small and smallest cameras."""
    optics = [Optics(MIRROR), Optics(MIRROR, reducer()), Optics(tube())]
    pixels = {"mono": 4000, "colour": 500}
    cameras = [sensor(sensor=kind, columns=n, rows=n) for kind, n in pixels.items()]
    cameras.append(sensor(columns=300, rows=300))
    for others in ((), (wheel(),)):
        grid = check_grid(optics, cameras, [equatorial()], others=others)
        for check in (check_coma, check_colour):
            codes = np.broadcast_to(grid.codes[check], grid.shape)
            for place in np.ndindex(*grid.shape):
                asked = worst_code(check(grid.rig_at(*place), Conditions()))
                assert codes[place] == asked
