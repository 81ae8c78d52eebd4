"""Reads and writes one record as one JSON file, and never leaves half a file behind.

Reading looks at the size before the content, and says in one sentence what is wrong and
where. Writing goes through `core.record.atomic_file`.

What is read is UTF-8 JSON (RFC 8259), an object with `format` and `version`.
"""

import math
import os
import re
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TypeVar

from pydantic import ValidationError
from pydantic_core import from_json

from core.errors import CoreError, StorageError
from core.record.atomic_file import other_than_file, replace_file
from core.record.validation import Record, one_line, refusal

__all__ = [
    "LARGEST_BYTES",
    "bytes_of",
    "full_json",
    "read_bytes",
    "read_one_of",
    "read_record",
    "record_of",
    "write_bytes",
    "write_record",
]

#: A plan of a thousand targets and a hundred rigs stays far below.
LARGEST_BYTES = 16 * 1024 * 1024
#: So many bytes before and behind a fault are looked at for a hint.
_NEAR = 60

_BYTE_ORDER_MARK = b"\xef\xbb\xbf"

Kind = TypeVar("Kind", bound=Record)


def read_record(path: Path, model: type[Kind], *, refused_as: type[CoreError]) -> Kind:
    """Read one record.

    Parameters
    ----------
    path : Path
    model : type of Record
        Has the fields `format` and `version`, whose defaults are what it reads.
    refused_as : type of CoreError
        Raised when the file is not such a record.

    Raises
    ------
    CoreError
        Of the given type: the file's name, the place, the rule.
    StorageError
        When the disk or its rights refuse to read.
    """
    found = read_one_of(path, (model,), refused_as=refused_as)
    assert isinstance(found, model)
    return found


def read_one_of(
    path: Path, models: Sequence[type[Record]], *, refused_as: type[CoreError]
) -> Record:
    """Read a record of one of several kinds, told apart by their format.

    Parameters
    ----------
    path : Path
    models : sequence of type of Record
        As for `read_record`; it raises like that too.
    refused_as : type of CoreError
    """
    data = read_bytes(path, refused_as=refused_as)
    return record_of(data, path.name or str(path), models, refused_as=refused_as)


def record_of(
    data: bytes, name: str, models: Sequence[type[Record]], *, refused_as: type[CoreError]
) -> Record:
    """Make a record of what a file held; refused like in `read_record`.

    Parameters
    ----------
    data : bytes
    name : str
        What to call the file in a message.
    models : sequence of type of Record
    refused_as : type of CoreError
    """
    name, data = one_line(name), data.removeprefix(_BYTE_ORDER_MARK)
    try:
        return _kind_of(data, models).model_validate_json(data)
    except ValidationError as error:
        raise refused_as(f"{name}: {refusal(error)}") from None
    except ValueError as error:
        raise refused_as(f"{name} {error}") from None


def full_json(record: Record) -> str:
    """Write every field of a record on a line of its own."""
    return record.model_dump_json(indent=1)


def write_record(
    path: Path,
    record: Record,
    *,
    refused_as: type[CoreError],
    form: Callable[[Record], str] = full_json,
) -> bytes:
    """Write one record in place of what was there; give what was written.

    Parameters
    ----------
    path : Path
        A link is followed, so that the file it leads to is the one replaced.
    record : Record
    refused_as : type of CoreError
        Raised when the record is larger than what `read_record` accepts.
    form : callable
        How it is written.

    Raises
    ------
    StorageError
        When the disk is full or refuses; what was there before is then untouched.
    """
    data = bytes_of(record, form)
    if len(data) > LARGEST_BYTES:
        raise refused_as(f"{path.name} would be larger than {_megabytes(LARGEST_BYTES)}")
    write_bytes(path, data)
    return data


def write_bytes(path: Path, data: bytes) -> None:
    """Write a whole file in place of what was there; links and errors as `write_record`."""
    try:
        replace_file(Path(os.path.realpath(path)), data)
    except (OSError, ValueError) as error:
        raise StorageError(f"cannot write {_shown(path)}: {_reason(error)}") from error


