"""Outlines and labels: where they lie, which are dashed, which are left out."""

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import SkyCoord

from core.catalogue.target import Target, TargetKind
from core.catalogue.targets import TargetTable
from core.pictures.marks import OUTLINED_KINDS, TINTS, ellipse_on_plane, marks
from core.pictures.picture import PictureFrame
from core.sky.tangent_plane import TangentPlane
from tests.core.pictures.synthetic import FewTargets

NEBULA, ALL = TargetKind.BRIGHT_NEBULA, tuple(TargetKind)


def frame_at(ra_deg=10.0, dec_deg=41.0, width_deg=4.0):
    return PictureFrame.of_width(TangentPlane(ra_deg, dec_deg), width_deg, (600, 400))


def nebula(name="N 1", ra_deg=10.0, dec_deg=41.0, **more):
    figures = {"major_arcmin": 60.0, "minor_arcmin": 30.0, "pa_deg": 20.0} | more
    return Target(name, name, more.pop("kind", NEBULA), ra_deg, dec_deg, **_known(figures))


def _known(figures):
    return {name: value for name, value in figures.items() if name != "kind"}


def marked(*targets, frame=None, kinds=ALL):
    return marks(frame or frame_at(), FewTargets(list(targets)), kinds)


@pytest.mark.parametrize(
    ("ra_deg", "dec_deg", "centre"),
    [(10, 41, (10, 41)), (0.001, -5, (359.9, -5)), (200, 89.7, (0, 90)), (83, -5, (60, 20))],
)
def test_outline_ends_where_its_axes_end_on_the_sphere(ra_deg, dec_deg, centre):
    """Reference: half a diameter along the position angle by astropy."""
    frame = frame_at(*centre)
    figures = [np.array([float(v)]) for v in (ra_deg, dec_deg, 90.0, 40.0, 35.0)]
    points = ellipse_on_plane(frame, (figures[0], figures[1]), (figures[2], figures[3]), figures[4])
    ra, dec = frame.plane.inverse(*points[0, [0, 18, 36, 54]].T)
    found = SkyCoord(ra, dec, unit="rad")
    middle = SkyCoord(ra_deg, dec_deg, unit="deg")
    for end, pa, half in zip(found, (35, 125, 215, 305), (45, 20, 45, 20), strict=True):
        wanted = middle.directional_offset_by(pa * u.deg, half * u.arcmin)
        assert end.separation(wanted).arcsec < 1e-3


def test_outline_is_a_closed_line():
    (outline,) = marked(nebula()).outlines
    assert outline.points.shape == (73, 2)
    assert outline.points[0] == pytest.approx(outline.points[-1], abs=1e-15)
    assert (outline.kind, outline.index, outline.dashed) == (NEBULA, 0, False)


def test_unknown_angle_becomes_a_dashed_circle_of_the_major_diameter():
    (outline,) = marked(nebula(pa_deg=None)).outlines
    assert outline.dashed
    radius = np.degrees(np.arctan(np.hypot(*outline.points.T))) * 60
    assert radius == pytest.approx(np.full(73, 30.0), rel=1e-6)


@pytest.mark.parametrize(
    ("figures", "dashed"),
    [
        ({"status": "published"}, False),
        ({"status": "catalogue"}, False),
        ({"status": "partly"}, True),
        ({"status": "unverified"}, True),
        ({"minor_arcmin": None, "pa_deg": None}, False),
        ({"minor_arcmin": 60.0, "pa_deg": None}, False),
    ],
)
def test_outline_is_dashed_when_its_figures_are_doubtful(figures, dashed):
    (outline,) = marked(nebula(**figures)).outlines
    assert outline.dashed is dashed


def test_unknown_size_has_a_label_alone():
    found = marked(nebula(major_arcmin=None, minor_arcmin=None, pa_deg=None))
    assert found.outlines == ()
    assert [label.text for label in found.labels] == ["N 1"]
    assert found.labels[0].reach == 0.0


@pytest.mark.parametrize("kind", TargetKind)
def test_outlines_are_for_clusters_and_nebulae_alone(kind):
    found = marked(nebula(kind=kind))
    assert len(found.outlines) == (kind in OUTLINED_KINDS)
    assert len(found.labels) == 1
    assert kind in TINTS


def test_kinds_that_are_not_wanted_are_left_out():
    found = marked(nebula(), kinds=[TargetKind.GALAXY])
    assert found.outlines == ()
    assert found.labels == ()


def test_labels_come_in_the_order_of_rank_and_only_from_inside():
    found = marked(
        nebula("first", 10.3), nebula("outside", 14.0), nebula("second", 9.5), nebula("third")
    )
    assert [label.text for label in found.labels] == ["first", "second", "third"]
    few = marks(frame_at(), FewTargets([nebula(str(n)) for n in range(9)]), ALL, most_labels=4)
    assert [label.text for label in few.labels] == ["0", "1", "2", "3"]


def test_label_stands_where_the_object_is():
    frame = frame_at()
    (label,) = marked(nebula(ra_deg=10.5, dec_deg=41.5), frame=frame).labels
    wanted = frame.plane.forward(np.radians(10.5), np.radians(41.5))
    assert (label.xi, label.eta) == pytest.approx([float(part) for part in wanted])
    assert label.reach == pytest.approx(np.radians(0.5), rel=1e-3)


def test_outline_that_only_reaches_in_is_drawn():
    found = marked(nebula(ra_deg=10.0, dec_deg=43.5, major_arcmin=180.0, pa_deg=0.0))
    assert len(found.outlines) == 1
    assert found.labels == ()


def test_outlines_too_small_or_far_too_large_are_left_out():
    assert marked(nebula(major_arcmin=1.0, minor_arcmin=1.0)).outlines == ()
    assert marked(nebula(major_arcmin=1500.0, minor_arcmin=1500.0)).outlines == ()


def test_outline_across_the_limb_is_left_out_and_nothing_behind_is_named():
    wide = PictureFrame.of_width(TangentPlane(0, 0), 170.0, (1200, 800))
    ahead = nebula("ahead", 0.0, 0.0, major_arcmin=3600.0, minor_arcmin=3600.0)
    assert len(marked(ahead, frame=wide).outlines) == 1
    found = marked(
        nebula("limb", 80.0, 0.0, major_arcmin=3600.0, minor_arcmin=3600.0),
        nebula("behind", 180.0, 0.0, major_arcmin=600.0),
        frame=wide,
    )
    assert found.outlines == ()
    assert all(label.text == "limb" for label in found.labels)


@pytest.mark.parametrize("place", [(0, 90, 8), (266, -29, 120), (0, 0, 0.1), (83, -5, 5)])
def test_real_sky_gives_finite_marks(place):
    found = marks(frame_at(*place), TargetTable.load(), ALL)
    assert len(found.outlines) <= 140
    assert len(found.labels) <= 80
    for outline in found.outlines:
        assert np.isfinite(outline.points).all()
        assert outline.kind in OUTLINED_KINDS


def test_orion_nebula_is_among_the_first_names_in_orion():
    found = marks(frame_at(83.8, -5.4, 4.0), TargetTable.load(), ALL)
    assert any("Orion" in label.text for label in found.labels[:5])
