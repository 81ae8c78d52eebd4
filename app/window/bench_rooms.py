"""The rig bench with all its pages, built when it is first opened."""

from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from app.frame_reading.drop import FrameDrop
from app.frame_reading.page import FramePage
from app.rig_editor.bench import RigBench
from app.session import Session
from app.shared.theme import Theme
from app.window.asking import ask_file
from app.window.late_page import LatePage

if TYPE_CHECKING:
    from app.window.shell import Shell

__all__ = ["finish_bench", "furnished_bench"]

_FRAMES = (
    "Frames: FITS, JPEG, TIFF (*.fits *.fit *.fts *.fz *.gz *.jpg *.jpeg *.tif *.tiff);;All (*)"
)
_FRAME_PAGE = "From a frame"
#: What the late pages need, imported in turns with the window once the bench is open.
_LATER = (
    "core.gear.money.step_up",
    "core.gear.money.offers",
    "app.shelf_file.keeper",
    "app.rig_money.swaps",
    "app.rig_money.step",
)


def furnished_bench(session: Session, shell: "Shell") -> RigBench:
    """Build the bench and put the pages of the other rooms on it."""
    theme, scale = shell.settings.theme, shell.settings.text_scale
    bench = RigBench(session, theme, scale)
    for title, make in (("Swaps", _swaps), ("Next step", _step), ("Nights", _nights)):
        bench.add_page(title, LatePage(partial(make, session), theme, scale))
    QTimer.singleShot(0, partial(_import_in_turns, _LATER))
    _add_frames(bench, FramePage(session, lambda: _ask_frame(shell), theme, scale))
    return bench


def _import_in_turns(names: tuple[str, ...]) -> None:
    """Import one module, let the window answer, import the next."""
    if names:
        import_module(names[0])
        QTimer.singleShot(0, partial(_import_in_turns, names[1:]))


def _swaps(session: Session, theme: Theme, scale: float) -> QWidget:
    from app.rig_money.swaps import SwapsPage

    return SwapsPage(session, theme, scale)


def _step(session: Session, theme: Theme, scale: float) -> QWidget:
    from app.rig_money.step import StepPage

    return StepPage(session, theme, scale)


def _nights(session: Session, theme: Theme, scale: float) -> QWidget:
    from app.rig_money.nights import NightsPage

    return NightsPage(session, theme, scale)


def finish_bench(bench: RigBench) -> None:
    """Let the pages end what they do beside the window, at the end of the program."""
    for place in range(bench.pages.count()):
        end = getattr(bench.pages.widget(place), "finish", None)
        if end is not None:
            end()


def _add_frames(bench: RigBench, page: FramePage) -> None:
    """Add the page that reads frames, also those dropped anywhere on the bench."""
    bench.add_page(_FRAME_PAGE, page)
    page.wanted.connect(lambda: bench.show_page(_FRAME_PAGE))
    page.taken.connect(lambda: bench.show_page("Parts"))
    FrameDrop(bench, page.read)


def _ask_frame(shell: "Shell") -> str:
    """Ask for a frame."""
    return ask_file(shell, "Read a rig from a frame", _FRAMES)
