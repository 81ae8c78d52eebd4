"""What the sheet keeps between paintings is thrown away when it is out of date, and only then."""

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.shared.theme import THEMES
from app.sky_sheet import layers as layers_module
from app.sky_sheet.layers import Layers, SheetStyle
from app.sky_sheet.sheet import SkySheet
from core.pictures.marks import Marks
from core.pictures.picture import Picture
from core.plan import edits
from tests.app.seeing import pixels
from tests.app.sky_sheet.canvas import near

pytestmark = pytest.mark.gui

LEFT, NO_KEY = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
DARK = THEMES["dark"]


def fresh(sheet: SkySheet) -> np.ndarray:
    """What a new sheet on the same session and size paints."""
    other = SkySheet(sheet.session, sheet.layers.style.theme, sheet.layers.style.text_scale)
    other.resize(sheet.size())
    seen = pixels(other)
    other.deleteLater()
    return seen


def flat(sheet: SkySheet, colour: tuple[int, int, int], source: str = "chart") -> Picture:
    frame = sheet.transform.frame
    shape = (frame.height_px, frame.width_px, 3)
    return Picture(np.full(shape, colour, dtype=np.uint8), frame, source, source)


def no_marks(sheet: SkySheet) -> Marks:
    return Marks(sheet.transform.frame.plane, (), ())


def keep_still(sheet: SkySheet) -> None:
    """Have the still layer kept, as while a frame is in the hand."""
    sheet.layers.still(sheet.transform, sheet.devicePixelRatioF())
    assert sheet.layers.has_still


CHANGES = {
    "pan": lambda s, r: s.set_view(s.plan.view.model_copy(update={"ra_deg": 11.5})),
    "mirror": lambda s, r: s.change_view(mirrored=True),
    "camera up": lambda s, r: s.change_view(camera_up=True),
    "graticule": lambda s, r: s.change_view(graticule=not s.plan.view.graticule),
    "other frame": lambda s, r: s.edit(
        "choose", edits.with_current_rig(s.plan, next(x.id for x in s.plan.rigs if x.id != r))
    ),
    "hidden": lambda s, r: s.edit("hide", edits.with_rig_shown(s.plan, r, shown=False)),
    "colour": lambda s, r: s.edit("look", edits.with_rig_look(s.plan, r, colour=5, dash=2)),
    "order": lambda s, r: s.edit("order", edits.with_rig_moved(s.plan, r, 0)),
    "turned": lambda s, r: s.edit(
        "turn", edits.with_framing(s.plan, s.framing(r).model_copy(update={"pa_deg": 77.0}))
    ),
    "target": lambda s, r: s.show_target(s.targets.find("M 33")),
    "undone": lambda s, r: (s.change_view(mirrored=True), s.history.undo()),
    "hovered": lambda s, r: (s.rig_hovered.emit(r), s.rig_hovered.emit("")),
}


@pytest.mark.parametrize("name", CHANGES)
def test_after_any_change_the_sheet_is_what_a_new_one_paints(
    sheet: SkySheet, fitting: str, name: str, qtbot
) -> None:
    before = pixels(sheet)
    keep_still(sheet)
    CHANGES[name](sheet.session, fitting)
    pixels(sheet)
    keep_still(sheet)
    qtbot.waitUntil(lambda: not sheet._rest.isActive())
    assert np.array_equal(pixels(sheet), fresh(sheet))
    if name not in ("undone", "hovered"):
        assert not np.array_equal(pixels(sheet), before)


def test_a_new_size_and_another_style_are_painted_anew(sheet: SkySheet, qtbot) -> None:
    keep_still(sheet)
    heard: list[int] = []
    sheet.session.sheet_resized.connect(lambda: heard.append(1))
    sheet.resize(800, 620)
    assert heard
    qtbot.waitUntil(lambda: not sheet._rest.isActive())
    assert np.array_equal(pixels(sheet), fresh(sheet))
    sheet.set_style(THEMES["light"], 1.5)
    assert np.array_equal(pixels(sheet), fresh(sheet))


