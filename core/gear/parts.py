"""What a rig is made of: telescopes and lenses, correctors, cameras, mounts, the rest.

A figure that the maker's sheet does not give is None and stays unknown; nothing is
guessed in its place. Lengths in mm, pixel pitch in µm, masses in kg, prices in the
currency of the plan or shelf that holds the part.
"""

from typing import Annotated, ClassVar, Literal, Self

from pydantic import Field, StringConstraints, model_validator

from core.errors import BadValueError, InvalidRigError
from core.record.validation import Name, Record, Words

__all__ = [
    "FASTEST_FOCAL_RATIO",
    "SLOWEST_FOCAL_RATIO",
    "Camera",
    "Corrector",
    "Mount",
    "OtherPart",
    "Part",
    "Telescope",
    "check_focal_ratio",
    "family",
    "identity",
]

Aperture = Annotated[float, Field(ge=0.1, le=50_000.0)]
FocalLength = Annotated[float, Field(ge=1.0, le=1_000_000.0)]
Length = Annotated[float, Field(ge=0.0, le=10_000.0)]
Diameter = Annotated[float, Field(gt=0.0, le=10_000.0)]
Mass = Annotated[float, Field(ge=0.0, le=10_000.0)]
Load = Annotated[float, Field(gt=0.0, le=10_000.0)]
Torque = Annotated[float, Field(gt=0.0, le=1_000_000.0)]
Price = Annotated[float, Field(ge=0.0, le=1e9)]
Index = Annotated[float, Field(ge=1.0, le=4.0)]
#: A page on the web, over a connection that nobody else can read or change.
Link = Annotated[
    str, StringConstraints(max_length=500, pattern=r"^https://[A-Za-z0-9][^\s\x00-\x1f\x7f]*$")
]
Pixels = Annotated[int, Field(ge=1, le=200_000)]

#: No optics in air are faster: N = 1 / (2 sin U) and sin U is at most 1 (the Abbe sine
#: condition; Born & Wolf, Principles of Optics, section 4.5.1, cited from memory).
FASTEST_FOCAL_RATIO = 0.5
#: Slower than any telescope; a slip of the unit, most likely.
SLOWEST_FOCAL_RATIO = 1000.0


def check_focal_ratio(focal_length_mm: float, aperture_mm: float) -> None:
    """Refuse a focal length and an aperture that cannot belong together.

    Parameters
    ----------
    focal_length_mm, aperture_mm : float
        Millimetres, both above 0.

    Raises
    ------
    InvalidRigError
        When their ratio is below 0.5 or above 1000.
    """
    ratio = focal_length_mm / aperture_mm
    if not FASTEST_FOCAL_RATIO <= ratio <= SLOWEST_FOCAL_RATIO:
        given = f"f/{ratio:.4g} ({focal_length_mm:g} mm by {aperture_mm:g} mm)"
        raise InvalidRigError("focal ratio", given, "must lie between f/0.5 and f/1000")


class Part(Record):
    """What every part has: a name, and, where known, a mass and a price."""

    refused_as: ClassVar[type[BadValueError]] = InvalidRigError

    name: Name
    """What the part is called; once within its kind on a shelf."""
    mass_kg: Mass | None = None
    """Mass of the part by itself, as it is used."""
    price: Price | None = None
    """What the part costs, in the currency of the plan or shelf that holds it."""
    note: Words = ""
    """Words of one's own, a page at most."""
    link: Link | None = None
    """Page of the data sheet, over https."""
    alternatives: Annotated[tuple[Name, ...], Field(max_length=50)] = ()
    """Names of parts that may take its place; none named: all that do the same work."""


class Telescope(Part):
    """A telescope or a lens."""

    kind: Literal["refractor", "lens", "newtonian", "cassegrain", "catadioptric"] = "refractor"
    """How it makes the image."""
    aperture_mm: Aperture
    """Free diameter of the front lens or the mirror."""
    focal_length_mm: FocalLength
    """Focal length without a corrector."""
    obstruction_mm: Length | None = None
    """Diameter of the central obstruction; 0 for none."""
    image_circle_mm: Diameter | None = None
    """Diameter of the field that it draws sharp and lights well."""
    back_focus_mm: Length | None = None
    """From its last fixed surface to the sensor, as the maker asks for."""
    back_focus_fixed: bool | None = None
    """False where the focuser sets that distance instead."""
    thread: Name | None = None
    """Thread or bayonet at the camera's side, said as "M48x0.75" or "M48x0.75 female"."""
    length_mm: Length | None = None
    """Length over all, focuser drawn in."""

    @model_validator(mode="after")
    def _figures_agree(self) -> Self:
        """Hold the aperture against the focal length and the obstruction."""
        check_focal_ratio(self.focal_length_mm, self.aperture_mm)
        if self.obstruction_mm is not None and self.obstruction_mm >= self.aperture_mm:
            rule = f"must be less than the aperture of {self.aperture_mm:g} mm"
            raise InvalidRigError("obstruction", f"{self.obstruction_mm:g} mm", rule)
        return self


