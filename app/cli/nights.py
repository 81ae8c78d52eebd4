"""The options of a command that say which nights a rig is for."""

from collections.abc import Mapping
from typing import Annotated

import typer

from app.cli.asked import number_from
from core.gear.nights import Conditions

__all__ = ["Exposure", "Guiding", "Latitude", "PolarError", "Seeing", "asked_nights"]

Seeing = Annotated[
    str | None,
    typer.Option("--seeing", metavar="ARCSEC", help="Width of a star that the air blurs."),
]
Guiding = Annotated[
    str | None,
    typer.Option("--guiding", metavar="ARCSEC", help="Guiding error (RMS) on each axis."),
]
Exposure = Annotated[
    str | None, typer.Option("--exposure", metavar="S", help="Seconds of one sub-exposure.")
]
Latitude = Annotated[
    str | None, typer.Option("--latitude", metavar="DEG", help="Where it stands; south negative.")
]
PolarError = Annotated[
    str | None,
    typer.Option("--polar-error", metavar="ARCMIN", help="How far the axis points off the pole."),
]
#: What each figure is called in a refusal, and its unit.
_WORDS = {
    "seeing_arcsec": ("seeing", "arcsec"),
    "guide_rms_arcsec": ("guiding error", "arcsec"),
    "exposure_s": ("exposure", "seconds"),
    "latitude_deg": ("latitude", "degrees"),
    "polar_error_arcmin": ("polar error", "arcmin"),
}


def asked_nights(nights: Conditions, given: Mapping[str, str | None]) -> Conditions:
    """Put what was typed in place of a plan's nights.

    Parameters
    ----------
    nights : Conditions
        Those of the plan.
    given : mapping of str to str or None
        What was typed, by the names of the fields; None for what was left out.

    Raises
    ------
    BadValueError
        When it is no number, or one that cannot be.
    """
    typed = {
        field: number_from(_WORDS[field][0], text, _WORDS[field][1])
        for field, text in given.items()
        if text is not None
    }
    return nights.but(**typed) if typed else nights
