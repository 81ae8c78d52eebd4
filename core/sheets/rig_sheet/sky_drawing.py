"""The chart of a target with frames on it, as pixels and lines, for whoever draws it.

Conventions: north is up, east on the left. Points are (column, row) of the picture, 0 at
the centre of its top left pixel, rows downwards; a point behind the limb is NaN. The chart
is printed as a negative: grey levels, the sky white, so that ink and lines stand out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from core.framing.enclosing import enclosing_width_deg
from core.framing.fit import Fit, fill_and_cover
from core.framing.outlined import outline_of
from core.pictures.chart import draw_chart
from core.pictures.marks import ellipse_on_plane
from core.pictures.picture import PictureFrame
from core.plan.document import PlannedTarget
from core.sky.angles import format_dec, format_ra
from core.sky.footprint import Footprint
from core.sky.tangent_plane import TangentPlane

if TYPE_CHECKING:
    from core.catalogue.stars import StarCatalogue
    from core.catalogue.targets import TargetTable

__all__ = ["DrawnFrame", "FrameOnSky", "SkyDrawing", "draw_sky"]

Floats = NDArray[np.float64]

_SIZE_PX = (900, 640)
_WIDEST_DEG = 120.0
#: A target wider than this many frames is not shown whole.
_MOST_FRAMES = 3.0
_STALK = 0.16
#: From here on a fill is told in times, not in percent.
_MANY = 10.0
#: How far outside a letter stands.
_LETTER_PX = 20.0
_BARS_ARCSEC = (5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 18_000, 36_000, 72_000)
#: Luminance of red, green and blue (ITU-R BT.601-7, from memory).
_GREY = np.array([0.299, 0.587, 0.114])
_UNITS = ((3600, "°"), (60, "′"), (1, "″"))
_CREDIT_NEGATIVE = "; shown as a negative"


@dataclass(frozen=True)
class FrameOnSky:
    """A frame to draw: its letter, the place of its colour and dash, where it lies."""

    letter: str
    colour: int
    dash: int
    footprint: Footprint


@dataclass(frozen=True, eq=False)
class DrawnFrame:
    """A frame as points of the picture: outline, stalk to the sensor's up, its letter."""

    letter: str
    colour: int
    dash: int
    outline: Floats
    stalk: Floats
    letter_at: Floats


@dataclass(frozen=True, eq=False)
class SkyDrawing:
    """A picture of the sky with frames.

    Parameters
    ----------
    pixels : (height, width) uint8 array
        Grey levels, the sky white.
    frames : tuple of DrawnFrame
    target : (N, 2) float array or None
        The target's outline; None when its size is not known.
    caption, alt, credit : str
        `caption` names what is drawn, `alt` says the same to those who do not see it.
    bar_px, bar_words : float and str
        The scale bar.
    rows : tuple of (str, str)
        Labels and numbers of the frame; empty with several frames.
    """

    pixels: NDArray[np.uint8]
    frames: tuple[DrawnFrame, ...]
    target: Floats | None
    bar_px: float
    bar_words: str
    rows: tuple[tuple[str, str], ...]
    caption: str
    alt: str
    credit: str


def draw_sky(
    target: PlannedTarget,
    frames: Sequence[FrameOnSky],
    stars: "StarCatalogue",
    targets: "TargetTable",
) -> SkyDrawing:
    """Draw frames on a target.

    Parameters
    ----------
    target : PlannedTarget
    frames : sequence of FrameOnSky
        One or more; one is drawn around its own centre, several around the target.
    stars, targets
        The embedded catalogues.
    """
    first = frames[0].footprint
    alone = len(frames) == 1
    plane = first.plane if alone else TangentPlane(target.ra_deg, target.dec_deg)
    frame = PictureFrame.of_width(plane, _width_deg(plane, target, frames), _SIZE_PX)
    chart = draw_chart(frame, stars, targets)
    lines = tuple(
        _drawn(frame, one, None if alone else place / len(frames))
        for place, one in enumerate(frames)
    )
    whole = np.all((lines[0].outline >= 0.0) & (lines[0].outline <= np.array(_SIZE_PX)))
    rows = _rows(target, first, beyond=not whole) if alone else ()
    bar_px, bar_words = _bar(frame)
    return SkyDrawing(
        pixels=255 - np.rint(chart.pixels @ _GREY).astype(np.uint8),
        frames=lines,
        target=_outline(frame, target),
        bar_px=bar_px,
        bar_words=bar_words,
        rows=rows,
        caption=f"{'On' if alone else 'All on'} {target.name}",
        alt=_alt(target, frames, rows),
        credit=chart.credit + _CREDIT_NEGATIVE,
    )


