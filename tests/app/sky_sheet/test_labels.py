"""Names and outlines: none over another, where their objects are."""

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRectF

from app.shared.theme import THEMES, Theme, scaled_font
from app.sky_sheet.labels import Label, LabelPen, chosen_labels
from app.sky_sheet.marks_paint import MarksStyle, paint_marks
from app.sky_sheet.transform import SheetTransform
from core.catalogue.target import TargetKind
from core.pictures.marks import TINTS, Marks, Outline, marks
from core.pictures.marks import Label as SkyLabel
from tests.app.sky_sheet.canvas import RECT, along, near, painted, transform_at

pytestmark = [pytest.mark.gui, pytest.mark.usefixtures("fonts")]

DARK, RED = THEMES["dark"], THEMES["deep-red"]


@pytest.fixture
def pen(fonts: None) -> LabelPen:
    return LabelPen(scaled_font(1.0, size_px=11.5), "#ffffff", 1.0)


def test_of_two_names_that_touch_the_first_is_written(pen: LabelPen) -> None:
    first, second = Label("M 31", 300.0, 300.0, 2.0), Label("M 32", 310.0, 304.0, 2.0)
    beside = Label("M 33", 300.0 + pen.box(first).width() + 2.0, 300.0, 2.0)
    far = Label("M 110", 300.0, 400.0, 2.0)
    chosen = chosen_labels([first, second, beside, far], pen, RECT, 9, [])
    assert chosen == [first, far]


def test_no_name_is_cut_by_the_sheet_or_stands_where_none_may(pen: LabelPen) -> None:
    cut = Label("Andromeda Galaxy", RECT.right() - 30.0, 300.0, 2.0)
    above = Label("M 31", 300.0, RECT.top() + 3.0, 2.0)
    covered = Label("M 33", 500.0, 300.0, 2.0)
    clear = pen.box(covered).adjusted(5, 5, 5, 5)
    assert chosen_labels([cut, above, covered], pen, RECT, 9, [clear]) == []
    assert chosen_labels([covered], pen, RECT, 9, []) == [covered]


def test_no_more_names_than_asked(pen: LabelPen) -> None:
    labels = [Label(f"N {n}", 300.0, 60.0 + 30.0 * n, 2.0) for n in range(12)]
    assert chosen_labels(labels, pen, RECT, 5, []) == labels[:5]


@pytest.mark.parametrize("ratio", [1.0, 2.0])
def test_a_name_is_written_in_its_box_right_of_its_point_and_above(fonts, ratio: float) -> None:
    pen = LabelPen(scaled_font(1.0, size_px=11.5), "#ffffff", ratio)
    label = Label("NGC 7000", 400.0, 300.0, 5.0)
    rows, columns = np.nonzero(
        painted(lambda p: pen.write(p, label), ratio=ratio).max(axis=-1) > 120
    )
    box = pen.box(label).adjusted(-2, -2, 3, 3)
    assert box.contains(QPointF(columns.min() / ratio, rows.min() / ratio))
    assert box.contains(QPointF(columns.max() / ratio, rows.max() / ratio))
    assert (columns.max() - columns.min()) / ratio > box.width() * 0.75
    assert columns.min() / ratio >= label.x + label.gap
    assert rows.max() / ratio <= label.y + 2.0


def test_a_name_on_a_finer_screen_is_finer_not_only_larger(fonts) -> None:
    pen = LabelPen(scaled_font(1.0, size_px=11.5), "#ffffff", 2.0)
    pixels = painted(lambda p: pen.write(p, Label("NGC 7000", 400.0, 300.0, 5.0)), ratio=2.0)
    assert (pixels[::2] != pixels[1::2]).any()
    assert (pixels[:, ::2] != pixels[:, 1::2]).any()


def test_a_name_written_twice_is_the_same_both_times(pen: LabelPen) -> None:
    label = Label("NGC 7000", 400.0, 300.0, 5.0)
    once = painted(lambda p: pen.write(p, label))
    assert once.any()
    assert np.array_equal(once, painted(lambda p: pen.write(p, label)))


def test_a_name_has_a_dark_rim_that_keeps_it_readable_on_light(pen: LabelPen) -> None:
    label = Label("M 31", 400.0, 300.0, 5.0)
    assert painted(lambda p: pen.write(p, label), ground="#ffffff").min() < 140


# Marks over a picture ---------------------------------------------------------


def style(theme: Theme = DARK, clear: tuple[QRectF, ...] = ()) -> MarksStyle:
    return MarksStyle(LabelPen(scaled_font(1.0, size_px=11.5), theme.marks, 1.0), theme, clear)


