"""From whatever a person typed to one target: a name, a designation, or a position."""

from core.catalogue.target import Target, TargetKind
from core.catalogue.targets import TargetTable
from core.errors import BadValueError
from core.sky.angles import format_dec, format_ra, looks_like_position, parse_position

__all__ = ["position_target", "resolve"]

_LONGEST = 200


def resolve(text: str, table: TargetTable) -> Target:
    """Resolve a typed text.

    Two numbers or more and nothing but marks of angles are a position ("20 58 +44 20",
    "10.68 41.27"); everything else is a name. A number alone is neither.

    Parameters
    ----------
    text : str
    table : TargetTable

    Returns
    -------
    Target
        Of kind "position" for coordinates; without a size and without an angle.

    Raises
    ------
    BadValueError
        When the text is empty or far too long, or is a position that cannot be.
    UnknownTargetError
        When no object is called so; with near misses.
    """
    clean = " ".join(text.split())
    if not clean:
        raise BadValueError("target", text, 'is empty; type a name ("M 31") or "RA Dec"')
    if len(clean) > _LONGEST:
        raise BadValueError("target", clean, f"is longer than {_LONGEST} letters")
    if looks_like_position(clean):
        return position_target(*parse_position(clean))
    return table.find(clean)


def position_target(ra_deg: float, dec_deg: float) -> Target:
    """Make a target of a bare position.

    Parameters
    ----------
    ra_deg, dec_deg : float
        ICRS degrees.
    """
    name = f"{format_ra(ra_deg, places=1)} {format_dec(dec_deg)}"
    return Target(
        id=f"position {ra_deg:.6f} {dec_deg:+.6f}",
        name=name,
        kind=TargetKind.POSITION,
        ra_deg=ra_deg,
        dec_deg=dec_deg,
        status="published",
        source="as typed",
        aliases=(name,),
    )
