"""Puts a file in the place of another, whole or not at all.

The new content goes to a file of its own in the same folder, which takes the old one's name
only when all of it is on the disk: whoever reads finds the old content or the new one, also
when the program is killed or the power fails on the way. What a killed program left lying is
cleared away by the next save: at once where its process is known to be gone, else after an
hour.
"""

import contextlib
import os
import stat
import time
import zlib
from pathlib import Path

__all__ = ["other_than_file", "replace_file"]

#: Leftovers of a save that was killed are cleared away when they are this old.
_STALE_S = 3600.0
#: How the name of a file that is still being written begins and ends.
_PART = (".skysill-", ".part")


def replace_file(path: Path, data: bytes) -> None:
    """Write beside the file, bring it to the disk, then take the file's name.

    Parameters
    ----------
    path : Path
        Its rights are kept where it is there already.
    data : bytes

    Raises
    ------
    OSError
        When the disk is full or refuses; what was there is then untouched.
    ValueError
        When a folder or a device stands there.
    """
    mode = path.stat().st_mode if path.exists() else None
    if mode is not None and (other := other_than_file(mode)):
        raise ValueError(f"it is {other}, not a file")
    part = path.with_name(f"{_mark()}-{os.urandom(8).hex()}{_PART[1]}")
    try:
        with open(part, "xb") as file:
            if mode is not None:
                with contextlib.suppress(OSError):
                    os.chmod(part, stat.S_IMODE(mode))
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    _sync_folder(path.parent)
    _clear_leftovers(path.parent)


def other_than_file(mode: int) -> str:
    """Say what stands there when it is not a file; empty when it is one."""
    if stat.S_ISREG(mode):
        return ""
    return "a folder" if stat.S_ISDIR(mode) else "a device"


def _host() -> str:
    """Tell this computer from another that shares the folder."""
    name = os.uname().nodename if os.name == "posix" else ""
    return f"{_PART[0]}{zlib.crc32(name.encode()):08x}-"


def _mark() -> str:
    """Begin the name of a file that this process writes."""
    return f"{_host()}{os.getpid()}"


def _sync_folder(folder: Path) -> None:
    """Bring the new name to the disk too, where the system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _clear_leftovers(folder: Path) -> None:
    """Remove what saves that were killed left in the folder."""
    with contextlib.suppress(OSError):
        for part in folder.glob("*".join(_PART)):
            with contextlib.suppress(OSError):
                if _is_orphan(part.name) or time.time() - part.stat().st_mtime > _STALE_S:
                    part.unlink()


def _is_orphan(name: str) -> bool:
    """Tell whether the process of this computer that wrote a file is gone."""
    process = name.removeprefix(_host()).partition("-")[0]
    if not process.isdecimal() or os.name != "posix":  # another computer's, too
        return False
    try:
        os.kill(int(process), 0)  # sends nothing, asks whether there is such a process
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        return False
    return False
