"""The line at the bottom: what was said, on its way, under the pointer."""

import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QTextDocument
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QToolButton
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES
from app.window.status_line import StatusLine
from tests.app.seeing import Dress, Host, count_of

pytestmark = pytest.mark.gui


class Loader(QObject):
    """Tells what is on its way, and hears that it is given up."""

    progressed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.stopped = 0

    def stop_fetching(self) -> None:
        self.stopped += 1


@pytest.fixture
def loader() -> Loader:
    return Loader()


@pytest.fixture
def line(session: Session, loader: Loader, host: Host, dark) -> StatusLine:
    made = StatusLine(session, loader)
    host(made, width=900)
    return made


def label(line: StatusLine, name: str) -> QLabel:
    return next(part for part in line.findChildren(QLabel) if part.accessibleName() == name)


def seen_in(tooltip: str) -> str:
    """Give the words that Qt shows for a tooltip."""
    assert tooltip.startswith("<qt>"), "Qt takes anything else for plain words or guesses"
    document = QTextDocument()
    document.setHtml(tooltip)
    return document.toPlainText()


def test_what_is_on_its_way_is_shown_with_a_way_to_stop_it(
    line: StatusLine, loader: Loader
) -> None:
    stop = line.findChild(QToolButton)
    assert not stop.isVisible()
    width = label(line, "Message").width()
    loader.progressed.emit("half of it")
    assert label(line, "Picture on its way").text() == "half of it"
    assert stop.isVisible()
    QTest.mouseClick(stop, Qt.MouseButton.LeftButton)
    assert loader.stopped == 1
    height = line.height()
    loader.progressed.emit("")
    assert not stop.isVisible()
    assert label(line, "Picture on its way").text() == ""
    assert line.height() == height
    assert label(line, "Message").width() <= width


@pytest.mark.parametrize(
    ("level", "mark"), [("", ""), ("good", "● "), ("caution", "▲ "), ("bad", "■ ")]
)
def test_a_level_is_told_by_a_mark_and_a_colour(
    line: StatusLine, session: Session, qtbot: QtBot, level: str, mark: str
) -> None:
    session.say("Something was said.", level)
    assert line.text == f"{mark}Something was said."
    colour = getattr(THEMES["dark"], level or "text")
    assert count_of(label(line, "Message"), colour, reach=8) > 10
    session.say("", level)
    assert line.text == ""


def test_a_long_sentence_is_whole_in_its_tooltip_and_pushes_nothing_out(
    line: StatusLine, session: Session
) -> None:
    pointer = label(line, "Under the pointer")
    session.pointed.emit("0h42m44s +41°16'")
    assert pointer.text() == "0h42m44s +41°16'"
    width = line.minimumSizeHint().width()
    words = "A sentence that does not come to an end. " * 40
    session.say(words, "bad")
    assert seen_in(label(line, "Message").toolTip()).strip() == words.strip()
    assert line.minimumSizeHint().width() == width
    assert line.window().width() == 900
    assert label(line, "Message").text().endswith("…")
    line.window().resize(1200, 300)
    short = "A sentence that comes to an end."
    session.say(short, "")
    assert label(line, "Message").text() == short


def test_words_are_shown_as_they_are_written(line: StatusLine, session: Session) -> None:
    """A file name or a server's words may look like HTML; it is no markup of ours."""
    words = "<b>plan</b> & <img src='x.png'>.json is empty."
    session.say(words, "bad")
    assert label(line, "Message").textFormat() == Qt.TextFormat.PlainText
    assert seen_in(label(line, "Message").toolTip()) == words
    session.say("", "")
    assert label(line, "Message").toolTip() == ""


def test_a_level_keeps_its_colour_in_the_next_theme(
    line: StatusLine, session: Session, dress: Dress
) -> None:
    session.say("Something was said.", "bad")
    dress(THEMES["light"], 1.0)
    assert count_of(label(line, "Message"), THEMES["light"].bad, reach=8) > 10
