"""What can be done to the chosen frame from the panel: typed values and set turns."""

from app.session import Session
from core.framing.fit import suggested_pa
from core.plan import edits
from core.plan.document import Framing
from core.sky.angles import parse_angle, parse_position, wrap_180, wrap_360

__all__ = [
    "no_angle_reason",
    "shown_angle",
    "turn_along",
    "turn_quarter",
    "type_angle",
    "type_centre",
]

_SUFFIX = "N through E"


def shown_angle(pa_deg: float) -> str:
    """Write a camera angle: "305.0° N through E".

    Examples
    --------
    >>> shown_angle(305.0), shown_angle(359.96)
    ('305.0° N through E', '0.0° N through E')
    """
    return f"{wrap_360(round(pa_deg, 1)):.1f}° {_SUFFIX}"


def type_centre(session: Session, text: str) -> None:
    """Move the chosen frame to a typed position; BadValueError when it is none."""
    ra_deg, dec_deg = parse_position(text)
    _put(session, "move", ra_deg=ra_deg, dec_deg=dec_deg)


def type_angle(session: Session, text: str) -> None:
    """Turn the chosen frame to a typed angle; BadValueError when it is none."""
    bare = text.strip()
    if bare.lower().endswith(_SUFFIX.lower()):
        bare = bare[: -len(_SUFFIX)]
    _put(session, "turn", pa_deg=parse_angle(bare, name="camera angle"))


def turn_quarter(session: Session) -> None:
    """Turn the chosen frame by 90 degrees, north through east."""
    framing = _framing(session)
    if framing is not None:
        _put(session, "turn", pa_deg=wrap_360(framing.pa_deg + 90.0))


def turn_along(session: Session) -> None:
    """Turn the chosen frame along the target, by the shorter way; the centre stays."""
    framing, rig, target = _framing(session), session.rig, session.target
    if framing is None or rig is None or target is None or no_angle_reason(session):
        return
    best = suggested_pa(target, rig.rig.width_deg, rig.rig.height_deg)
    ways = (best, best + 180.0)
    pa_deg = min(ways, key=lambda pa: abs(wrap_180(pa - framing.pa_deg)))
    _put(session, "turn", pa_deg=wrap_360(pa_deg))


def no_angle_reason(session: Session) -> str:
    """Say why a frame cannot be turned along the target; "" when it can."""
    target = session.target
    if target is None or target.pa_deg is None:
        return "The angle of this target is not known."
    if not target.angle_trusted:
        return "The angle of this target is not sure enough to turn a camera by."
    return ""


def _framing(session: Session) -> Framing | None:
    """Give the chosen frame's framing, if there is a chosen frame on a target."""
    rig = session.rig
    return session.framing(rig.id) if rig is not None and session.target is not None else None


def _put(session: Session, words: str, **changes: float) -> None:
    """Keep a changed framing of the chosen frame."""
    framing = _framing(session)
    if framing is not None:
        plan = edits.with_framing(session.plan, framing.but(**changes))
        session.edit(f"{words} {session.letter(framing.rig)}", plan)
