"""From the words of a command to frames on the sky: plan, target, rigs, framings."""

import re
from dataclasses import dataclass

from app.window.places import user_places
from core.catalogue.resolve import resolve
from core.catalogue.targets import TargetTable
from core.errors import BadValueError, CoreError, PlanFileError, UnknownTargetError
from core.framing.fit import Fit, fill_and_cover
from core.gear.rig import Rig, RigNumbers, rig_from_numbers
from core.plan.document import Plan, PlannedRig, PlannedTarget
from core.plan.edits import framing_of, with_framing, with_rig, with_target
from core.plan.store import demo_plan, load_plan
from core.sky.angles import parse_angle, parse_position
from core.sky.footprint import Footprint

__all__ = [
    "Asked",
    "Frame",
    "Frames",
    "RigInNumbers",
    "asked_frames",
    "asked_plan",
    "number_from",
    "pixels_from",
    "rig_named",
    "with_asked_target",
]


@dataclass(frozen=True)
class RigInNumbers:
    """The options that say a rig in numbers, as given; None for those left out."""

    focal_length_mm: str | None = None
    aperture_mm: str | None = None
    factor: str | None = None
    pixel_um: str | None = None
    pixels: str | None = None


@dataclass(frozen=True)
class Asked:
    """The words of the command."""

    target: str
    rigs: tuple[str, ...] = ()
    numbers: RigInNumbers = RigInNumbers()
    pa: str | None = None
    centre: str | None = None
    plan: str | None = None


@dataclass(frozen=True)
class Frame:
    """One rig's frame on the sky and how the target sits in it."""

    planned: PlannedRig
    footprint: Footprint
    fit: Fit


@dataclass(frozen=True)
class Frames:
    """The answer: the plan with what was asked in it, its target, and the frames."""

    plan: Plan
    target: PlannedTarget
    frames: tuple[Frame, ...]


def asked_frames(asked: Asked) -> Frames:
    """Work out the frames that were asked for.

    Raises
    ------
    CoreError
        When a word cannot be understood; one sentence.
    WorldError
        When a catalogue or the disk failed.
    """
    pa_deg = None if asked.pa is None else parse_angle(asked.pa, name="camera angle")
    centre = None if asked.centre is None else _centre(asked.centre)
    numbers = _rig_in_numbers(asked.numbers)
    plan = with_asked_target(asked_plan(asked.plan), asked.target)
    rig_ids = [rig_named(plan, name) for name in asked.rigs]
    if numbers is not None:
        plan = with_rig(plan, numbers)
        rig_ids.append(plan.rigs[-1].id)
    elif not rig_ids:
        rig_ids = [planned.id for planned in plan.rigs]
    if not rig_ids:
        raise BadValueError("plan", plan.title, "has no rigs; say one in numbers")
    for rig_id in rig_ids:
        plan = _framed(plan, rig_id, pa_deg, centre)
    target = plan.target(str(plan.current_target))
    frames = tuple(_frame(plan, target, rig_id) for rig_id in dict.fromkeys(rig_ids))
    return Frames(plan, target, frames)


def asked_plan(file: str | None) -> Plan:
    """Open the plan named, the one as it was left, or the demo.

    Parameters
    ----------
    file : str or None
        As it was typed; None when no file was.

    Raises
    ------
    PlanFileError
        When it is no plan.
    StorageError
        When it cannot be read.
    """
    if file is not None:
        return load_plan(file)
    left = user_places().open_plan
    try:
        return load_plan(left) if left.exists() else demo_plan()
    except PlanFileError as error:
        raise PlanFileError(f"the plan as it was left: {error}; give another by --plan") from None


def with_asked_target(plan: Plan, text: str) -> Plan:
    """Make what was typed the plan's current target; the plan's own names count too."""
    try:
        return with_target(plan, resolve(text, TargetTable.load()))
    except UnknownTargetError:
        wanted = " ".join(text.split()).casefold()
        for known in plan.targets:
            if wanted in (known.id.casefold(), known.name.casefold()):
                return with_target(plan, known)
        raise


