"""Asks for a file, in the colours of the theme: the system's own dialog would shine white."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QFileInfo, QStandardPaths
from PySide6.QtGui import QAbstractFileIconProvider, QColor, QIcon, QPainter
from PySide6.QtWidgets import QFileDialog, QFileIconProvider, QToolButton

from app.window.red_cursors import apply_cursors

if TYPE_CHECKING:
    from app.window.shell import Shell

__all__ = ["ask_file", "file_dialog"]

_ICON_PX = 16


class _Icons(QFileIconProvider):
    """Folders and files in one colour."""

    def __init__(self, colour: str) -> None:
        super().__init__()
        self._colour = colour

    def icon(self, about: QAbstractFileIconProvider.IconType | QFileInfo) -> QIcon:
        """Give the icon of a file or of a kind of file."""
        return _inked(super().icon(about), self._colour)


def ask_file(shell: "Shell", title: str, kind: str, *, proposed: str = "") -> str:
    """Ask for a file to open, or for a place to save to.

    Parameters
    ----------
    shell : Shell
        The window that asks.
    title : str
        What is asked.
    kind : str
        Words and pattern of the files meant: ``"Pictures (*.png)"``.
    proposed : str
        Name proposed for a file to be written, whose ending is added where it lacks; empty
        to ask for a file that exists.

    Returns
    -------
    str
        The path; empty when the person gave it up.
    """
    dialog = file_dialog(shell, title, kind, proposed=proposed)
    try:
        given = dialog.selectedFiles() if dialog.exec() else []
    finally:
        dialog.deleteLater()
    return given[0] if given else ""


def file_dialog(shell: "Shell", title: str, kind: str, *, proposed: str = "") -> QFileDialog:
    """Make the dialog that `ask_file` shows."""
    dialog = QFileDialog(shell, title, "", kind)
    theme = shell.settings.theme
    if theme.red_only:
        dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
        dialog.setSizeGripEnabled(False)
        _ink(dialog, theme.text)
        apply_cursors(dialog, theme)
    dialog.setDirectory(_folder(shell))  # only now: its icons are not asked for again
    if proposed:
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix(Path(proposed).suffix)
        dialog.selectFile(proposed)
    else:
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    return dialog


def _folder(shell: "Shell") -> str:
    """Begin where the plan lies, or where this system keeps documents."""
    path = shell.settings.plan_path
    documents = QStandardPaths.StandardLocation.DocumentsLocation
    wanted = Path(path).parent if path else Path(QStandardPaths.writableLocation(documents))
    return str(wanted if wanted.is_dir() else Path.home())


def _ink(dialog: QFileDialog, colour: str) -> None:
    """Draw every icon of a dialog in one colour."""
    dialog._icons = _Icons(colour)  # type: ignore[attr-defined]  # Qt does not keep it
    dialog.setIconProvider(dialog._icons)  # type: ignore[attr-defined]
    for button in dialog.findChildren(QToolButton):
        button.setIcon(_inked(button.icon(), colour))


def _inked(icon: QIcon, colour: str) -> QIcon:
    """Give the outline of an icon filled with a colour."""
    pixmap = icon.pixmap(_ICON_PX, _ICON_PX)
    if not pixmap.isNull():
        painter = QPainter(pixmap)
        painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_SourceIn)
        painter.fillRect(pixmap.rect(), QColor(colour))
        painter.end()
    inked = QIcon(pixmap)
    inked.addPixmap(pixmap, QIcon.Mode.Disabled)  # Qt would make it grey
    return inked
