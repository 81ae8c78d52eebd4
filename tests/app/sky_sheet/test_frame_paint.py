"""A frame's line, dash, stalk and flag in pixels; places of flags; the target's outline."""

import itertools
import math

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.shared.theme import DASHES, THEMES
from app.sky_sheet.flag_places import place_flags
from app.sky_sheet.frame_paint import FlagPen, FrameLook, paint_fill, paint_lines
from app.sky_sheet.frame_shape import FLAG_RADIUS, FrameShape, Part, frame_shape
from app.sky_sheet.target_outline import paint_target, target_ring
from core.catalogue.target import TargetKind
from core.plan.document import PlannedTarget
from core.sky.footprint import Footprint
from core.sky.sphere import position_angle_rad, separation_rad
from tests.app.sky_sheet.canvas import RECT, along, near, painted, transform_at

pytestmark = [pytest.mark.gui, pytest.mark.usefixtures("fonts")]

DARK = THEMES["dark"]
ORANGE = DARK.frames[0]


def look(**more: object) -> FrameLook:
    usual = {"colour": ORANGE, "dash": (), "letter": "A", "bold": False, "plate": DARK.plate}
    return FrameLook(**{**usual, **more})


def level(width: float = 3.0, height: float = 2.0) -> FrameShape:
    return frame_shape("a", Footprint(10.0, 40.0, width, height), transform_at())


