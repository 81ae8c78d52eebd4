"""The picture under everything: its stars lie where the catalogue's stars are."""

import math
from functools import cache

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from app.shared.theme import THEMES, scaled_font
from app.sky_sheet.ground import GroundContent, flattened, paint_ground, picture_pixmap
from app.sky_sheet.labels import LabelPen
from app.sky_sheet.margin import margin_of
from app.sky_sheet.marks_paint import MarksStyle
from app.sky_sheet.transform import SheetTransform
from core.catalogue.targets import TargetTable
from core.pictures.chart import draw_chart
from core.pictures.picture import Picture, PictureFrame
from tests.app.sky_sheet.canvas import RECT, SIZE, painted, transform_at

pytestmark = [pytest.mark.gui, pytest.mark.usefixtures("fonts")]

DARK, RED = THEMES["dark"], THEMES["deep-red"]


def ground(pictures=(), *, graticule=None, theme=DARK, smooth=True) -> GroundContent:
    pen = LabelPen(scaled_font(1.0), theme.marks, 1.0)
    laid = tuple((p.frame, picture_pixmap(p, theme)) for p in pictures)
    return GroundContent(laid, None, graticule, MarksStyle(pen, theme), smooth)


def larger(frame: PictureFrame, part: float = 0.12) -> PictureFrame:
    """The picture the sheet is given: a little larger than itself."""
    width, height = (side + 2 * round(side * part) for side in (frame.width_px, frame.height_px))
    return PictureFrame(
        frame.plane, width, height, frame.scale_rad_px, frame.up_pa_deg, frame.mirrored
    )


def lone_bright_stars(stars, transform: SheetTransform, most: int = 25) -> np.ndarray:
    """Screen places of bright stars that no other disturbs, from the catalogue alone."""
    view = transform.view
    faintest = 8.0 if view.width_deg > 20.0 else None
    found = stars.cone(view.ra_deg, view.dec_deg, view.width_deg * 0.7, faintest=faintest)
    places = transform.sky_to_screen(found.ra_deg, found.dec_deg)
    inside = np.array([RECT.adjusted(30, 30, -30, -30).contains(QPointF(*p)) for p in places])
    places, v_mag = places[inside], found.v_mag[inside]
    order = np.argsort(v_mag)
    lone = []
    for place in order[:200]:
        apart = np.hypot(*(places - places[place]).T)
        rivals = (apart < 11.0) & (apart > 0.0) & (v_mag < v_mag[place] + 4.0)
        bright = (apart < 40.0) & (v_mag < v_mag[place] - 1.5)
        if not (rivals | bright).any():
            lone.append(places[place])
    return np.array(lone[:most])


def off_by(pixels: np.ndarray, places: np.ndarray, reach: int = 6) -> np.ndarray:
    """Way from each place to the middle of the light around it, Qt's pixels, (N, 2)."""
    light = pixels.sum(axis=-1).astype(float)
    found = []
    for x, y in places:
        window = tuple(slice(int(at) - reach, int(at) + reach + 1) for at in (y, x))
        part = light[window]
        part = np.clip(part - np.median(part) - 0.15 * part.max(), 0.0, None)
        rows, columns = np.mgrid[window] + 0.5
        found.append((np.average(columns, weights=part) - x, np.average(rows, weights=part) - y))
    return np.array(found)


VIEWS = {
    "plain": {"ra": 83.0, "dec": 10.0},
    "turned": {"ra": 83.0, "dec": 10.0, "up": 37.0},
    "mirrored": {"ra": 83.0, "dec": 10.0, "mirrored": True},
    "turned and mirrored": {"ra": 83.0, "dec": 10.0, "up": 285.0, "mirrored": True},
    "pole": {"ra": 0.0, "dec": 90.0},
    "south pole, turned": {"ra": 130.0, "dec": -90.0, "up": 70.0},
    "across RA 0": {"ra": 359.99, "dec": -5.0, "up": 10.0},
    "wide": {"ra": 83.0, "dec": 0.0, "width": 60.0},
}


@cache
def charted(stars, targets, name: str) -> tuple[SheetTransform, Picture]:
    """A view with its chart, drawn once."""
    transform = transform_at(**{"width": 5.0, **VIEWS[name]})
    return transform, draw_chart(larger(transform.frame), stars, targets, kinds=())


@pytest.mark.parametrize("name", VIEWS)
def test_stars_of_the_chart_lie_on_the_catalogue_s_stars(stars, targets, name: str) -> None:
    transform, chart = charted(stars, targets, name)
    pixels = painted(lambda painter: paint_ground(painter, transform, ground([chart])))
    off = off_by(pixels, lone_bright_stars(stars, transform))
    assert len(off) >= 5
    assert np.quantile(np.abs(off), 0.8, axis=0).max() < 0.3
    assert np.abs(np.median(off, axis=0)).max() < 0.1


