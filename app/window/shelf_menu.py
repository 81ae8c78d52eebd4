"""The menu of the shelf: rigs on it and from it, its file, what goes out and comes in."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from app.window.shelf_files import ShelfFiles

if TYPE_CHECKING:
    from app.window.workbench import Workbench

__all__ = ["ShelfMenu"]


class ShelfMenu(QMenu):
    """What can be done with the shelf; its rigs are listed when the list opens.

    Parameters
    ----------
    bench : Workbench
    """

    def __init__(self, bench: "Workbench") -> None:
        super().__init__(bench.shell)
        self._bench = bench
        self.files = files = ShelfFiles(bench)
        self._chosen = [self._add("Put the chosen rig on the shelf", "Ctrl+B", files.put_chosen)]
        self.rigs = self.addMenu("Add a rig from the shelf")
        self.rigs.aboutToShow.connect(self.fill_rigs)
        self.addSeparator()
        self._add("Import a rig or a shelf ...", "Ctrl+I", files.ask_import)
        self._chosen.append(self._add("Export the chosen rig ...", "", files.ask_export_rig))
        self._add("Export the shelf ...", "", files.ask_export)
        self.addSeparator()
        self._add("Open a shelf file ...", "", files.ask_open)
        self._usual = self._add("Back to the usual shelf", "", files.open_usual)
        self.aboutToShow.connect(self._tick)

    def fill_rigs(self) -> None:
        """List the rigs of the shelf as it is now."""
        self.rigs.clear()
        rigs = self._bench.session.shelf.rigs
        for rig in rigs:
            action = self.rigs.addAction(rig.name.replace("&", "&&"))
            action.triggered.connect(partial(self.files.add_to_plan, rig.name))
        if not rigs:
            self.rigs.addAction("No rig on the shelf yet").setEnabled(False)

    def _tick(self) -> None:
        """Let only what can be done be chosen."""
        for action in self._chosen:
            action.setEnabled(self._bench.session.rig is not None)
        self._usual.setEnabled(self.files.is_elsewhere)

    def _add(self, words: str, shortcut: str, call: Callable[[], None]) -> QAction:
        """An entry, its key working in the whole window."""
        action = self.addAction(words)
        if shortcut:
            action.setShortcut(QKeySequence(shortcut))
        action.triggered.connect(lambda: call())
        self._bench.shell.addAction(action)
        return action
