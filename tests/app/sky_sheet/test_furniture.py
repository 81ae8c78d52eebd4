"""Compass, scale bar, credit and neat line, looked for in the pixels."""

import math

import numpy as np
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetricsF, QImage, QPainter

from app.shared.theme import THEMES, scaled_font
from app.sky_sheet import furniture
from app.sky_sheet.furniture import Furniture, paint_furniture, plates, scale_bar
from app.sky_sheet.transform import SheetTransform
from core.plan.document import SheetView
from core.sky.sphere import separation_rad
from tests.app.sky_sheet.canvas import RECT, along, near, painted, transform_at

pytestmark = [pytest.mark.gui, pytest.mark.usefixtures("fonts")]

DARK = THEMES["dark"]
CREDIT = "Drawn from catalogues: stars Tycho-2, Hipparcos-2; objects OpenNGC (CC-BY-SA-4.0)"


def what(credit: str = "", text: float = 1.0) -> Furniture:
    return Furniture(DARK, scaled_font(text, size_px=11.5), scaled_font(text, size_px=11), credit)


def ink_of(transform: SheetTransform, plate: QRectF, text: float = 1.0) -> np.ndarray:
    """Where ink lies on a plate, (rows, columns)."""
    pixels = painted(lambda painter: paint_furniture(painter, transform, what(text=text)))
    rows = slice(round(plate.top()), round(plate.bottom()))
    return (pixels[rows, round(plate.left()) : round(plate.right())] > 60).all(axis=-1)


# Compass ------------------------------------------------------------------------


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("up", [0.0, 90.0, 180.0, 270.0, 33.0])
@pytest.mark.parametrize("dec", [0.0, 60.0, 90.0, -80.0])
def test_compass_arms_point_where_north_and_east_are(up: float, mirrored: bool, dec: float) -> None:
    """Against the screen places of two points a little north and east of the middle."""
    transform = transform_at(10.0, dec, up=up, mirrored=mirrored)
    words: list[tuple[str, float, float]] = []

    class Spy(QPainter):
        def drawText(self, box, flags, text) -> None:
            words.append((text, box.center().x(), box.center().y()))

    image = QImage(1000, 660, QImage.Format.Format_RGB32)
    spy = Spy(image)
    paint_furniture(spy, transform, what())
    spy.end()
    letters = {text: np.array([x, y]) for text, x, y in words if text in ("N", "E")}
    plane = transform.frame.plane
    east, north = (transform.plane_points(*map(np.array, way))
                   for way in ((1e-3, 0.0), (0.0, 1e-3)))  # fmt: skip
    middle = transform.plane_points(np.array(0.0), np.array(0.0))
    assert plane.dec_deg == dec
    apart = letters["N"] - letters["E"]
    arms = (north - middle) / math.dist(north, middle) * 35 - (east - middle) / math.dist(
        east, middle
    ) * 29
    assert apart == pytest.approx(arms, abs=0.5)


def test_north_up_the_arrow_head_is_above_and_the_plain_arm_on_the_left() -> None:
    plate, _ = plates(transform_at(), what().small)
    ink = ink_of(transform_at(), plate)
    _, xs = np.nonzero(ink)
    lines = [max(along(row), key=lambda run: run[1]) for row in ink if row.any()]
    start, length = max(lines, key=lambda run: run[1])
    upright = max((max(along(column), key=lambda run: run[1])[1], x)
                  for x, column in enumerate(ink.T) if column.any())  # fmt: skip
    assert length >= 18
    assert abs(start + length - 1 - upright[1]) <= 1, "the plain arm ends at the foot, on its right"
    assert xs.min() < start, "the letter E stands left of its arm"


def test_mirrored_the_plain_arm_lies_on_the_right() -> None:
    transform = transform_at(mirrored=True)
    ink = ink_of(transform, plates(transform, what().small)[0])
    start, _ = max((run for row in ink for run in along(row)), key=lambda run: run[1])
    upright = max((max(along(column), key=lambda run: run[1])[1], x)
                  for x, column in enumerate(ink.T) if column.any())  # fmt: skip
    assert abs(start - upright[1]) <= 1


@pytest.mark.parametrize("text", [0.8, 1.0, 1.5, 2.0])
def test_plates_hold_their_words_at_any_text_size(text: float) -> None:
    compass, bar = plates(transform_at(), what(text=text).small)
    for plate in (compass, bar):
        assert RECT.contains(plate)
        ink = ink_of(transform_at(), plate, text)
        assert ink.any()
        assert not ink[0].any()
        assert not ink[-1].any()
        assert not ink[:, 0].any()
        assert not ink[:, -1].any()
    assert not compass.intersects(bar)
    words, line = along(ink_of(transform_at(), bar, text).any(axis=1))
    assert words[1] > 5, "the words, clear of the bar under them"
    assert line[1] <= 10


# Scale bar ----------------------------------------------------------------------


