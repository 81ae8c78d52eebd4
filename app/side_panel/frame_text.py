"""The numbers of one frame as plain text, for a notebook or another program."""

from app.session import Session
from app.words.rig_words import field_words, optics_words, scale_words
from app.words.target_words import title_of
from core.sky.angles import format_dec, format_ra

__all__ = ["centre_words", "frame_text"]

_CORNERS = ("upper left", "upper right", "lower right", "lower left")


def centre_words(ra_deg: float, dec_deg: float) -> str:
    """Write a position: "0h42m44.3s +41°16′08″"."""
    return f"{format_ra(ra_deg)} {format_dec(dec_deg)}"


def frame_text(session: Session, rig_id: str) -> str:
    """Write centre, angle, field, scale and corners, a line each.

    Parameters
    ----------
    session : Session
        With a current target.
    rig_id : str
    """
    rig = session.planned_rig(rig_id).rig
    seen, target = session.footprint(rig_id), session.target
    on = f" on {title_of(target)}" if target is not None else ""
    ra_deg, dec_deg = seen.ra_deg, seen.dec_deg
    lines = [
        f"{session.letter(rig_id)} · {rig.name} ({optics_words(rig)}){on}",
        f"Centre (ICRS, J2000): {format_ra(ra_deg, places=2)} {format_dec(dec_deg, places=1)}",
        f"Centre in degrees: {ra_deg:.6f} {dec_deg:+.6f}",
        f"Camera angle: {seen.pa_deg:.2f}° (of the camera's up, north through east)",
        f"Field: {field_words(rig)} ({seen.width_deg:.5f} × {seen.height_deg:.5f} degrees)",
        f"Image scale: {scale_words(rig)} ({rig.scale_arcsec_px:.4f} arcsec per pixel)",
        "Corners in degrees, as the camera sees them:",
    ]
    for words, (corner_ra, corner_dec) in zip(_CORNERS, seen.corners_deg().tolist(), strict=True):
        lines.append(f"  {words}: {corner_ra:.6f} {corner_dec:+.6f}")
    return "\n".join(lines) + "\n"
