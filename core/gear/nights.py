"""The nights that a rig is for: seeing, guiding, exposures, latitude, polar alignment.

Angles of the air and of the guiding are in arcseconds, the error of the polar alignment in
arcminutes, the exposure in seconds. The defaults are usual ones (common practice).
"""

from typing import Annotated

from pydantic import Field

from core.record.validation import Record

__all__ = ["Conditions"]


class Conditions(Record):
    """The nights the rig is for."""

    seeing_arcsec: Annotated[float, Field(gt=0.0, le=60.0)] = 2.5
    """Width of a star that the air blurs, at half of its height."""
    guide_rms_arcsec: Annotated[float, Field(ge=0.0, le=60.0)] = 0.7
    """Guiding error on each axis, root mean square."""
    exposure_s: Annotated[float, Field(gt=0.0, le=86_400.0)] = 120.0
    """One sub-exposure, of the many that are added up."""
    latitude_deg: Annotated[float, Field(ge=-90.0, le=90.0)] = 45.0
    """Where the rig stands, north positive."""
    polar_error_arcmin: Annotated[float, Field(ge=0.0, le=600.0)] = 5.0
    """How far the mount's axis points past the pole of the sky."""
