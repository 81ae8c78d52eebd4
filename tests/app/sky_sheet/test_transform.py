"""The one place where the sky meets the screen."""

import math

import numpy as np
import pytest
from astropy.wcs import WCS
from hypothesis import assume, given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF

from app.sky_sheet.transform import SheetTransform
from core.pictures.picture import PictureFrame
from core.plan.document import SheetView
from core.sky.sphere import separation_rad
from core.sky.tangent_plane import TangentPlane

RECT = QRectF(60.0, 30.0, 900.0, 600.0)

views = st.builds(
    lambda ra, dec, width, mirrored: SheetView(
        ra_deg=ra, dec_deg=dec, width_deg=width, mirrored=mirrored
    ),
    st.floats(0.0, 359.9),
    st.floats(-90.0, 90.0),
    st.floats(0.05, 100.0),
    st.booleans(),
)
turns = st.floats(0.0, 359.9)
spots = st.tuples(st.floats(60.0, 960.0), st.floats(30.0, 630.0)).map(lambda xy: QPointF(*xy))


def view_at(ra: float = 10.0, dec: float = 40.0, **more: object) -> SheetView:
    return SheetView(ra_deg=ra, dec_deg=dec, width_deg=2.0, **more)


def possible(transform: SheetTransform, sky: tuple[float, float], spot: QPointF) -> bool:
    """Whether north-up can hold at all: a pole never stands aside of the middle line."""
    xi, eta = transform.to_plane(spot)
    dec = math.radians(sky[1])
    return abs(math.sin(dec) * xi) < 0.999 * math.hypot(1.0, eta) * math.cos(dec)


def test_north_is_up_and_east_is_left() -> None:
    transform = SheetTransform(view_at(), RECT, 0.0)
    (nx, ny), (ex, ey) = transform.sky_to_screen([10.0, 10.2], [40.2, 40.0])
    assert nx == pytest.approx(510.0)
    assert ny < 330.0
    assert ex < 510.0
    assert ey == pytest.approx(330.0, abs=0.2)


def test_mirrored_east_is_right_and_north_stays_up() -> None:
    transform = SheetTransform(view_at(mirrored=True), RECT, 0.0)
    (_, ny), (ex, _) = transform.sky_to_screen([10.0, 10.2], [40.2, 40.0])
    assert ny < 330.0
    assert ex > 510.0


def test_up_pa_90_puts_east_up_and_north_right() -> None:
    transform = SheetTransform(view_at(), RECT, 90.0)
    (nx, _), (_, ey) = transform.sky_to_screen([10.0, 10.2], [40.2, 40.0])
    assert nx > 510.0
    assert ey < 330.0


@given(views, turns, spots)
def test_screen_to_sky_and_back_is_the_same_point(
    view: SheetView, turn: float, spot: QPointF
) -> None:
    transform = SheetTransform(view, RECT, turn)
    x, y = transform.sky_to_screen(*transform.to_sky(spot))[0]
    assert math.hypot(x - spot.x(), y - spot.y()) < 1e-4


@given(views, turns, spots)
def test_screen_agrees_with_wcslib(view: SheetView, turn: float, spot: QPointF) -> None:
    """Reference: WCSLIB through astropy.wcs, on the header of the same picture."""
    transform = SheetTransform(view, RECT, turn)
    wcs = WCS(transform.frame.wcs_header())
    column, row = spot.x() - RECT.left() - 0.5, spot.y() - RECT.top() - 0.5
    ra, dec = transform.to_sky(spot)
    back = wcs.all_world2pix([[ra, dec]], 0)[0]
    assert np.allclose(back, [column, transform.frame.height_px - 1 - row], atol=1e-4)


@given(views, turns, spots, spots)
def test_the_sky_that_was_grabbed_stays_under_the_pointer(
    view: SheetView, turn: float, start: QPointF, end: QPointF
) -> None:
    before = SheetTransform(view, RECT, turn)
    grabbed = before.to_sky(start)
    after = SheetTransform(before.panned(start, end), RECT, turn)
    assume(possible(before, grabbed, end) and abs(after.view.dec_deg) < 89.999)
    x, y = after.sky_to_screen(*grabbed)[0]
    assert math.hypot(x - end.x(), y - end.y()) < 1e-3


