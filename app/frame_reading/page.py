"""Reads a rig from a test frame: every figure with its source, to take or to leave.

The file is read beside the window; what comes of it is one step that can be undone. What
is ambiguous is a choice, what is missing can be typed.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from app.session import Session
from app.shared.jobs import Answers, Lane
from app.shared.theme import Theme
from app.shared.typed_field import set_property
from app.words.sentences import sentence
from core.errors import CoreError, WorldError

if TYPE_CHECKING:
    from app.frame_reading.sheet import FigureSheet
    from core.gear.from_frame.figures import FrameFigures

__all__ = ["FramePage"]

_EMPTY = (
    "A test frame knows much of the rig that took it. Choose one, or drop it here: a FITS file, "
    "a JPEG or a TIFF of a camera. Only its header is read."
)


class FramePage(QScrollArea):
    """The page "From a frame" of the bench.

    Parameters
    ----------
    session : Session
    ask : callable
        Asks for a file; gives its path, or nothing.
    theme : Theme
    scale : float
        The user's text size, 1 for 12 px.
    """

    #: A frame is being read or was read: the page wants to be seen.
    wanted = Signal()
    #: The figures went into the plan.
    taken = Signal()

    def __init__(
        self, session: Session, ask: Callable[[], str], theme: Theme, scale: float
    ) -> None:
        super().__init__()
        self._session, self._ask = session, ask
        self._lane = Lane(self)
        self._style = (theme, scale)
        #: What the frame read last tells; built when there is one.
        self.sheet: FigureSheet | None = None
        self.words = QLabel(_EMPTY)
        self.words.setWordWrap(True)
        self.words.setProperty("quiet", True)
        self.choose = QPushButton("Choose a frame ...")
        self.choose.clicked.connect(lambda: self.ask())
        self._lay_out()
        self.set_style(theme, scale)

    def _lay_out(self) -> None:
        """Put what is said, the button and the figures under each other."""
        content = QWidget()
        self._column = QVBoxLayout(content)
        self._column.addWidget(self.words)
        self._column.addWidget(self.choose)
        self._column.addStretch(1)
        self.setWidget(content)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAccessibleName("A rig from a frame")
        self.setFocusProxy(self.choose)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        gap = round(8 * scale)
        self._column.setContentsMargins(0, gap, 0, gap)
        self._column.setSpacing(gap)
        self.choose.setMaximumWidth(round(220 * scale))
        self._style = (theme, scale)
        if self.sheet is not None:
            self.sheet.set_style(theme, scale)

    def ask(self) -> None:
        """Ask for a frame and read it."""
        path = self._ask()
        if path:
            self.read(path)

    def read(self, path: str) -> None:
        """Read a frame beside the window."""
        self.wanted.emit()
        self._tell("Reading the frame ...", "")
        self._lane.start(lambda _job: _figures(path), Answers(self._came, self._failed))

    def finish(self) -> None:
        """Wait for what is being read, at the end of the program."""
        self._lane.finish()

    @property
    def busy(self) -> bool:
        """Tell whether a frame is being read."""
        return self._lane.busy

    def _came(self, figures: "FrameFigures") -> None:
        """Show what a frame says."""
        kind = "its FITS header" if figures.form == "FITS" else "the tags of its camera"
        self._tell(f"What {figures.file} tells, by {kind}:", "")
        self.choose.setText("Choose another frame ...")
        if self.sheet is None:
            from app.frame_reading.sheet import FigureSheet

            self.sheet = FigureSheet(self._session, figures, *self._style)
            self.sheet.taken.connect(self.taken)
            self._column.insertWidget(1, self.sheet)
        self.sheet.begin(figures)
        self.sheet.show()
        self.sheet.rows["focal_length_mm"].tick.setFocus()

    def _failed(self, error: Exception) -> None:
        """Say why a frame cannot be read."""
        if not isinstance(error, CoreError | WorldError):
            raise error
        self._tell(f"That cannot be read: {sentence(error)}", "bad")
        if self.sheet is not None:
            self.sheet.hide()

    def _tell(self, words: str, level: str) -> None:
        """Say something at the top."""
        self.words.setText(words)
        set_property(self.words, "level", level)
        set_property(self.words, "quiet", not level)


def _figures(path: str) -> "FrameFigures":
    """Read a frame, in a thread of its own; its readers are imported there."""
    from core.gear.from_frame.read import figures_of

    return figures_of(path)
