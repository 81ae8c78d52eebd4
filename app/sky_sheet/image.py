"""The sheet as a picture file: what the window shows, without a window if need be."""

from pathlib import Path

from PySide6.QtCore import QSize
from PySide6.QtGui import QImage, QPainter

from app.session import Session
from app.shared.theme import THEMES, load_fonts
from app.sky_sheet.layers import Layers, SheetStyle
from app.sky_sheet.sheet import SkySheet
from core.catalogue.stars import StarCatalogue
from core.catalogue.target import TargetKind
from core.catalogue.targets import TargetTable
from core.errors import StorageError
from core.pictures.chart import draw_chart
from core.pictures.marks import marks
from core.pictures.picture import PictureFrame
from core.plan.document import Plan

__all__ = ["grab_sheet", "save_sheet_image"]

_SIZE = (1280, 800)
_STAR_PX = 1.05


def grab_sheet(sheet: SkySheet, ratio: float) -> QImage:
    """Give the sheet of a window as an image of so many device pixels a logical one."""
    return _image(sheet.session, sheet.layers.style, sheet.size(), ratio)


def save_sheet_image(plan: Plan, path: Path, size: tuple[int, int] = _SIZE) -> None:
    """Draw a plan's sheet from the embedded catalogues and save it as a PNG.

    Parameters
    ----------
    plan : Plan
        Its view, target, shown rigs and framings are drawn.
    path : Path
        Where to write.
    size : (int, int)
        Pixels.

    Raises
    ------
    StorageError
        When the file cannot be written.
    """
    from app.shared.application import application

    application()
    load_fonts()
    session = Session(plan, StarCatalogue.open(), TargetTable.load())
    image = _image(session, SheetStyle(THEMES["dark"], 1.0), QSize(*size), 1.0)
    if not image.save(str(path), "PNG"):  # type: ignore[call-overload]
        raise StorageError(f"the picture cannot be written to {path}")


def _image(session: Session, style: SheetStyle, size: QSize, ratio: float) -> QImage:
    """Paint a sheet of some size, its chart drawn for just that size."""
    layers = Layers(session, style)
    transform = layers.transform(size, ratio)
    if session.survey is None:
        frame = transform.frame
        sharp = PictureFrame(
            frame.plane,
            round(frame.width_px * ratio),
            round(frame.height_px * ratio),
            frame.scale_rad_px / ratio,
            frame.up_pa_deg,
            frame.mirrored,
        )
        chart = draw_chart(sharp, session.stars, session.targets, sigma_px=_STAR_PX * ratio)
        wanted = set(session.plan.view.labels)
        kinds = [kind for kind in TargetKind if kind.value in wanted]
        placed = marks(sharp, session.targets, kinds)
        layers.show_instead((chart,), placed)
    image = QImage(size * ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    painter = QPainter(image)
    try:
        layers.paint_still(painter, transform, ratio)
        painter.setClipRect(transform.rect)
        layers.paint_live(painter, transform)
    finally:
        painter.end()
    return image
