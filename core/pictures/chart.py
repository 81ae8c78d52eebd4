"""Draw a chart: the sky of a picture frame from the embedded catalogues.

What is drawn is light that the catalogues measured: stars by their V magnitude and B-V,
galaxies and globular clusters by their total magnitude, size and position angle, and in
wide fields a smooth glow where stars crowd. Nebulae and open clusters have no measured
light that could be drawn honestly; `marks` gives their outlines.

Conventions: flux is 10^(-0.4 V) per pixel until `chart_tone` develops it; every star's
and object's pixels add up to its flux. Domain: fields up to about 150 degrees.
"""

from collections.abc import Collection
from typing import TYPE_CHECKING

import numpy as np

from core.catalogue.target import TargetKind
from core.pictures.chart_glow import add_glow
from core.pictures.chart_shapes import PAINTS, add_shapes, shapes_in
from core.pictures.chart_stars import LUMINANCE, add_stars, faintest_drawn, flux_of, peak_share
from core.pictures.chart_tone import develop
from core.pictures.light import Raster, weighted
from core.pictures.picture import Picture, PictureFrame
from core.pictures.pyramid import Pyramid

if TYPE_CHECKING:
    from core.catalogue.stars import StarCatalogue
    from core.catalogue.targets import TargetTable

__all__ = ["CHART_CREDIT", "LIT_KINDS", "chart_light", "draw_chart"]

#: The line beside a chart.
CHART_CREDIT = "Drawn from catalogues: stars Tycho-2, Hipparcos-2; objects OpenNGC (CC-BY-SA-4.0)"
#: Kinds that are drawn as light.
LIT_KINDS = (TargetKind.GALAXY, TargetKind.GLOBULAR_CLUSTER)

#: Width of a star's core, pixels.
_SIGMA_PX = 1.05
#: Surface brightness, mag per square arcsecond, where the picture turns logarithmic.
_SOFT_MAG = 24.2
#: How much brighter than the faintest star drawn a star is that reaches white.
_WHITE_STEPS_MAG = 5.0
_FEW_STARS = 12
_ARCSEC_PER_RAD = 206264.806


def draw_chart(
    frame: PictureFrame,
    stars: "StarCatalogue",
    targets: "TargetTable",
    *,
    kinds: Collection[TargetKind] = LIT_KINDS,
    sigma_px: float = _SIGMA_PX,
) -> Picture:
    """Draw a chart.

    Parameters
    ----------
    frame : PictureFrame
    stars : StarCatalogue
    targets : TargetTable
    kinds : collection of TargetKind
        Kinds of objects drawn as light; only those of `LIT_KINDS` have any.
    sigma_px : float
        Width of a star's core, pixels; twice the default suits a screen of twice the pixels.

    Returns
    -------
    Picture
        Its note says when the field holds few stars.
    """
    light, count = chart_light(frame, stars, targets, kinds=kinds, sigma_px=sigma_px)
    limit = _limit(frame, stars)
    soft = _soft(frame)
    white = float(flux_of(limit - _WHITE_STEPS_MAG)) * peak_share(sigma_px)
    pixels = develop(light, soft=soft, white=max(white, 30.0 * soft))
    return Picture(pixels, frame, CHART_CREDIT, "chart", _note(count, limit))


def chart_light(
    frame: PictureFrame,
    stars: "StarCatalogue",
    targets: "TargetTable",
    *,
    kinds: Collection[TargetKind] = LIT_KINDS,
    sigma_px: float = _SIGMA_PX,
) -> tuple[Raster, int]:
    """Give the light of a chart before it is developed.

    Parameters
    ----------
    frame, stars, targets, kinds, sigma_px
        As for `draw_chart`.

    Returns
    -------
    light : (3, H, W) float32 array
        Linear red, green, blue; its luminance is flux per pixel, 1 in all for V 0.
    count : int
        Stars in the picture.
    """
    threshold = 0.2 * _soft(frame)
    objects = _objects(frame, targets, kinds, sigma_px)
    light = np.zeros((3, frame.height_px, frame.width_px), np.float32)
    if objects is not None:
        paints = (PAINTS / (PAINTS @ LUMINANCE)[:, None]).astype(np.float32)
        for plane, shares in zip(light, paints.T, strict=True):
            plane += weighted(objects, shares)
    radius_deg = frame.radius_deg + 100.0 * np.degrees(frame.scale_rad_px)
    seen = stars.cone(
        frame.plane.ra_deg,
        frame.plane.dec_deg,
        min(radius_deg, 90.0),
        faintest=_limit(frame, stars),
    )
    count = add_stars(light, frame, seen, sigma_px=sigma_px, threshold=threshold)
    return light, count


def _objects(
    frame: PictureFrame, targets: "TargetTable", kinds: Collection[TargetKind], sigma_px: float
) -> Raster | None:
    """Light of galaxies, globular clusters and the glow, in the paints of `PAINTS`."""
    order = tuple(TargetKind)
    galaxy, globular = (order.index(kind) if kind in kinds else None for kind in LIT_KINDS)
    pyramid = Pyramid(len(PAINTS), frame.height_px, frame.width_px)
    shapes = shapes_in(frame, targets, (galaxy, globular))
    add_shapes(pyramid, frame, shapes, sigma_px=sigma_px, threshold=0.05 * _soft(frame))
    add_glow(pyramid, frame)
    return pyramid.light()


def _limit(frame: PictureFrame, stars: "StarCatalogue") -> float:
    """Faintest magnitude drawn in a frame."""
    return faintest_drawn(frame.footprint.solid_angle_deg2, stars.faintest)


def _soft(frame: PictureFrame) -> float:
    """Flux in a pixel of sky at the surface brightness where the tone turns."""
    pixel_arcsec2 = (frame.scale_rad_px * _ARCSEC_PER_RAD) ** 2
    return float(flux_of(_SOFT_MAG)) * pixel_arcsec2


def _note(count: int, limit: float) -> str:
    """Say when the field is nearly empty."""
    if count >= _FEW_STARS:
        return ""
    stars = {0: "No star", 1: "One star"}.get(count, f"Only {count} stars")
    return f"{stars} here: the catalogue ends at magnitude {limit:.0f}."
