"""Qt's application object, made once. Imported before the first window is painted."""

import sys

from PySide6.QtWidgets import QApplication

from app.shared.theme import load_fonts

__all__ = ["application"]


def application() -> QApplication:
    """Give Qt's application object, made once, with the typeface loaded."""
    existing = QApplication.instance()
    if isinstance(existing, QApplication):
        return existing
    app = QApplication(sys.argv[:1])
    app.setApplicationName("skysill")
    app.setApplicationDisplayName("Skysill")
    load_fonts("Regular")
    return app
