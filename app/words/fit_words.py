"""How the current target sits in a rig's frame, in the few words of a card or a row.

Each verdict has a level, which gives the colour, and a mark of its own shape, so that
nothing is said by colour alone.
"""

from dataclasses import dataclass

from app.session import Session
from core.framing.fit import Fit, fill_and_cover

__all__ = ["Verdict", "fill_words", "fit_of", "inside_words", "room_words", "verdict_of"]

_MUCH = 10.0


@dataclass(frozen=True)
class Verdict:
    """A finding in words.

    Parameters
    ----------
    level : str
        "good", "caution", "bad" or "" for what is not known.
    short : str
        For a card.
    full : str
        A phrase that leaves nothing out.
    """

    level: str
    short: str
    full: str


def fit_of(session: Session, rig_id: str) -> Fit | None:
    """Measure the current target in a rig's frame as it is now; None without a target."""
    target = session.target
    return fill_and_cover(target, session.footprint(rig_id)) if target is not None else None


def verdict_of(fit: Fit | None) -> Verdict | None:
    """Put a fit in words; None where there is nothing to judge."""
    if fit is None:
        return None
    if not fit.size_known or fit.covered is None:
        return Verdict("", fit.verdict, fit.verdict)
    if fit.fits:
        return Verdict("good", fit.verdict.replace(", taken as round", " if round"), fit.verdict)
    if fit.covered == 0.0:
        return Verdict("bad", fit.verdict, fit.verdict)
    doubt = " if round" if fit.assumed_round else ""
    return Verdict("caution", f"cut: {inside_words(fit)} in{doubt}", fit.verdict)


def fill_words(fit: Fit | None) -> str:
    """Give the part of the frame's tighter side that the target takes."""
    if fit is None or fit.fill is None:
        return "–"
    if fit.fill >= _MUCH:
        return f"{fit.fill:.0f}×"
    percent = fit.fill * 100.0
    return f"{percent:.1f} %" if percent < 0.95 else f"{percent:.0f} %"


def inside_words(fit: Fit | None) -> str:
    """Give the part of the target that lies in the frame; "all" only when all of it does."""
    if fit is None or fit.covered is None:
        return "–"
    if fit.fits:
        return "all"
    percent = int(fit.covered * 100.0)
    return f"{percent} %" if percent >= 1 or fit.covered == 0.0 else "< 1 %"


def room_words(fit: Fit | None) -> str:
    """Give the room between the target and each side of the frame, two lines."""
    if fit is None or fit.room_arcmin is None:
        return "not known"
    top, right, bottom, left = (_arc(room) for room in fit.room_arcmin)
    return f"top {top} · right {right}\nbottom {bottom} · left {left}"


def _arc(arcmin: float) -> str:
    """Write a signed arc in minutes, or in degrees when it is large."""
    size = abs(arcmin)
    sign = "−" if arcmin < 0.0 and round(size, 1) > 0.0 else ""
    if size >= 90.0:
        return f"{sign}{size / 60.0:.1f}°"
    return f"{sign}{size:.0f}′" if size >= 9.5 else f"{sign}{size:.1f}′"
