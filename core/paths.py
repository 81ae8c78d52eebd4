"""Where the files that come with the program lie.

The assets folder stands beside the packages, in a checkout as in a wheel.
"""

from pathlib import Path

__all__ = ["ASSETS"]

ASSETS: Path = Path(__file__).resolve().parent.parent / "assets"
