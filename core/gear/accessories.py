"""The smaller parts that have figures of their own: in the beam, and beside it.

The light passes filters, spacers, adapters and the off-axis guider on its way from the
corrector to the camera; `thread_front` faces the sky and `thread` the sensor. Guide scope
and guide camera stand beside it, the tripod below. Lengths in mm, pixel pitch in µm, bands
in nm; what is not known is None.
"""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from core.gear.parts import Diameter, FocalLength, Index, Length, Load, OtherPart, Pixels
from core.record.validation import Name

__all__ = [
    "AnyOther",
    "FilterPart",
    "GuideCamera",
    "GuideScope",
    "InTheBeam",
    "OffAxisGuider",
    "Spacer",
    "Tripod",
]

Nanometres = Annotated[float, Field(gt=0.0, le=100_000.0)]


class InTheBeam(OtherPart):
    """A part that the light passes."""

    thread_front: Name | None = None
    """Thread that faces the sky."""
    thread: Name | None = None
    """Thread that faces the sensor."""
    clear_diameter_mm: Diameter | None = None
    """Free diameter of its bore."""


class FilterPart(InTheBeam):
    """A filter, or a wheel or drawer that brings one filter at a time into the beam.

    The glass is one filter's, and may be given for a wheel whose filters are not parts by
    themselves.
    """

    kind: Literal["filter", "filter wheel", "filter drawer"] = "filter"
    """A filter by itself, or what brings one at a time into the beam."""
    glass_mm: Length | None = None
    """Thickness of one filter's glass."""
    glass_index: Index | None = None
    """Refractive index of that glass."""
    band_nm: Nanometres | None = None
    """Width of the narrowest band."""
    centre_nm: Nanometres | None = None
    """Wavelength in the middle of that band."""


class Spacer(InTheBeam):
    """A tube between two threads."""

    kind: Literal["spacer", "adapter"] = "spacer"
    """A tube of one thread, or between two."""


class OffAxisGuider(InTheBeam):
    """A prism at the edge of the beam that feeds a guide camera."""

    kind: Literal["off-axis guider"] = "off-axis guider"
    """The prism in its housing."""
    prism_mm: Diameter | None = None
    """Side of the prism."""
    prism_radius_mm: Length | None = None
    """From the axis to the centre of the prism."""
    prism_angle_deg: Annotated[float, Field(ge=0.0, lt=360.0)] | None = None
    """Where the prism stands: counter-clockwise from the camera's up, seen from the sensor."""


class GuideScope(OtherPart):
    """A small telescope beside the large one."""

    kind: Literal["guide scope"] = "guide scope"
    """A small telescope with a camera of its own."""
    aperture_mm: Diameter | None = None
    """Free diameter of its lens."""
    focal_length_mm: FocalLength | None = None
    """Its focal length."""


class GuideCamera(OtherPart):
    """The camera behind the guide scope or the off-axis guider."""

    kind: Literal["guide camera"] = "guide camera"
    """The camera that watches the guide star."""
    columns: Pixels | None = None
    """Pixels along a row of its sensor."""
    rows: Pixels | None = None
    """Pixels along a column of its sensor."""
    pixel_um: Annotated[float, Field(ge=0.1, le=1000.0)] | None = None
    """Distance between the centres of two neighbouring pixels."""


class Tripod(OtherPart):
    """The legs below the mount, or below the camera alone."""

    kind: Literal["tripod"] = "tripod"
    """What stands on the ground."""
    rated_load_kg: Load | None = None
    """What it is rated to carry, the mount with it."""
    on_mount: bool = False
    """Whether the mount carries it; a tripod is below."""


#: The class for each kind; a message about a part leaves these words out.
_CLASSES: dict[str, str] = {
    "filter": "other filter",
    "filter wheel": "other filter",
    "filter drawer": "other filter",
    "spacer": "other spacer",
    "adapter": "other spacer",
    "off-axis guider": "other off-axis guider",
    "guide scope": "other guide scope",
    "guide camera": "other guide camera",
    "tripod": "other tripod",
}
_INSTANCES: tuple[tuple[type[OtherPart], str], ...] = (
    (FilterPart, "other filter"),
    (Spacer, "other spacer"),
    (OffAxisGuider, "other off-axis guider"),
    (GuideScope, "other guide scope"),
    (GuideCamera, "other guide camera"),
    (Tripod, "other tripod"),
)


def _class_of(given: Any) -> str:
    """Tell which class reads a part, by its kind in a file or by what it is already."""
    if isinstance(given, dict):
        kind = given.get("kind")
        return _CLASSES.get(kind, "other") if isinstance(kind, str) else "other"
    return next((tag for kind, tag in _INSTANCES if isinstance(given, kind)), "other")


#: Any of the other parts, read by its kind.
AnyOther = Annotated[
    Annotated[FilterPart, Tag("other filter")]
    | Annotated[Spacer, Tag("other spacer")]
    | Annotated[OffAxisGuider, Tag("other off-axis guider")]
    | Annotated[GuideScope, Tag("other guide scope")]
    | Annotated[GuideCamera, Tag("other guide camera")]
    | Annotated[Tripod, Tag("other tripod")]
    | Annotated[OtherPart, Tag("other")],
    Discriminator(_class_of),
]
