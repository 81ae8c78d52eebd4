"""The furnished window: top bar, sky sheet, side panel, rig strip, status line.

It builds the rooms and connects none of them to another: all of them talk to the
session. What belongs to the window itself is here: style, saving, closing.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from app.jobs import Answers, Lane
from app.menus import Menus
from app.picture_loader import PictureLoader, SurveyService
from app.places import Places
from app.red_cursors import apply_cursors
from app.rig_strip import RigStrip
from app.session import Session
from app.side_panel import SidePanel
from app.sky_sheet.sheet import SkySheet
from app.status_line import StatusLine
from app.target_box import TargetBox
from app.theme import Theme
from app.top_bar import TopBar
from core.errors import WorldError
from core.pictures.cache import PictureCache
from core.plan.store import save_plan

if TYPE_CHECKING:
    from app.opening import Opened
    from app.shell import Shell

__all__ = ["Workbench"]

_SAVE_REST_MS = 800
_CACHE_BYTES = 512 * 1024 * 1024


class Workbench(QObject):
    """Everything in the window.

    Parameters
    ----------
    shell : Shell
        The window it stands in.
    opened : Opened
        Catalogues and plan.
    places : Places
        Where to keep the plan and the pictures.
    """

    def __init__(self, shell: "Shell", opened: "Opened", places: Places) -> None:
        super().__init__(shell)
        self.shell = shell
        self.places = places
        self.session = Session(opened.plan, opened.stars, opened.targets)
        self._opened = opened
        self._saving = Lane(self)
        self._save_rest = QTimer(self, singleShot=True, interval=_SAVE_REST_MS)
        self._save_rest.timeout.connect(self._save_beside)
        self.top: QWidget
        self.sheet: SkySheet

    def build(self) -> Iterator[None]:
        """Build piece by piece; between two pieces the window may answer."""
        settings = self.shell.settings
        theme, scale = settings.theme, settings.text_scale
        self.sheet = SkySheet(self.session, theme, scale)
        yield
        service = SurveyService(cache=PictureCache(self.places.pictures, limit_bytes=_CACHE_BYTES))
        self.loader = PictureLoader(self.session, self.sheet, service)
        self.target_box = TargetBox(self.session)
        yield
        self.panel = SidePanel(self.session, theme, scale)
        yield
        self.strip = RigStrip(self.session, theme, scale)
        yield
        self.status = StatusLine(self.session, self.loader)
        self.menus = Menus(self)
        self.bar = TopBar(self.session, self.target_box, self.menus)
        yield
        self._arrange()
        self._listen()
        apply_cursors(self.shell, theme)
        yield
        self.session.say(self._opened.words, self._opened.level)

    def restyle(self, theme: Theme, scale: float) -> None:
        """Change colours or text size everywhere."""
        settings = self.shell.settings
        settings.theme, settings.text_scale = theme, scale
        self.shell.restyle()
        for room in (self.sheet, self.panel, self.strip):
            room.set_style(theme, scale)
        apply_cursors(self.shell, theme)
        self.loader.refresh()

    def close(self) -> None:
        """Stop what runs and keep the plan."""
        self.loader.finish()
        self._save_rest.stop()
        self._saving.finish()
        try:
            self._save()
        except WorldError as error:
            self.session.say(str(error), "bad")

    def _arrange(self) -> None:
        """Lay the rooms out."""
        self.top = QWidget()
        column = QVBoxLayout(self.top)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        middle = QHBoxLayout()
        middle.setSpacing(0)
        middle.addWidget(self.sheet, 1)
        middle.addWidget(_rule("rule_v"))
        middle.addWidget(self.panel)
        column.addWidget(self.bar)
        column.addWidget(_rule("rule_h"))
        column.addLayout(middle, 1)
        column.addWidget(_rule("rule_h"))
        column.addWidget(self.strip)
        column.addWidget(_rule("rule_h"))
        column.addWidget(self.status)

    def _listen(self) -> None:
        """Keep title and saved plan in step."""
        self.session.plan_changed.connect(self._plan_changed)
        self.session.view_changed.connect(self._save_rest.start)
        self._plan_changed()

    def _plan_changed(self) -> None:
        target = self.session.target
        words = f"{target.name} · " if target is not None else ""
        self.shell.setWindowTitle(f"{words}{self.session.plan.title}")
        self._save_rest.start()

    def _save(self) -> None:
        """Write the plan as it is to where the next start finds it."""
        try:
            self.places.data.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise WorldError(f"The plan cannot be kept: {error}.") from error
        save_plan(self.session.plan, self.places.open_plan)

    def _save_beside(self) -> None:
        """Write the plan without holding the window up."""
        self._saving.start(lambda _job: self._save(), Answers(lambda _none: None, self._not_saved))

    def _not_saved(self, error: Exception) -> None:
        if not isinstance(error, WorldError | ValueError):
            raise error
        self.session.say(f"The plan is not kept: {error}", "bad")


def _rule(name: str) -> QFrame:
    """A thin line between rooms."""
    line = QFrame()
    line.setObjectName(name)
    horizontal = name.endswith("h")
    line.setFrameShape(QFrame.Shape.HLine if horizontal else QFrame.Shape.VLine)
    if horizontal:
        line.setFixedHeight(1)
    else:
        line.setFixedWidth(1)
    line.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return line
