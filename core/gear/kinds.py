"""The kinds of other parts: which class holds each, a blank one, one turned into another.

A blank part has a name and nothing else known; a telescope and a camera, of which no rig
can be without figures, begin with plain ones that are to be overtyped.
"""

from typing import Any, get_args

from core.errors import BadValueError
from core.gear.accessories import (
    FilterPart,
    GuideCamera,
    GuideScope,
    OffAxisGuider,
    Spacer,
    Tripod,
)
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Part, Telescope

__all__ = ["KINDS", "OTHER_KINDS", "blank_part", "class_of_kind", "kinds_of", "of_kind"]

_CLASSES = (FilterPart, Spacer, OffAxisGuider, GuideScope, GuideCamera, Tripod)
#: Beginnings of the parts that cannot be without figures.
_BEGINNINGS: dict[str, Part] = {
    "telescope": Telescope(name="new telescope", aperture_mm=80.0, focal_length_mm=400.0),
    "camera": Camera(name="new camera", columns=6000, rows=4000, pixel_um=4.0),
    "corrector": Corrector(name="new corrector"),
    "mount": Mount(name="new mount"),
}


def kinds_of(part_class: type[Part]) -> tuple[str, ...]:
    """Give the kinds that a class of parts knows; none for a camera.

    Examples
    --------
    >>> from core.gear.accessories import Spacer
    >>> kinds_of(Spacer)
    ('spacer', 'adapter')
    """
    field = part_class.model_fields.get("kind")
    return tuple(get_args(field.annotation)) if field is not None else ()


#: Every kind of other part.
OTHER_KINDS = kinds_of(OtherPart)
#: Everything that can be put into a rig, in the order of the light, then what stands beside.
KINDS = ("telescope", "corrector", *OTHER_KINDS[:6], "camera", "mount", *OTHER_KINDS[6:])


def class_of_kind(kind: str) -> type[OtherPart]:
    """Give the class that holds a kind of other part.

    Raises
    ------
    BadValueError
        When there is no such kind.
    """
    if kind not in OTHER_KINDS:
        raise BadValueError("kind", kind, f"must be one of {', '.join(OTHER_KINDS)}")
    found = (one for one in _CLASSES if kind in kinds_of(one))
    return next(found, OtherPart)


def blank_part(kind: str) -> Part:
    """Give a part of which nothing is known yet.

    Parameters
    ----------
    kind : str
        One of `KINDS`.

    Raises
    ------
    BadValueError
        When there is no such kind.
    """
    if kind in _BEGINNINGS:
        return _BEGINNINGS[kind]
    fields: dict[str, Any] = {"name": f"new {kind}", "kind": kind}
    return class_of_kind(kind)(**fields)


def of_kind(part: OtherPart, kind: str) -> OtherPart:
    """Turn a part into one of another kind.

    Parameters
    ----------
    part : OtherPart
    kind : str
        One of `OTHER_KINDS`.

    Returns
    -------
    OtherPart
        With every figure that both kinds have; what only the old one has is gone, what
        only the new one has is not known.

    Raises
    ------
    BadValueError
        When there is no such kind.
    """
    goal = class_of_kind(kind)
    kept = {field: value for field, value in dict(part).items() if field in goal.model_fields}
    if goal is not type(part):
        kept.pop("on_mount")
    return goal(**{**kept, "kind": kind})
