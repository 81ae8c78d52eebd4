"""The kept layers of the sky sheet, and when each is out of date."""

from dataclasses import dataclass, field

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QFont, QPainter, QPixmap

from app.session import Session
from app.shared.theme import DASHES, Theme, scaled_font
from app.sky_sheet.flag_places import place_flags
from app.sky_sheet.frame_paint import FlagPen, FrameLook, paint_fill, paint_lines
from app.sky_sheet.frame_shape import FLAG_RADIUS, FrameShape, frame_shape
from app.sky_sheet.furniture import Furniture, paint_furniture, plates
from app.sky_sheet.ground import GroundContent, paint_ground, picture_pixmap
from app.sky_sheet.labels import LabelPen
from app.sky_sheet.margin import Margin, margin_of, paint_ticks
from app.sky_sheet.marks_paint import MarksStyle
from app.sky_sheet.target_outline import paint_target
from app.sky_sheet.transform import SheetTransform
from core.pictures.marks import Marks
from core.pictures.picture import Picture
from core.sky.footprint import Footprint
from core.sky.graticule import Graticule

__all__ = ["Layers", "SheetStyle"]


@dataclass(frozen=True)
class SheetStyle:
    """Colours and text size of the sheet."""

    theme: Theme
    text_scale: float

    @property
    def font(self) -> QFont:
        """For names on the sky."""
        return scaled_font(self.text_scale, size_px=11.5)

    @property
    def small(self) -> QFont:
        """For the margin and the plates."""
        return scaled_font(self.text_scale, size_px=11)

    def sky_rect(self, size: QSize) -> QRectF:
        """Give the part of a widget inside the neat line."""
        scale = max(1.0, self.text_scale)
        left, top, bottom = (float(round(side * scale)) for side in (68.0, 28.0, 24.0))
        right = 18.0
        return QRectF(left, top, size.width() - left - right, size.height() - top - bottom)


@dataclass
class _Kept:
    """What is kept between paintings; None where out of date."""

    transform: SheetTransform | None = None
    size: QSize = field(default_factory=QSize)
    still: QPixmap | None = None
    pixmaps: dict[int, tuple[Picture, QPixmap]] = field(default_factory=dict)
    shapes: dict[str, FrameShape] | None = None
    looks: dict[tuple[str, bool, bool], FrameLook] = field(default_factory=dict)
    footprints: dict[str, Footprint] = field(default_factory=dict)
    margin: Margin | None = None


