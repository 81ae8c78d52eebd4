"""The command line: one file a command, the same core as the window.

Each command's file offers ``add_to(commands)``; `COMMANDS` lists them. Results go to
standard output, sentences to standard error. The exit status is 0; 2 for bad input; 1
when the world outside failed (a disk, a catalogue) or the work was broken off.
"""

import contextlib
import logging
import os
import re
import sys
from collections.abc import Sequence
from importlib.metadata import PackageNotFoundError, version

import typer

from app.cli import check, frame, read, sheet, shelf, step, swaps
from core.errors import Cancelled, CoreError, WorldError

__all__ = ["COMMANDS", "run"]

#: The files of the commands, in the order in which the help lists them.
COMMANDS = (frame, check, step, swaps, sheet, read, shelf)

_WORLD, _BAD_INPUT, _INTERRUPTED = 1, 2, 130
_NEGATIVE = re.compile(r"-[\d.][\d.,:'\"dhms°′″]*", re.IGNORECASE)


def run(argv: Sequence[str]) -> int:
    """Run one command.

    Parameters
    ----------
    argv : sequence of str
        The words after ``skysill``.

    Returns
    -------
    int
        The exit status; whatever happens is told in one line on standard error.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without the degree sign
    try:
        status = _commands()(_positions_kept(argv), prog_name="skysill", standalone_mode=False)
        sys.stdout.flush()
    except SystemExit:  # how the library of the tables takes it when nobody reads
        return _WORLD
    except (Exception, KeyboardInterrupt) as error:
        return _told(error)
    if status == _INTERRUPTED:
        return _told(KeyboardInterrupt())
    return status if isinstance(status, int) else 0


def _commands() -> typer.Typer:
    """Build the command and its commands."""
    commands = typer.Typer(
        add_completion=False, pretty_exceptions_enable=False, rich_markup_mode=None
    )
    commands.callback(invoke_without_command=False)(_skysill)
    for command in COMMANDS:
        command.add_to(commands)
    return commands


def _skysill(
    show_version: bool = typer.Option(
        False,
        "--version",
        is_eager=True,
        help="Print the version and end.",
        callback=lambda v: _version(v),
    ),
) -> None:
    """Choose a rig, set up the frame, show what it records.

    With nothing, or with a plan file, the window opens.
    """


def _version(wanted: bool) -> None:
    """Print the version when asked to."""
    if wanted:
        try:
            sys.stdout.write(f"skysill {version('skysill')}\n")
        except PackageNotFoundError:
            sys.stdout.write("skysill, run from its source folder\n")
        raise typer.Exit


def _positions_kept(argv: Sequence[str]) -> list[str]:
    """Keep "-44 19" of a position from being taken for an option."""
    return ["\N{MINUS SIGN}" + word[1:] if _NEGATIVE.fullmatch(word) else word for word in argv]


def _told(error: BaseException) -> int:
    """Say in one line what went wrong; give the exit status."""
    if isinstance(error, BrokenPipeError):
        # Nobody reads any more; Python would complain once more when it flushes at the end.
        with contextlib.suppress(OSError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return _WORLD
    if isinstance(error, KeyboardInterrupt | Cancelled | typer.Abort):
        return _said("broken off", _WORLD)
    if isinstance(error, CoreError):
        return _said(str(error), _BAD_INPUT)
    if isinstance(error, WorldError):
        return _said(str(error), _WORLD)
    if isinstance(error, OSError):
        return _said(f"{error.filename or 'the system'}: {error.strerror or error}", _WORLD)
    if hasattr(error, "format_message"):  # the words of typer's own refusals
        return _said(f"{error.format_message().rstrip('.')}; see skysill --help", _BAD_INPUT)
    return _mistake(error)


def _mistake(error: BaseException) -> int:
    """Write a mistake of the program to the log, and say where that is."""
    from app.window.places import user_places

    log = user_places().log
    try:
        log.parent.mkdir(parents=True, exist_ok=True)
        handler = logging.FileHandler(log, encoding="utf-8")
    except OSError:
        return _said(f"a mistake of the program: {type(error).__name__}: {error}", _WORLD)
    logger = logging.getLogger("skysill.cli")
    logger.addHandler(handler)
    logger.propagate = False
    logger.critical("a mistake", exc_info=error)
    logger.removeHandler(handler)
    handler.close()
    return _said(f"a mistake of the program ({type(error).__name__}), written to {log}", _WORLD)


def _said(sentence: str, status: int) -> int:
    """Print one line on standard error; hand the status through."""
    with contextlib.suppress(OSError):
        sys.stderr.write(f"skysill: {' '.join(sentence.split())}\n")
    return status
