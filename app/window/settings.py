"""What the program remembers of the person's taste: theme, text size, window."""

import contextlib

from PySide6.QtCore import QByteArray, QSettings

from app.shared.theme import THEMES, Theme
from app.window.places import Places

__all__ = ["Settings"]

TEXT_SCALES = (0.8, 0.9, 1.0, 1.15, 1.3, 1.5, 1.75, 2.0)


class Settings:
    """Settings in a file of plain text; a value that cannot be is as good as none.

    Parameters
    ----------
    places : Places
        Where the file lies.
    """

    def __init__(self, places: Places) -> None:
        with contextlib.suppress(OSError):  # then the taste of today is forgotten tomorrow
            places.config.mkdir(parents=True, exist_ok=True)
        self._store = QSettings(str(places.settings), QSettings.Format.IniFormat)

    @property
    def theme(self) -> Theme:
        """Colours."""
        return THEMES.get(str(self._store.value("theme", "dark")), THEMES["dark"])

    @theme.setter
    def theme(self, theme: Theme) -> None:
        self._store.setValue("theme", theme.key)

    @property
    def text_scale(self) -> float:
        """Text size: 1 for 12 px, from 0.8 to 2."""
        try:
            scale = float(str(self._store.value("text_scale", "1.0")))
        except ValueError:
            return 1.0
        return scale if TEXT_SCALES[0] <= scale <= TEXT_SCALES[-1] else 1.0

    @text_scale.setter
    def text_scale(self, scale: float) -> None:
        self._store.setValue("text_scale", str(scale))

    @property
    def plan_path(self) -> str:
        """The file the open plan was read from or saved to; empty for none."""
        return str(self._store.value("plan_path", ""))

    @plan_path.setter
    def plan_path(self, path: str) -> None:
        self._store.setValue("plan_path", path)

    @property
    def shelf_path(self) -> str:
        """The file that keeps the shelf; empty for the usual one."""
        return str(self._store.value("shelf_path", ""))

    @shelf_path.setter
    def shelf_path(self, path: str) -> None:
        self._store.setValue("shelf_path", path)

    @property
    def geometry(self) -> QByteArray | None:
        """The window's place and size, as Qt packs it."""
        packed = self._store.value("geometry")
        return packed if isinstance(packed, QByteArray) else None

    @geometry.setter
    def geometry(self, packed: QByteArray) -> None:
        self._store.setValue("geometry", packed)

    def flush(self) -> None:
        """Write to the disk now."""
        self._store.sync()
