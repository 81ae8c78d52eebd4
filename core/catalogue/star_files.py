"""Open the star files, memory-mapped, and refuse what is missing, cut short or damaged.

Opening reads headers and the index (half a megabyte), not the stars. A star file whose
size, type, shape or index does not fit is refused by name; the values of single stars
are not summed up here, which would take longer than the opening itself.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from core.catalogue import star_format as fmt
from core.errors import CatalogueError

__all__ = ["StarFiles", "open_star_files"]


@dataclass(frozen=True, eq=False)
class StarFiles:
    """The arrays of the star files; `core.catalogue.star_format` tells what they hold."""

    places: NDArray[np.uint32]
    magnitudes: NDArray[np.uint8]
    cells: NDArray[np.int64]
    moving: NDArray[np.int64]
    motions: NDArray[np.int16]


def open_star_files(folder: Path) -> StarFiles:
    """Open and check the five files.

    Raises
    ------
    CatalogueError
        One sentence that names the file and what is wrong with it.
    """
    places = _mapped(folder / fmt.PLACES_FILE, "<u4", (None,))
    magnitudes = _mapped(folder / fmt.MAGNITUDES_FILE, "|u1", (places.size,))
    cells = _mapped(folder / fmt.CELLS_FILE, "<u4", (len(fmt.TIERS) * fmt.CELLS + 1,))
    moving = _mapped(folder / fmt.MOVING_FILE, "<u4", (None,))
    motions = _mapped(folder / fmt.MOTIONS_FILE, "<i2", (moving.size, 2))
    if cells[0] != 0 or cells[-1] != places.size or np.any(cells[1:] < cells[:-1]):
        raise _damaged(folder / fmt.CELLS_FILE, "its index does not fit the stars")
    if moving.size and (moving[-1] >= places.size or np.any(moving[1:] <= moving[:-1])):
        raise _damaged(folder / fmt.MOVING_FILE, "its star numbers are out of order")
    return StarFiles(places, magnitudes, cells.astype(np.int64), moving.astype(np.int64), motions)


def _mapped(path: Path, dtype: str, shape: tuple[int | None, ...]) -> NDArray[Any]:
    """Map one .npy file after holding its header against what is expected."""
    try:
        array = np.lib.format.open_memmap(path, mode="r")
        bytes_on_disk = path.stat().st_size
    except FileNotFoundError as error:
        raise CatalogueError(f"the star catalogue lacks its file {path}") from error
    except OSError as error:
        raise CatalogueError(f"the star file {path} cannot be read: {error.strerror}") from error
    except ValueError as error:
        raise _damaged(path, "it is cut short or not a .npy file") from error
    if array.dtype != np.dtype(dtype):
        raise _damaged(path, f"it does not hold numbers of type {dtype}")
    wanted = tuple(size if size is not None else array.size for size in shape)
    if array.shape != wanted:
        raise _damaged(path, f"it holds {array.shape} values where {wanted} are due")
    if bytes_on_disk != array.offset + array.nbytes:
        raise _damaged(path, "its size does not fit its header")
    return np.asarray(array)


def _damaged(path: Path, reason: str) -> CatalogueError:
    """Say in one sentence which file is damaged and how."""
    return CatalogueError(f"the star catalogue is damaged: {path}: {reason}; install it again")
