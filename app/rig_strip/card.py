"""One card of the rig strip: shows a rig, takes the hand and the keyboard.

A click chooses, the small box or the space bar shows and hides, Enter chooses; what
concerns the neighbours (walking on, dragging) is told to the strip by signals.
"""

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QEnterEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QApplication, QCheckBox, QMenu, QWidget

from app.rig_strip.card_face import CardFace, spoken_face
from app.rig_strip.card_paint import CardLayout, CardStyle, paint_card
from app.rig_strip.menu import rig_menu
from app.session import Session
from app.shared.frame_ink import frame_ink
from app.words import rig_actions
from app.words.sentences import tip

__all__ = ["RigCard"]

_HELP = (
    "Enter chooses, and edits what is chosen; the space bar shows or hides, left and right walk "
    "along the strip, with Alt or Ctrl they move the card; the menu key opens what else can be "
    "done."
)
_BY_KEYBOARD = (
    Qt.FocusReason.TabFocusReason,
    Qt.FocusReason.BacktabFocusReason,
    Qt.FocusReason.ShortcutFocusReason,
    Qt.FocusReason.OtherFocusReason,
)
_WALK = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
_FAR = 10_000
#: Opens a menu where the keyboard has no key for it.
_MENU_TOO = (Qt.Key.Key_F10, Qt.KeyboardModifier.ShiftModifier)


