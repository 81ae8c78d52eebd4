"""Turns the tags of a camera's picture into evidence of the rig.

Pixel pitch: 1 over FocalPlaneXResolution, in FocalPlaneResolutionUnit (2 inch, 3 cm; 4 mm
and 5 µm are in use too); without it from the focal length for 35 mm film, which compares
diagonals with the 43.27 mm of 36 x 24 mm and is rounded to whole mm. Aperture: f / N.

Source: Exif 2.3 (CIPA DC-008-2012 / JEITA CP-3451C), from memory; 1 inch is 25.4 mm.
"""

import math

from core.gear.from_frame.evidence import Evidence, Optics, Pixels
from core.gear.from_frame.exif_tags import ExifTags
from core.gear.from_frame.figure import Figure, Option
from core.gear.from_frame.resolve import differs
from core.gear.from_frame.told import RULES, number_told, text_told, whole_told

__all__ = ["evidence_of_exif"]

_UNIT_UM = {2: 25_400.0, 3: 10_000.0, 4: 1000.0, 5: 1.0}
_FILM_DIAGONAL_MM = math.hypot(36.0, 24.0)
_ONE_CHIP_COLOUR = 2
#: The focal length for film is rounded, and so is the one it is worked out from.
_FILM_AGREES = 0.10


def evidence_of_exif(exif: ExifTags, file: str) -> Evidence:
    """Give what a camera's tags say of the rig.

    Parameters
    ----------
    exif : ExifTags
    file : str
        What to call the file.
    """
    remarks: list[str] = []
    focal = _plain(exif, "focal_length_mm", "FocalLength", remarks)
    counts = _pixel_counts(exif, remarks)
    others = [
        *counts,
        *_texts(exif),
        _plain(exif, "exposure_s", "ExposureTime", remarks),
        _plain(exif, "iso", "PhotographicSensitivity", remarks),
    ]
    sensing = exif.get("SensingMethod")
    if sensing is not None and sensing.value == _ONE_CHIP_COLOUR:
        others.append(Figure("sensor", "colour", "SensingMethod"))
    return Evidence(
        file,
        "EXIF",
        Optics(
            focal=focal and focal.with_remark("as the lens says"),
            ratio=_plain(exif, "focal_ratio", "FNumber", remarks),
            kind="lens",
        ),
        _pixels(exif, counts, focal, remarks),
        tuple(figure for figure in others if figure is not None),
        tuple(remarks),
    )


def _plain(exif: ExifTags, field: str, tag: str, remarks: list[str]) -> Figure | None:
    """Give a figure as a tag has it."""
    value = number_told(exif.get(tag), field, remarks)
    return None if value is None else Figure(field, value, tag)


def _pixel_counts(exif: ExifTags, remarks: list[str]) -> list[Figure]:
    """Give columns and rows: of the tags, else of the picture itself."""
    told = tuple(whole_told(exif.get(f"Pixel{axis}Dimension"), "pixels", remarks) for axis in "XY")
    if told[0] is not None and told[1] is not None:
        if exif.size is not None and sorted(exif.size) != sorted((told[0], told[1])):
            remarks.append(
                f"the picture has {exif.size[0]} × {exif.size[1]} px, its tags say {told[0]} × "
                f"{told[1]}: it was cut or made smaller; the tags count"
            )
        return [Figure("columns", told[0], "PixelXDimension"),
                Figure("rows", told[1], "PixelYDimension")]  # fmt: skip
    if exif.size is None or not all(1 <= side <= RULES["pixels"].high for side in exif.size):
        return []
    where = "the picture's size"
    return [Figure("columns", exif.size[0], where), Figure("rows", exif.size[1], where)]


def _pixels(
    exif: ExifTags, counts: list[Figure], focal: Figure | None, remarks: list[str]
) -> Pixels:
    """Give the pixel pitch."""
    film = _film_pixel_um(exif, counts, focal, remarks)
    pitch = _focal_plane_pixel_um(exif, remarks)
    if pitch is not None:
        option = Option("plain", pitch, f"{pitch:.4g} µm, as told", "FocalPlaneXResolution")
        if film is not None and differs(film, pitch, by=_FILM_AGREES):
            other = Option("film", film, f"{film:.4g} µm, by 35 mm film",
                           "FocalLengthIn35mmFilm")  # fmt: skip
            why = f"by the focal length for 35 mm film it would be {film:.3g} µm"
            return Pixels((option, other), sure=False, why=why)
        return Pixels((option,))
    if film is None:
        return Pixels()
    option = Option("film", film, f"{film:.4g} µm", "FocalLengthIn35mmFilm")
    return Pixels((option,), sure=False, why="good to some percent: rounded to whole mm there")


def _focal_plane_pixel_um(exif: ExifTags, remarks: list[str]) -> float | None:
    """Give the pitch that the resolution in the focal plane is."""
    across = number_told(exif.get("FocalPlaneXResolution"), "resolution", remarks)
    along = number_told(exif.get("FocalPlaneYResolution"), "resolution", remarks)
    if across is None:
        return None
    unit = exif.get("FocalPlaneResolutionUnit")
    unit_um = _UNIT_UM.get(2 if unit is None else unit.value)
    if unit_um is None:
        remarks.append("FocalPlaneResolutionUnit is neither inch nor cm; left out")
        return None
    pitch, rule = unit_um / across, RULES["pixel_um"]
    if not rule.low <= pitch <= rule.high:
        remarks.append(f"FocalPlaneXResolution gives pixels of {pitch:.4g} µm; left out")
        return None
    if along is not None and differs(along, across):
        remarks.append("FocalPlaneXResolution and FocalPlaneYResolution differ; the first counts")
    return pitch


def _film_pixel_um(
    exif: ExifTags, counts: list[Figure], focal: Figure | None, remarks: list[str]
) -> float | None:
    """Give the pitch by which the picture's diagonal compares with that of film."""
    film_mm = number_told(exif.get("FocalLengthIn35mmFilm"), "focal_length_35mm_mm", remarks)
    if film_mm is None or focal is None or not counts:
        return None
    diagonal_mm = _FILM_DIAGONAL_MM * float(focal.value) / film_mm
    pixel_um = diagonal_mm * 1000.0 / math.hypot(*(float(count.value) for count in counts))
    rule = RULES["pixel_um"]
    return pixel_um if rule.low <= pixel_um <= rule.high else None


def _texts(exif: ExifTags) -> list[Figure]:
    """Give the names of camera and lens."""
    make, model = text_told(exif.get("Make")), text_told(exif.get("Model"))
    found = []
    if model is not None:
        joined = (
            model
            if not make or model.casefold().startswith(make.casefold())
            else (f"{make} {model}")
        )
        found.append(Figure("camera", joined[:100], "Model" if joined == model else "Make, Model"))
    elif make is not None:
        found.append(Figure("camera", make, "Make"))
    lens = text_told(exif.get("LensModel"))
    return [*found, Figure("telescope", lens, "LensModel")] if lens else found
