"""The menu of one rig: edit, duplicate, show, order, colour, line, take out, point again."""

from collections.abc import Callable

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QAction, QActionGroup, QColor, QIcon, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QMenu, QWidget

from app.rig_strip.card_paint import CardStyle
from app.session import Session
from app.shared.frame_ink import frame_ink
from app.shared.theme import DASHES
from app.words import rig_actions

__all__ = ["rig_menu"]


def rig_menu(session: Session, rig_id: str, style: CardStyle, parent: QWidget) -> QMenu:
    """Build the menu for a rig as it is now.

    Parameters
    ----------
    session : Session
    rig_id : str
    style : CardStyle
        For the samples of colours and lines.
    parent : QWidget
        The card.
    """
    planned = session.planned_rig(rig_id)
    menu = QMenu(parent)
    menu.setAccessibleName(f"What can be done to {session.letter(rig_id)}")
    _add(menu, "Hide" if planned.shown else "Show",
         lambda: rig_actions.show_or_hide(session, rig_id))  # fmt: skip
    _add(menu, "Edit rig", lambda: rig_actions.edit_parts(session, rig_id))
    _add(menu, "Duplicate", lambda: rig_actions.duplicate(session, rig_id))
    menu.addSeparator()
    _add_moves(menu, session, rig_id)
    menu.addSeparator()
    colours = [_swatch(frame_ink(style.theme, n)) for n in range(len(rig_actions.COLOUR_NAMES))]
    _add_choice(
        menu.addMenu("Colour"),
        dict(zip(rig_actions.COLOUR_NAMES, colours, strict=True)),
        planned.colour,
        lambda place: rig_actions.set_colour(session, rig_id, place),
    )
    lines = [_line_sample(dash, style.theme.text) for dash in DASHES]
    _add_choice(
        menu.addMenu("Line"),
        dict(zip(rig_actions.LINE_NAMES, lines, strict=True)),
        planned.dash,
        lambda place: rig_actions.set_line(session, rig_id, place),
    )
    menu.addSeparator()
    back = _add(menu, "Back to the suggested framing",
                lambda: rig_actions.forget_framing(session, rig_id))  # fmt: skip
    back.setEnabled(rig_actions.has_own_framing(session, rig_id))
    _add(menu, "Take out of the plan", lambda: rig_actions.take_out(session, rig_id))
    return menu


def _add(menu: QMenu, words: str, call: Callable[[], None]) -> QAction:
    """Add one thing to do."""
    action = menu.addAction(words)
    action.triggered.connect(lambda: call())
    return action


def _add_moves(menu: QMenu, session: Session, rig_id: str) -> None:
    """Add the ways to move the card, dead at the ends."""
    place, last = session.plan.place_of(rig_id), len(session.plan.rigs) - 1
    left = _add(menu, "Move left", lambda: rig_actions.move_by(session, rig_id, -1))
    left.setEnabled(place > 0)
    right = _add(menu, "Move right", lambda: rig_actions.move_by(session, rig_id, 1))
    right.setEnabled(place < last)


def _add_choice(
    menu: QMenu, samples: dict[str, QIcon], current: int, call: Callable[[int], None]
) -> None:
    """Add one of several, the current one checked."""
    group = QActionGroup(menu)
    for place, (words, icon) in enumerate(samples.items()):
        action = menu.addAction(icon, f"{words} ✓" if place == current else words)
        action.setCheckable(True)
        action.setChecked(place == current)
        action.setIconVisibleInMenu(True)
        action.triggered.connect(lambda _=False, place=place: call(place))
        group.addAction(action)


def _swatch(colour: str) -> QIcon:
    """Draw a small square of a colour."""
    picture, painter = _blank()
    painter.fillRect(QRectF(8.0, 4.0, 16.0, 16.0), QColor(colour))
    painter.end()
    return QIcon(picture)


def _line_sample(dash: tuple[float, ...], colour: str) -> QIcon:
    """Draw a short piece of a line."""
    picture, painter = _blank()
    pen = QPen(QColor(colour), 2.0)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if dash:
        pen.setDashPattern([length / 2.0 for length in dash])
    painter.setPen(pen)
    painter.drawLine(QLineF(1.0, 12.0, 31.0, 12.0))
    painter.end()
    return QIcon(picture)


def _blank() -> tuple[QPixmap, QPainter]:
    """Give an empty icon, twice as fine as the screen needs, and a painter on it."""
    picture = QPixmap(64, 48)
    picture.setDevicePixelRatio(2.0)
    picture.fill(Qt.GlobalColor.transparent)
    return picture, QPainter(picture)
