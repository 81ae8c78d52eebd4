"""The smaller parts that have figures of their own: in the beam, and beside it.

The light passes filters, spacers, adapters and the off-axis guider on its way from the
corrector to the camera; `thread_front` faces the sky and `thread` the sensor. Guide scope
and guide camera stand beside it. Lengths in mm, pixel pitch in µm, bands in nm; what is
not known is None.
"""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from core.gear.parts import Diameter, FocalLength, Index, Length, OtherPart, Pixels
from core.gear.validation import Name

__all__ = [
    "AnyOther",
    "FilterPart",
    "GuideCamera",
    "GuideScope",
    "InTheBeam",
    "OffAxisGuider",
    "Spacer",
]

Nanometres = Annotated[float, Field(gt=0.0, le=100_000.0)]


class InTheBeam(OtherPart):
    """A part that the light passes; `clear_diameter_mm` is the free diameter of its bore."""

    thread_front: Name | None = None
    thread: Name | None = None
    clear_diameter_mm: Diameter | None = None


class FilterPart(InTheBeam):
    """A filter, or a wheel or drawer that brings one filter at a time into the beam.

    `glass_mm` and `glass_index` are of one filter's glass, and may be given for a wheel
    whose filters are not parts by themselves; `band_nm` is the width of the narrowest band
    and `centre_nm` where it lies.
    """

    kind: Literal["filter", "filter wheel", "filter drawer"] = "filter"
    glass_mm: Length | None = None
    glass_index: Index | None = None
    band_nm: Nanometres | None = None
    centre_nm: Nanometres | None = None


class Spacer(InTheBeam):
    """A tube between two threads."""

    kind: Literal["spacer", "adapter"] = "spacer"


class OffAxisGuider(InTheBeam):
    """A prism at the edge of the beam that feeds a guide camera.

    `prism_mm` is the side of the prism, `prism_radius_mm` the distance of its centre from
    the axis, `prism_angle_deg` where it stands: counter-clockwise from the camera's up,
    seen from the sensor.
    """

    kind: Literal["off-axis guider"] = "off-axis guider"
    prism_mm: Diameter | None = None
    prism_radius_mm: Length | None = None
    prism_angle_deg: Annotated[float, Field(ge=0.0, lt=360.0)] | None = None


class GuideScope(OtherPart):
    """A small telescope beside the large one."""

    kind: Literal["guide scope"] = "guide scope"
    aperture_mm: Diameter | None = None
    focal_length_mm: FocalLength | None = None


class GuideCamera(OtherPart):
    """The camera behind the guide scope or the off-axis guider."""

    kind: Literal["guide camera"] = "guide camera"
    columns: Pixels | None = None
    rows: Pixels | None = None
    pixel_um: Annotated[float, Field(ge=0.1, le=1000.0)] | None = None


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
}
_INSTANCES: tuple[tuple[type[OtherPart], str], ...] = (
    (FilterPart, "other filter"),
    (Spacer, "other spacer"),
    (OffAxisGuider, "other off-axis guider"),
    (GuideScope, "other guide scope"),
    (GuideCamera, "other guide camera"),
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
    | Annotated[OtherPart, Tag("other")],
    Discriminator(_class_of),
]
