"""Figures of a frame that go into the plan: into a new rig, or into the chosen one."""

import pytest
from pytestqt.qtbot import QtBot

from app.session import Session
from core.plan import edits
from tests.app.frame_reading.hands import BINNED, Reads, click_tick, press, row
from tests.core.gear.from_frame.frames import WHOLE


def test_a_new_rig_is_one_step_that_can_be_undone(
    reads: Reads, session: Session, qtbot: QtBot, said: list[tuple[str, str]]
) -> None:
    before, page = session.plan, reads(WHOLE)
    with qtbot.waitSignal(page.taken):
        press(qtbot, page.sheet.add)
    assert session.plan.rigs[:-1] == before.rigs
    assert session.rig is not None
    assert session.rig.rig.name == "80/400 with 40 × 30 px"
    assert session.rig.rig.camera.name == "eye"
    assert said[-1] == ("80/400 with 40 × 30 px is in the plan, from light.fits.", "good")
    assert session.history.undoText() == "rig from light.fits"
    session.history.undo()
    assert session.plan == before


def test_what_is_not_ticked_does_not_go_into_a_new_rig(
    reads: Reads, session: Session, qtbot: QtBot
) -> None:
    page = reads(WHOLE)
    click_tick(qtbot, page, "camera")
    press(qtbot, page.sheet.add)
    assert session.rig is not None
    assert session.rig.rig.telescope.name == "tube"
    assert session.rig.rig.camera.name == "sensor 40 × 30 px"


def test_the_chosen_rig_takes_what_is_ticked_and_keeps_the_rest(
    reads: Reads, session: Session, qtbot: QtBot
) -> None:
    page, planned = reads({**WHOLE, "XPIXSZ": 2.4}), session.rig
    assert planned is not None
    for field in ("columns", "rows", "focal_length_mm", "aperture_mm"):
        click_tick(qtbot, page, field)
    page.sheet.change.setFocus()
    with qtbot.waitSignal(page.taken):
        press(qtbot, page.sheet.change)
    assert session.history.undoText() == "figures of light.fits for D"
    after = session.planned_rig(planned.id).rig
    assert after == planned.rig.but(camera=planned.rig.camera.but(pixel_um=2.4))
    assert after.camera.name == planned.rig.camera.name, "names are for new rigs"


def test_every_figure_goes_into_the_chosen_rig_at_once(
    reads: Reads, session: Session, qtbot: QtBot, said: list[tuple[str, str]]
) -> None:
    before, page = session.plan, reads(BINNED, BAYERPAT="RGGB")
    press(qtbot, page.sheet.change)
    assert session.rig is not None
    rig = session.rig.rig
    assert rig.focal_length_mm == pytest.approx(400.0)
    assert (rig.camera.columns, rig.camera.rows, rig.camera.sensor) == (80, 60, "colour")
    assert said[-1][0].endswith(
        "has from light.fits: focal length, aperture, pixel pitch, columns, rows, sensor."
    )
    assert row(page, "columns").now.text() == "80 px", "the page follows the plan"
    session.history.undo()
    assert session.plan == before


def test_a_tick_taken_away_leaves_a_needed_figure_open(reads: Reads, qtbot: QtBot) -> None:
    page = reads(WHOLE)
    click_tick(qtbot, page, "pixel_um")
    assert not page.sheet.add.isEnabled()
    assert page.sheet.outcome.text() == "A new rig needs the pixel pitch too: tick or type it."
    click_tick(qtbot, page, "pixel_um")
    assert page.sheet.add.isEnabled()


def test_with_nothing_ticked_nothing_can_be_changed(reads: Reads, qtbot: QtBot) -> None:
    page = reads(WHOLE)
    for field, one in page.sheet.rows.items():
        if one.tick.isVisible() and field not in ("telescope", "camera"):
            click_tick(qtbot, page, field)
    assert not page.sheet.change.isEnabled()


def test_figures_that_cannot_belong_together_are_refused_and_change_nothing(
    reads: Reads, session: Session, qtbot: QtBot
) -> None:
    before, page = session.plan, reads({**WHOLE, "APTDIA": 5000.0})
    assert not page.sheet.add.isEnabled()
    assert page.sheet.outcome.text().startswith('Focal ratio "f/0.08')
    press(qtbot, page.sheet.change)
    assert page.sheet.outcome.property("level") == "bad"
    assert session.plan == before


def test_without_a_rig_only_a_new_one_can_be_made(
    reads: Reads, session: Session, qtbot: QtBot
) -> None:
    session.edit("none", edits.with_current_rig(session.plan, None))
    page = reads(WHOLE)
    assert not page.sheet.change.isVisible()
    assert row(page, "focal_length_mm").now.text() == ""
    press(qtbot, page.sheet.add)
    assert session.rig is not None
