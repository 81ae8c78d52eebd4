"""A target's facts in the words of the box, its list and the panel, doubts included."""

from app.session import Session
from core.catalogue.target import Target, TargetKind
from core.plan.document import PlannedTarget

__all__ = [
    "angle_words",
    "box_words",
    "catalogue_entry",
    "doubt_words",
    "other_name",
    "row_words",
    "size_words",
    "title_of",
]

#: Kinds whose id is no designation to show.
_NAMED = (TargetKind.SCENE, TargetKind.POSITION)


def catalogue_entry(session: Session, target: PlannedTarget) -> Target | None:
    """Find the catalogue's own record of a planned target; None where there is none."""
    if target.kind is TargetKind.POSITION:
        return None
    return session.targets.with_id(target.id)


def title_of(target: Target | PlannedTarget) -> str:
    """Give the name that stands first: the designation, or what a scene is called."""
    return (target.name or target.id) if target.kind in _NAMED else target.id


def other_name(target: Target | PlannedTarget) -> str:
    """Give the name that stands second; "" where there is none."""
    return target.name if target.name not in ("", title_of(target)) else ""


def size_words(target: Target | PlannedTarget) -> str:
    """Give the diameters, or that they are not known."""
    return _facts(target).size_words


def angle_words(target: Target | PlannedTarget) -> str:
    """Give the angle of the major axis; "round" where there is none to know."""
    if target.pa_deg is None and target.major_arcmin is not None:
        if target.minor_arcmin == target.major_arcmin:
            return "round"
        return "angle not known"
    return _facts(target).angle_words if target.major_arcmin is not None else ""


def row_words(target: Target) -> str:
    """Give the second line of a suggestion."""
    size = "" if target.kind is TargetKind.STAR else size_words(target)
    doubt = "approximate" if target.approximate else ""
    return " · ".join(filter(None, (target.kind.value, size, doubt)))


def box_words(target: PlannedTarget) -> str:
    """Give what stands quietly behind the name in the target box."""
    size = "" if target.kind in (TargetKind.STAR, TargetKind.POSITION) else size_words(target)
    return " · ".join(filter(None, (other_name(target), size)))


def doubt_words(target: PlannedTarget, entry: Target | None) -> list[str]:
    """Say plainly what is not known or not sure, one sentence each.

    Parameters
    ----------
    target : PlannedTarget
    entry : Target or None
        The catalogue's record, for the status of the figures.
    """
    said = []
    pointlike = target.kind in (TargetKind.STAR, TargetKind.POSITION)
    if target.major_arcmin is None and not pointlike:
        said.append("Its size is not known, so no frame is said to fit it.")
    if target.major_arcmin is not None and angle_words(target) == "angle not known":
        said.append("Its angle is not known: a circle of the larger diameter stands for it.")
    elif target.pa_deg is not None and not target.angle_trusted:
        said.append("Its angle is not sure enough to turn a camera by.")
    if target.approximate:
        status = f": {entry.status}" if entry is not None else ""
        said.append(f"Place and size are approximate{status}.")
    return said


def _facts(target: Target | PlannedTarget) -> Target:
    """Give a planned target the words of a catalogue's one."""
    if isinstance(target, Target):
        return target
    return Target(
        id=target.id,
        name=target.name,
        kind=target.kind,
        ra_deg=target.ra_deg,
        dec_deg=target.dec_deg,
        major_arcmin=target.major_arcmin,
        minor_arcmin=target.minor_arcmin,
        pa_deg=target.pa_deg,
        status="partly" if target.approximate else "catalogue",
        angle_status="catalogue" if target.angle_trusted else "",
    )
