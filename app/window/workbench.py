"""The furnished window: top bar, sky sheet, side panel, rig strip, status line.

The sheet comes first, with room kept for the rest, so that the sky is seen while the
other rooms are still imported; the rig bench waits until somebody opens it. It connects no
room to another: all of them talk to the session. What belongs to the window itself is here:
style, saving, closing.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from app.picture_loader import PictureLoader, SurveyService
from app.session import Session
from app.shared.jobs import Answers, Lane
from app.shared.theme import Theme
from app.sky_sheet.sheet import SkySheet
from app.window.places import Places
from app.words.sentences import sentence
from core.errors import CoreError, StorageError, WorldError
from core.plan.document import Plan
from core.plan.store import save_plan

if TYPE_CHECKING:
    from app.rig_editor.bench import RigBench
    from app.rig_strip.strip import RigStrip
    from app.side_panel.panel import SidePanel
    from app.target_box.box import TargetBox
    from app.window.menus import Menus
    from app.window.opening import Opened
    from app.window.rig_sheet_file import RigSheetFile
    from app.window.shell import Shell
    from app.window.status_line import StatusLine
    from app.window.top_bar import TopBar
    from app.window.warming import Warming

__all__ = ["Workbench"]

_SAVE_REST_MS = 800
_CACHE_BYTES = 512 * 1024 * 1024
#: Room kept for what comes after the sheet, pixels at text size 1; near enough that the
#: sheet hardly changes its size when it comes.
_BAR_PX, _PANEL_PX, _STRIP_PX, _STATUS_PX = 43, 312, 128, 35


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

    bar: "TopBar"
    panel: "SidePanel"
    strip: "RigStrip"
    rig_sheet: "RigSheetFile"
    status: "StatusLine"
    warming: "Warming"
    menus: "Menus"
    target_box: "TargetBox"

    def __init__(self, shell: "Shell", opened: "Opened", places: Places) -> None:
        super().__init__(shell)
        self.shell = shell
        self.places = places
        self.session = Session(opened.plan, opened.stars, opened.targets)
        self._opened = opened
        self._not_kept: Plan | None = None
        self._shelf_words = ""
        if opened.path is not None:
            shell.settings.plan_path = opened.path
        self._saving = Lane(self)
        self._save_rest = QTimer(self, singleShot=True, interval=_SAVE_REST_MS)
        self._save_rest.timeout.connect(self._save_beside)
        settings = shell.settings
        self.sheet = SkySheet(self.session, settings.theme, settings.text_scale)
        self.loader = PictureLoader(self.session, self.sheet)
        self.bench: RigBench | None = None
        self.top = QWidget()
        self.centre = QStackedWidget()
        self._room_kept: dict[str, QWidget] = {}
        self._arrange(settings.text_scale)

    def build(self) -> Iterator[None]:
        """Build the other rooms one by one; between two the window may answer."""
        from app.window.rooms import (
            Menus,
            RigSheetFile,
            RigStrip,
            SidePanel,
            StatusLine,
            TargetBox,
            TopBar,
        )
        from core.pictures.cache import PictureCache

        cache = PictureCache(self.places.pictures, limit_bytes=_CACHE_BYTES)
        self.loader.service = SurveyService(cache=cache)
        settings = self.shell.settings
        theme, scale = settings.theme, settings.text_scale
        self.rig_sheet = RigSheetFile(self)
        self.status = StatusLine(self.session, self.loader)
        self.status.follow(self.rig_sheet)
        self._move_in("status", self.status)
        yield
        self.target_box = TargetBox(self.session)
        self.menus = Menus(self)
        self.bar = TopBar(self.session, self.target_box, self.menus)
        self._move_in("bar", self.bar)
        yield
        self.panel = SidePanel(self.session, theme, scale)
        yield
        self._move_in("panel", self.panel)
        yield
        self.strip = RigStrip(self.session, theme, scale)
        yield
        self._move_in("strip", self.strip)
        yield
        self._listen()
        self._dress()
        self.session.say(self._opened.words, self._opened.level)

    def restyle(self, theme: Theme, scale: float) -> None:
        """Change colours or text size everywhere."""
        settings = self.shell.settings
        settings.theme, settings.text_scale = theme, scale
        self.shell.restyle()
        for room in (self.sheet, self.panel, self.strip, self.bench):
            if room is not None:
                room.set_style(theme, scale)
        self._dress()
        self.loader.refresh()

    def close(self) -> bool:
        """Keep the plan and stop what runs; say so, once, when it cannot be kept.

        Returns
        -------
        bool
            False when the person should hear first that the plan would be lost.
        """
        self._save_rest.stop()
        self._saving.finish()
        plan = self.session.plan
        try:
            self._save()
        except (CoreError, WorldError) as error:
            if self.shell.is_furnished and plan is not self._not_kept:
                self._not_kept = plan
                self._not_saved(error, "Save it elsewhere, or close once more to lose it.")
                return False
        if not self._shelf_is_kept():
            return False
        if hasattr(self, "rig_sheet"):
            self.rig_sheet.finish()
        if self.bench is not None:
            from app.window.bench_rooms import finish_bench

            finish_bench(self.bench)
        self.loader.finish()
        return True

    def _shelf_is_kept(self) -> bool:
        """Keep the shelf; say so, once, when it cannot be kept."""
        words = self.menus.shelf.files.finish() if self.shell.is_furnished else ""
        if not words or words == self._shelf_words:
            return True
        self._shelf_words = words
        self.session.say(f"{words} Export it elsewhere, or close once more to lose it.", "bad")
        return False

    def _arrange(self, scale: float) -> None:
        """Lay the sheet out, with room kept for the others."""
        column = QVBoxLayout(self.top)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        middle = QHBoxLayout()
        middle.setSpacing(0)
        self.centre.addWidget(self.sheet)
        middle.addWidget(self.centre, 1)
        middle.addWidget(_rule("rule_v"))
        middle.addWidget(self._keep_room("panel", width=round(_PANEL_PX * scale)))
        column.addWidget(self._keep_room("bar", height=round(_BAR_PX * scale)))
        column.addWidget(_rule("rule_h"))
        column.addLayout(middle, 1)
        for name, height in (("strip", _STRIP_PX), ("status", _STATUS_PX)):
            column.addWidget(_rule("rule_h"))
            column.addWidget(self._keep_room(name, height=round(height * scale)))

    def _keep_room(self, name: str, *, width: int = 0, height: int = 0) -> QWidget:
        """An empty widget of the size that something will have."""
        room = QWidget()
        if width:
            room.setFixedWidth(width)
        if height:
            room.setFixedHeight(height)
        self._room_kept[name] = room
        return room

    def _move_in(self, name: str, widget: QWidget) -> None:
        """Put a widget where room was kept for it."""
        layout = self.top.layout()
        assert layout is not None
        kept = self._room_kept.pop(name)
        layout.replaceWidget(kept, widget)
        kept.deleteLater()

    def _dress(self) -> None:
        """Give everything the cursors of the theme."""
        from app.window.red_cursors import apply_cursors

        apply_cursors(self.shell, self.shell.settings.theme)

    def _listen(self) -> None:
        """Keep title and saved plan in step."""
        self.session.plan_changed.connect(self._plan_changed)
        self.session.view_changed.connect(self._save_rest.start)
        self.session.bench_changed.connect(self._show_bench)
        self._plan_changed()
        self._warm()

    def _warm(self) -> None:
        """Import the bench later, while nobody waits for it."""
        from app.window.warming import Warming

        self.warming = Warming(self)
        self.warming.start()

    def new_rig(self) -> None:
        """Ask on the bench what another rig begins with."""
        self.session.open_bench()
        assert self.bench is not None
        self.bench.ask_new_rig()

    def _show_bench(self, is_open: bool) -> None:
        """Put the bench in front, built when it is first asked for, or the sky again."""
        if is_open and self.bench is None:
            from app.window.bench_rooms import furnished_bench

            self.bench = furnished_bench(self.session, self.shell)
            self.centre.addWidget(self.bench)
            self._dress()
        front = self.bench if is_open and self.bench is not None else self.sheet
        self.centre.setCurrentWidget(front)
        front.setFocus()

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
            raise StorageError(f"cannot make {self.places.data}: {error.strerror}") from error
        save_plan(self.session.plan, self.places.open_plan)

    def _save_beside(self) -> None:
        """Write the plan without holding the window up."""
        self._saving.start(lambda _job: self._save(), Answers(lambda _none: None, self._not_saved))

    def _not_saved(self, error: Exception, advice: str = "") -> None:
        if not isinstance(error, WorldError | CoreError):
            raise error
        self.session.say(f"The plan is not kept: {sentence(error)} {advice}".strip(), "bad")


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
