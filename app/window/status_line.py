"""The line at the bottom: what was said, what is on its way, where the pointer is."""

from html import escape
from typing import TypeVar

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from app.picture_loader import PictureLoader
from app.session import Session

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
        self._progress = _label("Picture on its way", QLabel())
        self._pointer = _label("Under the pointer", QLabel())
        self._pointer.setProperty("quiet", True)
        self._stop = QToolButton()
        self._stop.setText("Stop")
        self._stop.setToolTip("Give the sky picture up; the chart stays")
        self._stop.clicked.connect(loader.stop_fetching)
        kept = self._stop.sizePolicy()
        kept.setRetainSizeWhenHidden(True)  # the sheet must not change its size with it
        self._stop.setSizePolicy(kept)
        self._stop.hide()
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 3, 16, 3)
        row.addWidget(self._message, 1)
        row.addWidget(self._progress)
        row.addWidget(self._stop)
        row.addSpacing(12)
        row.addWidget(self._pointer)
        session.said.connect(self.say)
        session.pointed.connect(self._pointer.setText)
        loader.progressed.connect(self._on_its_way)

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

    def _on_its_way(self, words: str) -> None:
        self._progress.setText(words)
        self._stop.setVisible(bool(words))


_Label = TypeVar("_Label", bound=QLabel)


def _label(name: str, label: _Label) -> _Label:
    label.setAccessibleName(name)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setMinimumHeight(20)
    return label