def bytes_of(record: Record, form: Callable[[Record], str]) -> bytes:
    """Give a record as it stands in its file."""
    return form(record).encode() + b"\n"


def read_bytes(path: Path, *, refused_as: type[CoreError]) -> bytes:
    """Read a file whole when it is a file and not too large; raises like `read_record`."""
    name = one_line(path.name or str(path))
    try:
        status = path.stat()
        if other := other_than_file(status.st_mode):
            raise refused_as(f"{name} is {other}, not a file")
        if status.st_size > LARGEST_BYTES:
            raise refused_as(f"{name} is {_megabytes(status.st_size)} large; {_limit()}")
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise refused_as(f"there is no file {_shown(path)}") from None
    except (OSError, ValueError) as error:
        if isinstance(error, CoreError):
            raise
        raise StorageError(f"cannot read {_shown(path)}: {_reason(error)}") from error
    if len(data) > LARGEST_BYTES:
        raise refused_as(f"{name} grew while it was read; {_limit()}")
    return data


def _kind_of(data: bytes, models: Sequence[type[Record]]) -> type[Record]:
    """Tell what a file holds; refuse no JSON, no object, another format, a later version."""
    if not data.strip():
        raise ValueError("is empty")
    try:
        content = from_json(data, allow_inf_nan=False)
    except ValueError as error:
        raise ValueError(_json_fault(str(error), data)) from None
    if not isinstance(content, Mapping):
        raise ValueError("is JSON, but not an object in braces")
    formats = {model.model_fields["format"].default: model for model in models}
    given = content.get("format")
    if not isinstance(given, str) or given not in formats:
        wanted = " or ".join(f'"{known}"' for known in formats)
        raise ValueError(f"is JSON of another kind: its format is not {wanted}")
    model = formats[given]
    _check_version(content.get("version"), model.model_fields["version"].default)
    return model


def _check_version(version: object, newest: int) -> None:
    """Refuse a version that is none, or a later one."""
    if type(version) is not int or version < 1:
        raise ValueError(f"has no version that is known; this program reads up to {newest}")
    if version > newest:
        number = f" ({version})" if version < 10**9 else ""
        made = f"was made by a later version{number}"
        raise ValueError(f"{made}; this program reads up to {newest}")


def _json_fault(fault: str, data: bytes) -> str:
    """Say what is wrong with a text that is not JSON, and where."""
    what, _, place = fault.partition(" at ")
    if what.startswith("EOF"):
        return f"is cut off: it ends at {place} in the middle of the content"
    if what.startswith("recursion"):
        return f"is nested too deeply (at {place})"
    if "unicode" in what or "UTF" in what:
        return f"is not text in UTF-8 (at {place})"
    return f"is not JSON: {what} at {place}{_comma_hint(data, place)}"


def _comma_hint(data: bytes, place: str) -> str:
    """Say how to write a number where one with a decimal comma stands before the fault."""
    numbers = [int(number) for number in re.findall(r"\d+", place)]
    lines = data.split(b"\n")
    if len(numbers) != 2 or not 0 < numbers[0] <= len(lines):
        return ""
    start = max(0, numbers[1] - _NEAR)
    near = lines[numbers[0] - 1][start : numbers[1] + _NEAR]
    for found in re.finditer(rb":\s*(-?\d+),(\d+)", near):
        if found.start(1) < numbers[1] - start <= found.end() + 1:
            return f"; write a point for the comma: {b'.'.join(found.groups()).decode()}"
    return ""


def _shown(path: Path) -> str:
    """Show a path whole."""
    return one_line(str(path), longest=1000)


def _reason(error: Exception) -> str:
    """Give the system's reason in small letters."""
    text = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return text[:1].lower() + text[1:]


def _megabytes(size: int) -> str:
    """Show a size, rounded up."""
    return f"{math.ceil(size / 1024**2)} MB"


def _limit() -> str:
    """State the limit."""
    return f"at most {_megabytes(LARGEST_BYTES)} are read"
