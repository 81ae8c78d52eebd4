"""The sheet as a picture file: as fine, as turned and as credited as the window's."""

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QImage

from app.session import Session
from app.shared.theme import THEMES
from app.sky_sheet import image as image_module
from app.sky_sheet.image import grab_sheet, save_sheet_image
from app.sky_sheet.layers import Layers, SheetStyle
from app.sky_sheet.sheet import SkySheet
from core.catalogue.target import TargetKind
from core.errors import StorageError
from core.pictures.chart import CHART_CREDIT
from core.pictures.picture import Picture
from core.plan import edits
from core.plan.document import SheetView
from core.plan.store import demo_plan
from tests.app.sky_sheet.canvas import as_array, near
from tests.app.sky_sheet.test_ground import off_by

pytestmark = [pytest.mark.gui, pytest.mark.usefixtures("fonts")]

DARK = THEMES["dark"]
SIZE = QSize(700, 500)


def bare(stars, targets, **view: object) -> Session:
    """A session with nothing over the sky."""
    shown = SheetView(ra_deg=83.0, dec_deg=10.0, width_deg=5.0, labels=(), **view)
    plan = demo_plan()
    plan = plan.but(rigs=(), framings=(), current_rig=None, targets=(), current_target=None)
    return Session(edits.with_view(plan, shown), stars, targets)


def lone(stars, transform, rect) -> np.ndarray:
    """Places of bright stars with nothing bright around, from the catalogue alone."""
    view = transform.view
    found = stars.cone(view.ra_deg, view.dec_deg, view.width_deg)
    places = transform.sky_to_screen(found.ra_deg, found.dec_deg)
    inside = [rect.adjusted(70, 20, -20, -80).contains(QPointF(*p)) for p in places]
    places, v_mag = places[inside], found.v_mag[inside]
    kept = []
    for place in np.argsort(v_mag)[:60]:
        apart = np.hypot(*(places - places[place]).T)
        if not ((apart > 0) & (apart < 14) & (v_mag < v_mag[place] + 4.0)).any():
            kept.append(places[place])
    return np.array(kept[:15])


@pytest.mark.parametrize("ratio", [1.0, 2.0])
@pytest.mark.parametrize("turn", [{}, {"mirrored": True}])
def test_stars_of_a_saved_sheet_lie_on_the_catalogue_s(stars, targets, turn, ratio: float) -> None:
    session = bare(stars, targets, **turn)
    style = SheetStyle(DARK, 1.0)
    image = image_module._image(session, style, SIZE, ratio)
    assert (image.width(), image.height()) == (700 * ratio, 500 * ratio)
    transform = Layers(session, style).transform(SIZE, ratio)
    off = off_by(as_array(image), lone(stars, transform, transform.rect) * ratio, round(6 * ratio))
    assert len(off) >= 5
    assert np.quantile(np.abs(off), 0.8, axis=0).max() < 0.4


def test_a_saved_sheet_turns_with_the_camera(stars, targets) -> None:
    session = Session(demo_plan(), stars, targets)
    session.look_at_target()
    turned = session.framing(session.rig.id).model_copy(update={"pa_deg": 140.0})
    session.edit("turn", edits.with_framing(session.plan, turned))
    session.change_view(camera_up=True, labels=())
    for rig in session.plan.rigs:
        plan = edits.with_rig_shown(session.plan, rig.id, shown=False)
        session.edit("hide", plan)
    style = SheetStyle(DARK, 1.0)
    image = image_module._image(session, style, SIZE, 1.0)
    transform = Layers(session, style).transform(SIZE, 1.0)
    assert transform.up_pa_deg == 140.0
    off = off_by(as_array(image), lone(stars, transform, transform.rect))
    assert len(off) >= 5
    assert np.median(np.abs(off), axis=0).max() < 0.4


