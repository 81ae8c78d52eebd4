"""The outer window: painted at once, furnished when everything is there.

Imported before the first window is painted: without the namespace `Qt`, whose many
enumerations alone take a tenth of a bare window's time.
"""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QMimeData, QSize, QTimer, Signal
from PySide6.QtGui import (
    QCloseEvent,
    QColor,
    QDragEnterEvent,
    QDropEvent,
    QPainter,
    QPaintEvent,
    QPalette,
)
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from app.shared.theme import load_fonts, palette, scaled_font, style_sheet
from app.window.places import Places
from app.window.settings import Settings

if TYPE_CHECKING:
    from app.window.opening import Opened
    from app.window.workbench import Workbench

__all__ = ["Shell"]

_SIZE = QSize(1280, 800)
#: Room for the title bar that the system puts above the window (common practice).
_TITLE_PX = 40
#: What the window gets to itself between two steps of its building: a step that is due at
#: once would come before what waits to be painted or typed.
_TURN_MS = 5


class _Waiting(QWidget):
    """What is seen until the sky is there."""

    painted = Signal()

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self._settings = settings
        self.text = "Opening the sky ..."
        self.setPalette(QPalette(QColor(settings.theme.ground)))
        self.setAutoFillBackground(True)  # QPainter.fillRect would bring `Qt` with it

    def paintEvent(self, event: QPaintEvent) -> None:
        theme, scale = self._settings.theme, self._settings.text_scale
        painter = QPainter(self)
        painter.setPen(QColor(theme.accent))
        painter.setFont(scaled_font(scale, size_px=14))
        painter.drawText(16, round(28 * scale), "Skysill")
        painter.setPen(QColor(theme.quiet))
        painter.setFont(scaled_font(scale))
        wide = painter.fontMetrics().horizontalAdvance(self.text)
        left = max(16, (self.width() - wide) // 2)
        painter.drawText(left, self.height() // 2, self.text)
        painter.end()
        self.painted.emit()


class Shell(QMainWindow):
    """The window.

    Parameters
    ----------
    settings : Settings
        Theme, text size, geometry.
    """

    painted = Signal()
    furnished = Signal()

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self.settings = settings
        self.workbench: Workbench | None = None
        self.is_furnished = False
        self.setWindowTitle("Skysill")
        self.setObjectName("shell")
        self.setMinimumSize(QSize(760, 520))
        self.setAcceptDrops(True)
        self._restore_geometry()
        self._waiting = _Waiting(settings)
        self._waiting.painted.connect(self._first_paint)
        self.setCentralWidget(self._waiting)

    def show_sky(self, opened: "Opened", places: Places) -> None:
        """Put the workbench in with its sheet; the other rooms come by `furnish`."""
        from app.window.workbench import Workbench

        self.restyle()
        self.workbench = Workbench(self, opened, places)
        self.setCentralWidget(self.workbench.top)
        self.workbench.sheet.setFocus()

    def furnish(self) -> None:
        """Build the other rooms, one at a time so that the window keeps answering."""
        assert self.workbench is not None
        self._step(self.workbench.build(), self._furnished)

    def restyle(self) -> None:
        """Apply theme and text size to everything."""
        theme, scale = self.settings.theme, self.settings.text_scale
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        if app.style().objectName() != "fusion":
            app.setStyle("Fusion")
        load_fonts()
        app.setFont(scaled_font(scale))
        app.setPalette(palette(theme))
        app.setStyleSheet(style_sheet(theme, scale))

    def toggle_whole_screen(self) -> None:
        """Fill the screen, or leave it again."""
        from PySide6.QtCore import Qt

        self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take a plan file that is dragged in."""
        if _plan_file(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open a plan file that is dropped."""
        path = _plan_file(event.mimeData())
        if path and self.is_furnished and self.workbench is not None:
            self.workbench.menus.files.open(path)

    def tell_failure(self, text: str) -> None:
        """Say on the empty window why it stays empty, or in the title of a half-built one."""
        words = f"The sky could not be opened: {text}"
        if self.workbench is None:
            self._waiting.text = words
            self._waiting.update()
        else:
            self.setWindowTitle(words)

    def tell_mistake(self, text: str) -> None:
        """Say that the program made a mistake, without losing anything."""
        if self.workbench is None:
            self.tell_failure(text)
        else:
            words = f"The program made a mistake ({text}). Your plan is kept; the log has more."
            self.workbench.session.say(words, "bad")

    def closeEvent(self, event: QCloseEvent) -> None:
        """Keep the plan and the window's place."""
        if self.workbench is not None and not self.workbench.close():
            event.ignore()
            return
        self.settings.geometry = self.saveGeometry()
        self.settings.flush()
        super().closeEvent(event)

    def _first_paint(self) -> None:
        """Tell once the window stands on the screen."""
        self._waiting.painted.disconnect(self._first_paint)
        QTimer.singleShot(0, self.painted.emit)

    def _step(self, steps: Iterator[None], then: Callable[[], None]) -> None:
        """Take one step of a building, let the window answer, take the next."""
        try:
            next(steps)
        except StopIteration:
            then()
        else:
            QTimer.singleShot(_TURN_MS, lambda: self._step(steps, then))

    def _furnished(self) -> None:
        self.is_furnished = True
        self.furnished.emit()

    def _restore_geometry(self) -> None:
        packed = self.settings.geometry
        if packed is None or not self.restoreGeometry(packed):
            room = self.screen().availableSize()
            self.resize(_SIZE.boundedTo(QSize(room.width(), room.height() - _TITLE_PX)))


def _plan_file(data: QMimeData) -> str:
    """Give the path of the one plan file in what is dragged; "" for anything else."""
    paths = [url.toLocalFile() for url in data.urls() if url.isLocalFile()]
    return paths[0] if len(paths) == 1 and paths[0].lower().endswith(".json") else ""
