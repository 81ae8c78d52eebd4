"""The shelf in the window: rigs on it and from it, its file, what goes out and comes in.

Nothing of the shelf is imported or read before somebody asks for it.
"""

import contextlib
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from app.window.asking import ask_file
from app.words.sentences import sentence
from core.errors import BadValueError, CoreError, WorldError
from core.plan import edits

if TYPE_CHECKING:
    from app.shelf_file.keeper import ShelfKeeper
    from app.window.workbench import Workbench
    from core.gear.shelf.merge import Merge
    from core.gear.shelf.shelf import Shelf

__all__ = ["ShelfFiles"]

_SHELVES, _RIGS = "Skysill shelves (*.json)", "Skysill rigs (*.json)"
_EITHER = "Skysill shelves and rigs (*.json)"


class ShelfFiles(QObject):
    """What the shelf menu does.

    Parameters
    ----------
    bench : Workbench
    """

    def __init__(self, bench: "Workbench") -> None:
        super().__init__(bench)
        self._bench = bench
        self._session = bench.session
        self.keeper: ShelfKeeper | None = None
        self._session.read_shelf = self._read

    @property
    def is_elsewhere(self) -> bool:
        """Tell whether another file than the usual one is in use."""
        return bool(self._bench.shell.settings.shelf_path)

    def finish(self) -> str:
        """Save what waits, at the end; give what went wrong in a sentence."""
        failed = self.keeper.finish() if self.keeper is not None else None
        return "" if failed is None else f"The shelf is not kept: {sentence(failed)}"

    # Rigs --------------------------------------------------------------------------

    def put_chosen(self) -> None:
        """Put the chosen rig on the shelf."""
        planned = self._session.rig
        if planned is None:
            self._session.say("Choose a rig first.", "caution")
            return
        from core.gear.shelf.merge import with_rig

        try:
            currency = self._session.plan.currency
            merge = with_rig(self._session.shelf, planned.rig, currency=currency)
        except CoreError as error:
            self._session.say(f"The rig is not put on the shelf: {sentence(error)}", "bad")
            return
        self._take_in(merge, f"{planned.rig.name} is on the shelf")

    def add_to_plan(self, name: str) -> None:
        """Add a rig of the shelf to the plan, as a step to undo."""
        session, shelf, plan = self._session, self._session.shelf, self._session.plan
        try:
            rig = shelf.rig(name)
            if not plan.rigs:
                plan = plan.but(currency=shelf.currency)
            if plan.currency != shelf.currency:
                rule = f"must be that of the plan, {plan.currency}; no rate is known here"
                raise BadValueError("currency of the shelf", shelf.currency, rule)
        except CoreError as error:
            session.say(f"The rig is not added: {sentence(error)}", "bad")
            return
        session.edit(f"add {name}", edits.with_rig(plan, rig))
        session.say(f"{name} is in the plan as {session.plan.flag(session.plan.rigs[-1].id)}.")

    # Files -------------------------------------------------------------------------

    def ask_open(self) -> None:
        """Ask for a shelf file and keep the shelf there from now on."""
        path = ask_file(self._bench.shell, "Open a shelf", _SHELVES)
        if path:
            self.open(path)

    def open(self, path: str) -> None:
        """Keep the shelf in another file; empty: where the program keeps it."""
        settings = self._bench.shell.settings
        where = Path(path) if path else self._bench.places.shelf
        _ = self._session.shelf  # what is there now is known before it is left
        assert self.keeper is not None
        try:
            self.keeper.open(where)
        except (CoreError, WorldError) as error:
            self._session.say(f"{sentence(error)} The shelf stays as it was.", "bad")
            return
        settings.shelf_path = path
        self._session.say(f"The shelf is {where} from now on.", "good")

    def open_usual(self) -> None:
        """Keep the shelf where the program keeps it."""
        self.open("")

    def ask_export(self) -> None:
        """Ask for a file and write the shelf to it."""
        path = ask_file(self._bench.shell, "Export the shelf", _SHELVES, proposed="shelf.json")
        if path:
            self.export(path)

    def export(self, path: str) -> None:
        """Write the shelf to a file of its own."""
        from core.gear.shelf.files import save_shelf

        try:
            save_shelf(self._session.shelf, path)
        except (CoreError, WorldError) as error:
            self._session.say(f"The shelf is not exported: {sentence(error)}", "bad")
            return
        self._session.say(f"Exported the shelf to {path}.", "good")

    def ask_export_rig(self) -> None:
        """Ask for a file and write the chosen rig to it."""
        if self._session.rig is None:
            self._session.say("Choose a rig first.", "caution")
            return
        path = ask_file(self._bench.shell, "Export the chosen rig", _RIGS, proposed="rig.json")
        if path:
            self.export_rig(path)

    def export_rig(self, path: str) -> None:
        """Write the chosen rig with its parts to a file."""
        from core.gear.shelf.files import save_rig

        planned = self._session.rig
        assert planned is not None
        try:
            save_rig(planned.rig, path, currency=self._session.plan.currency)
        except (CoreError, WorldError) as error:
            self._session.say(f"The rig is not exported: {sentence(error)}", "bad")
            return
        self._session.say(f"Exported {planned.rig.name} to {path}.", "good")

    def ask_import(self) -> None:
        """Ask for the file of a rig or a shelf and take it in."""
        path = ask_file(self._bench.shell, "Import a rig or a shelf", _EITHER)
        if path:
            self.take_in(path)

    def take_in(self, path: str) -> None:
        """Put what a file holds on the shelf; what differs stands beside what is there."""
        from core.gear.shelf.files import load_gear
        from core.gear.shelf.merge import merged

        try:
            merge = merged(self._session.shelf, load_gear(path))
        except (CoreError, WorldError) as error:
            self._session.say(f"{sentence(error)} The shelf stays as it was.", "bad")
            return
        self._take_in(merge, f"Imported {Path(path).name}")

    def _take_in(self, merge: "Merge", done: str) -> None:
        """Take the shelf that came of it, and tell what is new, the same, different."""
        self._session.set_shelf(merge.shelf)
        self._session.say(f"{done}: {merge.words}", "caution" if merge.differing else "good")

    def _read(self) -> "Shelf":
        """Read the shelf when it is first asked for; it is kept in its file from then on."""
        from app.shelf_file.keeper import ShelfKeeper

        path = self._bench.shell.settings.shelf_path
        where = Path(path) if path else self._bench.places.shelf
        with contextlib.suppress(OSError):  # a folder that is there can be watched
            self._bench.places.data.mkdir(parents=True, exist_ok=True)
        self.keeper = ShelfKeeper(self._session, where, self)
        return self.keeper.read()
