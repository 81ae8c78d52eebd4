"""Writes a rig sheet to a file; the end of its name says as what.

A file that is there is replaced whole, or stays as it was.
"""

from collections.abc import Callable
from pathlib import Path

from core.record.record_file import write_bytes
from core.sheets.paper import A4, Paper
from core.sheets.rig_sheet.as_csv import csv_of
from core.sheets.rig_sheet.as_html import html_of
from core.sheets.rig_sheet.content import RigSheet
from core.sheets.suffixes import check_suffix

__all__ = ["sheet_bytes", "write_rig_sheet"]


def sheet_bytes(
    sheet: RigSheet, suffix: str, *, paper: Paper = A4, go_on: Callable[[], None] = lambda: None
) -> bytes:
    """Give a sheet as it stands in a file.

    Parameters
    ----------
    sheet : RigSheet
    suffix : str
        One of `core.sheets.suffixes.SUFFIXES`.
    paper : Paper
        For PDF only.
    go_on : callable
        Called now and then; raises to give the work up.
    """
    if suffix == ".pdf":
        from core.sheets.rig_sheet.as_pdf import pdf_of

        return pdf_of(sheet, paper=paper, go_on=go_on)
    return html_of(sheet) if suffix == ".html" else csv_of(sheet)


def write_rig_sheet(
    sheet: RigSheet, path: Path, *, paper: Paper = A4, go_on: Callable[[], None] = lambda: None
) -> None:
    """Write a sheet.

    Parameters
    ----------
    sheet : RigSheet
    path : Path
        Its folder must exist.
    paper : Paper
    go_on : callable
        As for `sheet_bytes`; after the last call the file is written.

    Raises
    ------
    BadValueError
        When the name does not say as what.
    StorageError
        When the disk is full or refuses; what was there is then untouched.
    """
    data = sheet_bytes(sheet, check_suffix(path), paper=paper, go_on=go_on)
    go_on()
    write_bytes(path, data)
