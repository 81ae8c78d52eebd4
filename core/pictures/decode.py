"""Turn the bytes of a JPEG or PNG into pixels, sure of their size before any is unpacked.

Conventions: the first row is the top of the picture, in the file as in the array.
"""

import io
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from PIL import Image

__all__ = ["DecodeError", "decode"]

_SIGNATURES = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG"}
_MODES = frozenset({"1", "L", "LA", "P", "RGB", "RGBA", "CMYK", "YCbCr"})


class DecodeError(Exception):
    """The bytes are no picture of the size that was asked for; the text completes "it ..."."""


def decode(body: bytes, width_px: int, height_px: int) -> NDArray[np.uint8]:
    """Decode a picture.

    Parameters
    ----------
    body : bytes
        A JPEG or PNG file.
    width_px, height_px : int
        The size it must have.

    Returns
    -------
    (height_px, width_px, 3) uint8 array
        What is transparent is black.

    Raises
    ------
    DecodeError
        When the bytes are something else, damaged, or of another size.
    """
    form = next((name for start, name in _SIGNATURES.items() if body.startswith(start)), None)
    if form is None:
        raise DecodeError("sent something that is neither JPEG nor PNG")
    from PIL import Image

    try:
        with Image.open(io.BytesIO(body), formats=[form]) as image:
            if image.size != (width_px, height_px):
                shown = f"{image.size[0]} x {image.size[1]}"
                raise DecodeError(f"sent {shown} pixels instead of {width_px} x {height_px}")
            if image.mode not in _MODES:
                raise DecodeError(f"sent pixels of an unusual kind ({image.mode})")
            return _rgb(image)
    except DecodeError:
        raise
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise DecodeError("sent a picture of an absurd size") from error
    except Exception as error:
        # Pillow's readers raise whatever the damage leads them to.
        raise DecodeError(f"sent a damaged {form} file") from error


def _rgb(image: "Image.Image") -> NDArray[np.uint8]:
    """Unpack to red, green, blue on black."""
    from PIL import Image

    if "A" in image.getbands() or "transparency" in image.info:
        layered = image.convert("RGBA")
        ground = Image.new("RGBA", layered.size, (0, 0, 0, 255))
        image = Image.alpha_composite(ground, layered)
    return np.array(image.convert("RGB"), dtype=np.uint8)
