"""The plan: targets, rigs, where each rig points for each target, and the view.

A plan holds everything it needs: the facts of its targets and the parts of its rigs, so
one file can be handed to somebody else and shows the same there. Records are frozen; the
edits in `core.plan.edits` give new ones.

Conventions: ICRS degrees at J2000, sizes in arcminutes; position angles north through
east, of the camera's up for a framing and of the major axis for a target.
"""

from collections.abc import Iterable
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from core.catalogue.target import Target, TargetKind
from core.errors import BadValueError
from core.gear.currency import Currency
from core.gear.nights import Conditions
from core.gear.rig import Rig
from core.record.validation import Key, Name, Record, Words

__all__ = [
    "COLOURS",
    "DASHES",
    "LABELS",
    "USUAL_LABELS",
    "Framing",
    "Plan",
    "PlannedRig",
    "PlannedTarget",
    "SheetView",
    "flag_of",
    "planned_target",
]

#: How many colours and dashes tell frames apart.
COLOURS, DASHES = 8, 4
#: What can be named and outlined on the sheet.
LABELS: tuple[str, ...] = tuple(kind.value for kind in TargetKind)
#: What is at first: not the kinds that crowd a sheet without being what people frame.
USUAL_LABELS: tuple[str, ...] = tuple(
    kind.value
    for kind in TargetKind
    if kind
    not in (
        TargetKind.GALAXY_CLUSTER,
        TargetKind.DARK_NEBULA,
        TargetKind.SCENE,
        TargetKind.OTHER,
        TargetKind.POSITION,
    )
)

RightAscension = Annotated[float, Field(ge=0.0, lt=360.0)]
Declination = Annotated[float, Field(ge=-90.0, le=90.0)]
CameraAngle = Annotated[float, Field(ge=0.0, lt=360.0)]
AxisAngle = Annotated[float, Field(ge=0.0, lt=180.0)]
#: A quarter of the sky across: larger than every target there is.
Diameter = Annotated[float, Field(gt=0.0, le=5400.0)]


class PlannedTarget(Record):
    """A target with the facts as they were when it came into the plan.

    `angle_trusted` tells whether the angle is sure enough to suggest a rotation.
    """

    id: Key
    name: Name
    kind: Annotated[TargetKind, Field(strict=False)]
    ra_deg: RightAscension
    dec_deg: Declination
    major_arcmin: Diameter | None = None
    minor_arcmin: Diameter | None = None
    pa_deg: AxisAngle | None = None
    angle_trusted: bool = False
    approximate: bool = False
    note: Words = ""

    @model_validator(mode="after")
    def _axes_agree(self) -> Self:
        """Refuse a minor axis without a major one, or longer than it."""
        if self.minor_arcmin is not None and self.minor_arcmin > (self.major_arcmin or 0.0):
            rule = "must not be more than the major diameter"
            raise BadValueError("minor_arcmin", f"{self.minor_arcmin:g} arcmin", rule)
        return self


class PlannedRig(Record):
    """A rig of the plan and how its frame is drawn."""

    id: Key
    rig: Rig
    colour: Annotated[int, Field(ge=0, lt=COLOURS)] = 0
    dash: Annotated[int, Field(ge=0, lt=DASHES)] = 0
    shown: bool = True


class Framing(Record):
    """Where one rig points for one target, and how its camera is turned."""

    target: Key
    rig: Key
    ra_deg: RightAscension
    dec_deg: Declination
    pa_deg: CameraAngle


class SheetView(Record):
    """What the sheet shows and how.

    `camera_up` turns the sheet with the camera of the current rig; `mirrored` shows the
    sky as a mirror does; `picture` is "chart" or the id of a survey.
    """

    ra_deg: RightAscension = 0.0
    dec_deg: Declination = 0.0
    width_deg: Annotated[float, Field(gt=0.0, le=180.0)] = 6.0
    camera_up: bool = False
    mirrored: bool = False
    labels: Annotated[tuple[str, ...], Field(max_length=64)] = USUAL_LABELS
    graticule: bool = False
    picture: Name = "chart"

    @model_validator(mode="after")
    def _labels_known(self) -> Self:
        """Refuse a label that nothing carries."""
        for label in self.labels:
            if label not in LABELS:
                rule = f"must be one of {', '.join(LABELS)}"
                raise BadValueError("labels", label, rule)
        return self