@pytest.mark.parametrize(
    ("way", "smooth"), [((40.0, 3.0), True), ((-61.3, 44.7), False), ((0.4, -0.4), False)]
)
@pytest.mark.parametrize("name", VIEWS)
def test_stars_stay_on_the_catalogue_s_while_the_view_is_moved(
    stars, targets, name: str, way: tuple[float, float], smooth: bool
) -> None:
    """The chart is still the one of the view before; flattening may cost 0.51 px."""
    before, chart = charted(stars, targets, name)
    middle = RECT.center()
    view = before.panned(middle, middle + QPointF(*way))
    after = SheetTransform(view, RECT, before.up_pa_deg)
    pixels = painted(lambda painter: paint_ground(painter, after, ground([chart], smooth=smooth)))
    off = off_by(pixels, lone_bright_stars(stars, after))
    assert len(off) >= 5
    assert np.quantile(np.abs(off), 0.8, axis=0).max() < 0.56
    assert np.abs(np.median(off, axis=0)).max() < 0.52


@pytest.mark.parametrize("width", [0.5, 3.0, 10.0, 25.0, 60.0, 110.0])
@pytest.mark.parametrize("way", [(0.0, 0.0), (0.3, 0.4), (5.0, -3.0), (60.0, 20.0), (300.0, 100.0)])
@pytest.mark.parametrize("dec", [0.0, 55.0, 89.0])
def test_flattening_moves_no_pixel_of_the_sheet_by_more_than_half(
    width: float, way: tuple[float, float], dec: float
) -> None:
    before = transform_at(50.0, dec, width)
    middle = RECT.center()
    after = SheetTransform(before.panned(middle, middle + QPointF(*way)), RECT, 0.0)
    exact = after.picture_transform(larger(before.frame))
    flat = flattened(exact, RECT)
    back, possible = exact.inverted()
    assert possible
    for x in np.linspace(RECT.left(), RECT.right(), 13):
        for y in np.linspace(RECT.top(), RECT.bottom(), 9):
            spot = back.map(QPointF(x, y))
            behind = exact.map(spot) - QPointF(x, y)
            if math.hypot(behind.x(), behind.y()) > 1e-3:
                continue  # more than 90 degrees from the picture's middle: nothing lies there
            apart = flat.map(spot) - exact.map(spot)
            assert max(abs(apart.x()), abs(apart.y())) < 0.52


def test_a_view_at_rest_is_a_plain_copy_and_a_small_turn_is_not() -> None:
    transform = transform_at()
    same = flattened(transform.picture_transform(larger(transform.frame)), RECT)
    assert same.type() == QTransform.TransformationType.TxTranslate
    turned = SheetTransform(transform.view, RECT, 1.0)
    flat = flattened(turned.picture_transform(larger(transform.frame)), RECT)
    assert flat.type() == QTransform.TransformationType.TxRotate


def test_a_pan_of_a_part_of_a_pixel_is_a_copy_shifted_by_whole_ones() -> None:
    """The sharpest and by far the fastest way, half a pixel off at most."""
    before = transform_at(50.0, 0.0, 0.5)
    view = before.panned(RECT.center(), RECT.center() + QPointF(10.3, -4.6))
    exact = SheetTransform(view, RECT, 0.0).picture_transform(larger(before.frame))
    flat = flattened(exact, RECT)
    assert flat.type() == QTransform.TransformationType.TxTranslate
    assert (flat.dx(), flat.dy()) == (round(exact.dx()), round(exact.dy()))


@pytest.mark.parametrize("up", [0.0, 40.0, 120.0])
def test_a_perspective_too_weak_to_see_is_dropped(up: float) -> None:
    before = transform_at(50.0, 60.0, 1.0, up=up)
    view = before.panned(RECT.center(), RECT.center() + QPointF(70.0, 30.0))
    exact = SheetTransform(view, RECT, up).picture_transform(larger(before.frame))
    assert exact.type() == QTransform.TransformationType.TxProject
    assert flattened(exact, RECT).type() != QTransform.TransformationType.TxProject


def test_a_wide_pan_is_drawn_in_perspective() -> None:
    before = transform_at(50.0, 40.0, 100.0)
    middle = RECT.center()
    after = SheetTransform(before.panned(middle, middle + QPointF(250.0, 90.0)), RECT, 0.0)
    flat = flattened(after.picture_transform(before.frame), RECT)
    assert flat.type() == QTransform.TransformationType.TxProject


def flat_picture(colour: tuple[int, int, int], frame: PictureFrame, source="chart") -> Picture:
    shape = (frame.height_px, frame.width_px, 3)
    return Picture(np.full(shape, colour, dtype=np.uint8), frame, "credit", source)


