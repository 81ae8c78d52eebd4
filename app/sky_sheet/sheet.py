"""The sky sheet: a plain widget in layers, so that a frame follows the hand.

Two layers: the still one (picture, graticule, outlines, names, all frames but the chosen
one, compass and bar) and the chosen frame, drawn live. Once a hand takes the frame the
still layer is kept as a pixmap, so that each step costs one copy of the part the frame
crosses, and its few lines; otherwise it is painted straight on the widget.
"""

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import (
    QContextMenuEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.session import Session
from app.shared.theme import Theme
from app.sky_sheet import keys, picking
from app.sky_sheet.context_menu import context_menu
from app.sky_sheet.frame_shape import FrameShape
from app.sky_sheet.gestures import Gesture, Grip
from app.sky_sheet.layers import Layers, SheetStyle
from app.sky_sheet.readout import pointer_words
from app.sky_sheet.transform import SheetTransform

__all__ = ["SkySheet"]

#: The view counts as moving until it has rested this long.
_REST_MS = 140


class SkySheet(QWidget):
    """The picture of the sky with every rig's frame on it.

    Parameters
    ----------
    session : Session
        Holds the plan and the picture.
    theme : Theme
    text_scale : float
        The user's text size, 1 for 12 px.
    """

    def __init__(self, session: Session, theme: Theme, text_scale: float = 1.0) -> None:
        super().__init__()
        self.session = session
        self.gesture: Gesture | None = None
        self.layers = Layers(session, SheetStyle(theme, text_scale))
        self._grip: Grip | None = None
        self._chosen_before: str | None = None
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        self._rest.timeout.connect(self._settle)
        self._build()
        self._listen()

    def _build(self) -> None:
        """Qt's own settings."""
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(QSize(320, 240))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Sky sheet")
        self.setAccessibleDescription(keys.HELP)

    def _listen(self) -> None:
        """Repaint from the session."""
        session = self.session
        session.plan_changed.connect(self._plan_changed)
        session.view_changed.connect(self._view_changed)
        session.picture_changed.connect(self._picture_changed)
        session.framing_previewed.connect(self._frame_moved)
        session.rig_hovered.connect(self._rig_hovered)

    # What the sheet shows ------------------------------------------------------

    @property
    def transform(self) -> SheetTransform:
        """The view as it is now."""
        return self.layers.transform(self.size(), self.devicePixelRatioF())

    @property
    def sky_rect(self) -> QRectF:
        """The sky inside the widget, logical pixels."""
        return self.transform.rect

    def shape(self, rig_id: str) -> FrameShape:
        """Give a shown rig's frame as it lies on the screen."""
        return self.layers.shapes(self.transform)[rig_id]

    def set_style(self, theme: Theme, text_scale: float) -> None:
        """Change colours or text size."""
        self.layers.restyle(SheetStyle(theme, text_scale))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Copy the still layer, or paint it, then draw the chosen frame."""
        transform, ratio = self.transform, self.devicePixelRatioF()
        part = event.rect()
        painter = QPainter(self)
        try:
            if self.layers.has_still:
                still = self.layers.still(transform, ratio)
                corner = QPoint(round(part.x() * ratio), round(part.y() * ratio))
                painter.drawPixmap(part, still, QRect(corner, part.size() * ratio))
            else:
                self.layers.paint_still(painter, transform, ratio)
            painter.setClipRect(transform.rect)
            self.layers.paint_live(painter, transform)
        finally:
            painter.end()

    # The hand ------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a gesture on what lies under the pointer; one button at a time."""
        if self._grip is not None or not self.sky_rect.contains(event.position()):
            return
        chosen = self.session.plan.current_rig
        self.gesture = picking.begin(self, event.position(), event.button())
        changed = self.session.plan.current_rig != chosen
        self._grip = Grip(event.button(), event.position(), chosen, changed)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Follow the pointer, or say what it points at."""
        point, grip = event.position(), self._grip
        inside = self.sky_rect.contains(point)
        if self.gesture is not None and grip is not None:
            grip.dragged = grip.dragged or not picking.is_click(grip.point, point)
            if grip.dragged:
                self.gesture.follow(point, event.modifiers())
        elif inside:
            self.setCursor(picking.cursor_at(self, point))
        else:
            self.unsetCursor()
        self.session.pointed.emit(pointer_words(self.transform, point) if inside else "")

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Finish the gesture; a press without a way is a click."""
        grip = self._grip
        if grip is None or event.button() != grip.button:
            return
        gesture, self.gesture, self._grip = self.gesture, None, None
        self._chosen_before = grip.chosen
        dragged = grip.dragged or not picking.is_click(grip.point, event.position())
        if gesture is not None and dragged:
            gesture.finish()
        elif not dragged and not grip.chose:
            picking.click(self, event.position(), event.button())

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Offer what can be done at a place: the pointer's, or by key the middle."""
        by_key = event.reason() == QContextMenuEvent.Reason.Keyboard
        point = self.sky_rect.center() if by_key else event.pos().toPointF()
        if self.gesture is None and self.sky_rect.contains(point):
            menu = context_menu(self, point)
            menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            menu.popup(self.mapToGlobal(point.toPoint()))

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Bring the frame chosen before the first of the clicks under the pointer."""
        on_sky = self.sky_rect.contains(event.position())
        if on_sky and self._grip is None and event.button() == Qt.MouseButton.LeftButton:
            picking.choose_again(self, self._chosen_before)
            picking.point_frame_at(self, event.position())

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the pointer; with Ctrl, turn the chosen frame."""
        notches = (event.angleDelta().y() or event.angleDelta().x()) / 120.0
        if notches and self.gesture is None:
            if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
                fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
                keys.turn(self.session, notches * (0.1 if fine else 1.0))
            else:
                keys.zoom(self, 0.82**notches, event.position())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Do by key what the hand does."""
        if event.key() == Qt.Key.Key_Escape and self.gesture is not None:
            self.gesture.give_up()
            self.gesture = self._grip = None
        elif self.gesture is None and not keys.press(self, event):
            super().keyPressEvent(event)

    # Repainting ----------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the sheet out anew."""
        self.layers.forget_view()
        self._rest.start()
        self.session.sheet_resized.emit()

    def _plan_changed(self) -> None:
        self.layers.forget_plan()
        self.update()

    def _view_changed(self) -> None:
        self.layers.forget_view(moving=True)
        self._rest.start()
        self.update()

    def _picture_changed(self) -> None:
        self.layers.forget_picture()
        self.update()

    def _settle(self) -> None:
        """Paint once more, smoothly, when the view rests."""
        self.layers.forget_view()
        self.update()

    def _rig_hovered(self, rig_id: str) -> None:
        self.layers.hover(rig_id)
        self.update()

    def _frame_moved(self) -> None:
        """Repaint only what the moving frame leaves and what it covers."""
        transform = self.transform
        self.layers.still(transform, self.devicePixelRatioF())
        before = self.layers.live_bounds
        after = self.layers.follow(transform)
        self.update(before.united(after).toAlignedRect())
