"""The frames of an answer drawn on the sheet, saved as a picture."""

import os
from pathlib import Path

from app.cli.asked import Frames
from core.errors import BadValueError, StorageError
from core.framing.enclosing import enclosing_width_deg
from core.plan.edits import with_rig_shown, with_view
from core.sky.tangent_plane import TangentPlane

__all__ = ["save_picture"]

_SIZE = (1280, 800)
_WIDEST_DEG = 120.0


def save_picture(answer: Frames, path: Path) -> None:
    """Draw the frames with the sky around them.

    Raises
    ------
    BadValueError
        When the file's name does not end in ``.png``.
    StorageError
        When it cannot be written, or the drawing library is not there.
    """
    if path.suffix.lower() != ".png":
        raise BadValueError("picture", path, 'must be a file whose name ends in ".png"')
    if not path.parent.is_dir():
        raise StorageError(f"cannot write {path}: there is no folder {path.parent}")
    if not os.environ.get("QT_QPA_PLATFORM"):
        os.environ["QT_QPA_PLATFORM"] = "offscreen"  # no window is needed
    try:
        from app.sky_sheet.image import save_sheet_image
    except ImportError as error:
        raise StorageError(f"cannot draw {path}: {error}") from error
    plan, shown = answer.plan, {frame.planned.id for frame in answer.frames}
    for planned in plan.rigs:
        plan = with_rig_shown(plan, planned.id, shown=planned.id in shown)
    first = answer.frames[0].footprint
    wide = enclosing_width_deg(
        TangentPlane(first.ra_deg, first.dec_deg),
        [frame.footprint for frame in answer.frames],
        aspect=_SIZE[0] / _SIZE[1],
    )
    view = plan.view.but(
        ra_deg=first.ra_deg,
        dec_deg=first.dec_deg,
        width_deg=min(wide, _WIDEST_DEG),
        picture="chart",
    )
    save_sheet_image(with_view(plan, view), path, _SIZE)
