"""The line at the bottom: what was said, what is on its way, where the pointer is."""

from html import escape
from typing import TypeVar

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from app.picture_loader import PictureLoader
from app.session import Session
from app.window.rig_sheet_file import RigSheetFile

__all__ = ["StatusLine"]

#: A mark before the words, so that no level is told by colour alone.
_MARKS = {"": "", "good": "● ", "caution": "▲ ", "bad": "■ "}


class _Message(QLabel):
    """A sentence, its end left out where there is no room for it."""

    words = ""

    def tell(self, words: str) -> None:
        """Show other words."""
        self.words = words
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show as many words as there is room for."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        right = Qt.TextElideMode.ElideRight
        self.setText(self.fontMetrics().elidedText(self.words, right, self.width()))


class _OnItsWay:
    """Words on what is being done, and a button that stops it."""

    def __init__(self, name: str, hint: str) -> None:
        self.words = _label(name, QLabel())
        self.stop = QToolButton()
        self.stop.setText("Stop")
        self.stop.setToolTip(hint)
        self.stop.setAccessibleName(f"Stop: {name}")
        self.stop.hide()

    def join(self, row: QHBoxLayout, place: int) -> None:
        """Stand in a row, from a place on."""
        row.insertWidget(place, self.words)
        row.insertWidget(place + 1, self.stop)

    def tell(self, words: str) -> None:
        """Show other words; the button with them."""
        self.words.setText(words)
        self.stop.setVisible(bool(words))


class StatusLine(QWidget):
    """One line of words.

    Parameters
    ----------
    session : Session
    loader : PictureLoader
        Tells of pictures on their way.
    """

    def __init__(self, session: Session, loader: PictureLoader) -> None:
        super().__init__()
        self._message = _label("Message", _Message())
        self._message.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._pointer = _label("Under the pointer", QLabel())
        self._pointer.setProperty("quiet", True)
        self._picture = picture = _OnItsWay(
            "Picture on its way", "Give the sky picture up; the chart stays"
        )
        picture.stop.clicked.connect(loader.stop_fetching)
        kept = picture.stop.sizePolicy()
        kept.setRetainSizeWhenHidden(True)  # the sheet must not change its size with it
        picture.stop.setSizePolicy(kept)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(16, 3, 16, 3)
        self._row.addWidget(self._message, 1)
        picture.join(self._row, 1)
        self._row.addSpacing(12)
        self._row.addWidget(self._pointer)
        session.said.connect(self.say)
        session.pointed.connect(self._pointer.setText)
        loader.progressed.connect(picture.tell)

    def follow(self, file: RigSheetFile) -> None:
        """Show how far a rig sheet is, with a button that stops it."""
        self._work = work = _OnItsWay(
            "Rig sheet on its way", "Give the rig sheet up; no file is written"
        )
        work.stop.clicked.connect(file.stop)
        work.join(self._row, 1)
        file.progressed.connect(work.tell)

    @property
    def text(self) -> str:
        """The words as they stand."""
        return self._message.words

    def say(self, words: str, level: str) -> None:
        """Show a sentence; the whole of it is in the tooltip too."""
        self._message.tell(_MARKS.get(level, "") + words if words else "")
        # Markup of ours: it breaks long lines, and takes none from a file name or a server.
        self._message.setToolTip(f"<qt>{escape(words)}</qt>" if words else "")
        self._message.setProperty("level", level)
        style = self._message.style()
        style.unpolish(self._message)
        style.polish(self._message)


_Label = TypeVar("_Label", bound=QLabel)


def _label(name: str, label: _Label) -> _Label:
    label.setAccessibleName(name)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setMinimumHeight(20)
    return label
