"""The page of the bench that reads frames, worked as a person does it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.frame_reading.page import FramePage
from app.frame_reading.row import FigureRow
from app.session import Session
from app.shared.theme import THEMES, Theme
from core.plan import edits
from tests.app.seeing import Dress, Host, close_to, pixels
from tests.core.gear.from_frame.frames import WHOLE, frame

LEFT = Qt.MouseButton.LeftButton
BINNED = {**WHOLE, "XPIXSZ": 7.52, "YPIXSZ": 7.52, "XBINNING": 2, "YBINNING": 2}
Reads = Callable[..., FramePage]


@pytest.fixture
def reads(qtbot: QtBot, session: Session, dark: Theme, host: Host, tmp_path: Path) -> Reads:
    """Give a function that shows a page and lets it read a frame of some cards."""

    def read(cards: dict[str, Any] | None = None, **more: Any) -> FramePage:
        page = FramePage(session, lambda: "", dark, 1.0)
        host(page)
        if cards is not None:
            page.read(str(frame(tmp_path / "light.fits", **cards, **more)))
            qtbot.waitUntil(lambda: not page.busy)
        return page

    return read


@pytest.fixture
def said(session: Session) -> list[tuple[str, str]]:
    heard: list[tuple[str, str]] = []
    session.said.connect(lambda words, level: heard.append((words, level)))
    return heard


def row(page: FramePage, field: str) -> FigureRow:
    return page.sheet.rows[field]


def press(qtbot: QtBot, button: QPushButton) -> None:
    assert button.isVisible()
    qtbot.mouseClick(button, LEFT)


def click_tick(qtbot: QtBot, page: FramePage, field: str) -> None:
    box = row(page, field).tick
    qtbot.mouseClick(box, LEFT, pos=QPoint(6, box.height() // 2))


def choose(qtbot: QtBot, page: FramePage, field: str, place: int) -> None:
    """Choose by the keyboard, as in any list."""
    readings = row(page, field).readings
    assert readings.isVisible()
    readings.setFocus()
    qtbot.keyClick(readings, Qt.Key.Key_Home if place == 0 else Qt.Key.Key_End)


def test_an_empty_page_says_what_it_is_for(reads: Reads) -> None:
    page = reads()
    assert "drop it here" in page.words.text()
    assert page.choose.isVisible()
    assert page.sheet is None


def test_figures_stand_with_their_source_and_what_the_rig_has(
    reads: Reads, session: Session
) -> None:
    page = reads(WHOLE, EXPTIME=120.0)
    focal, pixel = row(page, "focal_length_mm"), row(page, "pixel_um")
    assert (focal.value.text(), focal.source.text()) == ("400 mm", "FOCALLEN")
    assert session.rig is not None
    assert focal.now.text() == f"{session.rig.rig.focal_length_mm:.6g} mm"
    assert (pixel.value.text(), pixel.source.text()) == ("3.76 µm", "XPIXSZ")
    assert not row(page, "sensor").tick.isVisible(), "what is not told is not shown"
    assert "exposure 120 s (EXPTIME)" in page.sheet.also.text()
    assert page.sheet.outcome.text().startswith("80/400 f/5 · 1.94″/px · ")


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


def test_what_is_ambiguous_is_a_choice(reads: Reads, session: Session, qtbot: QtBot) -> None:
    page = reads(BINNED)
    pixel = row(page, "pixel_um")
    assert pixel.readings.currentText() == "3.76 µm, binning counted"
    assert pixel.source.text().startswith("? XPIXSZ / XBINNING; taken to count the binning of 2")
    assert pixel.source.property("level") == "caution"
    choose(qtbot, page, "pixel_um", 1)
    assert pixel.readings.currentText() == "7.52 µm, not counted"
    assert pixel.source.text() == "XPIXSZ; as you chose"
    press(qtbot, page.sheet.add)
    assert session.rig is not None
    assert session.rig.rig.camera.pixel_um == 7.52


def test_what_is_missing_is_asked_for_and_can_be_typed(
    reads: Reads, session: Session, qtbot: QtBot
) -> None:
    cards = {word: worth for word, worth in WHOLE.items() if word != "APTDIA"}
    page = reads(cards)
    aperture = row(page, "aperture_mm")
    assert (aperture.typed.text(), aperture.typed.placeholderText()) == ("", "not told, mm")
    assert not aperture.tick.isEnabled()
    assert page.sheet.outcome.text() == "A new rig needs the aperture too: tick or type it."
    assert not page.sheet.add.isEnabled()
    assert page.sheet.change.isEnabled()
    assert aperture.typed.isVisible()
    aperture.typed.setFocus()
    qtbot.keyClicks(aperture.typed, "80,5 mm")
    qtbot.keyClick(aperture.typed, Qt.Key.Key_Return)
    assert (aperture.typed.text(), aperture.source.text()) == ("80.5", "given")
    press(qtbot, page.sheet.add)
    assert session.rig is not None
    assert session.rig.rig.aperture_mm == 80.5


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("wide", 'Aperture "wide": must be a number of mm'),
        ("0", 'Aperture "0 mm": must lie between 0.1 and 50000 mm'),
        ("nan", 'Aperture "nan mm": must lie between 0.1 and 50000 mm'),
    ],
)
def test_what_is_typed_wrong_stays_with_one_sentence(
    reads: Reads, qtbot: QtBot, typed: str, sentence: str
) -> None:
    page = reads({"FOCALLEN": 400.0, "XPIXSZ": 3.76})
    line = row(page, "aperture_mm").typed
    line.setFocus()
    qtbot.keyClicks(line, typed)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert line.complaint.text() == sentence
    assert line.text() == typed
    assert not page.sheet.add.isEnabled()


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


def test_remarks_on_the_frame_are_shown(reads: Reads) -> None:
    page = reads({**WHOLE, "APTDIA": "80,0", "EGAIN": -1.0})
    assert 'APTDIA is the text "80,0", read as 80.\n' in page.sheet.remarks.text()
    assert not reads(WHOLE).sheet.remarks.isVisible()


def test_a_file_that_is_no_frame_gets_one_sentence(
    reads: Reads, qtbot: QtBot, tmp_path: Path
) -> None:
    page = reads(WHOLE)
    (tmp_path / "note.txt").write_text("Dear diary", "utf-8")
    page.read(str(tmp_path / "note.txt"))
    qtbot.waitUntil(lambda: not page.busy)
    expected = "note.txt is no picture that can be read here: FITS, JPEG or TIFF."
    assert page.words.text() == f"That cannot be read: {expected}"
    assert page.words.property("level") == "bad"
    assert not page.sheet.isVisible()


def test_without_a_rig_only_a_new_one_can_be_made(
    reads: Reads, session: Session, qtbot: QtBot
) -> None:
    session.edit("none", edits.with_current_rig(session.plan, None))
    page = reads(WHOLE)
    assert not page.sheet.change.isVisible()
    assert row(page, "focal_length_mm").now.text() == ""
    press(qtbot, page.sheet.add)
    assert session.rig is not None


def test_another_rig_chosen_meanwhile_is_the_one_compared(reads: Reads, session: Session) -> None:
    page, other = reads(WHOLE), session.plan.rigs[0]
    session.edit("choose", edits.with_current_rig(session.plan, other.id))
    assert page.sheet.change.text() == f"Change A, {other.rig.name}"
    assert row(page, "aperture_mm").now.text() == f"{other.rig.aperture_mm:.6g} mm"


def test_the_button_asks_for_a_file_and_giving_up_changes_nothing(
    qtbot: QtBot, session: Session, dark: Theme, host: Host, tmp_path: Path
) -> None:
    answers = ["", str(frame(tmp_path / "light.fits", **WHOLE))]
    page = FramePage(session, lambda: answers.pop(0), dark, 1.0)
    host(page)
    press(qtbot, page.choose)
    assert not page.busy
    assert page.sheet is None
    press(qtbot, page.choose)
    qtbot.waitUntil(lambda: page.sheet is not None)
    assert page.sheet.isVisible()


@pytest.mark.parametrize("key", list(THEMES))
def test_a_tick_is_seen_in_every_theme(
    qtbot: QtBot, session: Session, dress: Dress, host: Host, tmp_path: Path, key: str
) -> None:
    theme = THEMES[key]
    dress(theme, 1.0)
    page = FramePage(session, lambda: "", theme, 1.0)
    host(page)
    page.read(str(frame(tmp_path / "light.fits", **WHOLE)))
    qtbot.waitUntil(lambda: not page.busy)
    box = row(page, "columns").tick
    assert close_to(pixels(box)[:, :14], theme.accent) > 60
    click_tick(qtbot, page, "columns")
    box.clearFocus()
    qtbot.waitUntil(lambda: close_to(pixels(box)[:, :14], theme.accent) < 20)
