"""A rig whose every figure is known, and ways to change one of them, for the checks."""

from core.gear.accessories import FilterPart, GuideCamera, GuideScope, OffAxisGuider, Spacer
from core.gear.checks import Conditions, Finding, findings
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Telescope
from core.gear.rig import Rig

__all__ = ["finding", "kit", "wheel"]

M42, M48 = "M42x0.75", "M48x0.75"


def tube(**changes: object) -> Telescope:
    figures = {"aperture_mm": 80.0, "focal_length_mm": 500.0, "mass_kg": 3.0, "thread": M48}
    return Telescope(name="tube", **{**figures, **changes})


def reducer(**changes: object) -> Corrector:
    figures = {"factor": 0.8, "back_focus_mm": 55.0, "image_circle_mm": 44.0, "mass_kg": 0.3}
    threads = {"thread_front": M48, "thread": M48}
    return Corrector(name="reducer", **{**figures, **threads, **changes})


def sensor(**changes: object) -> Camera:
    figures = {"columns": 6248, "rows": 4176, "pixel_um": 3.76, "flange_mm": 17.5}
    more = {"cover_glass_mm": 0.0, "mass_kg": 0.7, "thread": M42}
    return Camera(name="sensor", **{**figures, **more, **changes})


def wheel(**changes: object) -> FilterPart:
    figures = {"kind": "filter wheel", "length_mm": 20.0, "glass_mm": 0.0, "band_nm": 300.0}
    more = {"thread_front": M42, "thread": M42, "clear_diameter_mm": 50.0, "mass_kg": 0.8}
    return FilterPart(name="wheel", **{**figures, **more, **changes})


def spacer(**changes: object) -> Spacer:
    figures = {"length_mm": 17.5, "thread_front": M48, "thread": M42, "clear_diameter_mm": 50.0}
    return Spacer(name="spacer", mass_kg=0.1, **{**figures, **changes})


def off_axis(**changes: object) -> OffAxisGuider:
    figures = {"length_mm": 0.0, "prism_mm": 8.0, "prism_radius_mm": 15.0, "prism_angle_deg": 0.0}
    more = {"thread_front": M42, "thread": M42, "clear_diameter_mm": 50.0, "mass_kg": 0.2}
    return OffAxisGuider(name="prism", **{**figures, **more, **changes})


def guide_scope(**changes: object) -> GuideScope:
    figures = {"aperture_mm": 30.0, "focal_length_mm": 120.0, "mass_kg": 0.3}
    return GuideScope(name="small tube", **{**figures, **changes})


def guide_camera(**changes: object) -> GuideCamera:
    figures = {"columns": 1280, "rows": 960, "pixel_um": 3.75, "mass_kg": 0.1}
    return GuideCamera(name="small sensor", **{**figures, **changes})


def equatorial(**changes: object) -> Mount:
    return Mount(name="mount", **{"load_balanced_kg": 15.0, "mass_kg": 9.0, **changes})


def kit(*others: OtherPart, **changes: object) -> Rig:
    """Build 80/500 with a reducer to f/5, spacer, wheel, APS-C: 55 mm, no glass, M48 to M42."""
    parts = {
        "telescope": tube(),
        "corrector": reducer(),
        "camera": sensor(),
        "mount": equatorial(),
        "others": others or (spacer(), wheel()),
    }
    return Rig(name="kit", **{**parts, **changes})


def finding(rule: str, rig: Rig, part: str | None = None, **nights: float) -> Finding:
    """Give the one finding of a rule, about a part if named."""
    every = findings(rig, Conditions(**nights))
    found = [f for f in every if f.rule == rule and part in (None, f.part)]
    assert len(found) == 1, found
    return found[0]