def test_the_picture_stays_inside_the_sheet_and_the_margin_untouched() -> None:
    transform = transform_at()
    picture = flat_picture((200, 40, 90), larger(transform.frame))
    pixels = painted(lambda painter: paint_ground(painter, transform, ground([picture])))
    left, top, right, bottom = (round(v) for v in RECT.getCoords())
    assert (pixels[top:bottom, left:right] == (200, 40, 90)).all()
    pixels[top:bottom, left:right] = 0
    assert not pixels.any()


def test_a_survey_lies_over_the_chart_and_what_no_picture_covers_is_dark() -> None:
    transform = transform_at()
    frame = transform.frame
    small = PictureFrame(frame.plane, 300, 200, frame.scale_rad_px)
    chart, survey = flat_picture((10, 60, 10), frame), flat_picture((200, 40, 90), small, "s")

    def colour_at(pictures, x: float, y: float) -> tuple[int, ...]:
        pixels = painted(lambda painter: paint_ground(painter, transform, ground(pictures)))
        return tuple(pixels[int(y), int(x)])

    middle = RECT.center()
    assert colour_at([chart, survey], middle.x(), middle.y()) == (200, 40, 90)
    assert colour_at([chart, survey], RECT.left() + 5, RECT.top() + 5) == (10, 60, 10)
    assert colour_at([survey], RECT.left() + 5, RECT.top() + 5) == (5, 6, 10)


def test_what_comes_after_a_moved_picture_is_not_moved_with_it() -> None:
    transform = transform_at()
    turned = SheetTransform(transform.view, RECT, 20.0)
    lines = margin_of(turned).lines
    picture = flat_picture((5, 6, 10), transform.frame)
    alone = painted(lambda p: paint_ground(p, turned, ground(graticule=lines)), ratio=2.0)
    below = painted(
        lambda p: paint_ground(p, turned, ground([picture], graticule=lines)), ratio=2.0
    )
    lit = alone.max(axis=-1) > 40
    assert lit.sum() > 1000
    assert np.array_equal(lit, below.max(axis=-1) > 40)


def test_a_smooth_picture_is_blended_and_a_moving_one_is_not() -> None:
    """Nearest pixels while the view moves, which is faster; blended when it rests."""
    transform = transform_at()
    frame = transform.frame
    shape = (frame.height_px // 4, frame.width_px // 4, 3)
    checks = np.zeros(shape, dtype=np.uint8)
    checks[::2, ::2] = checks[1::2, 1::2] = 255
    coarse = PictureFrame(frame.plane, shape[1], shape[0], frame.scale_rad_px * 4)
    picture = Picture(checks, coarse, "", "chart")

    def tones(smooth: bool) -> int:
        what = ground([picture], smooth=smooth)
        pixels = painted(lambda painter: paint_ground(painter, transform, what))
        return len(np.unique(pixels[200:400, 300:600, 0]))

    assert tones(False) == 2
    assert tones(True) > 8


def test_red_light_is_as_bright_as_the_brightest_channel_was() -> None:
    transform = transform_at()
    picture = flat_picture((20, 90, 200), larger(transform.frame))
    what = ground([picture], theme=RED)
    pixels = painted(lambda painter: paint_ground(painter, transform, what))
    assert tuple(pixels[300, 500]) == (200, 0, 0)
    bare = painted(lambda painter: paint_ground(painter, transform, ground(theme=RED)))
    assert not bare.any()
    assert not painted(lambda p: p.fillRect(QRectF(0, 0, *SIZE), "#000000")).any()


def test_lines_of_the_graticule_pass_through_their_positions(targets: TargetTable) -> None:
    transform = transform_at(83.0, 60.0, 8.0, up=25.0)
    lines = margin_of(transform).lines
    pixels = painted(lambda p: paint_ground(p, transform, ground(graticule=lines)), ratio=2.0)
    checked = 0
    for line in lines.lines:
        for dec in np.linspace(57.0, 63.0, 9):
            ra, at_dec = (
                (line.value_deg, dec)
                if line.kind.name == "RA"
                else (80.0 + dec / 10, line.value_deg)
            )
            x, y = transform.sky_to_screen(ra, at_dec)[0]
            if not RECT.adjusted(5, 5, -5, -5).contains(QPointF(x, y)):
                continue
            checked += 1
            row, column = int(y * 2), int(x * 2)
            assert pixels[row - 2 : row + 3, column - 2 : column + 3].max() > 40
    assert checked > 20


def test_a_pole_s_picture_turns_with_the_right_ascension_of_its_view(stars, targets) -> None:
    """At the pole two views that differ in right ascension alone are turned by it."""
    one, other = transform_at(0.0, 90.0), transform_at(90.0, 90.0)
    place = one.sky_to_screen(30.0, 89.0)[0] - np.array([510.0, 330.0])
    turned = other.sky_to_screen(120.0, 89.0)[0] - np.array([510.0, 330.0])
    assert np.allclose(place, turned)
    assert math.hypot(*place) > 50
