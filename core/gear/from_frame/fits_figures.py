"""Turns a FITS header into evidence of the rig.

Columns and rows are those of the sensor: the picture's times the binning. The keywords
NAXISn, TELESCOP, INSTRUME, the coordinates and EXPTIME are of the FITS Standard 4.0; the
others are common practice of the trade, their units too: FOCALLEN, APTDIA in mm, APTAREA
in mm², pixel sizes in µm, EGAIN in electrons per ADU, temperatures in °C.
"""

import math

from core.errors import BadValueError
from core.gear.from_frame.binning import binning_of, pixels_of
from core.gear.from_frame.evidence import Evidence, Optics
from core.gear.from_frame.figure import Figure
from core.gear.from_frame.fits_cards import FitsHeader
from core.gear.from_frame.sky_scale import SkyScale, sky_scale
from core.gear.from_frame.told import RULES, Told, number_told, text_told
from core.sky.angles import parse_angle, wrap_180

__all__ = ["evidence_of_fits"]

#: Figures that stand for themselves: field, keywords of which the first counts.
_PLAIN = (
    ("exposure_s", ("EXPTIME", "EXPOSURE")),
    ("conversion_e_adu", ("EGAIN",)),
    ("gain", ("GAIN",)),
    ("temperature_c", ("CCD-TEMP", "SET-TEMP")),
)
_TEXTS = (("telescope", "TELESCOP"), ("camera", "INSTRUME"), ("filter", "FILTER"))
_MOSAICS = ("RGGB", "BGGR", "GRBG", "GBRG")


def evidence_of_fits(header: FitsHeader, file: str) -> Evidence:
    """Give what a header says of the rig.

    Parameters
    ----------
    header : FitsHeader
    file : str
        What to call the file.
    """
    remarks = list(header.remarks)
    scale = sky_scale(header, remarks)
    optics = _optics(header, scale, remarks)
    binning = binning_of(header, remarks)
    focal_mm = float(optics.focal.value) if optics.focal else None
    pixels = pixels_of(header, binning, (scale, focal_mm), remarks)
    others = [
        *_pixel_counts(header, binning, remarks),
        *_sensor(header, remarks),
        *_plain(header, remarks),
    ]
    if scale is not None:
        others.append(Figure("scale_arcsec_px", scale.x_arcsec_px, scale.source))
    return Evidence(file, "FITS", optics, pixels, tuple(others), tuple(remarks))


def _figure(
    header: FitsHeader, field: str, keywords: tuple[str, ...], remarks: list[str]
) -> Figure | None:
    """Give a figure by the first of its keywords."""
    told = header.first(*keywords)
    value = number_told(told, field, remarks)
    return None if told is None or value is None else Figure(field, value, told.name)


def _optics(header: FitsHeader, scale: SkyScale | None, remarks: list[str]) -> Optics:
    """Give what is told of the optics."""
    ratio = header.first("FOCRATIO")
    if ratio is not None and isinstance(ratio.value, str):
        plain = ratio.value.strip().lower().removeprefix("f/").removeprefix("f")
        ratio = Told(ratio.name, plain, ratio.comment)
    number = number_told(ratio, "focal_ratio", remarks)
    area = number_told(header.first("APTAREA"), "aperture_area_mm2", remarks)
    return Optics(
        focal=_figure(header, "focal_length_mm", ("FOCALLEN",), remarks),
        aperture=_figure(header, "aperture_mm", ("APTDIA",), remarks),
        ratio=None if number is None else Figure("focal_ratio", number, "FOCRATIO"),
        area_aperture=None if area is None else _from_area(area),
        scale=scale,
    )


def _from_area(area_mm2: float) -> Figure | None:
    """Give the diameter of a circle of an area."""
    diameter, rule = 2.0 * math.sqrt(area_mm2 / math.pi), RULES["aperture_mm"]
    if not rule.low <= diameter <= rule.high:
        return None
    remark = "larger where part of it is obstructed"
    return Figure("aperture_mm", diameter, "APTAREA", remark, sure=False)


def _pixel_counts(header: FitsHeader, binning: tuple[int, int], remarks: list[str]) -> list[Figure]:
    """Give columns and rows of the sensor, and the binning where there is one."""
    found = []
    for field, axis, count, times in (
        ("columns", "NAXIS1", header.columns, binning[0]),
        ("rows", "NAXIS2", header.rows, binning[1]),
    ):
        source = axis if times == 1 else f"{axis} × {'XY'[axis == 'NAXIS2']}BINNING"
        told = Told(source, count * times)
        if number_told(told, "pixels", remarks) is not None:
            found.append(Figure(field, count * times, source))
    if header.columns in (3, 4) and header.planes:
        remarks.append(f"NAXIS1 is {header.columns}: colours may stand in the place of columns")
    for keyword, words in (("XORGSUBF", "column"), ("YORGSUBF", "row")):
        if begin := number_told(header.first(keyword), "offset_px", remarks):
            remarks.append(
                f"{keyword} is {begin:.10g}: the picture begins at that {words} of the sensor, "
                "so it may be a part of it"
            )
    if binning != (1, 1):
        found.append(Figure("binning", f"{binning[0]} × {binning[1]}", "XBINNING, YBINNING"))
    return found


def _sensor(header: FitsHeader, remarks: list[str]) -> list[Figure]:
    """Give what is told of the sensor's kind and cooling."""
    found = []
    mosaic = text_told(header.first("BAYERPAT"))
    if mosaic is not None and mosaic.upper() in _MOSAICS:
        found.append(Figure("sensor", "colour", "BAYERPAT", f"mosaic {mosaic.upper()}"))
    elif mosaic is not None and mosaic.upper() != "NONE":
        remarks.append(f'BAYERPAT is "{mosaic}", no mosaic of two by two; left out')
    if number_told(header.first("SET-TEMP"), "temperature_c", []) is not None:
        found.append(Figure("cooled", "cooled", "SET-TEMP"))
    return found


def _plain(header: FitsHeader, remarks: list[str]) -> list[Figure]:
    """Give the figures that stand for themselves."""
    found = [_figure(header, field, keywords, remarks) for field, keywords in _PLAIN]
    for field, keyword in _TEXTS:
        told = header.first(keyword)
        text = text_told(told)
        if told is not None and text is not None:
            found.append(Figure(field, text, told.name))
        elif told is not None and not (isinstance(told.value, str) and not told.value.strip()):
            remarks.append(f"{told.name} is no text; left out")
    found.append(_latitude(header, remarks))
    return [figure for figure in found if figure is not None]


def _latitude(header: FitsHeader, remarks: list[str]) -> Figure | None:
    """Read a latitude in degrees, or in degrees, minutes and seconds."""
    told = header.first("SITELAT")
    if told is None:
        return None
    if isinstance(told.value, str):
        try:
            told = Told(told.name, wrap_180(parse_angle(told.value, name="SITELAT")))
        except BadValueError as error:
            remarks.append(f"{error}; left out")
            return None
    value = number_told(told, "latitude_deg", remarks)
    return None if value is None else Figure("latitude_deg", value, told.name)
