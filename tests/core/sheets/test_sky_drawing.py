"""Where lines lie on the chart: against astropy's tangent plane and by hand."""

import math

import numpy as np
import pytest
from astropy.coordinates import SkyCoord
from astropy.wcs import WCS

from core.pictures.chart import CHART_CREDIT
from core.plan.document import PlannedTarget, planned_target
from core.sheets.rig_sheet.sky_drawing import FrameOnSky, SkyDrawing, draw_sky
from core.sky.footprint import Footprint
from tests.core.sheets.sheets import catalogues


def drawn(*footprints: Footprint, target: PlannedTarget | None = None) -> SkyDrawing:
    stars, targets = catalogues()
    frames = [FrameOnSky("ABCDEFG"[n], n, n % 4, one) for n, one in enumerate(footprints)]
    return draw_sky(target or planned_target(targets.find("M 31")), frames, stars, targets)


def middle(drawing: SkyDrawing) -> np.ndarray:
    rows, columns = drawing.pixels.shape
    return np.array([(columns - 1) / 2.0, (rows - 1) / 2.0])


@pytest.mark.parametrize(
    ("pa_deg", "towards"),
    [(0.0, (0, -1)), (90.0, (-1, 0)), (180.0, (0, 1)), (270.0, (1, 0))],
    ids=["north is up", "east is left", "south is down", "west is right"],
)
def test_the_stalk_points_to_the_position_angle(pa_deg: float, towards: tuple[int, int]) -> None:
    """Position angle: north through east (IAU convention), north up and east left here."""
    picture = drawn(Footprint(10.7, 41.3, 3.0, 2.0, pa_deg))
    start, end = picture.frames[0].stalk
    way = (end - start) / np.hypot(*(end - start))
    assert way == pytest.approx(towards, abs=1e-9)


def test_corners_lie_where_astropy_puts_them() -> None:
    """Reference: astropy.wcs with the scale of the drawn bar, TAN projection."""
    footprint = Footprint(10.7, 41.3, 3.0, 2.0, 35.0)
    picture = drawn(footprint)
    corners = picture.frames[0].outline[[0, 16, 32, 48]]
    wcs = WCS(naxis=2)
    per_px = bar_angle_deg(picture) / picture.bar_px
    wcs.wcs.ctype = ["RA---TAN", "DEC--TAN"]
    wcs.wcs.crval = [10.7, 41.3]
    wcs.wcs.crpix = middle(picture) + 1.0
    wcs.wcs.cdelt = [-per_px, -per_px]  # rows run downwards
    places = SkyCoord(*footprint.corners_deg().T, unit="deg")
    expected = np.stack(wcs.world_to_pixel(places), axis=-1)
    assert corners == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize("width_deg", [0.05, 0.4, 3.0, 20.0, 80.0])
def test_the_frame_lies_whole_in_the_picture_and_the_bar_is_a_quarter_at_most(width_deg) -> None:
    target = PlannedTarget(id="x", name="x", kind="other", ra_deg=10.7, dec_deg=41.3)
    picture = drawn(Footprint(10.7, 41.3, width_deg, width_deg * 0.7, 20.0), target=target)
    assert "note" not in dict(picture.rows)
    rows, columns = picture.pixels.shape
    outline = picture.frames[0].outline
    assert np.all((outline > 0) & (outline < (columns, rows)))
    assert columns / 16 <= picture.bar_px <= columns / 3.5


def test_a_frame_that_no_flat_picture_holds_is_told_to_reach_beyond() -> None:
    picture = drawn(Footprint(10.7, 41.3, 150.0, 130.0))
    assert dict(picture.rows)["note"] == "the frame reaches beyond this picture"


def test_a_target_many_times_the_frame_fills_it_in_times_not_percent() -> None:
    """M 31 is 178 arcmin long, the frame 6 arcmin high: about 30 times."""
    fill = dict(drawn(Footprint(10.685, 41.269, 0.1, 0.1, 35.0)).rows)["fills"]
    assert fill == "30 times its tighter side"


def test_the_target_s_outline_has_its_catalogued_diameter() -> None:
    """Hand value: 178 by 63 arcmin along the bar's scale, small enough for a straight rule."""
    target = PlannedTarget(
        id="M 31",
        name="M 31",
        kind="galaxy",
        ra_deg=10.7,
        dec_deg=41.3,
        major_arcmin=178.0,
        minor_arcmin=63.0,
        pa_deg=0.0,
    )
    picture = drawn(Footprint(10.7, 41.3, 4.0, 3.0), target=target)
    assert picture.target is not None
    per_px = bar_angle_deg(picture) * 60.0 / picture.bar_px
    across, down = np.ptp(picture.target, axis=0) * per_px
    assert (across, down) == pytest.approx((63.0, 178.0), rel=2e-3)


def test_a_target_of_unknown_size_has_no_outline_and_is_never_called_a_fit() -> None:
    target = PlannedTarget(id="x", name="x", kind="other", ra_deg=10.7, dec_deg=41.3)
    picture = drawn(Footprint(10.7, 41.3, 2.0, 1.5), target=target)
    assert picture.target is None
    assert dict(picture.rows)["target"] == "size not known"
    assert dict(picture.rows)["fills"] == "not known"


def test_stars_are_dark_on_a_light_sky_and_the_credit_says_negative() -> None:
    picture = drawn(Footprint(10.7, 41.3, 3.0, 2.0))
    assert np.median(picture.pixels) > 200
    assert picture.pixels.min() < 60
    assert picture.credit == f"{CHART_CREDIT}; shown as a negative"


def test_several_frames_are_drawn_on_the_target_with_their_letters_apart() -> None:
    shapes = [Footprint(10.7, 41.3, width, width * 0.7, 0.0) for width in (6.0, 5.9, 5.8)]
    picture = drawn(*shapes)
    assert [frame.letter for frame in picture.frames] == ["A", "B", "C"]
    assert picture.rows == ()
    places = [frame.letter_at for frame in picture.frames]
    for number, one in enumerate(places):
        assert all(math.dist(one, other) > 30.0 for other in places[:number])


def bar_angle_deg(picture: SkyDrawing) -> float:
    number, unit = picture.bar_words[:-1], picture.bar_words[-1]
    return float(number) / {"°": 1.0, "′": 60.0, "″": 3600.0}[unit]