def drawn(shape: FrameShape, how: FrameLook) -> np.ndarray:
    def paint(painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_lines(painter, shape, how)

    return painted(paint)


def bottom_rows(pixels: np.ndarray, shape: FrameShape) -> np.ndarray:
    """Light across the frame's lower edge, summed over its rows."""
    y = max(y for _, y in shape.points)
    return pixels[int(y) - 4 : int(y) + 5, :, 0].sum(axis=0)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("dash", DASHES)
def test_a_dash_is_as_long_as_the_theme_says_at_any_width(
    dash: tuple[float, ...], bold: bool
) -> None:
    shape = level()
    light = bottom_rows(drawn(shape, look(dash=dash, bold=bold)), shape)[290:730]
    runs = [length for _, length in along(light > light.max() / 2)][1:-1]
    if not dash:
        assert runs == []
        return
    wanted = sorted({dash[n] for n in range(0, len(dash), 2)})
    seen = sorted({round(np.mean([r for r in runs if abs(r - w) <= 1.5])) for w in wanted})
    assert seen == pytest.approx(wanted, abs=1)
    assert all(min(abs(run - w) for w in wanted) <= 1.5 for run in runs)
    assert len(runs) == pytest.approx(440 / sum(dash) * len(dash) / 2, rel=0.15)


def test_the_chosen_frame_is_twice_as_wide_and_thin_again_in_the_hand() -> None:
    shape = level()
    thin, bold, held = (
        np.median(bottom_rows(drawn(shape, how), shape)[400:600])
        for how in (look(), look(bold=True), look(bold=True, in_hand=True))
    )
    assert bold == pytest.approx(2.0 * thin, rel=0.1)
    assert held == pytest.approx(thin, rel=0.02)


def test_the_stalk_runs_from_the_upper_edge_to_the_flag() -> None:
    shape = level()
    pixels = drawn(shape, look())
    top = min(y for _, y in shape.points)
    column = round(shape.flag.x())
    light = pixels[:, column - 1 : column + 1, 0].sum(axis=1)
    assert (light[round(shape.flag.y()) + 1 : round(top) - 1] > 60).all()
    assert not light[: round(shape.flag.y()) - 2].any()
    assert top - shape.flag.y() == pytest.approx(26.0, abs=0.01)


def flagged(how: FrameLook, ratio: float = 1.0) -> np.ndarray:
    shape = level()
    pixels = painted(lambda p: FlagPen().put(p, shape, how), ratio=ratio)
    x, y = shape.flag.x() * ratio, shape.flag.y() * ratio
    return pixels[
        int(y - 12 * ratio) : int(y + 12 * ratio), int(x - 12 * ratio) : int(x + 12 * ratio)
    ]


def test_a_chosen_flag_is_filled_and_another_is_not() -> None:
    assert near(flagged(look(bold=True)), ORANGE).sum() > 150
    assert 20 < near(flagged(look()), ORANGE).sum() < 130


def test_flags_differ_by_their_letters_colours_and_density() -> None:
    pen, shape = FlagPen(), level()

    def put(how: FrameLook, ratio: float = 1.0) -> np.ndarray:
        return painted(lambda p: pen.put(p, shape, how), ratio=ratio)

    a, b, blue = put(look()), put(look(letter="B")), put(look(colour=DARK.frames[1]))
    assert not np.array_equal(a, b)
    assert not np.array_equal(a, blue)
    assert np.array_equal(a, put(look()))
    fine = put(look(), 2.0)
    rows, _ = np.nonzero(fine.max(axis=-1) > 60)
    assert rows.max() - rows.min() == pytest.approx(4.0 * FLAG_RADIUS, abs=4)


def test_the_fill_is_a_breath_of_colour_inside_alone() -> None:
    shape = level()
    pixels = painted(lambda p: paint_fill(p, shape, "#ffffff"), ground="#404040")
    middle = RECT.center()
    assert 70 < pixels[int(middle.y()), int(middle.x()), 0] < 100
    outside = pixels[int(min(y for _, y in shape.points)) - 5, int(middle.x()), 0]
    assert outside == 0x40


# Places of flags ---------------------------------------------------------------


def test_twelve_frames_far_smaller_than_their_flags_have_twelve_flags_apart() -> None:
    transform = transform_at(10.0, 40.0, 60.0)
    shapes = [
        frame_shape(str(n), Footprint(10.0, 40.0, 1.0 + 0.2 * n, 0.7 + 0.1 * n), transform)
        for n in range(12)
    ]
    flags = [shape.flag for shape in place_flags(shapes, RECT)]
    for one, other in itertools.combinations(flags, 2):
        assert math.hypot(one.x() - other.x(), one.y() - other.y()) >= 2.0 * FLAG_RADIUS


@pytest.mark.parametrize("pa", [0.0, 45.0, 120.0, 236.0, 300.0])
def test_flags_stand_on_the_sheet_on_their_stalks_and_clear_of_the_plates(pa: float) -> None:
    transform = transform_at()
    clear = [
        QRectF(RECT.left() + 10, RECT.bottom() - 72, 62, 62),
        QRectF(RECT.right() - 200, RECT.bottom() - 44, 190, 34),
    ]
    shapes = [
        frame_shape(str(n), Footprint(10.0, 40.0, 3.0 + n, 2.0 + n, pa), transform)
        for n in range(9)
    ]
    inner = RECT.adjusted(FLAG_RADIUS, FLAG_RADIUS, -FLAG_RADIUS, -FLAG_RADIUS)
    for before, shape in zip(shapes, place_flags(shapes, RECT, clear), strict=True):
        flag = shape.flag
        assert inner.contains(flag)
        around = QRectF(flag.x() - 9, flag.y() - 9, 18, 18)
        assert not any(plate.intersects(around) for plate in clear)
        across = (flag.x() - before.centre.x()) * shape.up[1] - (
            flag.y() - before.centre.y()
        ) * shape.up[0]
        assert abs(across) < 1e-6
        assert shape.stalk.p1() == before.stalk.p1()


def test_a_frame_with_its_upper_edge_out_of_sight_has_a_flag_at_the_sheet_s_edge() -> None:
    shape = frame_shape("a", Footprint(10.0, 40.0, 8.0, 8.0), transform_at())
    assert shape.flag.y() == pytest.approx(RECT.top() + 14.0)
    assert shape.flag.x() == pytest.approx(RECT.center().x())


@pytest.mark.parametrize(("ra", "dec"), [(10.0, 48.5), (18.0, 40.0), (10.0, 33.0)])
def test_a_frame_whose_stalk_lies_off_the_sheet_has_no_flag(ra: float, dec: float) -> None:
    assert frame_shape("a", Footprint(ra, dec, 3.0, 2.0), transform_at()).flag is None


def test_a_stalk_too_short_to_see_is_left_out() -> None:
    """The centre 8 px under the place where flags end: nothing to hold."""
    transform = transform_at()
    ra, dec = transform.to_sky(QPointF(RECT.center().x(), RECT.top() + 22.0))
    assert frame_shape("a", Footprint(ra, dec, 3.0, 2.0), transform).flag is None
    ra, dec = transform.to_sky(QPointF(RECT.center().x(), RECT.top() + 40.0))
    assert frame_shape("a", Footprint(ra, dec, 3.0, 2.0), transform).flag is not None


def test_the_whole_flag_and_a_little_more_turns() -> None:
    shape = level()
    for way, part in ((8.5, Part.STALK), (11.5, Part.STALK), (13.0, Part.NOTHING)):
        assert shape.hit(shape.flag + QPointF(way, 0.0)) is part
        assert shape.hit(shape.flag + QPointF(0.0, -way)) is part


@pytest.mark.parametrize("pa", [0.0, 30.0, 200.0])
def test_bounds_hold_outline_and_flag(pa: float) -> None:
    shape = frame_shape("a", Footprint(10.0, 40.0, 1.2, 0.5, pa), transform_at())
    bounds = shape.bounds(2.0)
    for x, y in shape.points:
        assert bounds.contains(QRectF(x - 2, y - 2, 4, 4))
    assert bounds.contains(QRectF(shape.flag.x() - 9, shape.flag.y() - 9, 18, 18))
    assert bounds.contains(shape.stalk.p1())


def test_a_frame_that_reaches_past_one_side_alone_does_not_hide_the_sheet() -> None:
    transform = transform_at()
    assert not frame_shape("a", Footprint(10.0, 40.0, 9.0, 2.0), transform).hides(RECT)
    assert not frame_shape("a", Footprint(7.0, 40.0, 6.0, 6.0), transform).hides(RECT)
    assert frame_shape("a", Footprint(10.0, 40.0, 9.0, 9.0), transform).hides(RECT)


def test_a_shape_knows_its_area_in_square_degrees() -> None:
    assert level(3.0, 2.0).area == pytest.approx(6.0)


# The target --------------------------------------------------------------------


def target(**more: object) -> PlannedTarget:
    usual = {
        "id": "t", "name": "t", "kind": TargetKind.GALAXY, "ra_deg": 10.0, "dec_deg": 40.0,
        "major_arcmin": 120.0, "minor_arcmin": 40.0, "pa_deg": 35.0,
    }  # fmt: skip
    return PlannedTarget(**{**usual, **more})


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("dec", [0.0, 40.0, 89.5])
def test_the_outline_s_long_axis_has_the_target_s_length_and_angle(
    dec: float, mirrored: bool
) -> None:
    transform = transform_at(10.0, dec, up=20.0, mirrored=mirrored)
    ring = target_ring(target(dec_deg=dec), transform)
    centre = math.radians(10.0), math.radians(dec)
    sky = [tuple(map(math.radians, transform.to_sky(ring.at(n)))) for n in range(ring.count())]
    apart = [math.degrees(float(separation_rad(*centre, *place))) * 60.0 for place in sky]
    assert max(apart) == pytest.approx(60.0, rel=0.002)
    assert min(apart) == pytest.approx(20.0, rel=0.002)
    far = sky[int(np.argmax(apart))]
    angle = math.degrees(float(position_angle_rad(*centre, *far))) % 180.0
    assert angle == pytest.approx(35.0, abs=0.1)


def test_without_an_angle_the_outline_is_a_circle_of_the_long_axis_in_long_dashes() -> None:
    transform = transform_at()
    ring = target_ring(target(pa_deg=None), transform)
    bounds = ring.boundingRect()
    assert bounds.width() == pytest.approx(bounds.height(), rel=0.01)
    assert bounds.height() == pytest.approx(math.radians(2.0) * transform.px_per_rad, rel=0.01)

    def longest(what: PlannedTarget) -> int:
        pixels = painted(lambda p: paint_target(p, transform, what, "#ffffff"))
        row = pixels[round(ring.boundingRect().top()), :, 0] > 60
        return max((length for _, length in along(row)), default=0)

    circle = target(minor_arcmin=120.0)
    assert longest(target(pa_deg=None)) >= 5
    assert 1 <= longest(circle) <= 3


def test_a_target_without_a_size_is_an_open_cross_at_its_place() -> None:
    transform = transform_at()
    point = target(major_arcmin=None, minor_arcmin=None, pa_deg=None, ra_deg=10.5)
    assert target_ring(point, transform) is None
    pixels = painted(lambda p: paint_target(p, transform, point, "#ffffff"))
    rows, columns = np.nonzero(pixels.max(axis=-1) > 60)
    x, y = transform.sky_to_screen(10.5, 40.0)[0]
    assert (columns.min() + columns.max()) / 2 == pytest.approx(x, abs=1)
    assert (rows.min() + rows.max()) / 2 == pytest.approx(y, abs=1)
    assert not pixels[int(y) - 2 : int(y) + 3, int(x) - 2 : int(x) + 3].any()


def test_a_target_behind_the_limb_is_not_drawn() -> None:
    transform = transform_at()
    for size in (None, 60.0):
        behind = target(major_arcmin=size, minor_arcmin=None, ra_deg=190.0, dec_deg=-40.0)
        assert not painted(lambda p, t=behind: paint_target(p, transform, t, "#ffffff")).any()
