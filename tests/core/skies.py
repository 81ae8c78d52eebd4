"""Places on the sky where code about the sky goes wrong, each with the reason.

Use them in every test of something that depends on where it is:
``@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)``.
"""

from dataclasses import dataclass

__all__ = ["AWKWARD_SKIES", "Sky"]


@dataclass(frozen=True)
class Sky:
    """A place, and why it is here."""

    ra_deg: float
    dec_deg: float
    why: str

    def __str__(self) -> str:
        return f"ra{self.ra_deg:g}_dec{self.dec_deg:g}"


AWKWARD_SKIES = (
    Sky(0.0, 90.0, "the north pole: RA has no meaning, FITS's default LONPOLE jumps to 0"),
    Sky(217.3, 90.0, "the north pole with a right ascension that still turns the picture"),
    Sky(0.0, -90.0, "the south pole: FITS's default LONPOLE does not jump here"),
    Sky(129.9, -90.0, "the south pole with a right ascension that still turns the picture"),
    Sky(83.0, 89.99, "36 arcseconds from the pole: every wide frame holds it, RA runs wild"),
    Sky(83.0, -89.99, "the same in the south"),
    Sky(37.95, 89.26, "where people polar-align: a frame with the pole just inside"),
    Sky(0.0, 0.0, "the seam of RA on the equator: both coordinates change sign"),
    Sky(0.001, 10.0, "just after the seam: the western corners lie at 359 degrees"),
    Sky(359.999, -10.0, "just before the seam: the eastern corners lie at 0 degrees"),
    Sky(359.9999999, 60.0, "rounds to 360 when printed: 24h must never show"),
    Sky(180.0, 0.0, "where arctan2 changes sign"),
    Sky(180.0, 80.0, "where arctan2 changes sign, on a high parallel"),
    Sky(266.4, -29.0, "an ordinary southern sky, the galactic centre"),
    Sky(10.6847, 41.2688, "an ordinary northern sky"),
    Sky(90.0, -0.5, "minus zero degrees: the sign lives in the minutes"),
    Sky(270.0, 45.0, "sine and cosine of RA at a quarter turn"),
    Sky(123.456, -80.0, "circumpolar south: cos(dec) of a sixth"),
)