class Plan(Record):
    """Everything that is saved."""

    format: Literal["skysill-plan"] = "skysill-plan"
    version: Literal[1] = 1
    title: Name = "New plan"
    currency: Currency = "EUR"
    targets: Annotated[tuple[PlannedTarget, ...], Field(max_length=5000)] = ()
    rigs: Annotated[tuple[PlannedRig, ...], Field(max_length=500)] = ()
    current_target: Key | None = None
    current_rig: Key | None = None
    framings: Annotated[tuple[Framing, ...], Field(max_length=50_000)] = ()
    view: SheetView = Field(default_factory=SheetView)
    nights: Conditions = Field(default_factory=Conditions)

    @model_validator(mode="after")
    def _ids_agree(self) -> Self:
        """Hold every id against what it names, and refuse one that is there twice."""
        targets = _once("targets", [target.id for target in self.targets])
        rigs = _once("rigs", [rig.id for rig in self.rigs])
        _known("current target", self.current_target, targets, "target")
        _known("current rig", self.current_rig, rigs, "rig")
        for number, framing in enumerate(self.framings, 1):
            _known(f"framing {number}, target", framing.target, targets, "target")
            _known(f"framing {number}, rig", framing.rig, rigs, "rig")
        pairs = (f"{framing.rig} on {framing.target}" for framing in self.framings)
        _once("framings", pairs)
        return self

    def target(self, target_id: str) -> PlannedTarget:
        """Find a target by its id; BadValueError when there is none."""
        for target in self.targets:
            if target.id == target_id:
                return target
        raise BadValueError("target", target_id, "is not in the plan")

    def rig(self, rig_id: str) -> PlannedRig:
        """Find a rig by its id; BadValueError when there is none."""
        return self.rigs[self.place_of(rig_id)]

    def place_of(self, rig_id: str) -> int:
        """Give the 0-based place of a rig; BadValueError when there is none."""
        for place, rig in enumerate(self.rigs):
            if rig.id == rig_id:
                return place
        raise BadValueError("rig", rig_id, "is not in the plan")

    def flag(self, rig_id: str) -> str:
        """Give the letter flag of a rig, by its place."""
        return flag_of(self.place_of(rig_id))


def flag_of(place: int) -> str:
    """Give the letters for a 0-based place.

    Examples
    --------
    >>> flag_of(0), flag_of(25), flag_of(26)
    ('A', 'Z', 'AA')
    """
    letters = ""
    place += 1
    while place:
        place, letter = divmod(place - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def planned_target(target: Target, *, note: str = "") -> PlannedTarget:
    """Take a target's facts into a plan.

    Parameters
    ----------
    target : Target
    note : str
        Words of the planner's own.
    """
    return PlannedTarget(
        id=target.id,
        name=target.name or target.id,
        kind=target.kind,
        ra_deg=target.ra_deg,
        dec_deg=target.dec_deg,
        major_arcmin=target.major_arcmin,
        minor_arcmin=target.minor_arcmin,
        pa_deg=target.pa_deg,
        angle_trusted=bool(target.angle_trusted),
        approximate=bool(target.approximate),
        note=note,
    )


def _once(field: str, ids: Iterable[str]) -> set[str]:
    """Refuse an id that is there twice."""
    seen: set[str] = set()
    for given in ids:
        if given in seen:
            raise BadValueError(f"{field}, id", given, "must be there only once")
        seen.add(given)
    return seen


def _known(field: str, given: str | None, ids: set[str], what: str) -> None:
    """Refuse an id that names nothing in the plan."""
    if given is not None and given not in ids:
        raise BadValueError(field, given, f"names no {what} of the plan")
