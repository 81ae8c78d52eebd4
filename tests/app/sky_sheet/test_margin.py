"""The values round the sheet, against the positions under their ticks."""

import math

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFontMetricsF

from app.shared.theme import THEMES, scaled_font
from app.sky_sheet.furniture import Furniture
from app.sky_sheet.layers import SheetStyle
from app.sky_sheet.margin import Margin, margin_of, paint_ticks
from core.sky.angles import parse_dec, parse_ra, wrap_180
from tests.app.sky_sheet.canvas import RECT, near, painted, transform_at
from tests.core.skies import AWKWARD_SKIES

pytestmark = [pytest.mark.gui, pytest.mark.usefixtures("fonts")]

DARK = THEMES["dark"]


def what(text: float = 1.0) -> Furniture:
    return Furniture(DARK, scaled_font(text, size_px=11.5), scaled_font(text, size_px=11), "")


def spot(side: str, fraction: float) -> QPointF:
    """The point of the neat line that a mark stands at."""
    x, y = RECT.left() + fraction * RECT.width(), RECT.top() + fraction * RECT.height()
    return {
        "T": QPointF(x, RECT.top()),
        "B": QPointF(x, RECT.bottom()),
        "L": QPointF(RECT.left(), y),
        "R": QPointF(RECT.right(), y),
    }[side]


def value_gap_deg(label: str, ra_deg: float, dec_deg: float) -> float:
    """How far a label's value is from a position, as an angle on the sky."""
    if "h" in label:
        full = label if "m" in label else label + "0m"
        ra = parse_ra(full if "s" in full else full + "0s")
        return abs(wrap_180(ra - ra_deg)) * math.cos(math.radians(dec_deg))
    return abs(parse_dec(label) - dec_deg)


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("up", [0.0, 57.0, 180.0, 271.0])
@pytest.mark.parametrize("sky", AWKWARD_SKIES, ids=str)
def test_the_sky_at_a_mark_has_the_value_written_there(sky, up: float, mirrored: bool) -> None:
    transform = transform_at(sky.ra_deg, sky.dec_deg, up=up, mirrored=mirrored)
    marks = margin_of(transform).marks
    assert {side for side, _, _ in marks} >= {"T", "L"}
    for side, fraction, label in marks:
        ra, dec = transform.to_sky(spot(side, fraction))
        apart = math.radians(value_gap_deg(label, ra, dec)) * transform.px_per_rad
        assert apart < 0.1, (side, label)


@pytest.mark.parametrize("up", [0.0, 30.0, 45.0, 90.0])
def test_a_side_carries_one_coordinate_the_one_that_crosses_it_more(up: float) -> None:
    marks = margin_of(transform_at(40.0, 60.0, 8.0, up=up)).marks
    kinds = {side: {"h" in label for at, _, label in marks if at == side} for side in "TBLR"}
    assert all(len(kind) <= 1 for kind in kinds.values())
    if up == 0.0:
        assert kinds["T"] == {True}
        assert kinds["L"] == {False}
    if up == 90.0:
        assert kinds["T"] == {False}
        assert kinds["L"] == {True}


def test_ticks_stand_outside_the_sheet_at_their_places() -> None:
    margin = margin_of(transform_at(up=20.0))
    assert {side for side, _, _ in margin.marks} == set("TBLR")
    pixels = painted(lambda painter: paint_ticks(painter, RECT, margin, what()))
    line = near(pixels, DARK.sheet_line, 6)
    for side, fraction, _ in margin.marks:
        at = spot(side, fraction)
        dx, dy = {"T": (0, -4), "B": (0, 3), "L": (-4, 0), "R": (3, 0)}[side]
        x, y = round(at.x() + dx), round(at.y() + dy)
        assert line[y - 1 : y + 2, x - 1 : x + 2].any(), (side, fraction)
    left, top, right, bottom = (round(v) for v in RECT.getCoords())
    assert not line[top + 1 : bottom - 1, left + 1 : right - 1].any()


def words_in(text: float, margin: Margin, rect: QRectF) -> np.ndarray:
    pixels = painted(lambda painter: paint_ticks(painter, rect, margin, what(text)))
    return near(pixels, DARK.quiet, 30)


@pytest.mark.parametrize("text", [1.0, 1.5, 2.0])
def test_values_stand_above_and_left_whole_and_clear_of_the_sheet(text: float) -> None:
    size = type("Size", (), {"width": lambda _: 1000, "height": lambda _: 660})()
    rect = SheetStyle(DARK, text).sky_rect(size)
    for side, label in (("L", "−41°16′30″"), ("L", "18h53m35.5s"), ("T", "21h15m"), ("T", "+87°")):
        ends = (0.5,) if side == "L" else (0.0, 0.5, 1.0)
        for fraction in ends:
            ink = words_in(text, Margin(None, ((side, fraction, label),)), rect)
            rows, columns = np.nonzero(ink)
            assert rows.min() > 0
            assert columns.min() > 0
            assert columns.max() < 999
            if side == "L":
                assert columns.max() < rect.left() - 6
                assert (rows.min() + rows.max()) / 2 == pytest.approx(rect.center().y(), abs=3)
            else:
                assert rows.max() < rect.top() - 6
                wide = QFontMetricsF(what(text).small).horizontalAdvance(label)
                assert columns.max() - columns.min() > wide - 8


def test_a_value_above_stands_over_its_tick() -> None:
    ink = words_in(1.0, Margin(None, (("T", 0.3, "12h30m"),)), RECT)
    columns = np.nonzero(ink)[1]
    assert (columns.min() + columns.max()) / 2 == pytest.approx(spot("T", 0.3).x(), abs=2)


@pytest.mark.parametrize("side", ["T", "L"])
def test_values_that_would_touch_are_left_out_but_their_ticks_stay(side: str) -> None:
    fractions = np.linspace(0.1, 0.9, 60 if side == "T" else 80)
    margin = Margin(None, tuple((side, float(f), "12h30m") for f in fractions))
    pixels = painted(lambda painter: paint_ticks(painter, RECT, margin, what()))
    ink = near(pixels, DARK.quiet, 30).any(axis=0 if side == "T" else 1)
    places = np.flatnonzero(ink)
    gaps = np.diff(places)
    wide = QFontMetricsF(what().small).horizontalAdvance("12h30m")
    blocks = np.split(places, np.flatnonzero(gaps > 5) + 1)
    assert len(blocks) > 5
    for block in blocks:
        assert block[-1] - block[0] <= (wide if side == "T" else 12)
    line = near(pixels, DARK.sheet_line, 6)
    row = line[round(RECT.top()) - 3] if side == "T" else line[:, round(RECT.left()) - 3]
    assert row.sum() == len(fractions)
