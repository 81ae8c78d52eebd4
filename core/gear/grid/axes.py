"""The parts of a grid as columns of figures, one axis a kind.

Axis 0 holds the optics, axis 1 the cameras, axis 2 the mounts; a column has length 1 along
the others. Lengths in mm, masses in kg, NaN where a figure is not known. The figures are
computed as `Rig` and `light_path` compute them, so that the two never differ.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.gear.checks.finding import Conditions
from core.gear.grid.severity import Floats
from core.gear.optics.light_path import LightPath, light_path
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Telescope
from core.gear.rig import ARCSEC_PER_RAD, Rig

__all__ = ["Axes", "Optics"]


@dataclass(frozen=True)
class Optics:
    """A telescope or lens, with a corrector behind it or without."""

    telescope: Telescope
    corrector: Corrector | None = None

    @property
    def last(self) -> Telescope | Corrector:
        """What the back focus and the image circle belong to."""
        return self.corrector or self.telescope


@dataclass(frozen=True)
class Axes:
    """What is combined: I optics, J cameras, K mounts, and what every rig has besides."""

    optics: Sequence[Optics]
    cameras: Sequence[Camera]
    mounts: Sequence[Mount]
    others: tuple[OtherPart, ...]
    nights: Conditions

    def rig(self, i: int = 0, j: int = 0, k: int | None = None) -> Rig:
        """Build the rig at one place; without a mount where `k` is left out."""
        optics, camera = self.optics[i], self.cameras[j]
        mount = None if k is None else self.mounts[k]
        parts = [optics.telescope.name, camera.name] + ([mount.name] if mount else [])
        return Rig(
            name=" · ".join(parts)[:200],
            telescope=optics.telescope,
            corrector=optics.corrector,
            camera=camera,
            mount=mount,
            others=self.others,
        )

    @cached_property
    def by_optics(self) -> tuple[Rig, ...]:
        """One rig for each of the optics, with the first camera."""
        return tuple(self.rig(i=i) for i in range(len(self.optics)))

    @cached_property
    def by_camera(self) -> tuple[Rig, ...]:
        """One rig for each camera, behind the first optics."""
        return tuple(self.rig(j=j) for j in range(len(self.cameras)))

    @cached_property
    def by_mount(self) -> tuple[Rig, ...]:
        """One rig for each mount, with the first optics and camera."""
        return tuple(self.rig(k=k) for k in range(len(self.mounts)))

    @cached_property
    def paths(self) -> tuple[LightPath, ...]:
        """The light path to each camera."""
        return tuple(light_path(rig) for rig in self.by_camera)

    @cached_property
    def focal_length_mm(self) -> Floats:
        """Shape (I, 1, 1)."""
        return _column(0, (rig.focal_length_mm for rig in self.by_optics))

    @cached_property
    def aperture_mm(self) -> Floats:
        """Shape (I, 1, 1)."""
        return _column(0, (rig.aperture_mm for rig in self.by_optics))

    @cached_property
    def focal_ratio(self) -> Floats:
        """Shape (I, 1, 1)."""
        return _column(0, (rig.focal_ratio for rig in self.by_optics))

    @cached_property
    def diagonal_mm(self) -> Floats:
        """Of the sensor; shape (1, J, 1)."""
        return _column(1, (math.hypot(c.width_mm, c.height_mm) for c in self.cameras))

    @cached_property
    def scale_arcsec_px(self) -> Floats:
        """Shape (I, J, 1)."""
        pixels = _column(1, (ARCSEC_PER_RAD * c.pixel_um / 1000.0 for c in self.cameras))
        return pixels / self.focal_length_mm

    @cached_property
    def _riding(self) -> tuple[Floats, Floats]:
        """What the mount carries, and what rounding left out of that sum; (I, J, 1)."""
        return self._sums([_known(o.mass_kg) for o in self.others if o.on_mount])

    @cached_property
    def carried_kg(self) -> Floats:
        """Everything, the mount with it; (I, J, K)."""
        if all(other.on_mount for other in self.others):
            return self.above_tripod_kg
        return self._on_mounts(self._sums([_known(o.mass_kg) for o in self.others]))

    @cached_property
    def above_tripod_kg(self) -> Floats:
        """What the mount carries, and the mount; (I, J, K)."""
        return self._on_mounts(self._riding)

    @cached_property
    def rated_kg(self) -> Floats:
        """What each mount may carry in its usual mode; (1, 1, K)."""
        return _column(2, (_known(rig.rated_load_kg) for rig in self.by_mount))

    @cached_property
    def mass_kg(self) -> Floats:
        """What the mount carries; (I, J, 1)."""
        return self._riding[0]

    @cached_property
    def load_fraction(self) -> Floats:
        """Mass on the mount over its rated load; (I, J, K)."""
        return self.mass_kg / self.rated_kg

    @cached_property
    def price(self) -> Floats:
        """Price of all parts; (I, J, K)."""
        tubes = [[_known(p.price) for p in (o.telescope, o.corrector) if p] for o in self.optics]
        rest = math.fsum(_known(part.price) for part in self.others)
        bodies = _column(1, (_known(camera.price) for camera in self.cameras))
        mounts = _column(2, (_known(mount.price) for mount in self.mounts))
        return _column(0, (math.fsum([*tube, rest]) for tube in tubes)) + bodies + mounts

    def _on_mounts(self, sums: tuple[Floats, Floats]) -> Floats:
        """Add the masses of the mounts to sums, as fsum adds them to a rig's."""
        high, low = sums
        mounts = _column(2, (_known(m.mass_kg) for m in self.mounts))
        total = high + mounts
        back = total - high
        lost = (high - (total - back)) + (mounts - back)  # exact: Knuth's two-sum
        return total + (lost + low)

    def _sums(self, rest: list[float]) -> tuple[Floats, Floats]:
        """Add the masses up as fsum does for a rig: the sum, and what is left of it."""
        tubes = [[_known(p.mass_kg) for p in (o.telescope, o.corrector) if p] for o in self.optics]
        bodies = [_known(camera.mass_kg) for camera in self.cameras]
        rows = [[[*tube, body, *rest] for body in bodies] for tube in tubes]
        high = np.array([[math.fsum(masses) for masses in row] for row in rows])
        low = [
            [math.fsum([*masses, -total]) for masses, total in zip(row, totals, strict=True)]
            for row, totals in zip(rows, high.tolist(), strict=True)
        ]
        return high[:, :, None], np.array(low)[:, :, None]


def _known(figure: float | None) -> float:
    """Write a figure that is not known as NaN."""
    return math.nan if figure is None else figure


def _column(axis: int, figures: Iterable[float]) -> Floats:
    """Lay figures along one axis."""
    shape = [1, 1, 1]
    shape[axis] = -1
    return np.array(list(figures), np.float64).reshape(shape)
