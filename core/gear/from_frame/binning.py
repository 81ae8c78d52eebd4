"""Works out the pixel pitch of a sensor from what a FITS header says of a binned picture.

XPIXSZ is no keyword of the FITS Standard. Many writers count the binning in it, and say
"after binning" in its comment; others write the pitch of the sensor. What decides here, in
this order: the scale on the sky together with FOCALLEN (within 5 %), PIXSIZE1 (the pitch of
the sensor, common practice), the words of the comment. Where none does, the binning is
taken to be counted, as is common practice, and the user is asked.
"""

import re

from core.gear.from_frame.evidence import Pixels
from core.gear.from_frame.figure import Option
from core.gear.from_frame.fits_cards import FitsHeader
from core.gear.from_frame.resolve import differs, measured_mm
from core.gear.from_frame.sky_scale import SkyScale
from core.gear.from_frame.told import number_told, whole_told

__all__ = ["binning_of", "pixels_of"]

#: How near a reading must come to FOCALLEN for the sky to decide.
_SKY_DECIDES = 0.05
#: Two pitches that differ by less are the same, rounded differently.
_SAME = 0.01
_COUNTED = re.compile(r"after\W+binning|\bbinned|\binclud|\beffective", re.IGNORECASE)
_PLAIN = re.compile(r"before\W+binning|unbinned|un-binned|without|exclud|physical", re.IGNORECASE)


def binning_of(header: FitsHeader, remarks: list[str]) -> tuple[int, int]:
    """Give how many pixels of the sensor make one of the picture, along x and y; 1 for unsaid."""
    x = whole_told(header.first("XBINNING"), "binning", remarks)
    y = whole_told(header.first("YBINNING"), "binning", remarks)
    if x is None and y is None:
        return _ccdsum(header)
    return x or y or 1, y or x or 1


def pixels_of(
    header: FitsHeader,
    binning: tuple[int, int],
    sky: tuple[SkyScale | None, float | None],
    remarks: list[str],
) -> Pixels:
    """Give the readings of the pixel pitch.

    Parameters
    ----------
    header : FitsHeader
    binning : (int, int)
    sky : (SkyScale or None, float or None)
        The scale on the sky, and the focal length that the header tells, mm.
    remarks : list of str
    """
    told = number_told(header.first("XPIXSZ"), "pixel_um", remarks)
    plain = number_told(header.first("PIXSIZE1"), "pixel_um", remarks)
    _hold_against_rows(header, binning, remarks)
    if told is None:
        if plain is None:
            return Pixels(binning=binning)
        option = Option("plain", plain, f"{plain:.4g} µm", "PIXSIZE1")
        why = "taken as the pitch of the sensor, unbinned" if binning[0] > 1 else ""
        return Pixels((option,), binning[0] == 1, why, binning)
    if binning[0] == 1:
        option = Option("plain", told, f"{told:.4g} µm", "XPIXSZ")
        if plain is not None and differs(told, plain, by=_SAME):
            remarks.append(f"XPIXSZ is {told:.4g} µm and PIXSIZE1 {plain:.4g} µm; XPIXSZ counts")
        return Pixels((option,), binning=binning)
    counted, why = _decided(header, told, plain, binning[0], sky)
    share = told / binning[0]
    counts = Option("binned", share, f"{share:.4g} µm, binning counted", "XPIXSZ / XBINNING")
    leaves = Option("plain", told, f"{told:.4g} µm, not counted", "XPIXSZ")
    options = (leaves, counts) if counted is False else (counts, leaves)
    return Pixels(options, counted is not None, why, binning)


def _decided(
    header: FitsHeader,
    told: float,
    plain: float | None,
    binning: int,
    sky: tuple[SkyScale | None, float | None],
) -> tuple[bool | None, str]:
    """Tell whether XPIXSZ counts the binning, and what decided that; None for nothing did."""
    scale, focal_mm = sky
    if scale is not None and focal_mm is not None:
        for counted, pixel in ((True, told / binning), (False, told)):
            seen = measured_mm(pixel, binning, scale.x_arcsec_px)
            if not differs(seen, focal_mm, by=_SKY_DECIDES):
                verb = "counts" if counted else "does not count"
                return counted, f"{verb} the binning: with FOCALLEN that gives the scale on the sky"
    if plain is not None and not differs(told, plain * binning, by=_SAME):
        return True, "counts the binning: it is PIXSIZE1 times XBINNING"
    if plain is not None and not differs(told, plain, by=_SAME):
        return False, "does not count the binning: PIXSIZE1 is the same"
    card = header.first("XPIXSZ")
    comment = card.comment if card else ""
    if _PLAIN.search(comment):
        return False, "does not count the binning, says its comment"
    if _COUNTED.search(comment):
        return True, "counts the binning, says its comment"
    return None, (
        f"taken to count the binning of {binning}, as most writers do; "
        f"if yours does not, the pitch is {told:.4g} µm"
    )


def _ccdsum(header: FitsHeader) -> tuple[int, int]:
    """Read "2 2", as some observatories write the binning."""
    card = header.first("CCDSUM")
    found = re.fullmatch(r"\s*([1-9]\d?)\s+([1-9]\d?)\s*", str(card.value)) if card else None
    return (int(found.group(1)), int(found.group(2))) if found else (1, 1)


def _hold_against_rows(header: FitsHeader, binning: tuple[int, int], remarks: list[str]) -> None:
    """Say so where pixels are not square."""
    for across, along in (("XPIXSZ", "YPIXSZ"), ("PIXSIZE1", "PIXSIZE2")):
        x = number_told(header.first(across), "pixel_um", [])
        y = number_told(header.first(along), "pixel_um", remarks)
        if x is None or y is None:
            continue
        square = not differs(x, y, by=_SAME)
        by_binning = not differs(x * binning[1], y * binning[0], by=_SAME)
        if not (square or by_binning):
            remarks.append(
                f"{across} is {x:.4g} µm and {along} {y:.4g} µm: the pixels are not square; "
                f"a rig counts the first for both, so its height is off"
            )
