"""Keeps the session's shelf in its file while the window is open.

A change on the shelf is saved a moment later, beside the window. A change of the file by
another program is taken over when nothing waits to be saved. When both changed, the file's
shelf is taken and ours goes into a file beside it; when the file is no shelf (half written,
say), ours stays and the file is looked at again. Either way one sentence tells it.
"""

from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer

from app.session import Session
from app.shared.jobs import Answers, Lane
from app.shelf_file.disk import ChangedError, Seen, Written, digest_of, keep_beside, look, write
from app.words.sentences import sentence
from core.errors import CoreError, WorldError
from core.gear.shelf.shelf import ROWS, Shelf

__all__ = ["ShelfKeeper"]

_SAVE_REST_MS = 800
#: Other programs write in several goes; wait until they are through.
_LOOK_REST_MS = 150
#: When to look again at a file that is no shelf: it may be half written.
_AGAIN_MS = (300, 600, 1200, 2400)
_ROWS = (*ROWS.values(), "rigs")


class ShelfKeeper(QObject):
    """The shelf's file.

    Parameters
    ----------
    session : Session
    path : Path
        Where the shelf lies; need not exist.
    parent : QObject
    """

    def __init__(self, session: Session, path: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.path = path
        self._session = session
        self._known = Seen("")  # the file as it was last seen
        self._kept: Shelf | None = None  # the session's shelf that need not be saved
        self._writing = ""  # the digest of what is being written
        self._spoiled = False  # the file was good, and is no shelf any more
        self._tries = 0
        self._wants_look = self._wants_save = False
        self._lane = Lane(self)
        self._watcher = QFileSystemWatcher(self)
        self._save_rest, self._look_rest, self._again = (QTimer(self) for _ in range(3))
        self._save_rest.timeout.connect(self._save)
        self._look_rest.timeout.connect(self._look)
        self._again.timeout.connect(self._look)
        for timer in (self._save_rest, self._look_rest, self._again):
            timer.setSingleShot(True)
        self._watcher.fileChanged.connect(self._stirred)
        self._watcher.directoryChanged.connect(self._stirred)
        session.shelf_changed.connect(self._changed)

    def read(self) -> Shelf:
        """Read the shelf for the first time: the file's, else the one of the program."""
        words = ""
        try:
            self._known = look(self.path)
            words = self._known.fault
        except WorldError as error:
            words = str(error)
        if words:
            said = "Here is the shelf that comes with the program; the file is left as it is."
            self._session.say(f"{sentence(words)} {said}", "bad")
        self._kept = self._known.shelf or Shelf.load()
        self._watch()
        return self._kept

    def open(self, path: Path) -> None:
        """Go over to another file; what waits is saved first.

        Raises
        ------
        CoreError, WorldError
            When one of the two files fails; everything then stays as it was.
        """
        seen = look(path)
        if seen.fault:
            raise CoreError(seen.fault)
        failed = self.finish()
        if failed is not None:
            raise failed
        self.path = path
        self._go_on_with(seen, seen.shelf or Shelf.load())

    def finish(self) -> CoreError | WorldError | None:
        """Save at once what waits; give what went wrong."""
        for timer in (self._save_rest, self._look_rest, self._again):
            timer.stop()
        self._wants_look = self._wants_save = False
        self._lane.finish()
        try:
            now = look(self.path)
            if now.digest == self._writing:  # a save whose answer nobody waits for any more
                self._known = now
            unseen = now.digest != self._known.digest
            if now.shelf is not None and unseen:
                if self._unsaved and now.shelf != self._session.shelf:
                    self._part_ways(now)
            elif self._unsaved or self._spoiled or unseen:
                self._wrote(write(self.path, self._session.shelf, now))
        except ChangedError:
            return CoreError(f"{self.path} changed a moment ago")
        except (CoreError, WorldError) as error:
            return error if self._unsaved or self._spoiled else None
        return None

    @property
    def waits(self) -> bool:
        """Tell whether something is still to be saved or looked at."""
        timers = (self._save_rest, self._look_rest, self._again)
        return self._unsaved or self._lane.busy or any(timer.isActive() for timer in timers)

    @property
    def _unsaved(self) -> bool:
        return self._session.shelf is not self._kept

    # When something changes --------------------------------------------------------

    def _changed(self) -> None:
        """The shelf is another one: save it when the hands rest."""
        if self._unsaved:
            self._save_rest.start(_SAVE_REST_MS)

    def _stirred(self) -> None:
        """Something changed in the folder: look when it rests."""
        self._tries = 0
        self._look_rest.start(_LOOK_REST_MS)

    def _watch(self) -> None:
        """Watch the file, and its folder for a file that takes its place."""
        wanted = {str(path) for path in (self.path, self.path.parent) if path.exists()}
        watched = {*self._watcher.files(), *self._watcher.directories()}
        if watched - wanted:
            self._watcher.removePaths([*(watched - wanted)])
        if wanted - watched:
            self._watcher.addPaths([*(wanted - watched)])

    def _look(self) -> None:
        self._wants_look = True
        self._next()

    def _save(self) -> None:
        self._wants_save = True
        self._next()

    def _next(self) -> None:
        """Do what is wanted, one thing at a time: first look, then save."""
        path, known, shelf = self.path, self._known, self._session.shelf
        if self._lane.busy:
            return
        if self._wants_look:
            self._wants_look = False
            self._lane.start(lambda _job: look(path), Answers(self._on_seen, self._on_failed))
        elif self._wants_save and self._unsaved:
            self._wants_save = False
            self._writing = digest_of(shelf)
            answers = Answers(self._on_written, self._on_failed)
            self._lane.start(lambda _job: write(path, shelf, known), answers)

    # What came of it ---------------------------------------------------------------

    def _on_written(self, written: Written) -> None:
        self._wrote(written)
        self._next()

    def _on_failed(self, error: Exception) -> None:
        if isinstance(error, ChangedError):
            self._look()
        elif isinstance(error, CoreError | WorldError):
            self._session.say(f"The shelf is not kept: {sentence(error)}", "bad")
        else:
            raise error

    def _on_seen(self, seen: Seen) -> None:
        """The file was looked at: decide whose shelf counts."""
        ours = self._session.shelf
        if seen.digest == self._known.digest:
            self._tries = 0
        elif seen.fault:
            self._on_no_shelf(seen)
        elif seen.shelf is None:
            self._on_gone()
        elif seen.shelf == ours:
            self._go_on_with(seen, ours)
        elif self._unsaved:
            self._part_ways_or_say(seen)
        else:
            words = f"Another program changed the shelf: {_what_came(ours, seen.shelf)}"
            self._go_on_with(seen, seen.shelf)
            self._session.say(words, "good")
        self._watch()
        self._next()

    def _on_no_shelf(self, seen: Seen) -> None:
        """The file is no shelf: look again, and when it stays so, tell that ours stays."""
        if self._tries < len(_AGAIN_MS):
            self._again.start(_AGAIN_MS[self._tries])
            self._tries += 1
            return
        self._known, self._spoiled = seen, True
        said = "The shelf stays as it was here; the file is read again when it changes."
        self._session.say(f"{sentence(seen.fault)} {said}", "bad")
        self._changed()

    def _on_gone(self) -> None:
        """The file is gone: write it again, so that nothing is lost."""
        self._known, self._kept = Seen(""), None
        self._session.say("The file of the shelf is gone; it is written again.", "caution")
        self._save()

    def _part_ways_or_say(self, seen: Seen) -> None:
        """Part ways; when ours cannot be kept beside the file, it stays open."""
        try:
            self._part_ways(seen)
        except (CoreError, WorldError) as error:
            words = "You and another program changed the shelf; yours stays open, not kept:"
            self._session.say(f"{words} {sentence(error)}", "bad")

    def _part_ways(self, seen: Seen) -> None:
        """Both changed: theirs stays in the file and is taken, ours goes beside it."""
        assert seen.shelf is not None
        beside = keep_beside(self.path, self._session.shelf)
        self._go_on_with(seen, seen.shelf)
        words = "You and another program changed the shelf: theirs is open, yours is kept as"
        self._session.say(f"{words} {beside}; import it to bring it back.", "caution")

    def _go_on_with(self, seen: Seen, shelf: Shelf) -> None:
        """The file holds this shelf: take it, and save nothing."""
        self._known, self._kept = seen, shelf
        self._spoiled, self._tries = False, 0
        self._save_rest.stop()
        self._session.set_shelf(shelf)
        self._kept = self._session.shelf  # the same figures may have been there already
        self._watch()

    def _wrote(self, written: Written) -> None:
        """The file holds what was written; what changed since waits on."""
        self._known, self._kept = Seen(written.digest, written.shelf), written.shelf
        self._spoiled, self._writing = False, ""
        self._watch()
        if written.aside is not None:
            words = f"The shelf is saved; the file that was no shelf is kept as {written.aside}."
            self._session.say(words, "caution")


def _what_came(ours: Shelf, theirs: Shelf) -> str:
    """Say what another program did to the shelf."""
    if ours.currency != theirs.currency:
        return f"it counts in {theirs.currency} now."
    before, after = (
        {(row, held.name): held for row in _ROWS for held in getattr(shelf, row)}
        for shelf in (ours, theirs)
    )
    changed = sum(before[key] != after[key] for key in before.keys() & after.keys())
    new, gone = len(after.keys() - before.keys()), len(before.keys() - after.keys())
    return f"{new} new, {changed} changed, {gone} gone."