def ring(transform: SheetTransform, kind=TargetKind.OPEN_CLUSTER, *, dashed=False) -> Marks:
    """A circle of 100 px about the middle of the plane."""
    turn = np.linspace(0.0, 2.0 * np.pi, 73)
    radius = 100.0 / transform.px_per_rad
    points = np.stack([radius * np.cos(turn), radius * np.sin(turn)], -1)
    return Marks(transform.frame.plane, (Outline(points, kind, dashed, 0),), ())


def ink(transform: SheetTransform, what: Marks, how: MarksStyle | None = None) -> np.ndarray:
    return painted(lambda p: paint_marks(p, transform, what, how or style())).max(axis=-1) > 50


def test_an_outline_of_a_known_object_is_full_and_of_an_unsure_one_dashed() -> None:
    transform = transform_at()
    full, dashed = ink(transform, ring(transform)), ink(transform, ring(transform, dashed=True))
    assert full.sum() > 500
    assert 0.3 < dashed.sum() / full.sum() < 0.75


def test_outlines_have_the_colour_of_their_kind_and_in_red_light_only_red() -> None:
    transform = transform_at()
    for kind in (TargetKind.OPEN_CLUSTER, TargetKind.BRIGHT_NEBULA):
        pixels = painted(lambda p, k=kind: paint_marks(p, transform, ring(transform, k), style()))
        light = pixels[pixels.max(axis=-1) > 80].mean(axis=0)
        tint = np.array(TINTS[kind])
        assert light / light.max() == pytest.approx(tint / tint.max(), abs=0.04)
    red = painted(lambda p: paint_marks(p, transform, ring(transform), style(RED)))
    lit = red[red.max(axis=-1) > 60]
    assert (lit[:, 1:].max(axis=-1) < lit[:, 0] * 0.4).all()


@pytest.mark.parametrize("up", [0.0, 70.0])
def test_marks_follow_a_view_that_moved_since_they_were_made(up: float) -> None:
    """Their plane is that of the view before; the sky is where it is now."""
    before = transform_at(50.0, 60.0, 6.0, up=up)
    middle = RECT.center()
    view = before.panned(middle, middle + QPointF(150.0, -80.0))
    after = SheetTransform(view, RECT, up)
    lit = ink(after, ring(before))
    rows, columns = np.nonzero(lit)
    x, y = after.sky_to_screen(50.0, 60.0)[0]
    assert (columns.min() + columns.max()) / 2 == pytest.approx(x, abs=1.5)
    assert (rows.min() + rows.max()) / 2 == pytest.approx(y, abs=1.5)
    assert columns.max() - columns.min() == pytest.approx(200, abs=3)


def named(transform: SheetTransform, text: str, reach_px: float = 0.0) -> Marks:
    reach = reach_px / transform.px_per_rad
    label = SkyLabel(text, 0.0, 0.0, reach, TargetKind.GALAXY, 0)
    return Marks(transform.frame.plane, (), (label,))


def test_a_name_stands_beside_a_small_object_and_inside_a_large_one() -> None:
    transform = transform_at()
    starts = {}
    for reach in (0.0, 20.0, 200.0):
        starts[reach] = np.nonzero(ink(transform, named(transform, "M 31", reach)))[1].min()
    middle = RECT.center().x()
    assert starts[0.0] - middle < 8
    assert 14 < starts[20.0] - middle < 24
    assert starts[200.0] - middle < 14


def test_a_name_makes_way_for_a_flag() -> None:
    transform = transform_at()
    flag = QRectF(RECT.center() + QPointF(5.0, -12.0), RECT.center() + QPointF(20.0, 5.0))
    assert ink(transform, named(transform, "M 31")).any()
    assert not ink(transform, named(transform, "M 31"), style(clear=(flag,))).any()


def test_objects_behind_the_limb_are_written_nowhere() -> None:
    transform = transform_at(10.0, 0.0, 120.0)
    behind = Marks(
        transform_at(190.0, 0.0).frame.plane,
        (),
        (SkyLabel("M 31", 0.0, 0.0, 0.0, TargetKind.GALAXY, 0),),
    )
    assert not ink(transform, behind).any()


def test_a_crowded_sky_has_one_name_for_each_22000_square_pixels(targets) -> None:
    transform = transform_at(187.0, 12.0, 12.0)
    placed = marks(transform.frame, targets, [TargetKind.GALAXY])
    written: list[str] = []

    class Counting(LabelPen):
        def write(self, painter, label) -> None:
            written.append(label.text)

    pen = Counting(scaled_font(1.0, size_px=11.5), "#ffffff", 1.0)
    painted(lambda p: paint_marks(p, transform, placed, MarksStyle(pen, DARK)))
    assert 10 < len(written) <= RECT.width() * RECT.height() / 22000


def test_runs_of_a_dashed_line_alternate() -> None:
    """The tool of these tests: what counts as a run."""
    assert along(np.array([True, True, False, True])) == [(0, 2), (3, 1)]
    assert near(np.array([[[10, 10, 10]]]), "#0a0a0a").all()
