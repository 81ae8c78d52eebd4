"""Plan files and pictures: asking where, reading, writing, saying what became of it."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QMessageBox

from app.sky_sheet import keys
from core.errors import CoreError, WorldError
from core.plan.store import demo_plan, load_plan, save_plan

if TYPE_CHECKING:
    from app.window.workbench import Workbench

__all__ = ["PlanFiles"]

_PLANS = "Skysill plans (*.json)"


class PlanFiles(QObject):
    """What the plan menu does with files.

    Parameters
    ----------
    bench : Workbench
    """

    def __init__(self, bench: "Workbench") -> None:
        super().__init__(bench)
        self._bench = bench

    def ask_open(self) -> None:
        """Ask for a plan file and open it."""
        path, _ = QFileDialog.getOpenFileName(self._bench.shell, "Open a plan", "", _PLANS)
        if path:
            self.open(path)

    def open(self, path: str) -> None:
        """Open a plan; a file that is none leaves the open plan as it is."""
        try:
            plan = load_plan(path)
        except (CoreError, WorldError) as error:
            self._bench.session.say(f"{error} The open plan stays as it was.", "bad")
            return
        self._bench.session.open_plan(plan, "open a plan")
        self._bench.shell.settings.plan_path = path
        self._bench.session.say(f"Opened {path}.", "good")

    def open_demo(self) -> None:
        """Begin again with the demo; the plan before can be brought back by undo."""
        self._bench.session.open_plan(demo_plan(), "begin again with the demo plan")

    def save(self) -> None:
        """Save to the file the plan came from, or ask for one."""
        path = self._bench.shell.settings.plan_path
        if path:
            self.save_to(path)
        else:
            self.ask_save()

    def ask_save(self) -> None:
        """Ask for a file and save the plan to it."""
        path, _ = QFileDialog.getSaveFileName(
            self._bench.shell, "Save the plan", "plan.json", _PLANS
        )
        if path:
            self.save_to(path)

    def save_to(self, path: str) -> None:
        """Save the plan."""
        try:
            save_plan(self._bench.session.plan, path)
        except (CoreError, WorldError) as error:
            self._bench.session.say(f"The plan is not saved: {error}", "bad")
            return
        self._bench.shell.settings.plan_path = path
        self._bench.session.say(f"Saved to {path}.", "good")

    def ask_picture(self) -> None:
        """Ask for a file and save the sheet to it."""
        path, _ = QFileDialog.getSaveFileName(
            self._bench.shell, "Save the sheet as a picture", "sheet.png", "Pictures (*.png)"
        )
        if path:
            self.save_picture(path)

    def save_picture(self, path: str) -> None:
        """Save the sheet, with its credit line, as a PNG at twice the screen's pixels."""
        from app.sky_sheet.image import grab_sheet

        file = Path(path)
        file = file if file.suffix.lower() == ".png" else file.with_suffix(".png")
        if grab_sheet(self._bench.sheet, 2.0).save(str(file)):
            self._bench.session.say(f"Saved the sheet to {file}.", "good")
        else:
            self._bench.session.say(f"The picture cannot be written to {file}.", "bad")

    def tell_keys(self) -> None:
        """Say what the keys do."""
        box = QMessageBox(self._bench.shell)
        box.setWindowTitle("Keys")
        box.setText("On the sky sheet")
        box.setInformativeText(keys.HELP.replace(". ", ".\n"))
        box.open()