class Corrector(Part):
    """A reducer, flattener, coma corrector or extender behind the telescope."""

    kind: Literal["reducer", "flattener", "coma corrector", "extender"] = "flattener"
    """What it does to the field."""
    factor: Annotated[float, Field(ge=0.1, le=10.0)] = 1.0
    """By what it multiplies the focal length; 1 leaves it."""
    image_circle_mm: Diameter | None = None
    """Diameter of the field that it corrects."""
    back_focus_mm: Length | None = None
    """From where `thread` is to the sensor, as the maker asks for."""
    thread_front: Name | None = None
    """Thread that meets the telescope."""
    thread: Name | None = None
    """Thread at the camera's side."""
    length_mm: Length | None = None
    """Length that it adds to the light path behind the telescope."""


class Camera(Part):
    """A camera: its sensor first of all."""

    columns: Pixels
    """Pixels along a row of the sensor, its +x."""
    rows: Pixels
    """Pixels along a column of the sensor, its +y."""
    pixel_um: Annotated[float, Field(ge=0.1, le=1000.0)]
    """Distance between the centres of two neighbouring pixels."""
    sensor: Literal["mono", "colour"] | None = None
    """Whether it sees colour, by a mosaic of filters on its pixels."""
    flange_mm: Length | None = None
    """From the front flange to the sensor."""
    cover_glass_mm: Length | None = None
    """Glass between the two that this distance does not count yet; 0 when all is counted."""
    cover_index: Index | None = None
    """Refractive index of that glass."""
    read_noise_e: Annotated[float, Field(ge=0.0, le=1000.0)] | None = None
    """Read noise at the gain that the note names."""
    full_well_e: Annotated[float, Field(gt=0.0, le=1e8)] | None = None
    """Full well at the gain that the note names."""
    peak_qe: Annotated[float, Field(gt=0.0, le=1.0)] | None = None
    """Largest quantum efficiency, as a fraction."""
    cooled: bool | None = None
    """Whether its sensor is cooled."""
    thread: Name | None = None
    """Thread or bayonet at its front."""

    @property
    def width_mm(self) -> float:
        """Length of the sensor along its rows, mm."""
        return self.columns * self.pixel_um / 1000.0

    @property
    def height_mm(self) -> float:
        """Length of the sensor along its columns, mm."""
        return self.rows * self.pixel_um / 1000.0


class Mount(Part):
    """A mount.

    A load rated without a counterweight and one rated with it are two figures; a maker
    may give one or both.
    """

    kind: Literal["tracker", "equatorial", "strain wave", "alt-azimuth"] = "equatorial"
    """How it follows the sky."""
    load_bare_kg: Load | None = None
    """What it is rated to carry without a counterweight."""
    load_balanced_kg: Load | None = None
    """What it is rated to carry with a counterweight, which is not counted."""
    rated_torque_n_m: Torque | None = None
    """Pull about the axis that follows the sky which it holds without a counterweight."""
    axis_to_saddle_mm: Length | None = None
    """From that axis to the saddle that the telescope is clamped into."""


class OtherPart(Part):
    """Anything else.

    Kinds with figures of their own are the classes of `core.gear.accessories`; "guiding"
    is a guider of which no more is known.
    """

    kind: Literal[
        "filter",
        "filter wheel",
        "filter drawer",
        "spacer",
        "adapter",
        "off-axis guider",
        "guide scope",
        "guide camera",
        "guiding",
        "focusing",
        "tripod",
        "power",
        "other",
    ] = "other"
    """What it is for; some kinds have figures of their own."""
    length_mm: Length | None = None
    """Length that it adds to the light path, where it is in it."""
    on_mount: bool = True
    """Whether the mount carries it, or only its owner."""


def family(part: Part) -> str:
    """Give the broad class of a part (telescope, camera, other part), not a special kind."""
    classes = type(part).__mro__
    return classes[classes.index(Part) - 1].__name__


def identity(part: Part) -> tuple[str, str]:
    """Tell by what a part is the same in two rigs: its broad class and its name."""
    return family(part), part.name
