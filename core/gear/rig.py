"""What a rig sees: focal length, focal ratio, image scale, field, mass and price.

Units: mm, µm, degrees, arcseconds per pixel, kg. The field is exact, 2 atan(d / 2f) on
each axis; nothing here uses the small angle. The image scale is the one at the centre.

Sources: field, scale and focal ratio are textbook geometry; a corrector of factor m
gives m f and m N with the aperture unchanged (thin lens). 1 rad = 206264.806247".
"""

import math
from typing import ClassVar, Literal, NotRequired, TypedDict, Unpack

from pydantic import model_validator

from core.errors import BadValueError, InvalidRigError
from core.gear.accessories import AnyOther
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Part, Telescope, check_focal_ratio
from core.record.validation import Name, Record

__all__ = ["ARCSEC_PER_RAD", "Rig", "RigNumbers", "angle_of_deg", "rig_from_numbers"]

ARCSEC_PER_RAD = math.degrees(1.0) * 3600.0


def angle_of_deg(length_mm: float, focal_length_mm: float) -> float:
    """Give the angle that a length centred in the focal plane spans.

    Parameters
    ----------
    length_mm, focal_length_mm : float
        Millimetres.

    Returns
    -------
    float
        Degrees, below 180.

    Examples
    --------
    >>> round(angle_of_deg(36.0, 50.0), 4)
    39.5978
    """
    return 2.0 * math.degrees(math.atan(length_mm / (2.0 * focal_length_mm)))


class Rig(Record):
    """Parts that take a picture together."""

    refused_as: ClassVar[type[BadValueError]] = InvalidRigError

    name: Name
    """What the rig is called."""
    telescope: Telescope
    """The telescope or lens."""
    camera: Camera
    """The camera that takes the picture."""
    corrector: Corrector | None = None
    """The corrector behind the telescope, if any."""
    mount: Mount | None = None
    """What carries it all, if it is known."""
    others: tuple[AnyOther, ...] = ()
    """Everything else; what the light passes in its order, from the corrector to the camera."""
    counterweight: bool | None = None
    """Whether there is a counterweight; left out: on an equatorial mount, and on no other."""

    @model_validator(mode="after")
    def _figures_agree(self) -> "Rig":
        """Hold the focal ratio with its corrector against what can be."""
        check_focal_ratio(self.focal_length_mm, self.aperture_mm)
        return self

    @property
    def aperture_mm(self) -> float:
        """Free diameter of the telescope."""
        return self.telescope.aperture_mm

    @property
    def focal_length_mm(self) -> float:
        """Effective focal length: the telescope's times the corrector's factor."""
        factor = self.corrector.factor if self.corrector else 1.0
        return self.telescope.focal_length_mm * factor

    @property
    def focal_ratio(self) -> float:
        """Effective focal length over aperture."""
        return self.focal_length_mm / self.aperture_mm

    @property
    def scale_arcsec_px(self) -> float:
        """Image scale at the centre of the field."""
        return ARCSEC_PER_RAD * self.camera.pixel_um / 1000.0 / self.focal_length_mm

    @property
    def width_deg(self) -> float:
        """Field along the sensor's rows."""
        return angle_of_deg(self.camera.width_mm, self.focal_length_mm)

    @property
    def height_deg(self) -> float:
        """Field along the sensor's columns."""
        return angle_of_deg(self.camera.height_mm, self.focal_length_mm)

    @property
    def diagonal_deg(self) -> float:
        """Field from corner to corner."""
        diagonal = math.hypot(self.camera.width_mm, self.camera.height_mm)
        return angle_of_deg(diagonal, self.focal_length_mm)

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every part, in optical order, then the mount and what is left."""
        inline = (self.telescope, self.corrector, self.camera, self.mount)
        return (*(part for part in inline if part is not None), *self.others)

    @property
    def mass_kg(self) -> float | None:
        """Mass the mount carries; None when one of the masses is not known."""
        return _total([part.mass_kg for part in self.on_mount])

    @property
    def on_mount(self) -> tuple[Part, ...]:
        """The parts that the mount carries."""
        return tuple(part for part in self.parts if _rides(part))

    @property
    def carried_kg(self) -> float | None:
        """Mass of everything, the mount with it; None when one of the masses is not known."""
        return _total([part.mass_kg for part in self.parts])

    @property
    def price(self) -> float | None:
        """Price of all parts; None when one of the prices is not known."""
        return _total([part.price for part in self.parts])

    @property
    def rated_load_kg(self) -> float | None:
        """What the mount may carry as it is used here; None when not known."""
        if self.mount is None:
            return None
        return self.mount.load_balanced_kg if self.balanced else self.mount.load_bare_kg

    @property
    def balanced(self) -> bool:
        """Whether the mount is used with a counterweight."""
        if self.counterweight is None:
            return self.mount is not None and self.mount.kind == "equatorial"
        return self.counterweight

    @property
    def load_fraction(self) -> float | None:
        """Mass on the mount over its rated load; None when either is not known."""
        mass, rated = self.mass_kg, self.rated_load_kg
        return None if mass is None or rated is None else mass / rated


class RigNumbers(TypedDict):
    """A rig said in numbers; the units are those of the names, `factor` is the corrector's."""

    focal_length_mm: float
    aperture_mm: float
    factor: NotRequired[float]
    pixel_um: float
    columns: int
    rows: int


def rig_from_numbers(name: str, **numbers: Unpack[RigNumbers]) -> Rig:
    """Make a rig of six numbers, for the command line.

    Parameters
    ----------
    name : str
        What to call it.
    **numbers : RigNumbers
        `focal_length_mm` and `aperture_mm` of the telescope, `factor` of the corrector
        (left out: 1, no corrector), `pixel_um`, `columns` and `rows` of the sensor.

    Returns
    -------
    Rig
        Its mass and price unknown.

    Raises
    ------
    InvalidRigError
        Naming the first number that cannot be, its value and what is allowed.

    Examples
    --------
    >>> rig = rig_from_numbers(
    ...     "mine", focal_length_mm=400, aperture_mm=80, pixel_um=3.76, columns=6248, rows=4176
    ... )
    >>> round(rig.scale_arcsec_px, 6), rig.focal_ratio
    (1.938889, 5.0)
    """
    factor = numbers.get("factor", 1.0)
    return Rig(
        name=name,
        telescope=Telescope(
            name="optics",
            focal_length_mm=numbers["focal_length_mm"],
            aperture_mm=numbers["aperture_mm"],
        ),
        camera=Camera(
            name="sensor",
            pixel_um=numbers["pixel_um"],
            columns=numbers["columns"],
            rows=numbers["rows"],
        ),
        corrector=None if factor == 1.0 else _corrector(factor),
    )


def _corrector(factor: float) -> Corrector:
    """Name a corrector by what its factor does."""
    kind: Literal["reducer", "extender"] = "extender" if factor > 1.0 else "reducer"
    return Corrector(name=f"{kind} {factor:g}x", kind=kind, factor=factor)


def _rides(part: Part) -> bool:
    """Tell whether the mount carries a part."""
    return part.on_mount if isinstance(part, OtherPart) else not isinstance(part, Mount)


def _total(figures: list[float | None]) -> float | None:
    """Add up; one unknown figure makes the sum unknown."""
    known = [figure for figure in figures if figure is not None]
    return math.fsum(known) if len(known) == len(figures) else None