def _alt(
    target: PlannedTarget, frames: Sequence[FrameOnSky], rows: tuple[tuple[str, str], ...]
) -> str:
    """Say in words what the drawing shows."""
    names = ", ".join(dict.fromkeys((target.id, target.name)))
    letters = ", ".join(one.letter for one in frames)
    shown = "its frame" if len(frames) == 1 else f"the frames {letters}"
    numbers = "; ".join(f"{label} {value}" for label, value in rows)
    return f"Chart of {names}, north up, with {shown}. {numbers}".strip()


def _width_deg(plane: TangentPlane, target: PlannedTarget, frames: Sequence[FrameOnSky]) -> float:
    """Give the width of a picture that holds the frames, and the target when it may."""
    aspect = _SIZE_PX[0] / _SIZE_PX[1]
    shown = [one.footprint for one in frames]
    wide = enclosing_width_deg(plane, shown, aspect=aspect, margin=0.3)
    if target.major_arcmin is not None:
        size_deg = min(target.major_arcmin / 60.0, _WIDEST_DEG)
        around = Footprint(target.ra_deg, target.dec_deg, size_deg, size_deg)
        both = enclosing_width_deg(plane, [*shown, around], aspect=aspect, margin=0.1)
        wide = max(wide, min(both, _MOST_FRAMES * wide))
    return min(wide, _WIDEST_DEG)


def _drawn(frame: PictureFrame, one: FrameOnSky, round_part: float | None) -> DrawnFrame:
    """Bring a frame to the picture; its letter stands at its stalk, or somewhere round it."""
    half_w, half_h = one.footprint.half_extents
    stalk_xy = np.array([[0.0, half_h], [0.0, half_h + _STALK * min(half_w, half_h)]])
    outline = _to_pixels(frame, one.footprint.outline_deg())
    stalk = _to_pixels(frame, one.footprint.sky_deg(stalk_xy))
    middle = (outline[0] + outline[len(outline) // 2]) / 2.0
    at = stalk[1] if round_part is None else outline[round(round_part * (len(outline) - 1))]
    length = max(float(np.hypot(*(at - middle))), 1e-9)
    letter_at = at + (at - middle) / length * _LETTER_PX
    return DrawnFrame(one.letter, one.colour, one.dash, outline, stalk, letter_at)


def _to_pixels(frame: PictureFrame, places_deg: Floats) -> Floats:
    """Bring places of the sky, (N, 2) degrees, to the picture."""
    xi, eta = frame.plane.forward(*np.radians(places_deg).T)
    return np.stack(frame.to_pixels(xi, eta), axis=-1)


def _outline(frame: PictureFrame, target: PlannedTarget) -> Floats | None:
    """Bring the target's outline to the picture."""
    ellipse, _ = outline_of(target)
    if ellipse is None:
        return None
    (plane,) = ellipse_on_plane(
        frame,
        (np.array([ellipse.ra_deg]), np.array([ellipse.dec_deg])),
        (np.array([ellipse.major_arcmin]), np.array([ellipse.minor_arcmin])),
        np.array([ellipse.pa_deg]),
    )
    return np.stack(frame.to_pixels(*plane.T), axis=-1)


def _bar(frame: PictureFrame) -> tuple[float, str]:
    """Choose a round length for the scale bar, a quarter of the width at most."""
    per_px = np.degrees(frame.scale_rad_px) * 3600.0
    room = frame.width_px / 4.0 * per_px
    fitting = [length for length in _BARS_ARCSEC if length <= room]
    length = fitting[-1] if fitting else _BARS_ARCSEC[0]
    half = np.radians(length / 7200.0)
    unit, sign = next(one for one in _UNITS if length >= one[0])
    return float(2.0 * np.tan(half) / frame.scale_rad_px), f"{length / unit:g}{sign}"


def _rows(
    target: PlannedTarget, footprint: Footprint, *, beyond: bool
) -> tuple[tuple[str, str], ...]:
    """Give the numbers of one frame."""
    fit = fill_and_cover(target, footprint)
    rows = (
        ("centre", f"{format_ra(footprint.ra_deg)} {format_dec(footprint.dec_deg)} (J2000)"),
        ("camera's up", f"{footprint.pa_deg:.1f}° from north through east"),
        ("target", fit.verdict),
        ("fills", _fill(fit)),
    )
    return (*rows, ("note", "the frame reaches beyond this picture")) if beyond else rows


def _fill(fit: Fit) -> str:
    """Say how much of the frame's tighter side the target takes."""
    if fit.fill is None:
        return "not known"
    if fit.fill >= _MANY:
        return f"{fit.fill:.0f} times its tighter side"
    return f"{fit.fill * 100.0:.3g} % of its tighter side"