class ShownBox(QCheckBox):
    """A small square in the frame's colour: filled when shown, empty when hidden."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.ink, self.side = "#000000", 11
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def hitButton(self, point: QPoint) -> bool:
        """Take a click anywhere in the widget, which is larger than what is drawn."""
        return self.rect().contains(point)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the square in the middle of the widget."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(0.0, 0.0, self.side, self.side)
        box.moveCenter(QRectF(self.rect()).center())
        painter.setPen(QPen(QColor(self.ink), 1.5))
        painter.drawRoundedRect(box.adjusted(0.75, 0.75, -0.75, -0.75), 2.0, 2.0)
        if self.isChecked():
            inner = box.adjusted(3.0, 3.0, -3.0, -3.0)
            painter.fillRect(inner, QColor(self.ink))
        painter.end()


class RigCard(QWidget):
    """A rig of the plan.

    Parameters
    ----------
    session : Session
    rig_id : str
    style : CardStyle
    face : CardFace
    """

    walked = Signal(int)
    dragged = Signal(float)
    dropped = Signal(bool)

    def __init__(
        self, session: Session, rig_id: str, style: CardStyle, face: CardFace, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.rig_id = rig_id
        self.menu: QMenu | None = None
        self.lit = False
        self._session = session
        self._face, self._style = face, style
        self._ring = False
        self._grip: QPointF | None = None
        self._dragging = False
        self.box = ShownBox(self)
        self.box.clicked.connect(lambda: rig_actions.show_or_hide(session, rig_id))
        self.setAccessibleDescription(_HELP)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self._dress()

    @property
    def face(self) -> CardFace:
        """What the card shows now."""
        return self._face

    @property
    def dragging(self) -> bool:
        """Tell whether the hand carries the card."""
        return self._dragging

    def sizeHint(self) -> QSize:
        """Be as large as the words need."""
        return self._layout.size

    def show_face(self, face: CardFace, style: CardStyle) -> None:
        """Show something else, or in another style."""
        if (face, style) != (self._face, self._style):
            self._face, self._style = face, style
            self._dress()

    def _dress(self) -> None:
        """Lay the card out and give it its words."""
        face = self._face
        self._layout = CardLayout(face, self._style)
        self.setFixedSize(self._layout.size)
        self.setAccessibleName(spoken_face(face))
        name = face.name if self._layout.name != face.name else ""
        self.setToolTip(tip(name, face.worst.full if face.worst is not None else ""))
        self._place_box()
        self.update()

    def set_lit(self, lit: bool) -> None:
        """Light the card up while its rig is pointed at somewhere."""
        if lit != self.lit:
            self.lit = lit
            self.update()

    def _place_box(self) -> None:
        """Put the box that shows and hides into the upper right corner."""
        face, layout, box = self._face, self._layout, self.box
        box.side = layout.box
        box.ink = frame_ink(self._style.theme, face.colour)
        box.setChecked(face.shown)
        words = f"{'Hide' if face.shown else 'Show'} the frame of {face.letter}"
        box.setAccessibleName(words)
        box.setToolTip(f"{words} (space bar)")
        reach = layout.box + 2 * layout.pad
        top = round(layout.top(chosen=face.chosen)) - layout.pad
        box.setGeometry(layout.size.width() - reach, top + (layout.heading - layout.box) // 2,
                        reach, reach)  # fmt: skip
        box.update()

    # Painting ------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the card, and a ring when the keyboard has come here."""
        painter = QPainter(self)
        paint_card(painter, self._face, self._style, lit=self.lit or self._dragging)
        if self.hasFocus() and self._ring:
            edge = self._layout.outline(chosen=self._face.chosen).adjusted(3.5, 3.5, -3.5, -3.5)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self._style.theme.accent), 1.0))
            painter.drawRoundedRect(edge, 3.0, 3.0)
        painter.end()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the ring only to those who come by keyboard."""
        self._ring = event.reason() in _BY_KEYBOARD
        if self._ring:
            self._session.rig_hovered.emit(self.rig_id)
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Give the light up."""
        if self._ring:
            self._session.rig_hovered.emit("")
        super().focusOutEvent(event)
        self.update()

    # The pointer ---------------------------------------------------------------

    def enterEvent(self, event: QEnterEvent) -> None:
        """Tell that the rig is pointed at."""
        self._session.rig_hovered.emit(self.rig_id)

    def leaveEvent(self, event: QEvent) -> None:
        """Tell that it no longer is."""
        self._session.rig_hovered.emit("")

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the card."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._grip = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry the card once the hand has moved far enough to mean it."""
        if self._grip is None:
            return
        way = event.position() - self._grip
        if not self._dragging and abs(way.x()) >= QApplication.startDragDistance():
            self._dragging = True
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
        if self._dragging:
            self.dragged.emit(self.x() + way.x())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the card down, or choose its rig."""
        if event.button() != Qt.MouseButton.LeftButton or self._grip is None:
            return
        if self._dragging:
            self._put_down(kept=True)
        else:
            self._grip = None
            rig_actions.choose(self._session, self.rig_id)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Edit the rig."""
        if event.button() == Qt.MouseButton.LeftButton:
            rig_actions.edit_parts(self._session, self.rig_id)

    def _put_down(self, *, kept: bool) -> None:
        """End a drag."""
        self._grip, self._dragging = None, False
        self.unsetCursor()
        self.dropped.emit(kept)

    # The keyboard --------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Do by key what the pointer does."""
        key = Qt.Key(event.key())
        if self._dragging:
            if key == Qt.Key.Key_Escape:
                self._put_down(kept=False)
        elif key in _WALK:
            self._walk_or_move(_WALK[key], event.modifiers())
        elif key == Qt.Key.Key_Home:
            self.walked.emit(-_FAR)
        elif key == Qt.Key.Key_End:
            self.walked.emit(_FAR)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            rig_actions.choose_or_edit(self._session, self.rig_id)
        elif key == Qt.Key.Key_Space:
            rig_actions.show_or_hide(self._session, self.rig_id)
        elif key == Qt.Key.Key_Menu or (key, event.modifiers()) == _MENU_TOO:
            self.open_menu(self.mapToGlobal(self.rect().center()))
        elif key == Qt.Key.Key_Delete:
            rig_actions.take_out(self._session, self.rig_id)
        else:
            super().keyPressEvent(event)

    def _walk_or_move(self, step: int, held: Qt.KeyboardModifier) -> None:
        """Walk to the neighbour, or take the card there."""
        if held & (Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier):
            rig_actions.move_by(self._session, self.rig_id, step)
        else:
            self.walked.emit(step)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Offer what can be done to the rig."""
        by_key = event.reason() == QContextMenuEvent.Reason.Keyboard
        self.open_menu(self.mapToGlobal(self.rect().center()) if by_key else event.globalPos())

    def open_menu(self, at: QPoint) -> None:
        """Open the menu at a point of the screen, in place of one that is open."""
        if self.menu is not None:
            self.menu.close()
        self.menu = menu = rig_menu(self._session, self.rig_id, self._style, self)
        menu.aboutToHide.connect(lambda: self._menu_closed(menu))
        menu.popup(at)

    def _menu_closed(self, menu: QMenu) -> None:
        """Let a menu go once what was chosen in it is done."""
        menu.deleteLater()
        if self.menu is menu:
            self.menu = None
