"""A folder of pictures already brought, each beside a note of what it is.

A picture is kept under a key made of everything that was asked: survey, frame, file
form. Its bytes lie in one file, named by key and checksum; a JSON note beside it holds
projection, credit, date and checksum, is written last and thereby makes the picture
known. All files are written aside and moved into place, so that two programs may use one
folder. What does not fit its checksum or its note is thrown away, never shown.

A folder that cannot be read or written makes every picture a miss: the program then
works without a cache. Nothing here raises for what the disk does.
"""

import contextlib
import hashlib
import json
import logging
import os
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from core.errors import BadValueError
from core.pictures.picture import PictureFrame

__all__ = ["Asked", "Kept", "PictureCache"]

_LOG = logging.getLogger(__name__)
_FORMAT, _VERSION = "skysill-cutout", 1
_MOST_NOTE_BYTES = 65536
#: Files without a note are left alone this long: another program may be writing it.
_ORPHAN_S = 3600.0


@dataclass(frozen=True)
class Asked:
    """What is asked of a service: the survey, where, and in which file form."""

    survey_id: str
    frame: PictureFrame
    form: str

    @property
    def facts(self) -> dict[str, object]:
        """Everything that makes the picture what it is, for the key and the note."""
        return {"survey": self.survey_id, "form": self.form, "projection": self.frame.wcs_header()}

    @property
    def key(self) -> str:
        """A name made of all that was asked."""
        text = json.dumps(self.facts, sort_keys=True)
        return hashlib.sha256(text.encode()).hexdigest()[:40]


@dataclass(frozen=True)
class Kept:
    """A picture from the folder: its bytes, credit line and date (ISO 8601, UTC)."""

    body: bytes
    credit: str
    date: str


class PictureCache:
    """Pictures on the disk, the longest unused going first when room is short.

    Parameters
    ----------
    folder : Path
        Made when it is missing.
    limit_bytes : int
        Most bytes that all files together may take.
    """

    def __init__(self, folder: Path, *, limit_bytes: int = 512 * 2**20) -> None:
        if limit_bytes < 0:
            raise BadValueError("cache size", limit_bytes, "must be 0 bytes or more")
        self.folder = Path(folder)
        self.limit_bytes = limit_bytes

    def get(self, asked: Asked) -> Kept | None:
        """Give a picture, or None; what is damaged is removed."""
        note_path = self._note_path(asked.key)
        try:
            kept = self._read(note_path, asked)
        except FileNotFoundError:
            return None
        except (OSError, ValueError, KeyError, TypeError, RecursionError) as error:
            _LOG.debug("dropped %s: %s", note_path, error)
            self.drop(asked)
            return None
        with contextlib.suppress(OSError):
            os.utime(note_path)
        return kept

    def put(self, asked: Asked, body: bytes, credit: str) -> bool:
        """Keep a picture.

        Parameters
        ----------
        asked : Asked
        body : bytes
            As the service sent them.
        credit : str

        Returns
        -------
        bool
            False when the disk refused or the picture is larger than the whole limit.
        """
        digest = hashlib.sha256(body).hexdigest()
        note = asked.facts | {
            "format": _FORMAT,
            "version": _VERSION,
            "credit": credit,
            "date": time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime()),
            "bytes": len(body),
            "sha256": digest,
        }
        text = json.dumps(note, indent=1).encode()
        if len(body) + len(text) > self.limit_bytes:
            return False
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            self._write(self._body_path(asked.key, digest), body)
            self._write(self._note_path(asked.key), text)
            self._make_room(keep=asked.key)
        except OSError as error:
            _LOG.debug("not kept: %s", error)
            return False
        return True

    def drop(self, asked: Asked) -> None:
        """Remove a picture and its note."""
        self._remove(asked.key)

    def size_bytes(self) -> int:
        """Count the bytes of all files in the folder."""
        return sum(size for _, _, size in self._files())

    def _read(self, note_path: Path, asked: Asked) -> Kept:
        """Read note and bytes, and hold one against the other."""
        with note_path.open("rb") as file:
            note = json.loads(file.read(_MOST_NOTE_BYTES))
        told = {name: note[name] for name in asked.facts}
        if (note["format"], note["version"]) != (_FORMAT, _VERSION) or told != asked.facts:
            raise ValueError("the note is about something else")
        credit, date, digest = note["credit"], note["date"], note["sha256"]
        if not all(isinstance(text, str) for text in (credit, date, digest)):
            raise ValueError("the note holds something else than words")
        try:
            with self._body_path(asked.key, digest).open("rb") as file:
                body = file.read(self.limit_bytes + 1)
        except FileNotFoundError as error:
            raise ValueError("the picture is missing") from error
        if len(body) != note["bytes"] or hashlib.sha256(body).hexdigest() != digest:
            raise ValueError("the picture does not fit its checksum")
        return Kept(body, credit, date)

    def _note_path(self, key: str) -> Path:
        """Where a note lies."""
        return self.folder / f"{key}.json"

    def _body_path(self, key: str, digest: str) -> Path:
        """Where a picture's bytes lie."""
        if not (len(digest) == 64 and digest.isalnum() and digest.isascii()):
            raise ValueError("the checksum is none")
        return self.folder / f"{key}-{digest[:16]}.picture"

    def _write(self, path: Path, content: bytes) -> None:
        """Write aside, then move into place."""
        handle, name = tempfile.mkstemp(dir=self.folder, prefix="new-", suffix=".part")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            os.replace(name, path)
        except BaseException:
            with contextlib.suppress(OSError):
                os.unlink(name)
            raise

    def _files(self) -> list[tuple[Path, float, int]]:
        """Every file of ours: path, time of last use, size."""
        found = []
        with contextlib.suppress(OSError):
            for path in self.folder.iterdir():
                if path.suffix in {".json", ".picture", ".part"}:
                    with contextlib.suppress(OSError):
                        facts = path.stat()
                        found.append((path, facts.st_mtime, facts.st_size))
        return found

    def _make_room(self, keep: str) -> None:
        """Remove leftovers, then the pictures that were used longest ago."""
        files = self._files()
        total = sum(size for _, _, size in files)
        noted = {path.stem: used for path, used, _ in files if path.suffix == ".json"}
        now = time.time()
        for path, used, size in files:
            owner = path.stem.split("-")[0] if path.suffix == ".picture" else ""
            leftover = path.suffix != ".json" and owner not in noted
            if leftover and now - used > _ORPHAN_S:
                with contextlib.suppress(OSError):
                    path.unlink()
                    total -= size
        for key in sorted((key for key in noted if key != keep), key=noted.__getitem__):
            if total <= self.limit_bytes:
                return
            total -= self._remove(key)

    def _remove(self, key: str) -> int:
        """Remove everything under a key, the note first; give the bytes freed."""
        freed = 0
        mine = [entry for entry in self._files() if entry[0].stem.split("-")[0] == key]
        for path, _, size in sorted(mine, key=lambda entry: entry[0].suffix != ".json"):
            with contextlib.suppress(OSError):
                path.unlink()
                freed += size
        return freed
