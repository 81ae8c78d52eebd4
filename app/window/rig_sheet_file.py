"""The rig sheet from the window: asking where, writing it beside the window, saying so.

The work runs in a thread of its own and can be stopped; what needs long to be imported is
imported there.
"""

import gc
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QLocale, QObject, Signal

from app.shared.jobs import Answers, Job, Lane
from app.window.asking import ask_file
from app.words.sentences import sentence
from core.errors import CoreError, WorldError
from core.sheets.suffixes import check_suffix

if TYPE_CHECKING:
    from app.window.workbench import Workbench
    from core.gear.shelf.shelf import Shelf
    from core.plan.document import Plan

__all__ = ["RigSheetFile"]

_KINDS = "Rig sheets: PDF, HTML or table (*.pdf *.html *.csv)"


class RigSheetFile(QObject):
    """Writes the rigs of the plan on a sheet to hand out.

    Parameters
    ----------
    bench : Workbench
        Its plan and its shelf are what is written, as they are when it is asked for.
    """

    #: How far it is, in words; empty when nothing is being written.
    progressed = Signal(str)

    def __init__(self, bench: "Workbench") -> None:
        super().__init__(bench)
        self._bench = bench
        self._lane = Lane(self)
        self._lane.idle.connect(lambda: self.progressed.emit(""))

    @property
    def busy(self) -> bool:
        """Tell whether a sheet is being written."""
        return self._lane.busy

    def ask(self) -> None:
        """Ask for a file and write the sheet to it."""
        if not self._bench.session.plan.rigs:
            self._say("The plan has no rigs to put on a sheet.", "caution")
            return
        path = ask_file(self._bench.shell, "Write a rig sheet", _KINDS, proposed="rig sheet.pdf")
        if path:
            self.write_to(path)

    def write_to(self, path: str) -> None:
        """Write every rig of the plan; a name says by its end as what."""
        plan = self._bench.session.plan
        try:
            check_suffix(Path(path))
            shelf = self._bench.session.shelf
        except (CoreError, WorldError) as error:
            self._failed(error)
            return
        names = [planned.rig.name for planned in plan.rigs]
        self._tell(0.0, 0, names)
        self._lane.start(
            lambda job: self._write(job, plan, shelf, Path(path)),
            Answers(
                lambda _none: self._say(f"Wrote the rig sheet to {path}.", "good"),
                self._failed,
                lambda part, place: self._tell(part, place, names),
            ),
        )

    def stop(self) -> None:
        """Give the sheet up that is being written; no file is touched."""
        if self._lane.busy:
            self._lane.give_up()
            self.progressed.emit("")
            self._say("The rig sheet is given up; nothing was written.", "caution")

    def finish(self) -> None:
        """Give everything up and wait for the thread, at the end of the program."""
        self._lane.finish()

    def _write(self, job: Job, plan: "Plan", shelf: "Shelf", path: Path) -> None:
        """Do the work, in a thread of its own."""
        from core.sheets.paper import A4, LETTER
        from core.sheets.rig_sheet.build import SheetJob, rig_sheet
        from core.sheets.rig_sheet.sheet import write_rig_sheet

        session, place = self._bench.session, 0

        def told(part: float, _name: str) -> None:
            nonlocal place
            job.progress(part, place)
            place += 1

        def go_on() -> None:
            gc.freeze()  # a sweep through all there is would hold the window up
            making.go_on()

        making = SheetJob(session.stars, session.targets, shelf, told, job.cancelled)
        try:
            gc.freeze()
            sheet = rig_sheet(plan, [planned.id for planned in plan.rigs], making)
            system = QLocale.system().measurementSystem()
            inches = system == QLocale.MeasurementSystem.ImperialUSSystem
            write_rig_sheet(sheet, path, paper=LETTER if inches else A4, go_on=go_on)
        finally:
            gc.unfreeze()

    def _tell(self, part: float | None, place: int, names: list[str]) -> None:
        """Say which rig it is at."""
        if place < len(names):
            words = f"Rig sheet: {place + 1} of {len(names)}, {names[place]}"
        else:
            words = "Rig sheet: writing the file"
        self.progressed.emit(words)

    def _failed(self, error: Exception) -> None:
        if not isinstance(error, WorldError | CoreError):
            raise error
        self._say(f"The rig sheet is not written: {sentence(error)}", "bad")

    def _say(self, words: str, level: str) -> None:
        self._bench.session.say(words, level)
