"""Reads the tags that a camera wrote into a JPEG or a TIFF; no pixel is unpacked.

Raw files that are TIFF inside are read too; what they show first is a small picture, whose
size then does not count.

Source: Exif 2.3 (CIPA DC-008-2012 / JEITA CP-3451C): names and numbers of the tags from
memory; Pillow knows the same.
"""

import warnings
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, BinaryIO, cast

from core.gear.from_frame.frame_file import FrameError, FrameFile
from core.gear.from_frame.told import Told

__all__ = ["STARTS", "ExifTags", "read_exif"]

#: How a file begins that is read here.
STARTS = {b"\xff\xd8\xff": "JPEG", b"II*\x00": "TIFF", b"MM\x00*": "TIFF"}
_EXIF_IFD = 0x8769
_REDUCED = 0x00FE
_TAGS = {
    0x010F: "Make",
    0x0110: "Model",
    0x829A: "ExposureTime",
    0x829D: "FNumber",
    0x8827: "PhotographicSensitivity",
    0x920A: "FocalLength",
    0xA002: "PixelXDimension",
    0xA003: "PixelYDimension",
    0xA20E: "FocalPlaneXResolution",
    0xA20F: "FocalPlaneYResolution",
    0xA210: "FocalPlaneResolutionUnit",
    0xA217: "SensingMethod",
    0xA405: "FocalLengthIn35mmFilm",
    0xA434: "LensModel",
}


@dataclass(frozen=True)
class ExifTags:
    """Tags by name, and the size of the picture in the file; None where it is a small one."""

    tags: Mapping[str, Told]
    size: tuple[int, int] | None

    def get(self, name: str) -> Told | None:
        """Give a tag by its name."""
        return self.tags.get(name)


def read_exif(file: FrameFile, form: str) -> ExifTags:
    """Read the tags of a picture.

    Parameters
    ----------
    file : FrameFile
        At its beginning.
    form : str
        "JPEG" or "TIFF".

    Raises
    ------
    FrameError
        When it is damaged, or larger than what one camera takes.
    """
    from PIL import Image

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of damage that does not keep it from being read
            with Image.open(cast(BinaryIO, file), formats=[form]) as image:
                return _tags(image)
    except Image.DecompressionBombError:
        raise FrameError(f"{file.frame_name} has more pixels than a camera takes") from None
    except (FrameError, MemoryError):
        raise
    except Exception as error:
        # Pillow's readers raise whatever the damage leads them to.
        raise FrameError(f"{file.frame_name} is {form}, but damaged or cut off") from error


def _tags(image: Any) -> ExifTags:
    """Give what is known here of an opened picture."""
    exif = image.getexif()
    inner = exif.get_ifd(_EXIF_IFD)
    found: dict[str, Told] = {}
    for number, name in _TAGS.items():
        value = inner.get(number, exif.get(number))
        if isinstance(value, tuple):
            value = value[0] if value else None
        if value is not None:
            found[name] = Told(name, value)
    reduced = exif.get(_REDUCED, 0)
    small = isinstance(reduced, int) and reduced & 1
    return ExifTags(found, None if small else tuple(image.size))
