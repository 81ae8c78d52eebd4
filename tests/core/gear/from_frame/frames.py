"""Frames for the tests: headers written by astropy, tags written by Pillow."""

from pathlib import Path
from typing import Any

import numpy as np
from astropy.io import fits
from PIL import Image

from core.gear.from_frame.figures import FrameFigures
from core.gear.from_frame.read import figures_of

#: 80/400 with 3.76 µm: 1.938889″/px, the worked example of the image scale.
WHOLE: dict[str, Any] = {
    "FOCALLEN": 400.0,
    "APTDIA": 80.0,
    "XPIXSZ": 3.76,
    "YPIXSZ": 3.76,
    "TELESCOP": "tube",
    "INSTRUME": "eye",
}
SHAPE = (30, 40)


def header(**cards: Any) -> fits.Header:
    """Make a header; two underscores stand for the hyphen of a keyword."""
    made = fits.Header()
    for keyword, value in cards.items():
        made[keyword.replace("__", "-")] = value
    return made


def frame(path: Path, **cards: Any) -> Path:
    """Write a frame of 40 by 30 pixels."""
    fits.PrimaryHDU(np.zeros(SHAPE, np.int16), header(**cards)).writeto(path, overwrite=True)
    return path


def read(path: Path, **cards: Any) -> FrameFigures:
    """Write a frame and read it."""
    return figures_of(frame(path / "light.fits", **cards))


def raw_frame(path: Path, *cards: str) -> Path:
    """Write a frame of cards as they are given, which astropy would not write."""
    head = ["SIMPLE  =                    T", "BITPIX  =                    8",
            "NAXIS   =                    2", "NAXIS1  =                   40",
            "NAXIS2  =                   30", *cards, "END"]  # fmt: skip
    text = "".join(card.ljust(80) for card in head)
    data = text.encode("latin-1").ljust(-(-len(text) // 2880) * 2880)
    path.write_bytes(data + bytes(2880))
    return path


def value(figures: FrameFigures, field: str) -> Any:
    """Give the value of a figure, None when it is not told."""
    figure = figures.figure(field)
    return None if figure is None else figure.value


def camera_picture(
    path: Path, tags: dict[int, Any], *, size: tuple[int, int] = (60, 40), **own: Any
) -> Path:
    """Write a JPEG or TIFF with Exif tags, given by their numbers."""
    exif = Image.Exif()
    inner = exif.get_ifd(0x8769)
    if path.suffix == ".tif":
        exif[0x8769] = 0  # this writer asks the main directory for it
    inner.update(tags)
    for number, text in own.items():
        exif[int(number, 16)] = text
    Image.new("RGB", size).save(path, exif=exif)
    return path