def test_a_chart_and_a_survey_are_shown_when_they_come_and_go(sheet: SkySheet) -> None:
    session = sheet.session
    corner = sheet.sky_rect.topLeft() + QPointF(25, 25)

    def seen() -> tuple[int, ...]:
        return tuple(pixels(sheet)[int(corner.y()), int(corner.x())])

    keep_still(sheet)
    session.set_chart(flat(sheet, (10, 60, 10)), no_marks(sheet))
    assert seen() == (10, 60, 10)
    assert session.credit == "chart"
    keep_still(sheet)
    session.set_survey(flat(sheet, (90, 20, 60), "survey"))
    assert seen() == (90, 20, 60)
    assert session.credit == "survey"
    keep_still(sheet)
    session.set_survey(None)
    assert seen() == (10, 60, 10)
    assert session.credit == "chart"


def test_a_picture_is_brought_to_qt_once(sheet: SkySheet, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[Picture] = []
    real = layers_module.picture_pixmap

    def counted(picture: Picture, theme):
        made.append(picture)
        return real(picture, theme)

    monkeypatch.setattr(layers_module, "picture_pixmap", counted)
    sheet.session.set_chart(flat(sheet, (10, 60, 10)), no_marks(sheet))
    pixels(sheet)
    sheet.session.set_view(sheet.session.plan.view.model_copy(update={"ra_deg": 11.0}))
    pixels(sheet)
    assert len(made) == 1
    sheet.session.set_chart(flat(sheet, (10, 60, 10)), no_marks(sheet))
    pixels(sheet)
    assert len(made) == 2


def test_a_moving_view_is_drawn_fast_and_once_more_smoothly_at_rest(
    sheet: SkySheet, qtbot, monkeypatch: pytest.MonkeyPatch
) -> None:
    smooth: list[bool] = []
    real = layers_module.paint_ground

    def watched(painter, transform, content):
        smooth.append(content.smooth)
        real(painter, transform, content)

    monkeypatch.setattr(layers_module, "paint_ground", watched)
    qtbot.waitUntil(lambda: not sheet._rest.isActive())
    sheet.session.set_view(sheet.session.plan.view.model_copy(update={"ra_deg": 11.0}))
    pixels(sheet)
    assert smooth[-1] is False
    qtbot.waitUntil(lambda: smooth[-1] is True, timeout=3000)


# A frame in the hand ------------------------------------------------------------


def drag_step(sheet: SkySheet, point: QPointF) -> None:
    QTest.mouseMove(sheet, point.toPoint())
    QApplication.processEvents()


def test_a_frame_in_the_hand_leaves_no_trace_behind(sheet: SkySheet, fitting: str) -> None:
    """Only the part it crosses is repainted: watched on a kept picture of the widget."""
    dirty: list = []

    class Watch(SkySheet):
        def paintEvent(self, event) -> None:
            dirty.append(event.region())
            super().paintEvent(event)

    sheet.__class__ = Watch
    start = sheet.shape(fitting).centre
    QTest.mousePress(sheet, LEFT, NO_KEY, start.toPoint())
    drag_step(sheet, start + QPointF(30, 10))
    for way in ((80, 30), (20, -60), (-90, 10)):
        before = sheet.shape(fitting).bounds(2.0)
        dirty.clear()
        drag_step(sheet, start + QPointF(*way))
        after = sheet.shape(fitting).bounds(2.0)
        seen = dirty[0]
        for region in dirty[1:]:
            seen = seen.united(region)
        for bounds in (before, after):
            assert seen.contains(bounds.center().toPoint())
            for corner in (bounds.topLeft(), bounds.bottomRight()):
                at = sheet.sky_rect.intersected(bounds)
                point = QPointF(
                    min(max(corner.x(), at.left()), at.right() - 1),
                    min(max(corner.y(), at.top()), at.bottom() - 1),
                )
                assert seen.contains(point.toPoint())
    QTest.mouseRelease(sheet, LEFT, NO_KEY, (start + QPointF(-90, 10)).toPoint())
    sheet.__class__ = SkySheet


def test_the_still_layer_is_kept_while_a_frame_is_in_the_hand(
    sheet: SkySheet, fitting: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = sheet.shape(fitting).centre
    QTest.mousePress(sheet, LEFT, NO_KEY, start.toPoint())
    drag_step(sheet, start + QPointF(30, 10))
    painted: list[int] = []
    real = Layers.paint_still
    monkeypatch.setattr(Layers, "paint_still", lambda *given: (painted.append(1), real(*given))[1])
    for way in range(5):
        drag_step(sheet, start + QPointF(40 + 5 * way, 10))
    assert painted == []
    QTest.mouseRelease(sheet, LEFT, NO_KEY, (start + QPointF(60, 10)).toPoint())


def test_frames_are_cut_at_the_neat_line(sheet: SkySheet, fitting: str) -> None:
    session = sheet.session
    wide = session.framing(fitting).model_copy(update={"pa_deg": 45.0})
    session.edit("turn", edits.with_framing(session.plan, wide))
    sheet.session.set_view(
        session.plan.view.model_copy(update={"width_deg": session.plan.view.width_deg / 2.5})
    )
    colours = [DARK.frames[rig.colour] for rig in session.plan.rigs]
    image = pixels(sheet)
    left, top, right, bottom = (round(v) for v in sheet.sky_rect.getCoords())
    inside = image[top:bottom, left:right].copy()
    image[top - 1 : bottom + 1, left - 1 : right + 1] = 0
    for colour in colours:
        assert not near(image, colour, 12).any()
    assert any(near(inside, colour, 30).any() for colour in colours)


def test_a_frame_pointed_at_elsewhere_is_filled_as_well_as_bold(
    sheet: SkySheet, fitting: str
) -> None:
    session = sheet.session
    session.edit("none", edits.with_current_rig(session.plan, None))
    centre = sheet.shape(fitting).centre + QPointF(7.0, 11.0)
    before = pixels(sheet)[int(centre.y()), int(centre.x())]
    keep_still(sheet)
    session.rig_hovered.emit(fitting)
    lit = pixels(sheet)[int(centre.y()), int(centre.x())]
    assert np.abs(lit - before).max() > 4
    keep_still(sheet)
    session.rig_hovered.emit("")
    assert np.array_equal(pixels(sheet)[int(centre.y()), int(centre.x())], before)


def test_dash_and_colour_of_a_frame_are_its_rig_s(sheet: SkySheet, fitting: str) -> None:
    look = sheet.layers._look(fitting, bold=True)
    assert look.dash == layers_module.DASHES[sheet.session.rig.dash]
    session = sheet.session
    for colour, dash in ((1, 3), (6, 0), (2, 2)):
        session.edit("look", edits.with_rig_look(session.plan, fitting, colour=colour, dash=dash))
        look = sheet.layers._look(fitting, bold=True)
        assert (look.colour, look.dash) == (DARK.frames[colour], layers_module.DASHES[dash])
        assert look.letter == session.letter(fitting)


def test_the_chosen_frame_is_placed_before_all_others(sheet: SkySheet) -> None:
    for rig in sheet.session.plan.rigs:
        sheet.session.edit("choose", edits.with_current_rig(sheet.session.plan, rig.id))
        assert next(iter(sheet.layers.shapes(sheet.transform))) == rig.id


@pytest.mark.parametrize("theme", THEMES)
def test_the_target_s_outline_is_light_on_the_dark_sky_in_every_theme(
    sheet: SkySheet, theme: str
) -> None:
    from app.sky_sheet.target_outline import target_ring

    session = sheet.session
    sheet.set_style(THEMES[theme], 1.0)
    session.edit("bare", session.plan.but(rigs=(), framings=(), current_rig=None))
    ring = target_ring(session.target, sheet.transform)
    image = pixels(sheet).max(axis=-1)
    at = [ring.at(n) for n in range(ring.count())]
    lit = [image[int(p.y()) - 2 : int(p.y()) + 3, int(p.x()) - 2 : int(p.x()) + 3].max() > 60
           for p in at if sheet.sky_rect.adjusted(5, 5, -5, -5).contains(p)]  # fmt: skip
    assert sum(lit) > 0.7 * len(lit)


def test_the_sheet_s_sides_lie_on_whole_pixels_at_any_text_size() -> None:
    for text in (0.8, 1.0, 1.1, 1.3, 1.7, 2.0):
        rect = SheetStyle(DARK, text).sky_rect(QSize(1001, 667))
        assert all(float(side).is_integer() for side in rect.getCoords())
