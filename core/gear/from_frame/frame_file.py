"""Opens a frame's file so that no more than a header's worth of it is ever read.

Whatever the file holds, at most `LARGEST_READ` bytes pass, unpacked ones counted too; only
regular files are opened. What the file is, its first bytes tell, not the ending of its name.
"""

import contextlib
import gzip
import io
import stat
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from core.errors import CoreError, StorageError
from core.record.validation import one_line

__all__ = ["LARGEST_READ", "FrameError", "FrameFile", "open_frame"]

#: Of one frame at most this much is read: headers are some kilobytes.
LARGEST_READ = 16 * 1024 * 1024
_GZIP = b"\x1f\x8b"


class FrameError(CoreError):
    """A file that is no frame that can be read; the text is one sentence."""


class FrameFile(io.RawIOBase):
    """A file open for reading that refuses to be read in bulk.

    Parameters
    ----------
    stream : binary file
    name : str
        What to call it in a refusal.
    size_bytes : int or None
        Size of the content; None when it is packed and not known.
    """

    def __init__(self, stream: BinaryIO | gzip.GzipFile, name: str, size_bytes: int | None) -> None:
        super().__init__()
        self.frame_name = name
        self.size_bytes = size_bytes
        self._stream = stream
        self._left = LARGEST_READ

    def readable(self) -> bool:
        """Tell that it can be read."""
        return True

    def seekable(self) -> bool:
        """Tell that any place in it can be gone to."""
        return True

    def read(self, size: int | None = -1, /) -> bytes:
        """Read some bytes, fewer at the end of the file."""
        wanted = self._left + 1 if size is None or size < 0 else min(size, self._left + 1)
        with self._damage_told():
            data = self._stream.read(wanted)
        self._spend(len(data))
        return data

    def seek(self, offset: int, whence: int = 0, /) -> int:
        """Go to a place; in a packed file all on the way there is unpacked."""
        if self.size_bytes is None:
            if whence != io.SEEK_SET:
                raise io.UnsupportedOperation("only places counted from the beginning")
            if offset < self._stream.tell():
                raise io.UnsupportedOperation("only forward")
            self._spend(offset - self._stream.tell())
        with self._damage_told():
            return self._stream.seek(offset, whence)

    def tell(self) -> int:
        """Give the place."""
        return self._stream.tell()

    def _spend(self, count: int) -> None:
        """Count what was read; refuse to go on where that is too much."""
        self._left -= count
        if self._left < 0:
            limit = f"{LARGEST_READ // 1024**2} MB"
            raise FrameError(f"{self.frame_name} has no header within its first {limit}")

    @contextlib.contextmanager
    def _damage_told(self) -> Iterator[None]:
        """Turn what reading may raise into a sentence."""
        try:
            yield
        except EOFError:
            raise FrameError(f"{self.frame_name} is cut off in what is packed in it") from None
        except (gzip.BadGzipFile, zlib.error):
            raise FrameError(f"{self.frame_name} is packed by gzip, and damaged") from None


@contextlib.contextmanager
def open_frame(path: Path | str) -> Iterator[FrameFile]:
    """Open the file of a frame; one packed by gzip gives what is in it.

    Parameters
    ----------
    path : Path or str

    Yields
    ------
    FrameFile

    Raises
    ------
    FrameError
        When there is none, or it is a folder, a device or empty.
    StorageError
        When the disk or its rights refuse.
    """
    shown = one_line(str(path), longest=1000)
    try:
        place = Path(path)
        name = one_line(place.name) or shown
        size_bytes = _size_of(place, name)
        with place.open("rb") as stream:
            start = stream.read(len(_GZIP))
            stream.seek(0)
            if start == _GZIP:
                with gzip.GzipFile(fileobj=stream) as unpacked:
                    yield FrameFile(unpacked, name, None)
            else:
                yield FrameFile(stream, name, size_bytes)
    except FileNotFoundError:
        raise FrameError(f"there is no file {shown}") from None
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise StorageError(f"cannot read {shown}: {reason}") from error
    except ValueError as error:
        if isinstance(error, CoreError):
            raise
        raise FrameError(f"{shown} is no name of a file") from None


def _size_of(path: Path, name: str) -> int:
    """Give the size of a regular file with something in it; refuse all else."""
    status = path.stat()
    if not stat.S_ISREG(status.st_mode):
        what = "a folder" if stat.S_ISDIR(status.st_mode) else "a device"
        raise FrameError(f"{name} is {what}, not a file")
    if status.st_size == 0:
        raise FrameError(f"{name} is empty")
    return status.st_size
