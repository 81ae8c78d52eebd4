"""What a right click on the sky offers: the place, and the frames there."""

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QMenu

from app.sky_sheet.frame_shape import Part
from app.sky_sheet.picking import choose, point_frame_at
from core.catalogue.resolve import position_target
from core.sky.angles import format_dec, format_ra

if TYPE_CHECKING:
    from app.sky_sheet.sheet import SkySheet

__all__ = ["context_menu"]


def context_menu(sheet: "SkySheet", point: QPointF) -> QMenu:
    """Make the menu for a point of the sheet."""
    session = sheet.session
    ra_deg, dec_deg = sheet.transform.to_sky(point)
    words = f"{format_ra(ra_deg)} {format_dec(dec_deg)}"
    menu = QMenu(sheet)
    menu.addAction(f"Copy {words}").triggered.connect(partial(_copy, sheet, words))
    aim = menu.addAction("Point the chosen frame here")
    aim.setEnabled(session.rig is not None and session.target is not None)
    aim.triggered.connect(partial(point_frame_at, sheet, point))
    take = menu.addAction("Make this position the target")
    take.triggered.connect(partial(session.show_target, position_target(ra_deg, dec_deg)))
    here = [
        shape.rig_id
        for shape in sheet.layers.shapes(sheet.transform).values()
        if shape.hit(point) is not Part.NOTHING
    ]
    if here:
        menu.addSeparator()
    for rig_id in here:
        name = f"Choose {session.letter(rig_id)} · {session.planned_rig(rig_id).rig.name}"
        menu.addAction(name).triggered.connect(partial(choose, sheet, rig_id))
    return menu


def _copy(sheet: "SkySheet", words: str) -> None:
    QGuiApplication.clipboard().setText(words)
    sheet.session.say(f"Copied {words}.", "good")