class Layers:
    """Paints the sheet from the session, keeping what did not change."""

    def __init__(self, session: Session, style: SheetStyle) -> None:
        self._session = session
        self.style = style
        self._kept = _Kept()
        self._flags = FlagPen()
        self._instead: tuple[tuple[Picture, ...], Marks] | None = None
        self._moving = False
        self._hovered = ""
        self._pen: LabelPen | None = None
        self.live_bounds = QRectF()

    # When things change --------------------------------------------------------

    def restyle(self, style: SheetStyle) -> None:
        """Take other colours or another text size."""
        self.style = style
        self._kept = _Kept()

    def forget_view(self, *, moving: bool = False) -> None:
        """The view or the widget's size is another."""
        self._moving = moving
        self._kept.transform = None  # and with it, all that is laid out by it

    def forget_plan(self) -> None:
        """Rigs, framings or the target changed; the sky did not."""
        kept = self._kept
        kept.transform = None
        kept.looks, kept.footprints = {}, {}

    def forget_picture(self) -> None:
        """Another picture lies on the ground."""
        self._kept.still = None

    def show_instead(self, pictures: tuple[Picture, ...], marks: Marks) -> None:
        """Paint other pictures than the session's: for a sheet of another size."""
        self._instead = pictures, marks
        self.forget_picture()

    @property
    def credit(self) -> str:
        """Whom the picture on top is owed to."""
        if self._instead is not None:
            return self._instead[0][-1].credit
        return self._session.credit

    def hover(self, rig_id: str) -> None:
        """A rig is pointed at elsewhere: its frame is drawn bold."""
        self._hovered = rig_id
        self._kept.still = None

    # What there is -------------------------------------------------------------

    def transform(self, size: QSize, ratio: float) -> SheetTransform:
        """Give the view for a widget of some size."""
        kept = self._kept
        if kept.transform is None or kept.size != size:
            view = self._session.plan.view
            kept.size = QSize(size)
            kept.transform = SheetTransform(view, self.style.sky_rect(size), self._up_pa_deg())
            kept.still = kept.shapes = kept.margin = None
        return kept.transform

    def shapes(self, transform: SheetTransform) -> dict[str, FrameShape]:
        """Give the frames of the shown rigs, the chosen one first."""
        if self._kept.shapes is None:
            session = self._session
            chosen = session.plan.current_rig
            shown = [r for r in session.plan.rigs if r.shown and session.target is not None]
            rigs = sorted(shown, key=lambda rig: rig.id != chosen)
            laid = [frame_shape(r.id, self._footprint(r.id), transform) for r in rigs]
            clear = plates(transform, self.style.small)
            placed = place_flags(laid, transform.rect, clear)
            self._kept.shapes = {s.rig_id: s for s in placed}
            self.live_bounds = self._bounds_of(chosen)
        return self._kept.shapes

    @property
    def has_still(self) -> bool:
        """Tell whether the still layer is kept and up to date."""
        return self._kept.still is not None

    def still(self, transform: SheetTransform, ratio: float) -> QPixmap:
        """Give everything but the chosen frame, kept while a frame is in the hand."""
        if self._kept.still is None:
            pixmap = QPixmap(self._kept.size * ratio)
            pixmap.setDevicePixelRatio(ratio)
            painter = QPainter(pixmap)
            try:
                self.paint_still(painter, transform, ratio)
            finally:
                painter.end()
            self._kept.still = pixmap
        return self._kept.still

    def paint_live(self, painter: QPainter, transform: SheetTransform) -> None:
        """Draw the chosen frame."""
        rig = self._session.rig
        shape = self.shapes(transform).get(rig.id) if rig is not None else None
        if shape is None:
            return
        look = self._look(shape.rig_id, bold=True, in_hand=self._session.in_hand)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        paint_lines(painter, shape, look)
        self._flags.put(painter, shape, look)

    def follow(self, transform: SheetTransform) -> QRectF:
        """Lay the chosen frame where the hand holds it; give the part it covers."""
        rig = self._session.rig
        if rig is not None and rig.id in self.shapes(transform):
            shapes = self.shapes(transform)
            shapes[rig.id] = frame_shape(rig.id, self._session.footprint(rig.id), transform)
            self.live_bounds = self._bounds_of(rig.id)
        return self.live_bounds

    # Painting ------------------------------------------------------------------

    def paint_still(self, painter: QPainter, transform: SheetTransform, ratio: float) -> None:
        """Paint everything but the chosen frame."""
        self._paint_margin(painter, transform)
        margin = self._margin(transform)
        paint_ground(painter, transform, self._content(transform, margin.lines, ratio))
        paint_ticks(painter, transform.rect, margin, self._furniture())
        self._paint_frames(painter, transform)
        painter.setClipping(False)
        paint_furniture(painter, transform, self._furniture())

    def _paint_margin(self, painter: QPainter, transform: SheetTransform) -> None:
        """The paper round the sheet."""
        paper, size, rect = QColor(self.style.theme.ground), self._kept.size, transform.rect
        width, height = float(size.width()), float(size.height())
        painter.fillRect(QRectF(0.0, 0.0, width, rect.top()), paper)
        painter.fillRect(QRectF(0.0, rect.bottom(), width, height - rect.bottom()), paper)
        painter.fillRect(QRectF(0.0, 0.0, rect.left(), height), paper)
        painter.fillRect(QRectF(rect.right(), 0.0, width - rect.right(), height), paper)

    def _content(self, transform: SheetTransform, lines: Graticule, ratio: float) -> GroundContent:
        """What the lowest layer shows now."""
        shown, marks = self._instead or (self._session.pictures, self._session.marks)
        self._kept.pixmaps = {id(p): (p, self._pixmap(p)) for p in shown}
        pen = LabelPen(self.style.font, self.style.theme.marks, ratio)
        if self._pen is None or self._pen.key != pen.key:
            self._pen = pen
        return GroundContent(
            pictures=tuple((p.frame, pixmap) for p, pixmap in self._kept.pixmaps.values()),
            marks=marks,
            graticule=lines if self._session.plan.view.graticule else None,
            style=MarksStyle(self._pen, self.style.theme, self._keep_clear(transform)),
            smooth=not self._moving,
        )

    def _keep_clear(self, transform: SheetTransform) -> tuple[QRectF, ...]:
        """Where flags, compass and scale bar stand, which no name may cover."""
        flags = [shape.flag for shape in self.shapes(transform).values() if shape.flag is not None]
        side = 2.0 * FLAG_RADIUS
        boxes = [QRectF(f.x() - FLAG_RADIUS, f.y() - FLAG_RADIUS, side, side) for f in flags]
        return (*boxes, *plates(transform, self.style.small))

    def _pixmap(self, picture: Picture) -> QPixmap:
        """A picture in Qt's form, made once."""
        kept = self._kept.pixmaps.get(id(picture))
        return kept[1] if kept is not None else picture_pixmap(picture, self.style.theme)

    def _paint_frames(self, painter: QPainter, transform: SheetTransform) -> None:
        """Target outline, then all frames but the chosen one."""
        shapes = self.shapes(transform)
        chosen = self._session.plan.current_rig
        painter.setClipRect(transform.rect)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        target = self._session.target
        if target is not None:
            paint_target(painter, transform, target, self.style.theme.marks)
        others = [shape for shape in reversed(shapes.values()) if shape.rig_id != chosen]
        looks = [self._look(s.rig_id, bold=s.rig_id == self._hovered) for s in others]
        for shape, look in zip(others, looks, strict=True):
            if look.bold and shape.points:
                paint_fill(painter, shape, look.colour)
            paint_lines(painter, shape, look)
        for shape, look in zip(others, looks, strict=True):
            self._flags.put(painter, shape, look)

    def _footprint(self, rig_id: str) -> Footprint:
        """Where a rig points as the plan has it, worked out once."""
        kept = self._kept.footprints
        if rig_id not in kept:
            kept[rig_id] = self._session.footprint(rig_id)
        return kept[rig_id]

    def _look(self, rig_id: str, *, bold: bool, in_hand: bool = False) -> FrameLook:
        """Colour, dash and letter of a rig's frame, put together once."""
        kept, key = self._kept.looks, (rig_id, bold, in_hand)
        if key not in kept:
            kept[key] = self._new_look(*key)
        return kept[key]

    def _new_look(self, rig_id: str, bold: bool, in_hand: bool) -> FrameLook:
        rig = self._session.planned_rig(rig_id)
        theme = self.style.theme
        return FrameLook(
            colour=theme.frames[rig.colour % len(theme.frames)],
            dash=DASHES[rig.dash % len(DASHES)],
            letter=self._session.letter(rig_id),
            bold=bold,
            plate=theme.plate,
            in_hand=in_hand,
        )

    def _furniture(self) -> Furniture:
        """What the furniture needs."""
        return Furniture(self.style.theme, self.style.font, self.style.small, self.credit)

    def _margin(self, transform: SheetTransform) -> Margin:
        """Graticule and margin ticks of the view."""
        if self._kept.margin is None:
            self._kept.margin = margin_of(transform)
        return self._kept.margin

    def _up_pa_deg(self) -> float:
        """Which way is up: north, or the chosen camera's up."""
        rig = self._session.rig
        if self._session.plan.view.camera_up and rig is not None:
            return self._session.framing(rig.id).pa_deg
        return 0.0

    def _bounds_of(self, rig_id: str | None) -> QRectF:
        """The part of the widget a frame is drawn on."""
        shape = (self._kept.shapes or {}).get(rig_id or "")
        return shape.bounds(4.0) if shape is not None else QRectF()
