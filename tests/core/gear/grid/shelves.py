"""Invented parts for grids: by a seeded generator, and by hypothesis with every gap there is."""

import random
from itertools import product

from hypothesis import strategies as st

from core.gear.accessories import (
    FilterPart,
    GuideCamera,
    GuideScope,
    OffAxisGuider,
    Spacer,
    Tripod,
)
from core.gear.grid import Optics
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Telescope

THREADS = ("M42x0.75", "M48x0.75", "M54x0.75", "bayonet")
KINDS = ("tracker", "equatorial", "strain wave", "alt-azimuth")


def many_parts(
    telescopes: int, cameras: int, mounts: int, *, seed: int = 20261125
) -> tuple[list[Telescope], list[Camera], list[Mount]]:
    """Make a large shelf; a tenth of the figures is not known."""
    chance = random.Random(seed)

    def known(figure: float) -> float | None:
        return None if chance.random() < 0.1 else figure

    tubes = [
        Telescope(
            name=f"telescope {n}",
            aperture_mm=(aperture := chance.randrange(30, 300)),
            focal_length_mm=round(aperture * chance.uniform(2.8, 10.0)),
            image_circle_mm=known(chance.choice((16.0, 22.0, 28.0, 35.0, 44.0))),
            back_focus_mm=known(55.0),
            thread=chance.choice(THREADS),
            mass_kg=known(round(chance.uniform(0.8, 12.0), 2)),
            price=known(chance.randrange(200, 5000)),
        )
        for n in range(telescopes)
    ]
    bodies = [
        Camera(
            name=f"camera {n}",
            columns=chance.randrange(1000, 10_000),
            rows=chance.randrange(800, 7000),
            pixel_um=round(chance.uniform(2.0, 9.0), 2),
            flange_mm=known(chance.choice((17.5, 44.0, 55.0, 55.4))),
            cover_glass_mm=0.0,
            thread=chance.choice(THREADS),
            mass_kg=known(round(chance.uniform(0.2, 1.5), 2)),
            price=known(chance.randrange(100, 4000)),
        )
        for n in range(cameras)
    ]
    stands = [
        Mount(
            name=f"mount {n}",
            kind=chance.choice(KINDS),
            load_bare_kg=known(chance.randrange(3, 15)),
            load_balanced_kg=known(chance.randrange(5, 25)),
            mass_kg=known(round(chance.uniform(1.0, 15.0), 1)),
            price=known(chance.randrange(200, 4000)),
        )
        for n in range(mounts)
    ]
    return tubes, bodies, stands


def _maybe(*figures: float) -> st.SearchStrategy[float | None]:
    return st.sampled_from((None, *figures))


_masses = _maybe(0.0, 0.1, 0.7, 2.5, 5.0, 12.3)
_threads = st.sampled_from((None, *THREADS))
_circles = _maybe(8.0, 15.9, 28.0, 43.3, 60.0)

telescopes = st.builds(
    Telescope,
    name=st.just("telescope"),
    aperture_mm=st.sampled_from((40.0, 80.0, 200.0)),
    focal_length_mm=st.sampled_from((135.0, 399.0, 1000.0, 1001.0, 2000.0)),
    image_circle_mm=_circles,
    back_focus_mm=_maybe(20.0, 55.0, 56.0),
    back_focus_fixed=st.sampled_from((None, True, False)),
    thread=_threads,
    mass_kg=_masses,
    price=_maybe(0.0, 99.95, 1000.0),
)
correctors = st.builds(
    Corrector,
    name=st.just("corrector"),
    factor=st.sampled_from((0.7, 1.0, 2.0)),
    image_circle_mm=_circles,
    back_focus_mm=_maybe(55.0, 17.5),
    thread_front=_threads,
    thread=_threads,
    mass_kg=_masses,
    price=_maybe(150.0),
)
cameras = st.builds(
    Camera,
    name=st.just("camera"),
    columns=st.sampled_from((640, 3000, 6248, 9576)),
    rows=st.sampled_from((480, 2000, 4176, 6388)),
    pixel_um=st.sampled_from((2.0, 3.76, 9.0)),
    flange_mm=_maybe(17.5, 54.5, 55.0, 56.2),
    cover_glass_mm=_maybe(0.0, 2.0),
    cover_index=_maybe(1.5),
    thread=_threads,
    mass_kg=_masses,
    price=_maybe(0.0, 0.1, 800.0),
)
mounts = st.builds(
    Mount,
    name=st.just("mount"),
    kind=st.sampled_from(KINDS),
    load_bare_kg=_maybe(0.7, 5.0, 20.0),
    load_balanced_kg=_maybe(5.0, 40.0),
    rated_torque_n_m=_maybe(5.0, 20.0),
    axis_to_saddle_mm=_maybe(60.0),
    mass_kg=_masses,
    price=_maybe(500.0),
)
others: st.SearchStrategy[tuple[OtherPart, ...]] = st.lists(
    st.one_of(
        st.builds(
            FilterPart,
            name=st.just("filter"),
            kind=st.sampled_from(("filter", "filter wheel")),
            length_mm=_maybe(0.0, 20.0),
            glass_mm=_maybe(0.0, 2.0),
            glass_index=_maybe(1.52),
            band_nm=_maybe(3.0, 7.0, 100.0),
            clear_diameter_mm=_maybe(20.0, 34.0, 48.0),
            thread_front=_threads,
            thread=_threads,
            mass_kg=_masses,
        ),
        st.builds(
            Spacer,
            name=st.just("spacer"),
            length_mm=_maybe(0.5, 17.5, 37.5),
            clear_diameter_mm=_maybe(30.0, 42.0),
            thread_front=_threads,
            thread=_threads,
            mass_kg=_masses,
        ),
        st.builds(
            OffAxisGuider,
            name=st.just("off-axis guider"),
            length_mm=_maybe(16.5),
            prism_mm=_maybe(8.0),
            prism_radius_mm=_maybe(10.0, 22.0),
            prism_angle_deg=_maybe(0.0, 45.0),
            mass_kg=_masses,
        ),
        st.builds(
            GuideScope,
            name=st.just("guide scope"),
            aperture_mm=_maybe(30.0),
            focal_length_mm=_maybe(120.0),
            mass_kg=_masses,
        ),
        st.builds(
            GuideCamera,
            name=st.just("guide camera"),
            columns=_maybe(1280),
            rows=_maybe(960),
            pixel_um=_maybe(3.75),
            mass_kg=_masses,
        ),
        st.builds(Tripod, name=st.just("tripod"), rated_load_kg=_maybe(8.0, 30.0), mass_kg=_masses),
        st.builds(OtherPart, name=st.just("other"), on_mount=st.booleans(), mass_kg=_masses),
    ),
    max_size=4,
).map(tuple)


def optics_of(tubes: list[Telescope], behind: list[Corrector | None]) -> list[Optics]:
    """Put each corrector behind each telescope that can have it."""
    return [
        Optics(tube, corrector)
        for tube, corrector in product(tubes, behind)
        if tube.focal_length_mm * (corrector.factor if corrector else 1.0) / tube.aperture_mm >= 0.5
    ]
