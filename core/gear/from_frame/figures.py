"""The figures of a rig that a frame tells: each with its source, what is missing, the rig.

Frozen: a choice made or a figure given makes new figures out of the same evidence.
"""

from collections.abc import Collection
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from core.errors import BadValueError
from core.gear.from_frame.evidence import Evidence, Wanted
from core.gear.from_frame.figure import FIELDS, NEEDED, Choice, Figure
from core.gear.from_frame.frame_file import FrameError
from core.gear.from_frame.resolve import resolved
from core.gear.from_frame.told import RULES
from core.gear.parts import Camera, Telescope
from core.gear.rig import Rig

__all__ = ["TAKEN", "FrameFigures"]

#: The figures that go into a rig; the others are for information.
TAKEN = (*NEEDED, "sensor", "cooled", "telescope", "camera")
_IN_TELESCOPE = {"focal_length_mm": "focal_length_mm", "aperture_mm": "aperture_mm",
                 "telescope": "name"}  # fmt: skip
_IN_CAMERA = {"pixel_um": "pixel_um", "columns": "columns", "rows": "rows", "sensor": "sensor",
              "cooled": "cooled", "camera": "name"}  # fmt: skip


@dataclass(frozen=True)
class FrameFigures:
    """What a frame tells of its rig.

    Parameters
    ----------
    evidence : Evidence
        What was read.
    wanted : Wanted
        What the user chose or gave; nothing at first.

    Attributes
    ----------
    figures : tuple of Figure
        In the order in which they are shown.
    choices : tuple of Choice
        Figures that may be read in several ways.
    remarks : tuple of str
        Everything in the frame that was not as it should be.
    """

    evidence: Evidence
    wanted: Wanted = field(default_factory=Wanted)
    figures: tuple[Figure, ...] = field(init=False)
    choices: tuple[Choice, ...] = field(init=False)
    remarks: tuple[str, ...] = field(init=False)

    def __post_init__(self) -> None:
        """Work the figures out."""
        figures, choices, remarks = resolved(self.evidence, self.wanted)
        object.__setattr__(self, "figures", figures)
        object.__setattr__(self, "choices", choices)
        object.__setattr__(self, "remarks", remarks)

    @property
    def file(self) -> str:
        """The name of the frame's file."""
        return self.evidence.file

    @property
    def form(self) -> Literal["FITS", "EXIF"]:
        """What it was read from."""
        return self.evidence.form

    @property
    def missing(self) -> tuple[str, ...]:
        """What a rig needs and the frame does not tell, in words."""
        return self.lacking()

    def lacking(self, leaving: Collection[str] = ()) -> tuple[str, ...]:
        """Give what a rig needs that is not told or is left, in words."""
        lacking = (name for name in NEEDED if name in leaving or self.figure(name) is None)
        return tuple(FIELDS[name][0] for name in lacking)

    def figure(self, name: str) -> Figure | None:
        """Give a figure by its field; None when it is not known."""
        return next((figure for figure in self.figures if figure.field == name), None)

    def choose(self, name: str, key: str) -> "FrameFigures":
        """Take another reading of a figure.

        Raises
        ------
        BadValueError
            When there is no such choice.
        """
        options = [option.key for choice in self.choices if choice.field == name
                   for option in choice.options]  # fmt: skip
        if key not in options:
            known = " or ".join(options) or "nothing"
            raise BadValueError(f"reading of {name}", key, f"there is {known} to choose from")
        return self._but(chosen={**self.wanted.chosen, name: key}, given=self.wanted.given)

    def given(self, **figures: float | int) -> "FrameFigures":
        """Give figures that the frame lacks or has wrong.

        Parameters
        ----------
        **figures : float or int
            By the names in `NEEDED`.

        Raises
        ------
        BadValueError
            When one cannot be.
        """
        for name, value in figures.items():
            if name not in NEEDED:
                raise BadValueError("figure", name, f"must be one of {', '.join(NEEDED)}")
            rule = RULES["pixels" if name in ("columns", "rows") else name]
            if not rule.low <= value <= rule.high:
                bounds = f"must lie between {rule.low:g} and {rule.high:g} {rule.unit}"
                raise BadValueError(FIELDS[name][0], f"{value:g} {rule.unit}", bounds)
        return self._but(chosen=self.wanted.chosen, given={**self.wanted.given, **figures})

    def to_rig(self, name: str | None = None, *, leaving: Collection[str] = ()) -> Rig:
        """Make a rig.

        Parameters
        ----------
        name : str or None
            What to call it; None: by its numbers.
        leaving : collection of str
            Fields not to take from the frame.

        Raises
        ------
        FrameError
            When figures are missing; names them.
        InvalidRigError
            When focal length and aperture cannot belong together.
        """
        missing = self.lacking(leaving)
        if missing:
            *most, last = (f"the {words}" for words in missing)
            listed = f"{', '.join(most)} and {last}" if most else last
            raise FrameError(f"{self.file} does not tell {listed} that a rig needs; give that too")
        values: dict[str, Any] = {
            figure.field: figure.value for figure in self.figures if figure.field not in leaving
        }
        focal_mm, aperture_mm = float(values["focal_length_mm"]), float(values["aperture_mm"])
        optics = f"{aperture_mm:.4g}/{focal_mm:.4g}"
        pixels = f"{values['columns']} × {values['rows']} px"
        telescope = Telescope(
            name=values.get("telescope", f"{self.evidence.optics.kind} {optics}"),
            kind=self.evidence.optics.kind,
            aperture_mm=aperture_mm,
            focal_length_mm=focal_mm,
        )
        camera = Camera(
            name=values.get("camera", f"sensor {pixels}"),
            columns=int(values["columns"]),
            rows=int(values["rows"]),
            pixel_um=float(values["pixel_um"]),
            sensor=_sensor(values.get("sensor")),
            cooled=True if "cooled" in values else None,
        )
        name = f"{optics} with {pixels}" if name is None else name
        return Rig(name=name, telescope=telescope, camera=camera)

    def filled(self, rig: Rig) -> Rig:
        """Fill what a rig does not know yet; what it knows stays."""
        gaps = [name for name in ("sensor", "cooled") if getattr(rig.camera, name) is None]
        return self.changed(rig, gaps)

    def changed(self, rig: Rig, taking: Collection[str]) -> Rig:
        """Put figures into a rig in place of its own.

        Parameters
        ----------
        rig : Rig
            Its corrector stays: the frame's focal length is taken for the one that the
            sensor sees, and the telescope's is that over the corrector's factor.
        taking : collection of str
            Fields in `TAKEN`; those that the frame does not tell change nothing.

        Raises
        ------
        InvalidRigError
            When the figures cannot belong together.
        """
        values: dict[str, Any] = {
            figure.field: figure.value for figure in self.figures if figure.field in taking
        }
        if "cooled" in values:
            values["cooled"] = True
        if "focal_length_mm" in values and rig.corrector is not None:
            values["focal_length_mm"] = float(values["focal_length_mm"]) / rig.corrector.factor
        telescope = {into: values[name] for name, into in _IN_TELESCOPE.items() if name in values}
        camera = {into: values[name] for name, into in _IN_CAMERA.items() if name in values}
        return rig.but(
            telescope=rig.telescope.but(**telescope) if telescope else rig.telescope,
            camera=rig.camera.but(**camera) if camera else rig.camera,
        )

    def _but(self, **wanted: Any) -> "FrameFigures":
        """Give it with other wishes."""
        return replace(self, wanted=Wanted(**wanted))


def _sensor(value: object) -> Literal["mono", "colour"] | None:
    """Give the kind of a sensor as the record has it."""
    return "colour" if value == "colour" else "mono" if value == "mono" else None
