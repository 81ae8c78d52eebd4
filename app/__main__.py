"""The command `skysill`: with nothing or a plan file it opens the window."""

import os
import sys

__all__ = ["main"]

_NO_SCREEN = (
    "skysill: there is no screen here to open the window on (DISPLAY and WAYLAND_DISPLAY are "
    "not set); the command line works without one: skysill --help\n"
)


def main() -> int:
    """Open the window, or run a command; give the exit status."""
    given = sys.argv[1:]
    if not given or (len(given) == 1 and _is_plan(given[0])):
        if _no_screen():
            sys.stderr.write(_NO_SCREEN)
            return 1
        from app.window.startup import run

        status: int = run(*given)
        return status
    from app.cli import run as run_command

    status = run_command(given)
    return status


def _no_screen() -> bool:
    """Tell whether Qt would find no screen here, which it answers by aborting."""
    told = ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")
    return sys.platform.startswith("linux") and not any(map(os.environ.get, told))


def _is_plan(text: str) -> bool:
    """Tell whether the one word given is meant as a plan file."""
    return text.lower().endswith(".json") and not text.startswith("-")


if __name__ == "__main__":
    sys.exit(main())
