"""Plans for the tests: one small and plain, and any that hypothesis thinks of."""

from hypothesis import strategies as st

from core.catalogue.target import TargetKind
from core.gear.nights import Conditions
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Telescope
from core.gear.rig import Rig
from core.plan.document import LABELS, Framing, Plan, PlannedRig, PlannedTarget, SheetView

__all__ = ["framings_for", "plans", "rigs", "small_plan", "targets"]


def small_plan() -> Plan:
    """Give a plan of two targets, three rigs and two framings."""
    return Plan(
        title="Two nights",
        currency="SEK",
        targets=(
            PlannedTarget(
                id="M 31",
                name="Andromeda",
                kind=TargetKind.GALAXY,
                ra_deg=10.685,
                dec_deg=41.269,
                major_arcmin=178.0,
                minor_arcmin=70.0,
                pa_deg=35.0,
                angle_trusted=True,
            ),
            PlannedTarget(
                id="dark", name="dark", kind=TargetKind.POSITION, ra_deg=0.5, dec_deg=-5.0
            ),
        ),
        rigs=tuple(
            PlannedRig(id=name, rig=_rig(name, focal), colour=place)
            for place, (name, focal) in enumerate(
                [("wide", 135.0), ("mid", 480.0), ("far", 2000.0)]
            )
        ),
        current_target="M 31",
        current_rig="mid",
        framings=(
            Framing(target="M 31", rig="mid", ra_deg=10.0, dec_deg=41.0, pa_deg=40.0),
            Framing(target="dark", rig="far", ra_deg=1.0, dec_deg=-5.5, pa_deg=300.0),
        ),
        view=SheetView(ra_deg=10.0, dec_deg=41.0, width_deg=4.0, labels=("star", "galaxy")),
    )


def _rig(name: str, focal_length_mm: float) -> Rig:
    """Make a rig of a landscape sensor behind a tube."""
    return Rig(
        name=name,
        telescope=Telescope(
            name="tube", aperture_mm=focal_length_mm / 5, focal_length_mm=focal_length_mm
        ),
        camera=Camera(name="sensor", columns=6248, rows=4176, pixel_um=3.76),
    )


names = st.text(
    st.characters(exclude_categories=["Cc", "Cs"], exclude_characters="\x7f"),
    min_size=1,
    max_size=20,
).filter(lambda text: bool(text.strip()))
ras = st.floats(0.0, 360.0, exclude_max=True)
decs = st.floats(-90.0, 90.0)
maybe_price = st.none() | st.floats(0.0, 1e5)


@st.composite
def targets(draw: st.DrawFn, target_id: str) -> PlannedTarget:
    """Draw a target by an id."""
    major = draw(st.none() | st.floats(0.01, 5400.0))
    return PlannedTarget(
        id=target_id,
        name=draw(names),
        kind=draw(st.sampled_from(TargetKind)),
        ra_deg=draw(ras),
        dec_deg=draw(decs),
        major_arcmin=major,
        minor_arcmin=None if major is None else draw(st.none() | st.floats(major / 100, major)),
        pa_deg=draw(st.none() | st.floats(0.0, 180.0, exclude_max=True)),
        angle_trusted=draw(st.booleans()),
        note=draw(st.text(st.characters(exclude_categories=["Cs"]), max_size=30)),
    )


@st.composite
def rigs(draw: st.DrawFn, name: str) -> Rig:
    """Draw a rig by a name."""
    focal = draw(st.floats(5.0, 3000.0))
    return Rig(
        name=name,
        telescope=Telescope(
            name=draw(names),
            aperture_mm=focal / draw(st.floats(2.0, 12.0)),
            focal_length_mm=focal,
            price=draw(maybe_price),
        ),
        camera=Camera(
            name=draw(names),
            columns=draw(st.integers(1, 20_000)),
            rows=draw(st.integers(1, 20_000)),
            pixel_um=draw(st.floats(1.0, 20.0)),
            cooled=draw(st.none() | st.booleans()),
        ),
        corrector=draw(st.none() | st.builds(Corrector, name=names, factor=st.floats(0.5, 2.0))),
        mount=draw(st.none() | st.builds(Mount, name=names, price=maybe_price)),
        others=tuple(draw(st.lists(st.builds(OtherPart, name=names), max_size=2))),
    )


@st.composite
def framings_for(draw: st.DrawFn, target_id: str, rig_id: str) -> Framing:
    """Draw a framing of a rig on a target."""
    pa = draw(st.floats(0.0, 360.0, exclude_max=True))
    return Framing(target=target_id, rig=rig_id, ra_deg=draw(ras), dec_deg=draw(decs), pa_deg=pa)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """Draw a plan of at least one target and one rig."""
    target_ids = [f"target {n}" for n in range(draw(st.integers(1, 4)))]
    rig_ids = [f"rig {n}" for n in range(draw(st.integers(1, 4)))]
    pairs = [(target, rig) for target in target_ids for rig in rig_ids]
    framed = draw(st.lists(st.sampled_from(pairs), unique=True))
    return Plan(
        title=draw(names),
        targets=tuple(draw(targets(target_id)) for target_id in target_ids),
        rigs=tuple(
            PlannedRig(
                id=rig_id,
                rig=draw(rigs(rig_id)),
                colour=draw(st.integers(0, 7)),
                dash=draw(st.integers(0, 3)),
                shown=draw(st.booleans()),
            )
            for rig_id in rig_ids
        ),
        current_target=draw(st.none() | st.sampled_from(target_ids)),
        current_rig=draw(st.none() | st.sampled_from(rig_ids)),
        framings=tuple(draw(framings_for(target, rig)) for target, rig in framed),
        view=SheetView(
            ra_deg=draw(ras),
            dec_deg=draw(decs),
            width_deg=draw(st.floats(0.01, 180.0)),
            labels=tuple(draw(st.lists(st.sampled_from(LABELS), unique=True))),
            mirrored=draw(st.booleans()),
        ),
        nights=Conditions(
            seeing_arcsec=draw(st.floats(0.1, 60.0)), latitude_deg=draw(st.floats(-90.0, 90.0))
        ),
    )
