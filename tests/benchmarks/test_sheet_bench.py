"""The sky sheet against the same items in a plain graphics view, and matplotlib.

Fifty rigs, 3,000 stars, a sheet of 1200 x 800 pixels: each figure is a change and the
event loop until it is painted, both ways in turns in one process.
"""

import itertools
from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest
from astropy.wcs import WCS
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES
from app.sky_sheet.gestures import TurnFrame
from app.sky_sheet.sheet import SkySheet
from core.catalogue.target import TargetKind
from core.gear.rig import rig_from_numbers
from core.pictures.picture import Picture, PictureFrame
from core.plan import edits
from core.plan.document import Plan, PlannedTarget, SheetView
from tests.benchmarks.plain_view import BlitCanvas, PlainView
from tests.benchmarks.timing import ratio

pytestmark = [pytest.mark.gui, pytest.mark.slow]

SIZE = (1200, 800)
RIGS, STARS = 50, 3000


class CountingSheet(SkySheet):
    """The sheet, counting its paintings so that one can be waited for."""

    painted = 0

    def paintEvent(self, event) -> None:
        super().paintEvent(event)
        self.painted += 1

    def wait_painted(self) -> None:
        before = self.painted
        while self.painted == before:
            QApplication.processEvents()


def fifty_rigs() -> Plan:
    """Rigs from 135 to 1600 mm on a target near Dec +41, in full, dashed, dotted lines."""
    plan = Plan(title="Fifty rigs")
    target = PlannedTarget(
        id="M 31", name="M 31", kind=TargetKind.GALAXY, ra_deg=10.685, dec_deg=41.269,
        major_arcmin=178.0, minor_arcmin=70.0, pa_deg=35.0, angle_trusted=True,
    )  # fmt: skip
    plan = edits.with_target(plan, target)
    for place in range(RIGS):
        rig = rig_from_numbers(
            f"Rig {place}", focal_length_mm=250.0 + 27.0 * place, aperture_mm=80.0,
            factor=1.0, pixel_um=3.76, columns=6248, rows=4176,
        )  # fmt: skip
        plan = edits.with_rig(plan, rig)
    # The plain view has no graticule either.
    view = SheetView(ra_deg=10.685, dec_deg=41.269, width_deg=4.5, graticule=False)
    return edits.with_view(edits.with_current_rig(plan, plan.rigs[RIGS // 2].id), view)


def picture_for(sheet: SkySheet, rng: np.random.Generator) -> Picture:
    """A picture a little larger than the sheet, as the loader brings it."""
    from app.picture_loader import PictureLoader

    frame = PictureLoader.wanted_frame(cast(PictureLoader, SimpleNamespace(_sheet=sheet)))
    shape = (frame.height_px, frame.width_px, 3)
    return Picture(rng.integers(0, 60, shape, dtype=np.uint8), frame, "Drawn", "chart")


@pytest.fixture
def sheet(qtbot: QtBot) -> CountingSheet:
    """Our sheet on the screen, settled."""
    session = Session(fifty_rigs(), None, None)
    made = CountingSheet(session, THEMES["dark"])
    qtbot.addWidget(made)
    made.resize(*SIZE)
    session.chart = picture_for(made, np.random.default_rng(1))
    with qtbot.waitExposed(made):
        made.show()
    qtbot.wait(300)
    return made


@pytest.fixture
def plain(qtbot: QtBot) -> PlainView:
    """The plain view of as many items, on the screen."""
    rng = np.random.default_rng(1)
    stars = rng.uniform(0.0, 1.0, (STARS, 3)) * (*SIZE, 2.5)
    sizes = 250.0 + 27.0 * np.arange(RIGS)
    frames = np.stack([330000.0 / sizes, 220000.0 / sizes, np.full(RIGS, 35.0)], axis=-1)
    pixels = rng.integers(0, 60, (1500, 1500, 3), dtype=np.uint8)
    made = PlainView(pixels, stars, frames, SIZE)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    qtbot.wait(300)
    return made


def turning(sheet: CountingSheet):
    """A hand on the stalk of the chosen frame, one step a call."""
    gesture = TurnFrame(sheet.session, sheet.transform)
    middle = sheet.sky_rect.center()
    angles = itertools.count(0, 3)

    def step() -> None:
        angle = np.radians(next(angles) % 360)
        gesture.follow(
            middle + QPointF(300.0 * np.cos(angle), 300.0 * np.sin(angle)),
            Qt.KeyboardModifier.NoModifier,
        )
        sheet.wait_painted()

    return step


def repeated(step, times: int):
    def many() -> None:
        for _ in range(times):
            step()

    return many


def test_a_drag_frame_costs_a_fiftieth_of_the_plain_view(sheet, plain) -> None:
    angles = itertools.count(0, 3)
    item = plain.frames[RIGS // 2]

    def plain_step() -> None:
        item.setRotation(next(angles))
        plain.wait_painted()

    measured = ratio(
        repeated(plain_step, 40), repeated(turning(sheet), 40), label="drag, plain view"
    )
    assert measured.times_faster >= 50.0


def test_a_drag_frame_costs_a_tenth_of_matplotlib_blit_and_paint(sheet, qtbot) -> None:
    pixels = np.random.default_rng(1).integers(0, 60, (1500, 1500, 3), dtype=np.uint8)
    chart = sheet.session.chart.frame
    whole = PictureFrame(chart.plane, 1500, 1500, chart.scale_rad_px)
    canvas = BlitCanvas(pixels, SIZE, WCS(whole.wcs_header()))
    qtbot.addWidget(canvas)
    with qtbot.waitExposed(canvas):
        canvas.show()
    canvas.keep_background()
    angles = itertools.count(0, 3)
    measured = ratio(
        repeated(lambda: canvas.turn(next(angles)), 40),
        repeated(turning(sheet), 40),
        label="drag, matplotlib blit and paint",
    )
    assert measured.times_faster >= 10.0


def test_a_full_repaint_costs_an_eighth_of_the_plain_view(sheet, plain) -> None:
    def plain_step() -> None:
        plain.viewport().update()
        plain.wait_painted()

    def step() -> None:
        sheet.layers.forget_picture()
        sheet.update()
        sheet.wait_painted()

    measured = ratio(repeated(plain_step, 5), repeated(step, 5), label="full repaint")
    assert measured.times_faster >= 8.0


def test_a_zoom_step_costs_a_sixth_of_the_plain_view(sheet, plain) -> None:
    factors = itertools.cycle([1.03] * 6 + [1 / 1.03] * 6)
    middle = sheet.sky_rect.center()

    def plain_step() -> None:
        factor = next(factors)
        plain.scale(factor, factor)
        plain.wait_painted()

    def step() -> None:
        sheet.session.set_view(sheet.transform.zoomed(next(factors), middle))
        sheet.wait_painted()

    measured = ratio(repeated(plain_step, 12), repeated(step, 12), rounds=9, label="zoom")
    assert measured.times_faster >= 6.0