@given(views, turns, spots, st.floats(0.3, 3.0))
def test_zoom_leaves_the_sky_under_the_pointer(
    view: SheetView, turn: float, spot: QPointF, factor: float
) -> None:
    before = SheetTransform(view, RECT, turn)
    held = before.to_sky(spot)
    after = SheetTransform(before.zoomed(factor, spot), RECT, turn)
    wider = SheetTransform(after.view.model_copy(update={"dec_deg": 0.0}), RECT, turn)
    assume(possible(wider, held, spot) and abs(after.view.dec_deg) < 89.999)
    x, y = after.sky_to_screen(*held)[0]
    assert math.hypot(x - spot.x(), y - spot.y()) < 1e-3


def test_zoom_stops_at_its_limits() -> None:
    transform = SheetTransform(view_at(), RECT, 0.0)
    assert transform.zoomed(1e6, RECT.center()).width_deg == pytest.approx(130.0)
    assert transform.zoomed(1e-6, RECT.center()).width_deg == pytest.approx(0.02)


@given(views, turns, spots)
def test_a_picture_of_another_centre_lies_where_its_stars_are(
    view: SheetView, turn: float, spot: QPointF
) -> None:
    """A picture's pixel and the sky under it meet at one screen point, exactly."""
    transform = SheetTransform(view, RECT, turn)
    ra, dec = transform.to_sky(spot)
    centre = TangentPlane(ra, max(-90.0, dec - 0.01))
    frame = PictureFrame(centre, 301, 201, transform.frame.scale_rad_px, 33.0, True)
    xi, eta = centre.forward(math.radians(ra), math.radians(dec))
    column, row = frame.to_pixels(xi, eta)
    laid = transform.picture_transform(frame).map(QPointF(column + 0.5, row + 0.5))
    assert math.hypot(laid.x() - spot.x(), laid.y() - spot.y()) < 1e-3


@given(views, turns)
def test_px_per_rad_is_the_scale_at_the_middle(view: SheetView, turn: float) -> None:
    """Against the angle on the sphere between two places a pixel apart."""
    transform = SheetTransform(view, RECT, turn)
    middle = RECT.center()
    spots = [transform.to_sky(middle + QPointF(side, 0.0)) for side in (-0.5, 0.5)]
    angles = [math.radians(angle) for spot in spots for angle in spot]
    assert 1.0 / float(separation_rad(*angles)) == pytest.approx(transform.px_per_rad, rel=1e-4)


@given(views, turns, spots)
def test_a_right_ascension_read_off_the_screen_lies_in_the_round(
    view: SheetView, turn: float, spot: QPointF
) -> None:
    ra, dec = SheetTransform(view, RECT, turn).to_sky(spot)
    assert 0.0 <= ra < 360.0
    assert -90.0 <= dec <= 90.0


@pytest.mark.parametrize(("asked", "shown"), [(180.0, 130.0), (1e-9, 0.02)])
def test_a_plan_that_asks_for_too_wide_or_narrow_a_sheet_is_shown_at_the_limit(
    asked: float, shown: float
) -> None:
    one = SheetTransform(SheetView(ra_deg=10.0, dec_deg=40.0, width_deg=asked), RECT, 0.0)
    other = SheetTransform(SheetView(ra_deg=10.0, dec_deg=40.0, width_deg=shown), RECT, 0.0)
    assert np.allclose(one.plane_to_screen, other.plane_to_screen, rtol=1e-12)
    half = math.tan(math.radians(shown) / 2.0)
    stepped = math.tan(math.radians(one.zoomed(0.82, RECT.center()).width_deg) / 2.0)
    assert stepped == pytest.approx(max(half * 0.82, math.tan(math.radians(0.01))), rel=1e-9)
