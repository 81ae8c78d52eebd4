"""The terms of the trade in plain words, for whoever rests on a sentence that uses them.

The explanations are common knowledge of the trade in words of our own; figures in them are
common practice.
"""

import re
from functools import lru_cache
from typing import NamedTuple

from app.words.sentences import tip

__all__ = ["GLOSSARY", "Term", "explained", "terms_in"]


class Term(NamedTuple):
    """A term, how it may stand in a sentence (a regular expression), and what it means."""

    name: str
    pattern: str
    meaning: str


GLOSSARY: tuple[Term, ...] = (
    Term(
        "back focus",
        r"back.focus|behind it to the sensor",
        "how far behind the optics the sensor must sit for sharp stars up to the corners, in "
        "millimetres; spacers make up what is missing",
    ),
    Term(
        "image circle",
        r"image circle|sharp in a circle",
        "the round area behind the optics in which the picture is sharp and bright; the whole "
        "sensor should lie inside it",
    ),
    Term(
        "glass",
        r"\bglass\b",
        "filters and windows bend the light so that the sensor must sit farther back, by about a "
        "third of their thickness",
    ),
    Term(
        "image scale",
        r"image scale|pixel covers|″/px|arcsec/px|\bscale\b",
        "how much of the sky one pixel sees, in arcseconds; small figures show fine detail",
    ),
    Term(
        "arcsecond, arcminute",
        r"arcsec|arcmin|″",
        "angles on the sky: a degree has 60 arcminutes, an arcminute 60 arcseconds; the Moon is "
        "about 30 arcminutes wide",
    ),
    Term(
        "focal length",
        r"focal length",
        "the reach of the optics in millimetres; the longer it is, the larger everything "
        "appears and the less of the sky fits in",
    ),
    Term(
        "focal ratio",
        r"focal ratio|\bf/\d",
        "focal length divided by aperture, written f/5; small figures mean a bright picture on "
        "each pixel, a fast beam, and parts that must sit more exactly",
    ),
    Term(
        "aperture", r"\baperture", "the free diameter of the telescope or lens, which gathers light"
    ),
    Term(
        "seeing",
        r"\bseeing\b",
        "how much the moving air blurs a star, as a width in arcseconds; 2 to 4 on usual nights",
    ),
    Term(
        "guiding",
        r"\bguid(?:e|es|er|ing)\b|off-axis",
        "a second, small camera watches a star and corrects the mount while the picture is taken",
    ),
    Term(
        "off-axis guider",
        r"off-axis guider|prism",
        "a small prism beside the sensor that sends the light of a star at the edge to the guide "
        "camera, through the same optics as the picture",
    ),
    Term(
        "dithering",
        r"dither",
        "to shift the frame by some pixels between exposures, so that faults of the sensor do "
        "not add up and coarse pixels still show round stars",
    ),
    Term(
        "binning",
        r"\bbin\b|binning",
        "to read neighbouring pixels as one larger pixel",
    ),
    Term(
        "flat frames",
        r"flat frames?",
        "pictures of an evenly lit area, taken with the same set-up; dividing by them takes dark "
        "corners and dust out of the picture",
    ),
    Term(
        "counterweight",
        r"counterweight",
        "a weight on the other side of the mount that balances the telescope",
    ),
    Term(
        "polar alignment",
        r"polar alignment|pole of the sky",
        "to point the mount's axis at the pole of the sky, about which all stars seem to turn",
    ),
    Term(
        "exposure",
        r"exposures?\b|\bexpose\b",
        "the time that one picture gathers light; many pictures are added up afterwards",
    ),
    Term(
        "narrow-band filter",
        r"nm band|narrow.filter",
        "a filter that lets only one colour of glowing gas pass; tilted light shifts its colour",
    ),
    Term(
        "line",
        r"\bof the line\b|\bthe line\b",
        "light of one single colour, as a glowing gas sends it out",
    ),
    Term(
        "pull, in N m",
        r"\bN m\b",
        "how hard a weight twists the axis, in newton metres: 1 kg held 10 cm away makes about 1",
    ),
    Term(
        "px",
        r"\bpx\b",
        "pixels of the picture",
    ),
    Term(
        "alt-azimuth mount",
        r"alt-azimuth|field turns",
        "a mount that moves up and down and sideways; the picture slowly turns about its middle",
    ),
    Term(
        "equatorial mount",
        r"\bequatorial mount\b",
        "a mount with one axis along the Earth's own, so that one slow turn follows the stars",
    ),
    Term(
        "magnitude",
        r"\bmagnitude\b",
        "the brightness of a star: the larger the figure, the fainter; 6 is the faintest that "
        "the eye sees",
    ),
    Term(
        "thread",
        r"\bthread\b|\bM\d\d\b",
        "the screw by which parts are joined; M48 is 48 mm across; male screws into female",
    ),
    Term(
        "reducer, flattener",
        r"\breducer\b|\bflattener\b|\bcorrector\b",
        "a lens group in front of the camera that makes stars sharp to the corners; a reducer "
        "also shortens the focal length",
    ),
)
_PATTERNS = tuple((term, re.compile(term.pattern, re.IGNORECASE)) for term in GLOSSARY)


def terms_in(*sentences: str) -> tuple[Term, ...]:
    """Give the terms that sentences use, each once, in the order of the glossary."""
    text = "\n".join(sentences)
    return tuple(term for term, pattern in _PATTERNS if pattern.search(text))


@lru_cache(maxsize=512)
def explained(sentence: str) -> str:
    """Give a tooltip that explains the terms of a sentence; empty where it uses none.

    Examples
    --------
    >>> explained("Bin the pixels.")
    '<p>binning: to read neighbouring pixels as one larger pixel</p>'
    """
    return tip(*(f"{term.name}: {term.meaning}" for term in terms_in(sentence)))
