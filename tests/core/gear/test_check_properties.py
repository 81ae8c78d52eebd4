"""What every rule must hold to, whatever the rig: more never helps where it cannot."""

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.accessories import FilterPart, InTheBeam, Tripod
from core.gear.checks import findings
from core.gear.checks.filters import band_shift_nm
from core.gear.checks.finding import SEVERITIES, Finding
from core.gear.nights import Conditions
from core.gear.optics.illumination import beam_passing, fraction_in_circle
from core.gear.optics.light_path import back_focus
from core.gear.parts import OtherPart
from core.gear.rig import Rig
from tests.core.gear.check_kits import (
    equatorial,
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

few = settings(max_examples=60, deadline=None)
lengths, indices = st.floats(0.0, 20.0), st.floats(1.0, 2.5)
masses = st.floats(0.0, 60.0)
MOUNT = equatorial(
    kind="strain wave", load_bare_kg=9.0, rated_torque_n_m=18.0, axis_to_saddle_mm=110.0
)


def value(found: Finding) -> float:
    assert found.value is not None
    return found.value


def rank(found: Finding) -> int:
    """0 is the worst."""
    return SEVERITIES.index(found.severity)


@given(one=lengths, more=lengths, index=indices)
@few
def test_more_glass_never_shortens_the_distance_that_is_needed(
    one: float, more: float, index: float
) -> None:
    """A plate moves it by t (1 - 1/n), which is never negative for n of at least 1."""
    thin, thick = (
        back_focus(kit(spacer(), wheel(glass_mm=mm, glass_index=index))).required_mm
        for mm in (one, one + more)
    )
    assert thin is not None
    assert thick is not None
    assert thick >= thin >= 55.0


@given(one=indices, more=st.floats(0.0, 1.5), glass=lengths)
@few
def test_denser_glass_never_shortens_it_either(one: float, more: float, glass: float) -> None:
    light, dense = (
        back_focus(kit(camera=sensor(cover_glass_mm=glass, cover_index=n))).required_mm
        for n in (one, one + more)
    )
    assert light is not None
    assert dense is not None
    assert dense >= light


@given(kg=masses, more=masses)
@few
def test_a_heavier_part_never_lightens_load_torque_tripod_or_what_is_carried(
    kg: float, more: float
) -> None:
    legs = Tripod(name="legs", rated_load_kg=30.0, mass_kg=2.0)
    light, heavy = (
        kit(spacer(), legs, OtherPart(name="load", mass_kg=mass), mount=MOUNT)
        for mass in (kg, kg + more)
    )
    for rule in ("load", "torque", "tripod", "total-to-carry"):
        one, other = finding(rule, light), finding(rule, heavy)
        assert value(other) >= value(one), rule
        assert rank(other) <= rank(one), rule


@given(kg=masses, focal=st.floats(100.0, 3000.0), more=st.floats(0.0, 2000.0))
@few
def test_a_longer_focal_length_never_makes_a_load_look_better(
    kg: float, focal: float, more: float
) -> None:
    load = OtherPart(name="load", mass_kg=kg)
    short, long = (
        finding("load", kit(spacer(), load, telescope=tube(focal_length_mm=f)))
        for f in (focal, focal + more)
    )
    assert rank(long) <= rank(short)


@given(width=st.floats(1.0, 60.0), height=st.floats(1.0, 60.0), circle=st.floats(1.0, 80.0),
       more=st.floats(0.0, 40.0))  # fmt: skip
@few
def test_a_larger_circle_never_covers_less(
    width: float, height: float, circle: float, more: float
) -> None:
    small, large = (fraction_in_circle(width, height, mm) for mm in (circle, circle + more))
    assert 0.0 < small <= large + 1e-12 <= 1.0 + 1e-12
    poor, rich = (
        finding("image-circle", kit(corrector=reducer(image_circle_mm=mm)))
        for mm in (circle, circle + more)
    )
    assert rank(rich) >= rank(poor)


@given(beam=st.floats(0.5, 40.0), ring=st.floats(0.05, 1.2), more=st.floats(0.0, 1.5),
       aside=st.floats(0.0, 0.8))  # fmt: skip
@settings(max_examples=300, deadline=None)
def test_a_wider_bore_never_lets_less_through(
    beam: float, ring: float, more: float, aside: float
) -> None:
    """Widths and heights as shares of the beam, so that every case of overlap is met."""
    narrow, wide = (
        beam_passing(share * beam, distance_mm=4.0 * beam, ratio=4.0, height_mm=aside * beam)
        for share in (ring, ring + more)
    )
    assert 0.0 <= narrow <= wide + 1e-9
    assert wide <= 1.0 + 1e-9


@given(centre=st.floats(300.0, 1100.0), ratio=st.floats(0.6, 20.0), slower=st.floats(0.0, 20.0))
@few
def test_a_slower_beam_never_moves_a_band_more(centre: float, ratio: float, slower: float) -> None:
    assert 0.0 <= band_shift_nm(centre, ratio + slower) <= band_shift_nm(centre, ratio)


@given(exposure=st.floats(0.1, 3600.0), more=st.floats(0.0, 3600.0), guided=st.booleans())
@few
def test_a_longer_exposure_never_moves_stars_less(
    exposure: float, more: float, guided: bool
) -> None:
    guide = (guide_scope(), guide_camera()) if guided else ()
    for kind in ("equatorial", "alt-azimuth"):
        rig = kit(spacer(), *guide, mount=equatorial(kind=kind))
        short, long = (
            {f.rule: f for f in findings(rig, Conditions(exposure_s=s))}
            for s in (exposure, exposure + more)
        )
        for rule in {"polar-error", "unguided", "field-rotation"} & set(short):
            assert value(long[rule]) >= value(short[rule])
            assert rank(long[rule]) <= rank(short[rule])


@given(aperture=st.floats(20.0, 300.0), more=st.floats(0.0, 200.0))
@few
def test_a_wider_guide_scope_never_sees_fewer_stars(aperture: float, more: float) -> None:
    small, wide = (
        finding("guide-stars", kit(spacer(), guide_scope(aperture_mm=mm), guide_camera()))
        for mm in (aperture, aperture + more)
    )
    assert value(wide) >= value(small)
    assert rank(wide) >= rank(small)


#: Every figure that a part may lack, by the maker of the part.
HOLES = {
    tube: ("mass_kg", "obstruction_mm", "image_circle_mm", "back_focus_mm", "thread"),
    reducer: ("mass_kg", "image_circle_mm", "back_focus_mm", "thread", "thread_front"),
    sensor: ("mass_kg", "flange_mm", "cover_glass_mm", "thread"),
    wheel: ("mass_kg", "length_mm", "glass_mm", "band_nm", "clear_diameter_mm", "thread"),
    spacer: ("length_mm", "clear_diameter_mm", "thread", "thread_front"),
    off_axis: ("prism_mm", "prism_radius_mm", "prism_angle_deg", "length_mm"),
    guide_camera: ("columns", "rows", "pixel_um"),
    equatorial: ("load_balanced_kg", "mass_kg"),
}


@st.composite
def torn_rigs(draw: st.DrawFn) -> Rig:
    """Draw rigs that lack figures, here and there, and maybe corrector and mount."""
    lacking = {
        make: dict.fromkeys(draw(st.sets(st.sampled_from(fields), max_size=3)))
        for make, fields in HOLES.items()
    }
    parts = {make: make(**holes) for make, holes in lacking.items() if make is not spacer}
    tubes = (spacer(**lacking[spacer]),) if "length_mm" not in lacking[spacer] else ()
    return kit(
        *tubes,
        *(parts[make] for make in (off_axis, wheel, guide_camera) if draw(st.booleans())),
        Tripod(name="legs", rated_load_kg=draw(st.none() | st.just(20.0)), mass_kg=5.0),
        telescope=parts[tube],
        corrector=draw(st.none() | st.just(parts[reducer])),
        camera=parts[sensor],
        mount=draw(st.none() | st.just(parts[equatorial])),
    )


@given(rig=torn_rigs())
@few
def test_a_rig_that_lacks_figures_is_asked_for_them_and_never_fails(rig: Rig) -> None:
    for found in findings(rig):
        assert found.message.endswith(".")
        assert found.message[-2] not in ".:;,"
        assert "None" not in found.message
        assert "nan" not in found.message.split()
        assert found.source
        if found.severity == "unknown":
            assert "not known: give " in found.message
            assert found.value is None
        elif found.value is not None:
            assert math.isfinite(found.value)
            assert math.isfinite(found.limit or 0.0)


@given(rig=torn_rigs())
@few
def test_what_is_asked_for_can_be_given_and_ends_the_question(rig: Rig) -> None:
    """With every hole filled, and a guider whole, nothing is left to ask."""
    whole = {
        "telescope": tube(back_focus_mm=55.0, image_circle_mm=40.0),
        "camera": sensor(),
        "mount": rig.mount and equatorial(),
        "corrector": rig.corrector and reducer(),
        "others": (*(_filled(part) for part in rig.others), guide_scope(), guide_camera()),
    }
    left = [f.message for f in findings(rig.but(**whole)) if f.severity == "unknown"]
    assert left == []


def _filled(part: OtherPart) -> OtherPart:
    """Give a part with no hole."""
    if isinstance(part, Tripod):
        return part.but(rated_load_kg=20.0)
    if isinstance(part, FilterPart):
        return wheel()
    makers = {"spacer": spacer, "prism": off_axis, "small sensor": guide_camera}
    made = makers[part.name]()
    assert isinstance(made, InTheBeam | OtherPart)
    return made
