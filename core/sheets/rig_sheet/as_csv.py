"""The parts and totals of a rig sheet as a table for spreadsheets.

Comma separated values of RFC 4180: one line a piece, lines end in CR LF, UTF-8 with a byte
order mark, by which spreadsheets know the encoding. Numbers are plain, with a point; what
is not known is empty, and the note says so. A text that a spreadsheet would take for a
formula gets an apostrophe in front (OWASP, "CSV Injection", from memory).
"""

import csv
import io
from collections.abc import Iterable
from decimal import Decimal

from core.gear.money.prices import Total, exact
from core.sheets.rig_sheet.content import PartLine, RigPage, RigSheet

__all__ = ["COLUMNS", "csv_of", "harmless"]

#: What the first line says. `row` is "part", "rig total" or "set total".
COLUMNS = ("rig", "row", "slot", "part", "mass_kg", "price", "currency", "note")
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def csv_of(sheet: RigSheet) -> bytes:
    """Write the table.

    Parameters
    ----------
    sheet : RigSheet

    Returns
    -------
    bytes
    """
    made = io.StringIO(newline="")
    rows = csv.writer(made, dialect="excel", lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for page in sheet.pages:
        rows.writerows(_rig_rows(page, sheet.currency))
    together = sheet.set_page
    if together is not None and together.total is not None:
        rows.writerow(_total("", "set total", together.total))
    elif together is not None:
        rows.writerow(("", "set total", "", "", "", "", sheet.currency, together.total_note))
    return made.getvalue().encode("utf-8-sig")


def harmless(text: str) -> str:
    """Give a text that no spreadsheet takes for a formula.

    Examples
    --------
    >>> harmless("=1+1"), harmless("lens 85 f/2.8")
    ("'=1+1", 'lens 85 f/2.8')
    """
    return f"'{text}" if text.lstrip().startswith(_FORMULA) or text.startswith(_FORMULA) else text


def _rig_rows(page: RigPage, currency: str) -> Iterable[tuple[str, ...]]:
    """The pieces of a rig, then their sum."""
    name = harmless(page.name)
    for part in page.parts:
        yield (
            *(name, "part", harmless(part.slot), harmless(part.name)),
            *("" if part.mass_kg is None else f"{exact(part.mass_kg):f}", _price(part)),
            *(currency, "" if part.price is not None else "price not known"),
        )
    yield _total(name, "rig total", page.total)


def _price(part: PartLine) -> str:
    """Write a price as its digits say."""
    return "" if part.price is None else _plain(exact(part.price))


def _total(rig: str, row: str, total: Total) -> tuple[str, ...]:
    """Write a sum; empty where a price is missing, with what is known in the note."""
    amount = "" if total.amount is None else _plain(total.amount)
    note = "" if total.amount is not None else total.words
    return rig, row, "", "", "", amount, total.currency, note


def _plain(amount: Decimal) -> str:
    """Write digits without an exponent."""
    return f"{amount:f}"
