"""The way of the light through the chosen rig: seen, pointed at, walked along, rearranged.

The drawing is painted here; over each part lies a handle that the hand and the keyboard
take. What is wished for is told by signals; the page does it.
"""

from collections.abc import Mapping
from itertools import pairwise

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.rig_editor.beam_layout import ADD, BeamLayout, Tile, layout_of
from app.rig_editor.beam_paint import BeamLook, paint_beam
from app.rig_editor.part_handle import PartHandle
from app.rig_editor.ruler_paint import paint_ruler
from app.rig_editor.tile_words import spoken_tile, tile_tip
from app.shared.theme import Theme
from app.words.key_words import BENCH_KEYS
from core.gear.rig import Rig
from core.gear.slots import Slot

__all__ = ["BeamView"]

_LEAST_WIDTH = 430
#: The narrowest handle that a hand can meet, pixels at text size 1.
_LEAST_HANDLE = 10


class BeamView(QWidget):
    """The drawing of a rig.

    Parameters
    ----------
    theme : Theme
    scale : float
        The user's text size.
    """

    chosen = Signal(object)
    opened = Signal(object)
    removed = Signal(object)
    moved = Signal(object, int)

    def __init__(self, theme: Theme, scale: float) -> None:
        super().__init__()
        self.drawing: BeamLayout | None = None
        self.look = BeamLook(theme)
        self.handles: dict[Slot, PartHandle] = {}
        self._rig: Rig | None = None
        self._focus_level: str | None = None
        self._scale = scale
        self.setAccessibleName("The way of the light, from the sky to the sensor")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._scale = scale
        self.look.theme = theme
        self._lay_out()

    def minimumSizeHint(self) -> QSize:
        """Stay wide enough to be read."""
        return QSize(round(_LEAST_WIDTH * self._scale), self.height())

    def sizeHint(self) -> QSize:
        """Be as high as the drawing."""
        high = self.drawing.height if self.drawing is not None else 300.0
        return QSize(round(_LEAST_WIDTH * self._scale), round(high))

    def handle(self, slot: Slot) -> PartHandle:
        """Give what holds a part."""
        return self.handles[slot]

    def show_rig(
        self, rig: Rig, levels: Mapping[Slot, str], focus_level: str | None, chosen: Slot | None
    ) -> None:
        """Show a rig, with the level of the worst finding of each slot.

        Parameters
        ----------
        rig : Rig
        levels : mapping of Slot to str
        focus_level : str or None
            Of the finding about the back focus.
        chosen : Slot or None
        """
        same = rig is self._rig and self.drawing is not None
        self._rig, self._focus_level = rig, focus_level
        self.look.levels, self.look.chosen = levels, chosen
        if same:
            self._dress_handles()
            self.update()
        else:
            self._lay_out()

    def follow(self, widget: QWidget) -> None:
        """Let the tab key go from a widget to the parts, in their order."""
        for before, after in pairwise([widget, *(self.handles[slot] for slot in self._order())]):
            if before is not after:
                self.setTabOrder(before, after)

    def take_focus(self, slot: Slot) -> None:
        """Bring the keyboard to a part."""
        if slot in self.handles:
            self.handles[slot].setFocus(Qt.FocusReason.OtherFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the drawing out for another width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw."""
        if self.drawing is None:
            return
        painter = QPainter(self)
        paint_beam(painter, self.drawing, self.look)
        paint_ruler(painter, self.drawing, self.look.theme, self._focus_level)
        painter.end()

    # Handles -------------------------------------------------------------------

    def _lay_out(self) -> None:
        """Place everything anew."""
        if self._rig is None:
            return
        wide = max(self.width(), round(_LEAST_WIDTH * self._scale))
        self.drawing = layout_of(self._rig, float(wide), self._scale)
        self.setFixedHeight(round(self.drawing.height))
        self._place_handles(self.drawing)
        self.updateGeometry()
        self.update()

    def _place_handles(self, drawing: BeamLayout) -> None:
        """Give every part its handle, and take away what has none any more."""
        tiles = {tile.slot: tile for tile in drawing.tiles}
        for slot in [slot for slot in self.handles if slot not in tiles]:
            gone = self.handles.pop(slot)
            gone.hide()
            gone.deleteLater()
        fresh = [slot for slot in tiles if slot not in self.handles]
        self.handles.update({slot: self._new_handle(slot) for slot in fresh})
        if fresh:
            self.follow(self.handles[Slot("telescope")])
        for slot, tile in tiles.items():
            handle = self.handles[slot]
            handle.setGeometry(self._reach(tile))
            handle.movable = tile.role == "beam"
        self._dress_handles()

    def _reach(self, tile: Tile) -> QRect:
        """Give the rectangle of a handle: that of its part, never too narrow to meet."""
        box = tile.box.toAlignedRect()
        least = round(_LEAST_HANDLE * self._scale)
        if box.width() < least:
            box.setLeft(box.center().x() - least // 2)
            box.setWidth(least)
        return box

    def _new_handle(self, slot: Slot) -> PartHandle:
        handle = PartHandle(slot, self)
        handle.chosen.connect(lambda: self.chosen.emit(slot))
        handle.opened.connect(lambda: self.opened.emit(slot))
        handle.removed.connect(lambda: self.removed.emit(slot))
        handle.entered.connect(lambda here: self._light(slot if here else None))
        handle.walked.connect(lambda step: self._walk(slot, step))
        handle.pushed.connect(lambda step: self._push(slot, step))
        handle.carried.connect(lambda x: self._carry(slot, x))
        handle.dropped.connect(lambda x, kept: self._drop(slot, x, kept))
        handle.show()
        return handle

    def _dress_handles(self) -> None:
        """Give the handles their words, and the tab key one stop among them."""
        assert self.drawing is not None
        stop = self.look.chosen if self.look.chosen in self.handles else Slot("telescope")
        policies = Qt.FocusPolicy
        for tile in self.drawing.tiles:
            handle = self.handles[tile.slot]
            handle.ink = self.look.theme.accent
            handle.setAccessibleName(spoken_tile(tile, self.look.levels.get(tile.slot)))
            handle.setAccessibleDescription(BENCH_KEYS)
            handle.setToolTip(tile_tip(tile))
            here = tile.slot == stop
            handle.setFocusPolicy(policies.StrongFocus if here else policies.ClickFocus)

    def _light(self, slot: Slot | None) -> None:
        self.look.lit = slot
        self.update()

    def _order(self) -> list[Slot]:
        assert self.drawing is not None
        return [tile.slot for tile in self.drawing.tiles]

    def _walk(self, slot: Slot, step: int) -> None:
        """Take the keyboard to another part."""
        order = self._order()
        place = min(len(order) - 1, max(0, order.index(slot) + step))
        self.take_focus(order[place])

    def _push(self, slot: Slot, step: int) -> None:
        """Move a part of the beam one place along it."""
        assert self.drawing is not None
        row = [tile.slot for tile in self.drawing.row]
        if slot in row:
            self.moved.emit(slot, row.index(slot) + step)

    def _carry(self, slot: Slot, x: float) -> None:
        """Show where a carried part would come."""
        assert self.drawing is not None
        drawing = self.drawing
        self.look.seam = drawing.seam_x(drawing.index_at(x, slot), slot)
        self.update()

    def _drop(self, slot: Slot, x: float, kept: bool) -> None:
        """Put a carried part down, or leave it where it was."""
        assert self.drawing is not None
        self.look.seam = None
        self.update()
        if kept and slot != ADD:
            self.moved.emit(slot, self.drawing.index_at(x, slot))