def test_the_chart_of_a_saved_sheet_is_drawn_just_as_it_lies(
    stars, targets, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that Qt copies it pixel for pixel."""
    drawn: list[Picture] = []
    real = image_module.draw_chart

    def watched(*given, **more) -> Picture:
        drawn.append(real(*given, **more))
        return drawn[-1]

    monkeypatch.setattr(image_module, "draw_chart", watched)
    session, style = bare(stars, targets, mirrored=True), SheetStyle(DARK, 1.0)
    seen = as_array(image_module._image(session, style, SIZE, 1.0))
    left, top, right, bottom = (round(v) for v in style.sky_rect(SIZE).getCoords())
    part = slice(10, bottom - top - 100), slice(10, right - left - 10)
    assert np.array_equal(seen[top:bottom, left:right][part], drawn[0].pixels[part])


def test_stars_are_no_smaller_on_a_finer_picture(stars, targets) -> None:
    """As wide in logical pixels: twice as wide in those of the file."""
    session, style = bare(stars, targets), SheetStyle(DARK, 1.0)
    transform = Layers(session, style).transform(SIZE, 1.0)
    x, y = lone(stars, transform, transform.rect)[3]

    def width(ratio: float) -> float:
        light = as_array(image_module._image(session, style, SIZE, ratio)).sum(axis=-1)
        row, column, reach = int(y * ratio), int(x * ratio), int(7 * ratio)
        part = light[row - reach : row + reach + 1, column - reach : column + reach + 1]
        part = np.clip(part - np.median(part), 0, None)
        return float((part > part.max() / 2).sum()) ** 0.5

    assert width(2.0) == pytest.approx(2.0 * width(1.0), rel=0.3)


def test_frames_names_and_credit_are_in_the_file(tmp_path: Path) -> None:
    plan = demo_plan()
    path = tmp_path / "sheet.png"
    save_sheet_image(plan, path, (900, 640))
    full = as_array(QImage(str(path)))
    assert full.shape == (640, 900, 3)
    rig = next(rig for rig in plan.rigs if rig.id == plan.current_rig)
    without = edits.with_rig_shown(plan, rig.id, shown=False)
    save_sheet_image(without, path, (900, 640))
    colour, bare_sky = DARK.frames[rig.colour], as_array(QImage(str(path)))
    assert near(full, colour).sum() > near(bare_sky, colour).sum() + 300
    ground = near(full[-20:, 400:], DARK.ground, 6)
    assert (~ground).sum() > 100
    bare_view = plan.view.model_copy(update={"labels": ()})
    save_sheet_image(edits.with_view(plan, bare_view), path, (900, 640))
    assert not np.array_equal(full, as_array(QImage(str(path))))


def test_a_saved_sheet_has_the_names_its_plan_asks_for_and_no_other(
    stars, targets, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[list[TargetKind]] = []
    real = image_module.marks

    def watched(frame, table, kinds):
        asked.append(list(kinds))
        return real(frame, table, kinds)

    monkeypatch.setattr(image_module, "marks", watched)
    session = bare(stars, targets)
    session.change_view(labels=("galaxy", "dark nebula"))
    image_module._image(session, SheetStyle(DARK, 1.0), SIZE, 1.0)
    assert asked == [[TargetKind.GALAXY, TargetKind.DARK_NEBULA]]


def test_a_saved_sheet_credits_the_catalogues_or_the_survey_that_is_shown(stars, targets) -> None:
    session, style = bare(stars, targets), SheetStyle(DARK, 1.0)
    layers = Layers(session, style)
    frame = layers.transform(SIZE, 1.0).frame
    colour = np.full((frame.height_px, frame.width_px, 3), (90, 20, 60), dtype=np.uint8)
    drawn = as_array(image_module._image(session, style, SIZE, 1.0))
    session.set_survey(Picture(colour, frame, "Somebody's survey", "s"))
    seen = as_array(image_module._image(session, style, SIZE, 1.0))
    assert tuple(seen[250, 400]) == (90, 20, 60)

    def ink(image: np.ndarray) -> int:
        return int((~near(image[-18:, 40:690], DARK.ground, 12)).sum())

    assert ink(drawn) > 2 * ink(seen) > 200
    assert "CC-BY-SA" in CHART_CREDIT


def test_a_window_s_sheet_is_grabbed_in_its_own_style(sheet: SkySheet) -> None:
    sheet.set_style(THEMES["light"], 1.0)
    image = grab_sheet(sheet, 2.0)
    assert (image.width(), image.height()) == (2000, 1400)
    assert near(as_array(image)[4:8, 4:8], THEMES["light"].ground, 3).all()


def test_where_nothing_can_be_written_one_sentence_says_so(tmp_path: Path) -> None:
    path = tmp_path / "no" / "such" / "folder.png"
    with pytest.raises(StorageError, match=r"folder\.png"):
        save_sheet_image(demo_plan(), path, (400, 300))
