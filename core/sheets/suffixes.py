"""What a sheet can be written as, told by the end of a file's name.

Light to import, so that a name can be refused before anything is loaded or drawn.
"""

from pathlib import Path

from core.errors import BadValueError

__all__ = ["SUFFIXES", "check_suffix"]

#: Pages, one page to read, a table.
SUFFIXES = (".pdf", ".html", ".csv")


def check_suffix(path: Path) -> str:
    """Tell by a file's name what it is to become.

    Parameters
    ----------
    path : Path

    Returns
    -------
    str
        ".pdf", ".html" or ".csv".

    Raises
    ------
    BadValueError
        When its name ends in none of them.
    """
    suffix = {".htm": ".html"}.get(path.suffix.lower(), path.suffix.lower())
    if suffix not in SUFFIXES:
        rule = "must be a file whose name ends in .pdf, .html or .csv"
        raise BadValueError("rig sheet", path.name, rule)
    return suffix
