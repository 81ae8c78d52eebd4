"""The command `skysill`: with nothing or a plan file it opens the window."""

import sys
from pathlib import Path

__all__ = ["main"]


def main() -> int:
    """Open the window, or run a command; give the exit status."""
    given = sys.argv[1:]
    if not given or (len(given) == 1 and _is_plan(given[0])):
        from app.window.startup import run

        status: int = run(*given)
        return status
    from app.cli import run as run_command

    status = run_command(given)
    return status


def _is_plan(text: str) -> bool:
    """Tell whether the one word given is meant as a plan file."""
    return text.endswith(".json") and not text.startswith("-") and Path(text).suffix == ".json"


if __name__ == "__main__":
    sys.exit(main())
