"""The rig bench with all its pages, built when it is first opened."""

from typing import TYPE_CHECKING

from app.frame_reading.drop import FrameDrop
from app.frame_reading.page import FramePage
from app.rig_editor.bench import RigBench
from app.rig_money.nights import NightsPage
from app.rig_money.step import StepPage
from app.rig_money.swaps import SwapsPage
from app.session import Session
from app.window.asking import ask_file

if TYPE_CHECKING:
    from app.window.shell import Shell

__all__ = ["finish_bench", "furnished_bench"]

_FRAMES = (
    "Frames: FITS, JPEG, TIFF (*.fits *.fit *.fts *.fz *.gz *.jpg *.jpeg *.tif *.tiff);;All (*)"
)
_FRAME_PAGE = "From a frame"


def furnished_bench(session: Session, shell: "Shell") -> RigBench:
    """Build the bench and put the pages of the other rooms on it."""
    theme, scale = shell.settings.theme, shell.settings.text_scale
    bench = RigBench(session, theme, scale)
    bench.add_page("Swaps", SwapsPage(session, theme, scale))
    bench.add_page("Next step", StepPage(session, theme, scale))
    bench.add_page("Nights", NightsPage(session, theme, scale))
    _add_frames(bench, FramePage(session, lambda: _ask_frame(shell), theme, scale))
    return bench


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
