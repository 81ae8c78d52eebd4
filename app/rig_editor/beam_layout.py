"""Where everything stands in the drawing of the light's way, in logical pixels.

The sky is at the left, the sensor at the right. Behind the optics lengths are to one scale;
a telescope too long for it is broken, and a length that is not known has a plain one and is
marked. Across the beam there is a scale of its own. Filters that sit in other parts, and
what stands beside the beam, follow below in rows.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetricsF

from app.rig_editor.beam_labels import Label, placed_labels
from app.shared.theme import scaled_font
from core.gear.optics.beam import Stretch, beam_diameter_mm, sensor_diagonal_mm, stretches
from core.gear.optics.light_path import BackFocus, back_focus
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of

__all__ = ["ADD", "BeamLayout", "Tile", "layout_of"]

#: Stands for the place where a part is added.
ADD = Slot("add")
_MARGIN, _HALF, _RULER, _CHIP, _GAP = 10.0, 54.0, 76.0, 26.0, 8.0
_TUBE, _END, _BODY = 150.0, 128.0, 34.0
_WIDEST_CHIP = 250.0
#: Length drawn where it is not known, and of a corrector's, mm.
_PLAIN_MM = 14.0
_MOST_PX_MM = 9.0
_WALL = 9.0


@dataclass(frozen=True)
class Tile:
    """Something to see and to point at.

    `role` is "tube", "corrector", "beam", "camera", "inside", "beside" or "add"; `known`
    tells whether its length along the beam is, `broken` that it is drawn shorter.
    """

    slot: Slot
    part: Part | None
    role: str
    box: QRectF
    known: bool = True
    bore_mm: float | None = None
    broken: bool = False


@dataclass
class BeamLayout:
    """The drawing of one rig at one width."""

    rig: Rig
    scale: float
    width: float
    focus: BackFocus
    tiles: list[Tile] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)
    captions: list[tuple[QRectF, str]] = field(default_factory=list)
    rear_x: float = 0.0
    sensor_x: float = 0.0
    axis_y: float = 0.0
    half: float = 0.0
    px_mm: float = 1.0
    across_px_mm: float = 1.0
    ruler: QRectF = field(default_factory=QRectF)
    height: float = 0.0

    def x_of(self, from_rear_mm: float) -> float:
        """Give the place of a distance behind the last optical surface."""
        return self.rear_x + from_rear_mm * self.px_mm

    def beam_half(self, x: float) -> float:
        """Give half the height of the beam at a place, pixels."""
        distance_mm = max(0.0, (self.sensor_x - x) / self.px_mm)
        return beam_diameter_mm(self.rig, distance_mm) / 2.0 * self.across_px_mm

    def tile(self, slot: Slot) -> Tile | None:
        """Find what stands for a slot."""
        return next((tile for tile in self.tiles if tile.slot == slot), None)

    @property
    def row(self) -> list[Tile]:
        """The parts that can be moved along the beam, from the sky."""
        return [tile for tile in self.tiles if tile.role == "beam"]

    def index_at(self, x: float, slot: Slot) -> int:
        """Tell before which of the others in the row a part put down at a place comes."""
        others = [tile for tile in self.row if tile.slot != slot]
        return sum(1 for tile in others if tile.box.center().x() < x)

    def seam_x(self, index: int, slot: Slot) -> float:
        """Give the place of the seam before the part of an index."""
        others = [tile for tile in self.row if tile.slot != slot]
        if index < len(others):
            return others[index].box.left()
        return others[-1].box.right() if others else self.rear_x


def layout_of(rig: Rig, width: float, scale: float) -> BeamLayout:
    """Lay the drawing of a rig out.

    Parameters
    ----------
    rig : Rig
    width : float
        Logical pixels.
    scale : float
        The user's text size.
    """
    found, metrics = stretches(rig), QFontMetricsF(scaled_font(scale))
    row = [one for one in found if not one.inside]
    drawing = BeamLayout(rig=rig, scale=scale, width=width, focus=back_focus(rig))
    drawing.half = _HALF * scale
    _set_scales(drawing, row)
    named = [(t.slot, t.part.name, t.box) for t in _beam_tiles(drawing, row) if t.part is not None]
    drawing.labels, high = placed_labels(named, width - _MARGIN * scale, scale, metrics)
    drawing.axis_y = high + 6.0 * scale + drawing.half
    drawing.tiles = _beam_tiles(drawing, row)
    top = drawing.axis_y + drawing.half + 6.0 * scale
    drawing.ruler = QRectF(0.0, top, width, _RULER * scale)
    _lay_chips(drawing, found, metrics)
    return drawing


def _plain(length_mm: float | None) -> float:
    return _PLAIN_MM if length_mm is None else length_mm


def _set_scales(drawing: BeamLayout, row: Sequence[Stretch]) -> None:
    """Find how many pixels a millimetre has, along the beam and across it."""
    rig, scale = drawing.rig, drawing.scale
    along = sum(_plain(one.length_mm) for one in row)
    span = max(along, drawing.focus.required_mm or 0.0)
    corrector = _plain(rig.corrector.length_mm) if rig.corrector else 0.0
    usable = drawing.width - (2 * _MARGIN + _TUBE + _END) * scale
    drawing.px_mm = min(max(usable, 60.0) / max(span + corrector, 1.0), _MOST_PX_MM * scale)
    room = usable - (span + corrector) * drawing.px_mm
    tube = _MARGIN * scale + _TUBE * scale + max(0.0, room)
    drawing.rear_x = tube + corrector * drawing.px_mm
    drawing.sensor_x = drawing.x_of(along)
    optics = rig.corrector or rig.telescope
    widest = max(
        beam_diameter_mm(rig, along),
        sensor_diagonal_mm(rig),
        optics.image_circle_mm or 0.0,
        *(one.bore_mm or 0.0 for one in row),
    )
    drawing.across_px_mm = 2.0 * (drawing.half - _WALL * scale) / widest


def _beam_tiles(drawing: BeamLayout, row: Sequence[Stretch]) -> list[Tile]:
    """Put the optics, the parts behind them and the camera one behind another."""
    rig, scale = drawing.rig, drawing.scale
    top, high = drawing.axis_y - drawing.half, 2.0 * drawing.half
    corrector = _plain(rig.corrector.length_mm) * drawing.px_mm if rig.corrector else 0.0
    front = drawing.rear_x - corrector
    left = _MARGIN * scale
    length = rig.telescope.length_mm
    broken = length is not None and length * drawing.px_mm > front - left
    if length is not None and not broken:
        left = front - length * drawing.px_mm
    box = QRectF(left, top, front - left, high)
    tiles = [Tile(Slot("telescope"), rig.telescope, "tube", box, length is not None, broken=broken)]
    if rig.corrector:
        box = QRectF(front, top, corrector, high)
        known = rig.corrector.length_mm is not None
        tiles.append(Tile(Slot("corrector"), rig.corrector, "corrector", box, known))
    x = drawing.rear_x
    for one in row:
        end = x + _plain(one.length_mm) * drawing.px_mm
        half = _housing_half(drawing, one, x)
        camera = one.slot == Slot("camera")
        wide = end - x + (_BODY * scale if camera else 0.0)
        box = QRectF(x, drawing.axis_y - half, wide, 2.0 * half)
        role = "camera" if camera else "beam"
        known = one.length_mm is not None
        tiles.append(Tile(one.slot, one.part, role, box, known, one.bore_mm))
        x = end
    return tiles


def _housing_half(drawing: BeamLayout, one: Stretch, x: float) -> float:
    """Give half the height of a part's housing: its bore and a wall, or round the beam."""
    wall = _WALL * drawing.scale
    if one.slot == Slot("camera"):
        widest = max(
            drawing.beam_half(x), sensor_diagonal_mm(drawing.rig) * drawing.across_px_mm / 2
        )
        return min(drawing.half, widest + wall)
    inner = drawing.beam_half(x) if one.bore_mm is None else one.bore_mm / 2 * drawing.across_px_mm
    return min(drawing.half, inner + wall)


