"""A script in a process of its own, for what only a fresh start can show."""

import os
import subprocess
import sys

__all__ = ["run_apart"]


def run_apart(script: str, **environment: str) -> str:
    """Run a script without a screen and give what it printed; it must end well."""
    done = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        timeout=100,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen", **environment},
        check=False,
    )
    assert done.returncode == 0, done.stderr[-500:]
    return done.stdout
