"""The menus of plan, view and sky, beside those of targets and shelf: words and a key each."""

from collections.abc import Callable
from functools import partial
from operator import attrgetter
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from app.shared.theme import THEMES, Theme
from app.sky_sheet import keys
from app.window.plan_files import PlanFiles
from app.window.settings import TEXT_SCALES
from app.window.shelf_menu import ShelfMenu
from app.window.target_menu import TargetMenu
from core.catalogue.target import TargetKind
from core.pictures.surveys import SURVEYS
from core.plan.document import SheetView

if TYPE_CHECKING:
    from app.window.workbench import Workbench

__all__ = ["Menus"]

_UNLABELLED = (TargetKind.POSITION, TargetKind.OTHER)


class Menus(QObject):
    """Menus and their actions.

    Parameters
    ----------
    bench : Workbench
        What the actions act on.
    """

    def __init__(self, bench: "Workbench") -> None:
        super().__init__(bench)
        self._bench = bench
        self._session = bench.session
        self.files = PlanFiles(bench)
        self.plan, self.view, self.sky = (QMenu(bench.shell) for _ in range(3))
        self._checks: list[tuple[QAction, Callable[[SheetView], bool]]] = []
        self.shelf = ShelfMenu(bench)
        self.targets = TargetMenu(self._session, bench.shell)
        self._fill_plan()
        self._fill_view()
        self._fill_sky()
        self._session.plan_changed.connect(self._tick)
        self._tick()

    def _fill_plan(self) -> None:
        """Files, pictures, history."""
        files, history = self.files, self._session.history
        undo = history.createUndoAction(self, "Undo")
        redo = history.createRedoAction(self, "Redo")
        undo.setShortcuts([QKeySequence("Ctrl+Z")])
        redo.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
        for action in (undo, redo):
            self.plan.addAction(action)
            self._bench.shell.addAction(action)
        self.plan.addSeparator()
        self._add(self.plan, "Find a target", "Ctrl+L", self._bench.target_box.focus_and_select)
        self._add(self.plan, "Open a plan ...", "Ctrl+O", files.ask_open)
        self._add(self.plan, "Save the plan", "Ctrl+S", files.save)
        self._add(self.plan, "Save the plan as ...", "Ctrl+Shift+S", files.ask_save)
        self._add(self.plan, "Begin again with the demo plan", "", files.open_demo)
        self.plan.addSeparator()
        self._add(self.plan, "Edit rig", "Ctrl+E", self._edit_rig)
        self._add(self.plan, "New rig ...", "Ctrl+Shift+N", self._bench.new_rig)
        self.plan.addSeparator()
        self._add(self.plan, "Save the sheet as a picture ...", "Ctrl+P", files.ask_picture)
        self._add(self.plan, "Rig sheet ...", "Ctrl+R", self._bench.rig_sheet.ask)
        self.plan.addSeparator()
        self._add(self.plan, "Close", "Ctrl+Q", self._bench.shell.close)

    def _fill_view(self) -> None:
        """How the sheet is turned, named and coloured."""
        sheet = self._bench.sheet
        self._toggle("Camera up", "Ctrl+U", "camera_up")
        self._toggle("Mirrored", "Ctrl+M", "mirrored")
        self._toggle("Graticule", "Ctrl+G", "graticule")
        self._fill_labels(self.view.addMenu("Names and outlines"))
        self.view.addSeparator()
        self._add(self.view, "Closer", "Ctrl++", partial(keys.zoom_in_middle, sheet, 0.82))
        self._add(self.view, "Farther", "Ctrl+-", partial(keys.zoom_in_middle, sheet, 1 / 0.82))
        self._add(self.view, "Back to the target", "Ctrl+Home", self._session.look_at_target)
        self._add(self.view, "All of the chosen frame", "Ctrl+0", self._session.look_at_frame)
        self._add(self.view, "View before", "Ctrl+[", partial(self._session.step_view, back=True))
        self._add(self.view, "View after", "Ctrl+]", partial(self._session.step_view, back=False))
        self.view.addSeparator()
        self._fill_style()
        self.view.addSeparator()
        self._add(self.view, "Whole screen", "F11", self._bench.shell.toggle_whole_screen)
        self._add(self.view, "Keys", "F1", self.files.tell_keys)

    def _fill_labels(self, menu: QMenu) -> None:
        """Names and outlines on and off by kind."""
        for kind in TargetKind:
            if kind in _UNLABELLED:
                continue
            action = menu.addAction(kind.value.capitalize())
            action.setCheckable(True)
            action.triggered.connect(partial(self._label, kind.value))
            self._checks.append((action, partial(_labelled, kind.value)))
        menu.addSeparator()
        every = tuple(kind.value for kind in TargetKind if kind not in _UNLABELLED)
        self._add(menu, "All", "", partial(self._session.change_view, labels=every))
        self._add(menu, "None", "Ctrl+N", partial(self._session.change_view, labels=()))

    def _fill_style(self) -> None:
        """Themes and text sizes."""
        settings = self._bench.shell.settings
        themes = self.view.addMenu("Colours")
        group = QActionGroup(self)
        for number, theme in enumerate(THEMES.values(), 1):
            action = self._add(
                themes,
                theme.title,
                f"Ctrl+{number}",
                partial(self._restyle, theme=theme),
            )
            action.setCheckable(True)
            action.setChecked(theme.key == settings.theme.key)
            group.addAction(action)
        sizes = self.view.addMenu("Text size")
        group = QActionGroup(self)
        for scale in TEXT_SCALES:
            action = self._add(sizes, f"{scale:.0%}", "", partial(self._restyle, scale=scale))
            action.setCheckable(True)
            action.setChecked(scale == settings.text_scale)
            group.addAction(action)

    def _fill_sky(self) -> None:
        """What the picture of the sky is made from."""
        group = QActionGroup(self)
        choices = [("chart", "Drawn from catalogues (no network needed)", "")]
        choices += [(s.id, s.name, s.coverage) for s in SURVEYS]
        for source, words, hint in choices:
            action = self.sky.addAction(words)
            action.setToolTip(hint)
            action.setCheckable(True)
            action.triggered.connect(partial(self._set_picture, source))
            group.addAction(action)
            self._checks.append((action, partial(_pictured, source)))
        self.sky.setToolTipsVisible(True)
        self.sky.addSeparator()
        self._add(self.sky, "Ask for the picture again", "F5", self._bench.loader.ask_again)

    def _add(self, menu: QMenu, words: str, shortcut: str, call: Callable[[], object]) -> QAction:
        """An entry of a menu, its key working in the whole window."""
        action = menu.addAction(words)
        if shortcut:
            action.setShortcut(QKeySequence(shortcut))
        action.triggered.connect(lambda: call())
        self._bench.shell.addAction(action)
        return action

    def _toggle(self, words: str, shortcut: str, field: str) -> None:
        """An entry that switches a field of the view."""
        action = self._add(self.view, words, shortcut, partial(self._switch, field))
        action.setCheckable(True)
        self._checks.append((action, attrgetter(field)))

    def _edit_rig(self) -> None:
        """Bring the bench to the front, or the sky when the bench is there."""
        session = self._session
        (session.close_bench if session.bench_open else session.open_bench)()

    def _label(self, kind: str) -> None:
        now = self._session.plan.view.labels
        rest = tuple(label for label in now if label != kind)
        self._session.change_view(labels=rest if kind in now else (*now, kind))

    def _switch(self, field: str) -> None:
        self._session.change_view(**{field: not getattr(self._session.plan.view, field)})

    def _set_picture(self, source: str) -> None:
        self._session.change_view(picture=source)

    def _restyle(self, *, theme: Theme | None = None, scale: float | None = None) -> None:
        settings = self._bench.shell.settings
        self._bench.restyle(theme or settings.theme, scale or settings.text_scale)

    def _tick(self) -> None:
        """Bring the check marks in step with the plan."""
        view = self._session.plan.view
        for action, holds in self._checks:
            action.setChecked(holds(view))


def _labelled(kind: str, view: SheetView) -> bool:
    """Tell whether a kind is named on the sheet."""
    return kind in view.labels


def _pictured(source: str, view: SheetView) -> bool:
    """Tell whether the sheet's picture comes from a source."""
    return view.picture == source