def _lay_chips(drawing: BeamLayout, found: Iterable[Stretch], metrics: QFontMetricsF) -> None:
    """Put in rows what sits inside other parts, and what stands beside the beam."""
    inside = [(one.slot, one.part, "inside") for one in found if one.inside]
    placed = {tile.slot for tile in drawing.tiles} | {slot for slot, _, _ in inside}
    parts = slots_of(drawing.rig)
    beside = [(slot, part, "beside") for slot, part in parts.items() if slot not in placed]
    chips: list[tuple[Slot, Part | None, str]] = [*beside, (ADD, None, "add")]
    top = drawing.ruler.bottom() + _GAP * drawing.scale
    if inside:
        top = _lay_row(drawing, "Inside other parts", inside, top, metrics)
    drawing.height = _lay_row(drawing, "Beside the beam", chips, top, metrics)


def _lay_row(
    drawing: BeamLayout,
    words: str,
    chips: Iterable[tuple[Slot, Part | None, str]],
    top: float,
    metrics: QFontMetricsF,
) -> float:
    """Put chips behind a caption, in as many lines as they need; give where they end."""
    scale = drawing.scale
    high, gap, left = _CHIP * scale, _GAP * scale, _MARGIN * scale
    caption = QRectF(left, top, metrics.horizontalAdvance(words) + gap, high)
    drawing.captions.append((caption, words))
    start = x = caption.right() + gap
    if start > drawing.width * 0.4:
        start = left
    for slot, part, role in chips:
        name = part.name if part is not None else "+ Add a part"
        wide = min(metrics.horizontalAdvance(name) + 36.0 * scale, _WIDEST_CHIP * scale)
        wide = min(wide, drawing.width - 2.0 * left)
        if x > start and x + wide > drawing.width - left:
            x, top = start, top + high + gap / 2.0
        drawing.tiles.append(Tile(slot, part, role, QRectF(x, top, wide, high)))
        x += wide + gap
    return top + high + gap
