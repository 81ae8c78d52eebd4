"""Plan files and pictures: asking where, reading, writing, saying what became of it."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QMessageBox

from app.sky_sheet import keys
from app.window.asking import ask_file
from app.window.red_cursors import apply_cursors
from app.words.key_words import BENCH_KEYS
from app.words.sentences import sentence
from core.errors import CoreError, WorldError
from core.plan.document import Plan
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
        self._history = bench.session.history
        self._since = 0  # the step of the history from which on the file is the plan's
        self._history.indexChanged.connect(self._stepped)

    def ask_open(self) -> None:
        """Ask for a plan file and open it."""
        path = ask_file(self._bench.shell, "Open a plan", _PLANS)
        if path:
            self.open(path)

    def open(self, path: str) -> None:
        """Open a plan; a file that is none leaves the open plan as it is."""
        try:
            plan = load_plan(path)
        except (CoreError, WorldError) as error:
            self._bench.session.say(f"{sentence(error)} The open plan stays as it was.", "bad")
            return
        self._go_over_to(plan, path, "open a plan")
        self._bench.session.say(f"Opened {path}.", "good")

    def open_demo(self) -> None:
        """Begin again with the demo; the plan before can be brought back by undo."""
        self._go_over_to(demo_plan(), "", "begin again with the demo plan")

    def save(self) -> None:
        """Save to the file the plan came from, or ask for one."""
        path = self._bench.shell.settings.plan_path
        if path:
            self.save_to(path)
        else:
            self.ask_save()

    def ask_save(self) -> None:
        """Ask for a file and save the plan to it."""
        path = ask_file(self._bench.shell, "Save the plan", _PLANS, proposed="plan.json")
        if path:
            self.save_to(path)

    def save_to(self, path: str) -> None:
        """Save the plan."""
        try:
            save_plan(self._bench.session.plan, path)
        except (CoreError, WorldError) as error:
            self._bench.session.say(f"The plan is not saved: {sentence(error)}", "bad")
            return
        self._bench.shell.settings.plan_path = path
        self._bench.session.say(f"Saved to {path}.", "good")

    def ask_picture(self) -> None:
        """Ask for a file and save the sheet to it."""
        path = ask_file(
            self._bench.shell,
            "Save the sheet as a picture",
            "Pictures (*.png)",
            proposed="sheet.png",
        )
        if path:
            self.save_picture(path)

    def save_picture(self, path: str) -> None:
        """Save the sheet, with its credit line, as a PNG at twice the screen's pixels."""
        from app.sky_sheet.image import grab_sheet

        file = Path(path)
        file = file if file.suffix.lower() == ".png" else file.with_name(f"{file.name}.png")
        if grab_sheet(self._bench.sheet, 2.0).save(str(file)):
            self._bench.session.say(f"Saved the sheet to {file}.", "good")
        else:
            self._bench.session.say(f"The picture cannot be written to {file}.", "bad")

    def tell_keys(self) -> None:
        """Say what the keys do."""
        box = QMessageBox(self._bench.shell)
        box.setWindowTitle("Keys")
        box.setText("Keys")
        told = {"On the sky sheet": keys.HELP, "On the rig bench": BENCH_KEYS}
        said = [f"{where}:\n" + what.replace(". ", ".\n") for where, what in told.items()]
        box.setInformativeText("\n\n".join(said))
        box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        apply_cursors(box, self._bench.shell.settings.theme)
        box.open()

    def _go_over_to(self, plan: Plan, path: str, words: str) -> None:
        """Open a plan that belongs to a file, or to none."""
        before = self._history.index()
        self._bench.session.open_plan(plan, words)
        if self._history.index() != before:
            self._since = self._history.index()
        self._bench.shell.settings.plan_path = path

    def _stepped(self, index: int) -> None:
        """Undo brought the plan before back: it must not be saved over the file of the later."""
        if index < self._since:
            self._since = 0
            self._bench.shell.settings.plan_path = ""
