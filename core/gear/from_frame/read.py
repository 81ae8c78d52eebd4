"""Reads the figures of a rig from a test frame: a FITS header, or the tags of a camera.

What a file is, its first bytes tell; the ending of its name does not count.
"""

from pathlib import Path

from core.gear.from_frame.exif_figures import evidence_of_exif
from core.gear.from_frame.exif_tags import STARTS, read_exif
from core.gear.from_frame.figures import FrameFigures
from core.gear.from_frame.fits_cards import read_fits
from core.gear.from_frame.fits_figures import evidence_of_fits
from core.gear.from_frame.frame_file import FrameError, open_frame

__all__ = ["figures_of"]

_FITS = b"SIMPLE  ="


def figures_of(path: Path | str) -> FrameFigures:
    """Read a frame.

    Parameters
    ----------
    path : Path or str
        A FITS file, packed by gzip or not, a JPEG, or a TIFF.

    Raises
    ------
    FrameError
        When there is no such file, it is no frame, or damaged; one sentence.
    StorageError
        When the disk or its rights refuse.
    """
    with open_frame(path) as file:
        start = file.read(len(_FITS))
        form = next((form for known, form in STARTS.items() if start.startswith(known)), None)
        if start != _FITS and (form is None or file.size_bytes is None):
            raise FrameError(_refusal(file.frame_name, start))
    with open_frame(path) as file:
        if start == _FITS:
            return FrameFigures(evidence_of_fits(read_fits(file), file.frame_name))
        return FrameFigures(evidence_of_exif(read_exif(file, str(form)), file.frame_name))


def _refusal(name: str, start: bytes) -> str:
    """Say what a file is not."""
    if _FITS.startswith(start) or any(known.startswith(start) for known in STARTS):
        return f"{name} is cut off after {len(start)} bytes"
    return f"{name} is no picture that can be read here: FITS, JPEG or TIFF"
