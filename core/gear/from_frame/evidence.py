"""What a frame says before anything is chosen, the same for FITS headers and EXIF."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from core.gear.from_frame.figure import Figure, Option
from core.gear.from_frame.sky_scale import SkyScale

__all__ = ["Evidence", "Optics", "Pixels", "Wanted"]


@dataclass(frozen=True)
class Pixels:
    """The pixel pitch of the sensor, unbinned, in each way it may be read, the best first.

    `sure` tells whether the first needs no second look; `why` how it was found.
    """

    options: tuple[Option, ...] = ()
    sure: bool = True
    why: str = ""
    binning: tuple[int, int] = (1, 1)


@dataclass(frozen=True)
class Optics:
    """What is told of the optics, each None where it is not; the scale as seen on the sky.

    `area_aperture` is the aperture worked out from a light-gathering area.
    """

    focal: Figure | None = None
    aperture: Figure | None = None
    ratio: Figure | None = None
    area_aperture: Figure | None = None
    scale: SkyScale | None = None
    kind: Literal["refractor", "lens"] = "refractor"


@dataclass(frozen=True)
class Evidence:
    """All of it; `others` are figures that stand for themselves."""

    file: str
    form: Literal["FITS", "EXIF"]
    optics: Optics
    pixels: Pixels
    others: tuple[Figure, ...] = ()
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Wanted:
    """What the user says: readings chosen by field, figures given in place of others."""

    chosen: Mapping[str, str] = field(default_factory=dict)
    given: Mapping[str, float | int] = field(default_factory=dict)
