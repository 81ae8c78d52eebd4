"""The page of the bench that reads frames, worked as a person does it."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.frame_reading.page import FramePage
from app.session import Session
from app.shared.theme import THEMES, Theme
from core.plan import edits
from tests.app.frame_reading.hands import BINNED, Reads, choose, click_tick, press, row
from tests.app.seeing import Dress, Host, close_to, pixels
from tests.core.gear.from_frame.frames import WHOLE, frame


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


def test_another_frame_takes_the_place_of_the_one_before(
    reads: Reads, qtbot: QtBot, tmp_path: Path
) -> None:
    page = reads(WHOLE)
    click_tick(qtbot, page, "columns")
    page.read(str(frame(tmp_path / "second.fits", **{**WHOLE, "FOCALLEN": 500.0})))
    qtbot.waitUntil(lambda: not page.busy)
    assert page.words.text() == "What second.fits tells, by its FITS header:"
    assert row(page, "focal_length_mm").value.text() == "500 mm"
    assert row(page, "columns").tick.isChecked(), "every figure of a new frame is to be taken"


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


@pytest.mark.parametrize(("width", "beside"), [(1000, True), (520, False)])
def test_the_source_stands_below_where_there_is_no_room_beside(
    reads: Reads, qtbot: QtBot, width: int, beside: bool
) -> None:
    page = reads(BINNED)
    page.window().resize(width, 600)
    pixel = row(page, "pixel_um")

    def place(widget: QWidget) -> QRect:
        return QRect(widget.mapTo(page.sheet, QPoint(0, 0)), widget.size())

    def stands_right() -> bool:
        source, readings = place(pixel.source), place(pixel.readings)
        if beside:
            return source.left() > readings.right() and source.top() < readings.bottom()
        return source.left() == readings.left() and source.top() > readings.bottom()

    qtbot.waitUntil(stands_right)
    assert place(pixel.source).right() <= page.sheet.width()
    assert page.horizontalScrollBar().maximum() == 0
