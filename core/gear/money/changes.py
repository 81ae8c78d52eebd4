"""What is different between two rigs, figure by figure.

Angles in degrees, scale in arcseconds per pixel, masses in kg, load as a fraction of what
the mount is rated for, light grasp in cm². Speeds are relative to the first rig, which has
1 (`core.gear.optics.light` says what they mean).
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from operator import attrgetter

from core.gear.optics.light import light_grasp_cm2, light_ratio
from core.gear.rig import Rig

__all__ = ["Change", "changes_between"]

#: Words, name with the unit, the figure of a rig, how to write it.
_FIGURES: tuple[tuple[str, str, Callable[[Rig], float | None], Callable[[float], str]], ...] = (
    ("field width", "width_deg", attrgetter("width_deg"), lambda x: f"{x:.4g}°"),
    ("field height", "height_deg", attrgetter("height_deg"), lambda x: f"{x:.4g}°"),
    ("scale", "scale_arcsec_px", attrgetter("scale_arcsec_px"), lambda x: f"{x:.3g}″/px"),
    ("focal length", "focal_length_mm", attrgetter("focal_length_mm"), lambda x: f"{x:.5g} mm"),
    ("focal ratio", "focal_ratio", attrgetter("focal_ratio"), lambda x: f"f/{x:.3g}"),
    ("light grasp", "light_grasp_cm2", light_grasp_cm2, lambda x: f"{x:.4g} cm²"),
    ("mass on the mount", "mass_kg", attrgetter("mass_kg"), lambda x: f"{x:.4g} kg"),
    ("load", "load_fraction", attrgetter("load_fraction"), lambda x: f"{100 * x:.3g} %"),
)
#: Speeds on nebulae, by the names of `LightRatio`.
_SPEEDS = (
    ("speed on a nebula, per pixel", "relative_speed_per_pixel", "per_pixel"),
    ("speed on a nebula, at the same scale", "relative_speed_same_scale", "same_scale"),
)
#: Two speeds are the same when they differ by no more: rounding of the sums.
_EQUAL = 1e-12
_WRITE = {figure: write for _, figure, _, write in _FIGURES}


@dataclass(frozen=True)
class Change:
    """A figure of a rig before and after; None where it is not known.

    `figure` is its name with the unit ("width_deg").
    """

    quantity: str
    figure: str
    before: float | None
    after: float | None

    @property
    def words(self) -> str:
        """The change for a person: "field width 3.5° → 2.41°"."""
        return f"{self.quantity} {self._written(self.before)} → {self._written(self.after)}"

    def _written(self, figure: float | None) -> str:
        """Write one of the two figures."""
        if figure is None:
            return "not known"
        return _WRITE[self.figure](figure) if self.figure in _WRITE else f"{figure:.3g}×"


def changes_between(before: Rig, after: Rig) -> tuple[Change, ...]:
    """List the figures in which two rigs differ.

    Parameters
    ----------
    before, after : Rig

    Returns
    -------
    tuple of Change
        Field, scale, focal length and ratio, light grasp, mass, load and the two speeds on
        nebulae, as far as they change.
    """
    changes = (Change(words, figure, of(before), of(after)) for words, figure, of, _ in _FIGURES)
    return (*(c for c in changes if c.before != c.after), *_speeds(before, after))


def _speeds(before: Rig, after: Rig) -> Iterator[Change]:
    """Tell how fast the second rig is against the first, where that is not just as fast."""
    ratio = light_ratio(after, before)
    for words, figure, field in _SPEEDS:
        speed: float | None = getattr(ratio, field)
        if speed is None or abs(speed - 1.0) > _EQUAL:
            yield Change(words, figure, 1.0, speed)
