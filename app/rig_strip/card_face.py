"""What a rig's card says and shows, taken from the session, ready to be painted.

The small picture lies north up and as wide on every card of the strip, so that frames
compare; it takes the sheet's own transform, and so its handedness and its mirror.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from app.session import Session
from app.words.finding_words import worst_verdict
from app.words.fit_words import Verdict, fit_of, verdict_of
from app.words.rig_words import field_words, load_words, optics_words, scale_words, spoken
from core.plan.document import PlannedRig, PlannedTarget, SheetView
from core.sky.footprint import Footprint

__all__ = ["CardFace", "common_width_deg", "face_of", "spoken_face"]

#: The target may make the pictures this many times wider than the widest frame does.
_TARGET_STRETCH = 2.0
#: A frame this many times wider than the middle one no longer sets the scale.
_MIDDLE_STRETCH = 2.4
_MARGIN = 1.06
_WIDEST_DEG = 120.0
_NARROWEST_DEG = 0.02


@dataclass(frozen=True)
class CardFace:
    """Everything that is painted on one card.

    Parameters
    ----------
    letter, name : str
    lines : tuple of str
        Optics and scale; field, mass and price.
    verdict : Verdict or None
        How the target sits in the frame; None without a target.
    worst : Verdict or None
        The worst finding about the parts.
    colour, dash : int
        Places in the theme's colours and in the dashes.
    shown, chosen : bool
    footprint : Footprint
        The frame as it is pointed now.
    target : PlannedTarget or None
    view : SheetView
        What the small picture shows.
    """

    letter: str
    name: str
    lines: tuple[str, ...]
    verdict: Verdict | None
    worst: Verdict | None
    colour: int
    dash: int
    shown: bool
    chosen: bool
    footprint: Footprint
    target: PlannedTarget | None
    view: SheetView

    @property
    def wider(self) -> bool:
        """Tell whether the frame is wider than the small picture."""
        return max(self.footprint.width_deg, self.footprint.height_deg) > self.view.width_deg

    @property
    def verdicts(self) -> tuple[Verdict | None, Verdict | None]:
        """The last two lines: how the target sits, and the worst about the parts."""
        return self.verdict, self.worst


def common_width_deg(rigs: Sequence[PlannedRig], target: PlannedTarget | None) -> float:
    """Give the width of every card's picture.

    The widest shown frame fits in at any angle, unless it is far wider than the middle
    one of the shown frames: one lens among telescopes would make all others specks.

    Parameters
    ----------
    rigs : sequence of PlannedRig
        All rigs of the strip; a hidden one does not make the others' pictures small.
    target : PlannedTarget or None
        Widens the pictures when it is larger, but at most to twice the widest frame.
    """
    counted = [planned for planned in rigs if planned.shown] or rigs
    fields = sorted(planned.rig.diagonal_deg for planned in counted) or [1.0]
    widest = min(fields[-1], _MIDDLE_STRETCH * fields[len(fields) // 2])
    size = (target.major_arcmin or 0.0) / 60.0 if target is not None else 0.0
    width = max(widest, min(size, _TARGET_STRETCH * widest)) * _MARGIN
    return min(_WIDEST_DEG, max(_NARROWEST_DEG, width))


def face_of(session: Session, rig_id: str, width_deg: float) -> CardFace:
    """Put a rig's card together.

    Parameters
    ----------
    session : Session
    rig_id : str
    width_deg : float
        Width of the small picture.
    """
    planned, target = session.planned_rig(rig_id), session.target
    rig = planned.rig
    if target is None:
        footprint = Footprint(0.0, 0.0, rig.width_deg, rig.height_deg)
    else:
        footprint = session.footprint(rig_id)
    middle = target if target is not None else footprint
    return CardFace(
        letter=session.letter(rig_id),
        name=rig.name,
        lines=(
            f"{optics_words(rig)} · {scale_words(rig)}",
            f"{field_words(rig)} · {load_words(rig, session.plan.currency)}",
        ),
        verdict=verdict_of(fit_of(session, rig_id)),
        worst=worst_verdict(rig, session.plan.nights),
        colour=planned.colour,
        dash=planned.dash,
        shown=planned.shown,
        chosen=rig_id == session.plan.current_rig,
        footprint=footprint,
        target=target,
        view=SheetView(
            ra_deg=middle.ra_deg,
            dec_deg=middle.dec_deg,
            width_deg=width_deg,
            mirrored=session.plan.view.mirrored,
        ),
    )


def spoken_face(face: CardFace) -> str:
    """Say the whole card in one phrase, for screen readers."""
    words = [f"{face.letter}, {face.name}", *map(spoken, face.lines)]
    words.append(f"camera angle {face.footprint.pa_deg:.1f} degrees")
    words += [spoken(said.full) for said in face.verdicts if said is not None]
    words += ["chosen"] * face.chosen + ["hidden"] * (not face.shown)
    return "; ".join(words)