def _centre(text: str) -> tuple[float, float]:
    """Read a centre, in degrees."""
    try:
        return parse_position(text)
    except BadValueError as error:
        raise BadValueError(f"centre, {error.field}", error.value, error.rule) from None


def _rig_in_numbers(given: RigInNumbers) -> Rig | None:
    """Build the rig said in numbers; None when none of them was given."""
    options = {
        "--focal-length": given.focal_length_mm,
        "--aperture": given.aperture_mm,
        "--pixel": given.pixel_um,
        "--pixels": given.pixels,
    }
    if given.factor is None and all(value is None for value in options.values()):
        return None
    missing = [option for option, value in options.items() if value is None]
    if missing:
        raise CoreError(f"a rig in numbers needs {' and '.join(missing)} too")
    columns, rows = pixels_from(str(given.pixels))
    numbers = RigNumbers(
        focal_length_mm=number_from("focal length", given.focal_length_mm, "mm"),
        aperture_mm=number_from("aperture", given.aperture_mm, "mm"),
        factor=number_from("factor", given.factor or "1", ""),
        pixel_um=number_from("pixel", given.pixel_um, "µm"),
        columns=columns,
        rows=rows,
    )
    optics = f"{numbers['aperture_mm']:g}/{numbers['focal_length_mm']:g}"
    return rig_from_numbers(f"{optics} with {columns} × {rows} px", **numbers)


def number_from(field: str, text: str | None, unit: str) -> float:
    """Read a number; a decimal comma is fine.

    Parameters
    ----------
    field : str
        What is read, for the refusal.
    text : str or None
    unit : str
        Empty for a pure number.

    Raises
    ------
    BadValueError
        When it is no number.
    """
    try:
        return float(str(text).replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        rule = f"must be a number of {unit}" if unit else "must be a number"
        raise BadValueError(field, text, rule) from None


def pixels_from(text: str) -> tuple[int, int]:
    """Read columns and rows from "6248x4176".

    Raises
    ------
    BadValueError
        When it is something else.
    """
    match = re.fullmatch(r"\s*([+-]?\d{1,9})\s*[x×*]\s*([+-]?\d{1,9})\s*", text, re.IGNORECASE)
    if match is None:
        raise BadValueError("pixels", text, 'must be columns and rows, like "6248x4176"')
    return int(match.group(1)), int(match.group(2))


def rig_named(plan: Plan, name: str) -> str:
    """Find the id of the rig with that id, name or letter flag.

    Raises
    ------
    BadValueError
        When the plan has none; names those it has.
    """
    wanted = " ".join(name.split()).casefold()
    for what in (lambda rig: rig.id, lambda rig: rig.rig.name, lambda rig: plan.flag(rig.id)):
        for planned in plan.rigs:
            if what(planned).casefold() == wanted:
                return str(planned.id)
    known = ", ".join(f'"{planned.id}"' for planned in plan.rigs) or "none"
    raise BadValueError("rig", name, f"is not in the plan, which has {known}")


def _framed(
    plan: Plan, rig_id: str, pa_deg: float | None, centre: tuple[float, float] | None
) -> Plan:
    """Put the asked angle and centre into the plan's framing of a rig."""
    if pa_deg is None and centre is None:
        return plan
    framing = framing_of(plan, rig_id)
    if pa_deg is not None:
        framing = framing.but(pa_deg=pa_deg)
    if centre is not None:
        framing = framing.but(ra_deg=centre[0], dec_deg=centre[1])
    return with_framing(plan, framing)


def _frame(plan: Plan, target: PlannedTarget, rig_id: str) -> Frame:
    """Build the frame of a rig as the plan has it."""
    planned, framing = plan.rig(rig_id), framing_of(plan, rig_id)
    footprint = Footprint(
        framing.ra_deg,
        framing.dec_deg,
        planned.rig.width_deg,
        planned.rig.height_deg,
        framing.pa_deg,
    )
    return Frame(planned, footprint, fill_and_cover(target, footprint))
