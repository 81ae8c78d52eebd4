"""Gives files that must not be lost a name of their own beside the old one."""

import os
from pathlib import Path

from core.errors import StorageError

__all__ = ["free_beside", "set_aside"]


def free_beside(path: Path | str, word: str) -> Path:
    """Find a name that nothing has: ``plan.damaged-1.json``, the first free number.

    Parameters
    ----------
    path : Path or str
        The file beside which it is to lie.
    word : str
        Tells what it is ("damaged").
    """
    path = Path(path)
    number = 1
    while os.path.lexists(free := path.with_name(f"{path.stem}.{word}-{number}{path.suffix}")):
        number += 1
    return free


def set_aside(path: Path | str) -> Path:
    """Rename a damaged file so that nothing writes over it.

    Parameters
    ----------
    path : Path or str

    Returns
    -------
    Path
        Its new place beside the old: ``plan.damaged-1.json``, the first free number.

    Raises
    ------
    StorageError
        When it cannot be renamed.
    """
    aside = free_beside(path, "damaged")
    try:
        os.rename(path, aside)
    except OSError as error:
        raise StorageError(f"cannot rename {path}: {error.strerror}") from error
    return aside
