"""Files that others wrote: the ones that astropy brings along for its own tests.

Every first picture has the size that astropy finds; where astropy finds none, none is read.
"""

import warnings
from pathlib import Path

import astropy
import pytest
from astropy.io import fits

from core.gear.from_frame.frame_file import FrameError
from core.gear.from_frame.read import figures_of
from tests.core.gear.from_frame.frames import value

HOME = Path(astropy.__file__).parent
#: Two that astropy itself does not open: a packing that needs another library, no SIMPLE.
SHUT = {"lzw.fits.Z", "idcompspec.fits"}
FILES = sorted(path for path in HOME.rglob("*.fits*") if path.name not in SHUT)


def size_by_astropy(path: Path) -> tuple[int, int] | None:
    """Give columns and rows of the first picture that is not empty."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # astropy's own, of files made to break the standard
        with fits.open(path) as units:
            for unit in units:
                if unit.is_image and len(unit.shape) >= 2 and all(unit.shape):
                    return unit.shape[-1], unit.shape[-2]
    return None


def size_by_us(path: Path) -> tuple[int, int] | None:
    try:
        figures = figures_of(path)
    except FrameError:
        return None
    binned = [int(part) for part in (value(figures, "binning") or "1 × 1").split(" × ")]
    return value(figures, "columns") // binned[0], value(figures, "rows") // binned[1]


def test_the_first_picture_is_the_one_that_astropy_finds() -> None:
    sizes = {path: size_by_astropy(path) for path in FILES}
    if sum(size is not None for size in sizes.values()) < 15:
        pytest.skip("this astropy came without its test files")
    for path, size in sizes.items():
        assert size_by_us(path) == size, path.name
