"""From the words of a command to rigs: of the plan, or of a shelf that was named."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from app.cli.asked import asked_plan, rig_named
from app.window.places import user_places
from core.errors import BadValueError, StorageError
from core.gear.rig import Rig
from core.plan.document import Plan

if TYPE_CHECKING:
    from core.gear.shelf.shelf import Shelf

__all__ = [
    "SHELF_HELP",
    "AskedRigs",
    "asked_rigs",
    "keep_shelf",
    "opened_shelf",
    "rig_of_shelf",
]

#: What the option says of itself.
SHELF_HELP = "Take the figures of parts by name from here; rigs of this shelf may be named too."


@dataclass(frozen=True)
class AskedRigs:
    """The rigs in the order asked for, the currency of their prices, the plan they met."""

    rigs: tuple[Rig, ...]
    currency: str
    plan: Plan


def asked_rigs(names: Sequence[str], *, plan: str | None, shelf: Path | None) -> AskedRigs:
    """Find rigs by what they are called.

    Parameters
    ----------
    names : sequence of str
        A rig of the plan by its name or letter. With a shelf, its parts take their figures
        from there by their names. A name that the plan does not have may be a rig of the
        shelf; without a shelf, of the user's own.
    plan, shelf
        The files named; without a plan the one as it was left counts.

    Raises
    ------
    CoreError
        When there is no such rig, a file is not what it should be, or a rig of the plan
        meets a shelf of another currency.
    StorageError
        When a file cannot be read.
    """
    opened = asked_plan(plan)
    if shelf is None:
        return _of_plan_or_own_shelf(opened, names)
    from core.gear.shelf.shelf import Shelf

    there = Shelf.load(shelf)
    planned = [_of_plan(opened, there, name) for name in names]
    rigs = tuple(
        rig or _of_shelf(opened, there, name) for rig, name in zip(planned, names, strict=True)
    )
    return AskedRigs(rigs, opened.currency if any(planned) else there.currency, opened)


def opened_shelf(file: Path | None) -> "Shelf":
    """Read the shelf named, the user's, or the program's where the user has none yet.

    Raises
    ------
    CoreError
        When the file is not a shelf.
    StorageError
        When it cannot be read.
    """
    from core.gear.shelf.shelf import Shelf

    path = user_places().shelf if file is None else file
    return Shelf.load() if file is None and not path.exists() else Shelf.load(path)


def keep_shelf(shelf: "Shelf", file: Path | None) -> None:
    """Write a shelf to the file named, or to the user's place.

    Raises
    ------
    StorageError
        When the disk is full or refuses.
    """
    from core.gear.shelf.files import save_shelf

    path = user_places().shelf if file is None else file
    if file is None:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StorageError(f"cannot make {path.parent}: {error.strerror}") from error
    save_shelf(shelf, path)


def rig_of_shelf(shelf: "Shelf", name: str) -> Rig | None:
    """Find a rig of a shelf by its name, capital or small; None when there is none."""
    wanted = " ".join(name.split()).casefold()
    held = next((rig.name for rig in shelf.rigs if rig.name.casefold() == wanted), None)
    return None if held is None else shelf.rig(held)


def _of_plan_or_own_shelf(plan: Plan, names: Sequence[str]) -> AskedRigs:
    """Find rigs in the plan, and on the user's shelf those that the plan does not have."""
    rigs: list[Rig] = []
    shelf, planned = None, False
    for name in names:
        try:
            rigs.append(plan.rig(rig_named(plan, name)).rig)
            planned = True
        except BadValueError:
            shelf = shelf or opened_shelf(None)
            held = rig_of_shelf(shelf, name)
            if held is None:
                raise
            rigs.append(held)
    if shelf is not None and planned:
        from core.gear.money.swaps import check_currency

        check_currency(shelf, plan.currency)
    currency = plan.currency if shelf is None else shelf.currency
    return AskedRigs(tuple(rigs), currency, plan)


def _of_plan(plan: Plan, shelf: "Shelf", name: str) -> Rig | None:
    """Find a rig of the plan, its parts with the figures of the shelf."""
    from core.gear.money.swaps import check_currency
    from core.gear.shelf.figures import with_figures_of

    try:
        rig = plan.rig(rig_named(plan, name)).rig
    except BadValueError:
        return None
    check_currency(shelf, plan.currency)
    return with_figures_of(shelf, rig)


def _of_shelf(plan: Plan, shelf: "Shelf", name: str) -> Rig:
    """Find a rig of the shelf, or say what there is."""
    rig = rig_of_shelf(shelf, name)
    if rig is not None:
        return rig
    ours = ", ".join(f'"{planned.id}"' for planned in plan.rigs) or "none"
    theirs = ", ".join(f'"{held.name}"' for held in shelf.rigs) or "none"
    rule = f"is neither in the plan, which has {ours}, nor on the shelf, which has {theirs}"
    raise BadValueError("rig", name, rule)
