"""What the sheet paints: frames where they are, flags, red light."""

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.shared.theme import THEMES
from app.sky_sheet.frame_shape import FLAG_RADIUS
from app.sky_sheet.furniture import plates
from app.sky_sheet.labels import LabelPen
from app.sky_sheet.layers import Layers, SheetStyle
from app.sky_sheet.sheet import SkySheet
from core.catalogue.target import TargetKind
from core.pictures.marks import Label as SkyLabel
from core.pictures.marks import Marks
from core.pictures.picture import Picture
from core.plan import edits
from tests.app.sky_sheet.canvas import as_array, near

pytestmark = pytest.mark.gui

LEFT = Qt.MouseButton.LeftButton
NO_KEY = Qt.KeyboardModifier.NoModifier


def pixels(sheet: SkySheet) -> QImage:
    return sheet.grab().toImage()


def near_colour(image: QImage, x: float, y: float, colour: str, reach: int = 2) -> bool:
    """Whether a colour is found within a few pixels of a place."""
    wanted, ratio = QColor(colour), image.devicePixelRatio()
    for dx in range(-reach, reach + 1):
        for dy in range(-reach, reach + 1):
            seen = image.pixelColor(round(x * ratio) + dx, round(y * ratio) + dy)
            gap = max(
                abs(seen.red() - wanted.red()),
                abs(seen.green() - wanted.green()),
                abs(seen.blue() - wanted.blue()),
            )
            if gap < 40:
                return True
    return False


def test_the_chosen_frame_is_painted_where_its_corners_are(sheet: SkySheet, fitting: str) -> None:
    colour = THEMES["dark"].frames[sheet.session.rig.colour]
    for x, y in sheet.shape(fitting).points:
        assert near_colour(pixels(sheet), x, y, colour, 3)
    sheet.session.edit("hide", edits.with_rig_shown(sheet.session.plan, fitting, shown=False))
    image = pixels(sheet)
    x, y = sheet.sky_rect.center().x(), sheet.sky_rect.bottom() - 40
    assert not near_colour(image, x, y, colour)


def test_pixels_follow_the_frame_while_it_is_in_the_hand(sheet: SkySheet, fitting: str) -> None:
    colour = THEMES["dark"].frames[sheet.session.rig.colour]
    shape = sheet.shape(fitting)
    start, way = shape.centre, QPointF(30.0, 17.0)
    QTest.mousePress(sheet, LEFT, NO_KEY, start.toPoint())
    QTest.mouseMove(sheet, (start + way).toPoint())
    QApplication.processEvents()
    image = pixels(sheet)
    for x, y in shape.points:
        assert near_colour(image, x + way.x(), y + way.y(), colour, 3)
    QTest.mouseRelease(sheet, LEFT, NO_KEY, (start + way).toPoint())


def test_deep_red_paints_no_pixel_with_green_or_blue(sheet: SkySheet) -> None:
    """Red light spares the dark-adapted eye (common practice)."""
    sheet.set_style(THEMES["deep-red"], 1.0)
    image = pixels(sheet).convertToFormat(QImage.Format.Format_RGB888)
    seen = memoryview(image.constBits()).tobytes()
    line, worst = image.bytesPerLine(), 0
    for row in range(0, image.height(), 3):
        part = seen[row * line : row * line + 3 * image.width()]
        worst = max(worst, max(part[1::3]), max(part[2::3]))
    assert worst <= 0x4A


def test_hover_from_elsewhere_lights_a_frame(sheet: SkySheet, fitting: str) -> None:
    other = next(
        rig for rig in sheet.session.plan.rigs if rig.id != fitting and sheet.shape(rig.id).points
    )
    before = pixels(sheet)
    sheet.session.rig_hovered.emit(other.id)
    lit = pixels(sheet)
    sheet.session.rig_hovered.emit("")
    assert lit != before
    assert pixels(sheet) == before


def test_an_empty_plan_paints_a_sheet_without_frames(sheet: SkySheet) -> None:
    plan = sheet.session.plan
    sheet.session.edit("clear", plan.but(rigs=(), framings=(), current_rig=None))
    assert sheet.layers.shapes(sheet.transform) == {}
    assert not pixels(sheet).isNull()


def test_every_frame_s_flag_is_painted_the_chosen_one_filled(sheet: SkySheet) -> None:
    """No line of another frame crosses the disc of one that is not chosen."""
    image, session = as_array(pixels(sheet)), sheet.session
    for rig_id, shape in sheet.layers.shapes(sheet.transform).items():
        if shape.flag is None:
            continue
        x, y = shape.flag.toPoint().toTuple()
        disc = image[y - 9 : y + 10, x - 9 : x + 10]
        colour = THEMES["dark"].frames[session.planned_rig(rig_id).colour]
        filled = near(disc, colour).sum()
        if rig_id == session.plan.current_rig:
            assert filled > 140
        else:
            assert 20 < filled < 140
            assert near(disc, THEMES["dark"].plate, 30).sum() > 60
    assert FLAG_RADIUS == 9.0


def test_no_name_stands_on_a_flag_on_the_compass_or_on_the_bar(
    sheet: SkySheet, fitting: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    transform, session = sheet.transform, sheet.session
    flag = sheet.shape(fitting).flag
    compass, bar = plates(transform, sheet.layers.style.small)
    spots = {
        "flag": flag - QPointF(10.0, -8.0),
        "compass": compass.center() - QPointF(10.0, 0.0),
        "bar": bar.center() - QPointF(10.0, 0.0),
        "free": transform.rect.topLeft() + QPointF(40.0, 60.0),
    }
    labels = tuple(
        SkyLabel(text, *transform.to_plane(spot), 0.0, TargetKind.GALAXY, 0)
        for text, spot in spots.items()
    )
    frame = transform.frame
    sky = np.zeros((frame.height_px, frame.width_px, 3), dtype=np.uint8)
    session.set_chart(Picture(sky, frame, "", "chart"), Marks(frame.plane, (), labels))
    written: list[str] = []
    monkeypatch.setattr(LabelPen, "write", lambda pen, painter, label: written.append(label.text))
    pixels(sheet)
    assert written == ["free"]
    session.edit("bare", session.plan.but(rigs=(), framings=(), current_rig=None))
    written.clear()
    pixels(sheet)
    assert written == ["flag", "free"]


def test_the_kept_layer_is_as_fine_as_the_screen(sheet: SkySheet) -> None:
    layers = Layers(sheet.session, SheetStyle(THEMES["dark"], 1.0))
    still = layers.still(layers.transform(QSize(700, 500), 2.0), 2.0)
    assert (still.width(), still.height()) == (1400, 1000)
    assert still.devicePixelRatio() == 2.0


@pytest.mark.parametrize("ratio", [1.0, 2.0])
def test_a_part_repainted_from_the_kept_layer_is_that_part(
    sheet: SkySheet, monkeypatch: pytest.MonkeyPatch, ratio: float
) -> None:
    monkeypatch.setattr(sheet, "devicePixelRatioF", lambda: ratio)
    sheet.layers.still(sheet.transform, ratio)
    part = QRect(310, 220, 240, 160)
    whole = as_array(sheet.grab().toImage())
    alone = as_array(sheet.grab(part).toImage())
    wanted = whole[part.top() : part.bottom() + 1, part.left() : part.right() + 1]
    assert alone.shape == wanted.shape
    assert np.abs(alone - wanted).mean() < 1.0
    assert wanted.std() > 5.0
