"""The table read back by Python's csv module (RFC 4180, the "excel" dialect)."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.money.prices import rig_total
from core.sheets.rig_sheet.as_csv import COLUMNS, csv_of, harmless
from tests.core.gear.small_shelf import other
from tests.core.sheets.sheets import AWKWARD, plan_of, sheet_of, small_rig, whole_plan

#: What a spreadsheet takes for the beginning of a formula (OWASP, "CSV Injection").
FORMULAS = ("=", "+", "-", "@")

names = st.text(st.characters(codec="utf-8", min_codepoint=33), min_size=1, max_size=40).filter(
    lambda text: text.isprintable() and text.strip() == text
)
prices = st.none() | st.decimals(0, 100_000, places=2).map(float)


def table_of(sheet) -> list[dict[str, str]]:
    text = csv_of(sheet).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


@settings(max_examples=40)
@given(st.lists(st.tuples(names, prices), max_size=8))
def test_every_part_comes_once_and_the_parts_add_up_to_the_total(extra) -> None:
    rig = small_rig("first", others=[other(name, price) for name, price in extra])
    rows = table_of(sheet_of(plan_of(rig, small_rig("second"))))
    mine = [row for row in rows if row["rig"] == "first" and row["row"] == "part"]
    assert sorted(row["part"] for row in mine) == sorted(harmless(p.name) for p in rig.parts)
    summed = sum((Decimal(row["price"]) for row in mine if row["price"]), Decimal(0))
    total = rig_total(rig, "EUR")
    assert summed == total.known
    (last,) = (row for row in rows if row["rig"] == "first" and row["row"] == "rig total")
    assert last["price"] == ("" if total.amount is None else f"{total.amount:f}")
    assert [row["note"] for row in mine if not row["price"]] == ["price not known"] * len(
        total.unpriced
    )


def test_the_demo_adds_up_to_its_set_and_its_numbers_are_plain() -> None:
    rows = table_of(whole_plan())
    assert tuple(rows[0]) == COLUMNS
    parts = [row for row in rows if row["row"] == "part"]
    assert all(float(row["price"]) >= 0 and float(row["mass_kg"]) >= 0 for row in parts)
    assert {row["currency"] for row in rows} == {"EUR"}
    assert rows[-1]["row"] == "set total"
    shared = {(row["slot"], row["part"]): Decimal(row["price"]) for row in parts}
    # No rig of the demo holds a part twice, so the set is every part once.
    assert Decimal(rows[-1]["price"]) == sum(shared.values())


@pytest.mark.parametrize("name", [*AWKWARD, "-5 dB", "+1", "@home", "＝1", "= 1"])
def test_no_cell_is_a_formula_and_every_name_comes_back(name: str) -> None:
    rows = table_of(sheet_of(plan_of(small_rig(name, others=[other(name, 5.0)]))))
    for row in rows:
        for cell in row.values():
            assert not cell.startswith((*FORMULAS, "\t", "＝"))
    wanted = name.strip()
    assert rows[0]["rig"].removeprefix("'") == wanted
    assert wanted in [row["part"].removeprefix("'") for row in rows]


def test_lines_end_as_the_standard_says_and_the_encoding_is_marked() -> None:
    data = csv_of(sheet_of(plan_of(small_rig('a "b", c'))))
    assert data.startswith(b"\xef\xbb\xbf" + ",".join(COLUMNS).encode() + b"\r\n")
    assert data.count(b"\r\n") == data.count(b"\n") == data.count(b"\r")
    assert b'"a ""b"", c"' in data


def test_a_missing_price_leaves_the_sum_empty_and_says_what_is_known() -> None:
    rows = table_of(sheet_of(plan_of(small_rig(others=[other("riddle", None)]))))
    (total,) = (row for row in rows if row["row"] == "rig total")
    assert total["price"] == ""
    assert total["note"].replace("\xa0", " ") == "at least 2 140 €, 1 price not known"
