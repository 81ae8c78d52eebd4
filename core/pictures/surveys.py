"""The sky surveys that a picture can be cut from.

Each is a survey in the HiPS form (IVOA, Fernique et al. 2017) under the identifier that
the cutout service knows it by. What a survey covers is told in words, and as the
declination south of which it has nothing where there is such a line.

Credit lines: as the surveys ask for in their acknowledgement pages, shortened (from
memory; the service's own list is the authority).
"""

from dataclasses import dataclass

from core.errors import BadValueError
from core.pictures.picture import PictureFrame

__all__ = ["SURVEYS", "Survey", "survey_of"]


@dataclass(frozen=True)
class Survey:
    """One survey.

    Parameters
    ----------
    id : str
        What the service calls it.
    name : str
        What the picture menu calls it.
    credit : str
        The line that must stand beside its pictures.
    coverage : str
        What of the sky it shows, in words.
    south_limit_deg : float or None
        Nothing is shown south of this declination.
    """

    id: str
    name: str
    credit: str
    coverage: str
    south_limit_deg: float | None = None

    def misses(self, frame: PictureFrame) -> bool:
        """Tell whether a whole picture lies south of what the survey shows."""
        if self.south_limit_deg is None:
            return False
        return frame.plane.dec_deg + frame.radius_deg < self.south_limit_deg


SURVEYS: tuple[Survey, ...] = (
    Survey(
        "CDS/P/DSS2/color",
        "DSS2 colour",
        "Digitized Sky Survey 2, STScI/NASA; coloured by CDS",
        "the whole sky, photographic plates",
    ),
    Survey(
        "CDS/P/DSS2/red",
        "DSS2 red",
        "Digitized Sky Survey 2 (red), STScI/NASA; CDS",
        "the whole sky, photographic plates; shows H-alpha",
    ),
    Survey(
        "CDS/P/DSS2/blue",
        "DSS2 blue",
        "Digitized Sky Survey 2 (blue), STScI/NASA; CDS",
        "the whole sky but for a few plates",
    ),
    Survey(
        "CDS/P/PanSTARRS/DR1/color-z-zg-g",
        "Pan-STARRS colour",
        "Pan-STARRS1 DR1, Institute for Astronomy and STScI; coloured by CDS",
        "north of declination -30",
        south_limit_deg=-30.5,
    ),
    Survey(
        "CDS/P/SDSS9/color",
        "SDSS colour",
        "Sloan Digital Sky Survey, data release 9; coloured by CDS",
        "a third of the sky, mostly north and away from the Milky Way",
        south_limit_deg=-20.0,
    ),
    Survey(
        "CDS/P/DESI-Legacy-Surveys/DR10/color",
        "Legacy Surveys colour",
        "DESI Legacy Imaging Surveys, data release 10; CDS",
        "about half the sky, away from the Milky Way",
    ),
    Survey(
        "CDS/P/2MASS/color",
        "2MASS colour",
        "2MASS, University of Massachusetts and IPAC/Caltech, NASA/NSF; CDS",
        "the whole sky, near infrared",
    ),
    Survey(
        "CDS/P/allWISE/color",
        "WISE colour",
        "WISE, UCLA and JPL/Caltech, NASA; CDS",
        "the whole sky, mid infrared: warm dust",
    ),
    Survey(
        "CDS/P/GALEXGR6_7/color",
        "GALEX colour",
        "GALEX, Caltech, NASA; CDS",
        "most of the sky, ultraviolet; gaps in the Milky Way",
    ),
    Survey(
        "CDS/P/VTSS/Ha",
        "VTSS H-alpha",
        "Virginia Tech Spectral-Line Survey, NSF; CDS",
        "parts of the northern Milky Way, wide and coarse",
        south_limit_deg=-25.0,
    ),
)


def survey_of(survey_id: str) -> Survey:
    """Find a survey by its identifier.

    Raises
    ------
    BadValueError
        When there is none.
    """
    for survey in SURVEYS:
        if survey.id == survey_id:
            return survey
    known = ", ".join(survey.id for survey in SURVEYS)
    raise BadValueError("survey", survey_id, f"must be one of {known}")