@pytest.mark.parametrize("width", [0.02, 0.1, 1.0, 6.0, 40.0, 90.0, 130.0])
@pytest.mark.parametrize("dec", [0.0, 75.0, 90.0])
def test_the_bar_spans_its_angle_across_the_middle(width: float, dec: float) -> None:
    """Against the angle on the sphere between the sky under two screen points."""
    transform = transform_at(20.0, dec, width, up=25.0)
    words, length = scale_bar(transform, 190.0)
    middle = RECT.center()
    ends = [transform.to_sky(middle + type(middle)(side * length / 2.0, 0.0)) for side in (-1, 1)]
    angles = [math.radians(angle) for end in ends for angle in end]
    unit = {"°": 1.0, "′": 60.0, "″": 3600.0}[words[-1]]
    seen_deg = math.degrees(float(separation_rad(*angles)))
    px_per_deg = length / seen_deg
    assert abs(float(words[:-1]) / unit - seen_deg) * px_per_deg < 0.5


@pytest.mark.parametrize("width", [0.02, 0.3, 2.0, 30.0])
def test_the_bar_is_painted_as_long_as_it_is(width: float) -> None:
    """Between the middles of its two end marks, a tenth of a pixel fine."""
    transform = transform_at(width=width)
    _, length = scale_bar(transform, 190.0)
    _, plate = plates(transform, what().small)
    pixels = painted(lambda painter: paint_furniture(painter, transform, what()))
    row = pixels[round(plate.bottom()) - 13, round(plate.left()) : round(plate.right()), 1]
    light = np.where(row > row.min() + 20, row - row.min(), 0)
    columns = np.arange(len(light))
    ends = [np.average(columns[half], weights=light[half])
            for half in (slice(0, len(light) // 2), slice(len(light) // 2, None))]  # fmt: skip
    assert ends[1] - ends[0] == pytest.approx(length, abs=0.2)


def test_the_bar_is_the_longest_round_one_that_fits() -> None:
    for room in (60.0, 120.0, 190.0):
        for width in np.geomspace(0.02, 120.0, 25):
            words, length = scale_bar(transform_at(width=float(width)), room)
            assert room / 3.1 < length <= room, words


@pytest.mark.parametrize(
    ("arcsec", "words"),
    [(1, "1″"), (30, "30″"), (60, "1′"), (1800, "30′"), (3600, "1°"), (18000, "5°"),
     (36000, "10°"), (162000, "45°")],
)  # fmt: skip
def test_a_round_angle_is_written_in_the_unit_that_leaves_it_whole(arcsec: int, words: str) -> None:
    assert furniture._angle_words(arcsec) == words


def test_every_bar_is_a_whole_number_of_one_unit() -> None:
    for arcsec in furniture._BARS:
        unit = 3600 if arcsec >= 3600 else 60 if arcsec >= 60 else 1
        assert arcsec % unit == 0


# Credit and neat line -----------------------------------------------------------


@pytest.mark.parametrize("text", [1.0, 1.5, 2.0])
def test_the_credit_is_written_whole_under_the_sheet(text: float) -> None:
    def ink(credit: str) -> np.ndarray:
        pixels = painted(
            lambda painter: paint_furniture(painter, transform_at(), what(credit, text))
        )
        return np.nonzero((pixels[round(RECT.bottom()) + 3 :] > 60).all(axis=-1))

    assert len(ink("")[0]) == 0
    _, columns = ink(CREDIT)
    assert columns.max() == pytest.approx(RECT.right(), abs=3)
    font = furniture.shrunk(what(text=text).small, [CREDIT], RECT.right() - 6.0)
    needed = QFontMetricsF(font).horizontalAdvance(CREDIT)
    assert columns.max() - columns.min() == pytest.approx(needed, abs=6)
    assert needed <= RECT.right() - 6.0


@pytest.mark.parametrize("width", [300.0, 500.0, 900.0])
def test_a_credit_longer_than_its_line_is_written_smaller_not_cut(
    width: float,
) -> None:
    written: list[tuple[str, float]] = []
    rect = QRectF(60.0, 30.0, width, 400.0)
    transform = SheetTransform(SheetView(), rect, 0.0)

    class Spy(QPainter):
        def drawText(self, box, flags, text) -> None:
            written.append((text, QFontMetricsF(self.font()).horizontalAdvance(text)))

    image = QImage(1000, 660, QImage.Format.Format_RGB32)
    spy = Spy(image)
    paint_furniture(spy, transform, what(CREDIT))
    spy.end()
    text, wide = written[-1]
    assert text == CREDIT
    assert wide <= rect.right() - 6.0 + 0.5


def test_a_neat_line_runs_just_outside_the_sky() -> None:
    pixels = painted(lambda painter: paint_furniture(painter, transform_at(), what()))
    line = near(pixels, DARK.sheet_line, 6)
    left, top = round(RECT.left()) - 1, round(RECT.top()) - 1
    right, bottom = round(RECT.right()), round(RECT.bottom())
    assert line[top, left : right + 1].all()
    assert line[bottom, left : right + 1].all()
    assert line[top : bottom + 1, left].all()
    assert line[top : bottom + 1, right].all()
    assert not line[top + 1, left + 1 : right].any()
    assert not line[top + 1 : bottom, right - 1].any()


def test_the_widest_and_narrowest_view_of_a_plan_have_a_bar() -> None:
    """The widest and the narrowest plan a file may hold are shown within the limits."""
    for width in (180.0, 1e-9):
        transform = SheetTransform(SheetView(width_deg=width), RECT, 0.0)
        words, length = scale_bar(transform, 190.0)
        assert words in ("45°", "10″")
        assert length <= 190.0
