"""Scenes: each member is in the table, and its ellipse lies inside the scene's ellipse.

The member outlines are walked by astropy from each member's own centre and turned into
polygons with shapely on astropy's offset frame about the scene; no code of the project.
"""

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import SkyCoord
from numpy.typing import NDArray
from shapely import Polygon
from shapely.affinity import rotate, scale

from core.catalogue.target import Target, TargetKind
from core.catalogue.targets import TargetTable

TABLE = TargetTable.load()
_SCENE = tuple(TargetKind).index(TargetKind.SCENE)
SCENES = [TABLE.target(int(row)) for row in np.flatnonzero(TABLE.kind_code == _SCENE)]
#: Scenes are published to a whole arcminute and member sizes to a few hundredths.
ALLOWED = 1.03


def _outline(member: Target, about: SkyCoord) -> NDArray[np.float64]:
    """Tangent-plane outline of a member in arcminutes; a circle when it has no angle."""
    assert member.major_arcmin is not None
    major = member.major_arcmin / 2.0
    minor = (
        (member.minor_arcmin or member.major_arcmin) / 2.0 if member.pa_deg is not None else major
    )
    turn = np.linspace(0.0, 2.0 * np.pi, 180, endpoint=False)
    along, across = major * np.cos(turn), minor * np.sin(turn)
    angles = np.degrees(np.arctan2(across, along)) + (member.pa_deg or 0.0)
    centre = SkyCoord(member.ra_deg, member.dec_deg, unit="deg")
    points = centre.directional_offset_by(angles * u.deg, np.hypot(along, across) * u.arcmin)
    separation, angle = about.separation(points), about.position_angle(points)
    radius = np.degrees(np.tan(separation.rad)) * 60.0
    return np.column_stack([radius * np.sin(angle.rad), radius * np.cos(angle.rad)])


def _ellipse(scene: Target) -> Polygon:
    """The scene's ellipse on the same plane, grown by what is allowed."""
    assert scene.major_arcmin is not None
    assert scene.minor_arcmin is not None
    halves = [np.degrees(np.tan(np.radians(d / 120.0))) * 60.0 * ALLOWED
              for d in (scene.minor_arcmin, scene.major_arcmin)]  # fmt: skip
    circle = Polygon([(np.cos(t), np.sin(t)) for t in np.linspace(0.0, 2.0 * np.pi, 2000)])
    upright = scale(circle, *halves, origin=(0.0, 0.0))
    return rotate(upright, -(scene.pa_deg or 0.0), origin=(0.0, 0.0))


def test_there_are_nineteen_scenes_with_members() -> None:
    assert len(SCENES) == 19
    assert all(scene.members for scene in SCENES)


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.id)
def test_every_member_lies_inside_its_scene(scene: Target) -> None:
    about = SkyCoord(scene.ra_deg, scene.dec_deg, unit="deg")
    bound = _ellipse(scene)
    for name in scene.members:
        member = TABLE.find(name)
        assert member.size_known, name
        assert bound.covers(Polygon(_outline(member, about))), name


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.id)
def test_no_scene_is_larger_than_its_members_need(scene: Target) -> None:
    about = SkyCoord(scene.ra_deg, scene.dec_deg, unit="deg")
    points = np.vstack([_outline(TABLE.find(name), about) for name in scene.members])
    turn = np.radians(scene.pa_deg or 0.0)
    along = points[:, 0] * np.sin(turn) + points[:, 1] * np.cos(turn)
    across = points[:, 0] * np.cos(turn) - points[:, 1] * np.sin(turn)
    assert scene.major_arcmin is not None
    assert scene.minor_arcmin is not None
    reach = np.hypot(along / scene.major_arcmin, across / scene.minor_arcmin) * 2.0
    assert reach.max() > 0.97


def test_the_angle_of_a_scene_is_computed_and_so_suggests_no_rotation() -> None:
    computed = [scene for scene in SCENES if scene.angle_known and scene.id != "Scene LMC"]
    assert len(computed) >= 15
    assert not any(scene.angle_trusted for scene in computed)
