"""Where the program keeps what is the user's: settings, the open plan, pictures, the log.

SKYSILL_HOME puts everything under one folder: for a trial, a test or a memory stick.
"""

import os
from pathlib import Path
from typing import NamedTuple

__all__ = ["Places", "user_places"]


class Places(NamedTuple):
    """The folders; made when something is written into them."""

    config: Path
    data: Path
    cache: Path

    @property
    def settings(self) -> Path:
        """Theme, text size, window."""
        return self.config / "settings.ini"

    @property
    def open_plan(self) -> Path:
        """The plan as it was left."""
        return self.data / "open-plan.json"

    @property
    def shelf(self) -> Path:
        """Parts and rigs to choose from; absent until something is changed on the shelf."""
        return self.data / "shelf.json"

    @property
    def pictures(self) -> Path:
        """Survey cutouts."""
        return self.cache / "pictures"

    @property
    def log(self) -> Path:
        """What went wrong."""
        return self.data / "skysill.log"


def user_places() -> Places:
    """Give the folders this system keeps for programs, or those under SKYSILL_HOME."""
    home = os.environ.get("SKYSILL_HOME")
    if home:
        root = Path(home)
        return Places(root / "config", root / "data", root / "cache")
    import platformdirs

    return Places(
        platformdirs.user_config_path("skysill", appauthor=False),
        platformdirs.user_data_path("skysill", appauthor=False),
        platformdirs.user_cache_path("skysill", appauthor=False),
    )
