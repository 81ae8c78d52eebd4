"""Imports what will be wanted later, while nobody waits: one module, then the window's turn.

It begins some time after the window stands, so that the start stays as it is, and makes the
first opening of the rig bench a matter of building it only.
"""

from importlib import import_module

from PySide6.QtCore import QObject, QTimer

__all__ = ["Warming"]

_REST_MS = 2500
_STEP_MS = 20
#: In an order in which each brings little with it.
_MODULES = (
    "core.gear.checks",
    "core.gear.optics.beam",
    "core.gear.kinds",
    "app.shared.typed_field",
    "app.words.finding_words",
    "app.words.part_words",
    "app.rig_editor.beam_layout",
    "app.rig_editor.beam_paint",
    "app.rig_editor.beam_view",
    "app.rig_editor.part_form",
    "app.rig_editor.part_chooser",
    "app.rig_editor.parts_page",
    "app.rig_editor.new_rig",
    "app.rig_editor.bench",
    "app.window.bench_rooms",
)


class Warming(QObject):
    """Imports the modules of the bench in turns with the window.

    Parameters
    ----------
    parent : QObject
        Ends it when it goes.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.left = list(_MODULES)
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._step)

    def start(self) -> None:
        """Begin after a rest."""
        self._timer.start(_REST_MS)

    def stop(self) -> None:
        """Import no more."""
        self._timer.stop()

    def _step(self) -> None:
        """Import one module, and let the window answer before the next."""
        import_module(self.left.pop(0))
        if self.left:
            self._timer.start(_STEP_MS)
