"""The chart against two named ways of drawing the same stars on 1200 x 800 pixels.

Like for like: astropy's `Gaussian2D`, evaluated star by star, lays the same light on a
float raster. Unlike: matplotlib's `scatter` on the Agg canvas draws each star as one
hard disc in C++, no light, no wing, no galaxies, no Milky Way, no tone; it is faster,
and the second benchmark holds how much the light costs beside it.
"""

import numpy as np
import pytest
from astropy.modeling.models import Gaussian2D
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from core.catalogue.stars import StarCatalogue
from core.catalogue.targets import TargetTable
from core.pictures.chart import chart_light, draw_chart
from core.pictures.chart_stars import LUMINANCE, faintest_drawn, flux_of, star_rgb
from core.pictures.picture import PictureFrame
from core.sky.tangent_plane import TangentPlane
from tests.benchmarks.timing import ratio
from tests.core.pictures.synthetic import FewTargets

FIELDS = {
    "3 x 2 degrees, Andromeda": (10.7, 41.3, 3.0),
    "3 x 2 degrees, Cygnus": (308.0, 42.0, 3.0),
    "20 x 13 degrees, Sagittarius": (270.0, -26.0, 20.0),
    "60 x 42 degrees, Milky Way": (305.0, 38.0, 60.0),
}
#: How many times faster than one by one: a poor field costs us as many pixels as a rich one.
GOALS = {
    "3 x 2 degrees, Andromeda": 2.0,
    "3 x 2 degrees, Cygnus": 4.0,
    "60 x 42 degrees, Milky Way": 10.0,
}
#: Our light may take this many times as long as the hard discs.
MOST_TIMES_SCATTER = 10.0


def field_of(name):
    """Catalogues, frame and the stars that the chart draws."""
    ra_deg, dec_deg, width_deg = FIELDS[name]
    catalogue, table = StarCatalogue.open(), TargetTable.load()
    frame = PictureFrame.of_width(TangentPlane(ra_deg, dec_deg), width_deg, (1200, 800))
    limit = faintest_drawn(frame.footprint.solid_angle_deg2, catalogue.faintest)
    return (
        catalogue,
        table,
        frame,
        catalogue.cone(ra_deg, dec_deg, frame.radius_deg, faintest=limit),
    )


def scattered(frame, stars):
    """Draw the stars as discs with matplotlib; the pixels as an array."""
    figure = Figure(figsize=(frame.width_px / 100, frame.height_px / 100), dpi=100)
    canvas = FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1), facecolor="#05060a")
    column, row = frame.to_pixels(*frame.plane.forward_vectors(stars.vectors))
    size = 3.0 + 60.0 * 10 ** (-0.15 * (stars.v_mag - 4.0))
    colours = star_rgb(stars.b_v)
    axes.scatter(column, row, s=size, c=colours / colours.max(axis=1)[:, None], linewidths=0)
    axes.set(xlim=(-0.5, frame.width_px - 0.5), ylim=(frame.height_px - 0.5, -0.5))
    axes.axis("off")
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())


def rendered(frame, stars):
    """Lay the stars' light down one by one with astropy; three planes of flux."""
    light = np.zeros((3, frame.height_px, frame.width_px))
    column, row = frame.to_pixels(*frame.plane.forward_vectors(stars.vectors))
    peaks = flux_of(stars.v_mag) / (2.0 * np.pi * 1.05**2)
    colours = star_rgb(stars.b_v)
    inside = (np.abs(column - 599.5) < 594) & (np.abs(row - 399.5) < 394)
    for number in np.flatnonzero(inside):
        star = Gaussian2D(peaks[number], column[number], row[number], 1.05, 1.05)
        plane = star(*_cut(column[number], row[number]))
        y, x = round(row[number]) - 5, round(column[number]) - 5
        light[:, y : y + 11, x : x + 11] += colours[number][:, None, None] * plane
    return light


def _cut(column, row):
    """Coordinates of the pixels around a star."""
    lines, columns = np.mgrid[-5:6, -5:6].astype(float)
    return columns + round(column), lines + round(row)


@pytest.mark.parametrize("field", GOALS)
def test_chart_is_faster_than_gaussians_one_by_one(field):
    catalogue, table, frame, stars = field_of(field)
    named = np.tensordot(LUMINANCE, rendered(frame, stars), axes=1)
    ours, _ = chart_light(frame, catalogue, FewTargets())
    wanted = float(flux_of(stars.v_mag).sum())
    assert 0.2 * wanted < named.sum() < 1.01 * wanted
    assert float(np.tensordot(LUMINANCE, ours.astype(float), axes=1).sum()) > 0.9 * named.sum()
    found = ratio(
        lambda: rendered(frame, stars),
        lambda: draw_chart(frame, catalogue, table),
        rounds=3,
        label=f"chart of {field}, {len(stars)} stars, against Gaussian2D",
    )
    assert found.times_faster >= GOALS[field]


@pytest.mark.parametrize("field", FIELDS)
def test_light_costs_at_most_ten_times_the_hard_discs_of_scatter(field):
    catalogue, table, frame, stars = field_of(field)
    assert scattered(frame, stars).shape == (800, 1200, 4)
    assert draw_chart(frame, catalogue, table).pixels.shape == (800, 1200, 3)
    found = ratio(
        lambda: scattered(frame, stars),
        lambda: draw_chart(frame, catalogue, table),
        label=f"chart of {field}, {len(stars)} stars, against matplotlib scatter",
    )
    assert found.times_faster > 1.0 / MOST_TIMES_SCATTER
