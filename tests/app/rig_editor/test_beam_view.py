"""What the drawing of the light's way shows: lengths to one scale, cone, ruler, marks."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from app.rig_editor.beam_layout import BeamLayout, layout_of
from app.rig_editor.beam_paint import BeamLook, paint_beam
from app.rig_editor.bench import RigBench
from app.rig_editor.parts_page import PartsPage
from app.rig_editor.ruler_paint import (
    difference_words,
    needed_words,
    paint_ruler,
    present_words,
    ruler_steps,
)
from app.session import Session
from app.shared.theme import THEMES, Theme
from core.gear.accessories import FilterPart
from core.gear.rig import Rig
from core.gear.slots import Slot
from core.plan import edits
from core.plan.store import demo_plan
from tests.app.rig_editor.hands import click, drag_to, type_figure
from tests.app.seeing import Dress, Host, close_to, pixels
from tests.core.gear.check_kits import guide_scope, kit, off_axis, reducer, sensor, spacer, tube
from tests.core.gear.check_kits import wheel as wheel_part

pytestmark = pytest.mark.gui
CAMERA, SPACER, PRISM, WHEEL = Slot("camera"), *(Slot("others", n) for n in range(3))


def drawn(rig: Rig, width: float = 900.0, scale: float = 1.0) -> BeamLayout:
    return layout_of(rig, width, scale)


def width_of(drawing: BeamLayout, slot: Slot) -> float:
    tile = drawing.tile(slot)
    assert tile is not None
    return tile.box.width()


@pytest.fixture(autouse=True)
def _letters(fonts: None) -> None:
    """Measure with the bundled typeface."""


def test_lengths_behind_the_optics_are_to_one_scale() -> None:
    """17.5 mm of camera, 20 of wheel, 7.5 of prism, 10 of spacer, 30 of corrector."""
    rig = kit(spacer(length_mm=10.0), off_axis(length_mm=7.5), wheel_part(),
              corrector=reducer(length_mm=30.0))  # fmt: skip
    drawing = drawn(rig)
    px_mm = width_of(drawing, WHEEL) / 20.0
    assert width_of(drawing, SPACER) == pytest.approx(10.0 * px_mm)
    assert width_of(drawing, PRISM) == pytest.approx(7.5 * px_mm)
    assert width_of(drawing, Slot("corrector")) == pytest.approx(30.0 * px_mm)
    camera = drawing.tile(CAMERA)
    assert drawing.sensor_x - camera.box.left() == pytest.approx(17.5 * px_mm)
    assert drawing.sensor_x - drawing.rear_x == pytest.approx(55.0 * px_mm)


def test_a_long_tube_is_broken_and_a_short_one_is_to_scale() -> None:
    long, short = (
        drawn(kit(telescope=tube(length_mm=400.0))),
        drawn(kit(telescope=tube(length_mm=9.0))),
    )
    assert long.tiles[0].broken
    assert not short.tiles[0].broken
    assert short.tiles[0].box.width() == pytest.approx(9.0 * short.px_mm)
    assert not drawn(kit()).tiles[0].known


def test_the_cone_is_as_wide_as_the_focal_ratio_says() -> None:
    """28.257 mm at the sensor and 11 mm more at 55 mm, f/5."""
    drawing = drawn(kit(spacer(length_mm=17.5), wheel_part()))
    at_rear, at_sensor = drawing.beam_half(drawing.rear_x), drawing.beam_half(drawing.sensor_x)
    assert at_rear / at_sensor == pytest.approx((28.2567 + 11.0) / 28.2567, rel=1e-5)


def test_a_length_that_is_not_known_is_marked_and_has_a_plain_one() -> None:
    drawing = drawn(kit(spacer(length_mm=None), wheel_part(), camera=sensor(flange_mm=None)))
    known = {tile.slot: tile.known for tile in drawing.tiles}
    assert (known[SPACER], known[Slot("others", 1)], known[CAMERA]) == (False, True, False)
    assert width_of(drawing, SPACER) > 30.0
    assert present_words(drawing) == "not known: a length is missing"
    assert difference_words(drawing) == ""


def test_filters_of_a_wheel_stand_in_a_row_of_their_own() -> None:
    filters = [FilterPart(name=f"filter {n}", glass_mm=2.0, glass_index=1.5) for n in range(3)]
    roles = {tile.slot.place: tile.role for tile in drawn(kit(wheel_part(), *filters)).tiles
             if tile.slot.field == "others"}  # fmt: skip
    assert roles == {0: "beam", 1: "inside", 2: "inside", 3: "inside"}


@pytest.mark.parametrize(
    ("rig", "needed", "difference"),
    [
        (kit(spacer(length_mm=15.4), wheel_part()), "55.0 mm", "2.1 mm missing"),
        (kit(spacer(length_mm=19.0), wheel_part()), "55.0 mm", "1.5 mm too long"),
        (kit(spacer(length_mm=17.5), wheel_part()), "55.0 mm", "exact"),
        # 2 mm of glass of index 1.5 add 2 (1 - 1/1.5) = 0.667 mm.
        (kit(spacer(), wheel_part(glass_mm=2.0, glass_index=1.5)), "55.7 mm, 0.7 for glass",
         "0.7 mm missing"),
        (kit(corrector=None), "not known", ""),
        (kit(corrector=None, telescope=tube(back_focus_fixed=False)), "the focuser sets it", ""),
        (kit(wheel_part(glass_mm=None)), "55 mm and the glass, not known", ""),
    ],
)  # fmt: skip
def test_the_ruler_says_what_is_needed_and_what_is_missing(
    rig: Rig, needed: str, difference: str
) -> None:
    drawing = drawn(rig)
    assert needed_words(drawing) == needed
    assert difference_words(drawing) == difference


def gap_of(page: PartsPage, colour: str) -> int:
    """Count the pixels of a colour where the two bands of the ruler differ."""
    drawing = page.beam.drawing
    ends = sorted((drawing.x_of(drawing.focus.required_mm), drawing.x_of(drawing.focus.present_mm)))
    rows = slice(round(drawing.ruler.top() + 37), round(drawing.ruler.top() + 54))
    return close_to(pixels(page.beam)[rows, round(ends[0]) : round(ends[1]) + 1], colour, 12)


def test_what_is_missing_is_hatched_in_the_colour_of_its_finding(
    page: PartsPage, dark: Theme
) -> None:
    click(page, SPACER)
    type_figure(page, "length_mm", "5", enter=False)
    assert gap_of(page, dark.caution) > 60
    assert gap_of(page, dark.bad) == 0
    type_figure(page, "length_mm", "19", enter=False)
    assert gap_of(page, dark.bad) > 60
    assert gap_of(page, dark.caution) == 0


def around(page: PartsPage, box: QRectF) -> np.ndarray:
    return pixels(page.beam)[round(box.top()) : round(box.bottom()),
                             round(box.left()) : round(box.right())]  # fmt: skip


def test_a_part_s_mark_has_the_colour_and_shape_of_its_worst_finding(
    page: PartsPage, dark: Theme
) -> None:
    label = next(one for one in page.beam.drawing.labels if one.slot == WHEEL)
    mark = QRectF(label.box.left() + 4.0, label.box.top(), 12.0, label.box.height())
    assert close_to(around(page, mark), dark.good) > 20
    click(page, WHEEL)
    type_figure(page, "clear_diameter_mm", "15")
    assert close_to(around(page, mark), dark.good) == 0
    assert close_to(around(page, mark), dark.bad) > 15


def test_the_edge_of_the_cone_lies_where_the_sum_says(page: PartsPage, dark: Theme) -> None:
    drawing = page.beam.drawing
    wheel = drawing.tile(WHEEL)
    x = wheel.box.center().x()
    y = drawing.axis_y - drawing.beam_half(x)
    seen = pixels(page.beam)[:, round(x)]
    ink = np.array(QColor(dark.accent).getRgb()[:3])
    light = np.abs(seen - ink).max(axis=-1)
    rows = slice(round(wheel.box.top()) + 11, round(drawing.axis_y) - 4)
    assert light[rows].min() < 90  # a thin line, between two rows of pixels at worst
    assert rows.start + int(light[rows].argmin()) == pytest.approx(y, abs=1.5)


def test_a_circle_smaller_than_the_sensor_is_drawn_as_a_caution(
    page: PartsPage, dark: Theme
) -> None:
    drawing = page.beam.drawing
    words = QRectF(drawing.width - 112.0, drawing.axis_y - 30.0, 110.0, 60.0)
    assert close_to(around(page, words), dark.caution, 30) == 0
    click(page, Slot("corrector"))
    type_figure(page, "image_circle_mm", "20")
    assert close_to(around(page, words), dark.caution, 30) > 30


def test_the_chosen_part_is_framed_in_the_accent(page: PartsPage, dark: Theme) -> None:
    box = page.beam.drawing.tile(WHEEL).box
    edge = QRectF(box.left() + 20.0, box.top() - 2.0, 60.0, 4.0)
    assert close_to(around(page, edge), dark.accent) == 0
    click(page, WHEEL)
    assert close_to(around(page, edge), dark.accent) > 50


def test_a_carried_part_shows_where_it_would_come(page: PartsPage, dark: Theme) -> None:
    drawing = page.beam.drawing
    x = drawing.tile(WHEEL).box.right()
    seam = QRectF(x - 2.0, drawing.axis_y - 20.0, 4.0, 40.0)
    before = close_to(around(page, seam), dark.accent)
    drag_to(page, SPACER, x - 3.0, drop=False)
    assert page.beam.look.seam == pytest.approx(x)
    assert close_to(around(page, seam), dark.accent) > before + 60


RIGS = [planned.rig for planned in demo_plan().rigs]


@given(
    rig=st.sampled_from(RIGS),
    width=st.floats(430.0, 1600.0),
    scale=st.sampled_from([0.8, 1.0, 1.5, 2.0]),
)
@settings(max_examples=60)
def test_nothing_overlaps_and_nothing_leaves_the_drawing(
    rig: Rig, width: float, scale: float
) -> None:
    drawing = drawn(rig, width * scale, scale)
    inside = QRectF(-1.0, -1.0, width * scale + 2.0, drawing.height + 2.0)
    boxes = [tile.box for tile in drawing.tiles]
    boxes += [label.box for label in drawing.labels]
    for number, box in enumerate(boxes):
        assert inside.contains(box)
        for other in boxes[number + 1 :]:
            shared = box.intersected(other.adjusted(0.01, 0.01, -0.01, -0.01))
            assert shared.isEmpty() or shared.width() < 0.1
    assert all(tile.box.bottom() <= drawing.height for tile in drawing.tiles)
    for label in drawing.labels[:-1]:
        below = [other.box for other in drawing.labels if other.box.top() > label.box.top()]
        assert all(not box.left() < label.pole_x < box.right() for box in below)


@given(px_mm=st.floats(1e-9, 50.0))
@settings(max_examples=60)
def test_ticks_and_numbers_of_the_ruler_never_crowd(px_mm: float) -> None:
    step, named = ruler_steps(px_mm)
    assert step * px_mm >= 5.0
    assert named * px_mm >= 30.0
    assert named % step == 0


@pytest.mark.parametrize(
    "rig",
    [
        kit(*(spacer(length_mm=10_000.0) for _ in range(60)), camera=sensor(flange_mm=0.0)),
        kit(guide_scope(), camera=sensor(flange_mm=0.0), corrector=None),
        kit(guide_scope(), telescope=tube(aperture_mm=50_000.0, focal_length_mm=25_000.0,
                                          image_circle_mm=10_000.0), corrector=None),
        kit(spacer(clear_diameter_mm=0.001), camera=sensor(columns=1, rows=1, pixel_um=0.1)),
        kit(spacer(), corrector=reducer(back_focus_mm=10_000.0, length_mm=0.0)),
    ],
)  # fmt: skip
def test_figures_at_the_ends_of_what_is_allowed_are_drawn(rig: Rig, qapp) -> None:
    drawing = drawn(rig)
    image = QImage(900, round(drawing.height), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    paint_beam(painter, drawing, BeamLook(THEMES["dark"]))
    paint_ruler(painter, drawing, THEMES["dark"], "good")
    assert painter.end()
    assert drawing.height < 4000.0


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_the_deep_red_bench_is_red_and_black_alone(
    session: Session, host: Host, dress: Dress, scale: float
) -> None:
    theme = THEMES["deep-red"]
    dress(theme, scale)
    short = kit(spacer(length_mm=10.0), wheel_part(clear_diameter_mm=20.0), guide_scope())
    session.edit("add", edits.with_rig(session.plan, short))
    bench = RigBench(session, theme, scale)
    window = host(bench, width=1000, height=900)
    window.setStyleSheet(f"background: {theme.ground};")
    bench.parts.choose(CAMERA)
    for _ in range(2):
        seen = pixels(bench)
        assert seen[..., 0].max() > 0xC0
        assert seen[..., 1:].max() <= 0x4A
        bench.parts.ask_replacement()


def test_the_tooltip_tells_every_figure_that_is_known(page: PartsPage) -> None:
    words = page.beam.handle(PRISM).toolTip()
    for figure in ("prism", "Length: 7.5 mm", "Prism: 8 mm", "Angle of the prism: 0 °"):
        assert figure in words
    assert page.beam.handle(WHEEL).accessibleName() == "wheel, in the beam, fine"
    click(page, SPACER)
    type_figure(page, "length_mm", "")
    assert "length is not known" in page.beam.handle(SPACER).toolTip()
    assert page.beam.handle(SPACER).accessibleName() == "spacer, in the beam, not all is known"


def test_one_part_is_a_stop_of_the_tab_key(page: PartsPage) -> None:
    click(page, WHEEL)
    stops = [
        slot
        for slot, handle in page.beam.handles.items()
        if handle.focusPolicy() & Qt.FocusPolicy.TabFocus
    ]
    assert stops == [WHEEL]
