"""``skysill shelf build``: a rig of parts from the shelf, each by its name."""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from app.cli.asked_rigs import keep_shelf, opened_shelf, rig_of_shelf
from core.errors import BadValueError
from core.gear.checks import findings
from core.gear.money.prices import rig_total
from core.gear.shelf.edits import KINDS
from core.gear.shelf.shelf import ROWS, Shelf, ShelfRig, near

__all__ = ["build"]

#: The slots that hold one part, and those of them that a rig cannot do without.
_SINGLE = tuple(slot for slot in ROWS if slot != "others")
_NEEDED = ("telescope", "camera")
_KIND_OF = {row: kind for kind, row in KINDS.items()}

Called = Annotated[str, typer.Argument(metavar="NAME", help="What to call the rig.")]
Parts = Annotated[
    list[str],
    typer.Argument(
        metavar="PART...", help="Parts of the shelf; what the light passes in its order."
    ),
]
Counterweight = Annotated[
    bool | None,
    typer.Option(
        "--counterweight/--no-counterweight", help="Default: only on an equatorial mount."
    ),
]
Replace = Annotated[
    bool, typer.Option("--replace", help="Take the place of a rig of the same name.")
]
ShelfFile = Annotated[
    Path | None, typer.Option("--shelf", metavar="FILE", help="Default: your own shelf.")
]


def build(
    name: Called,
    parts: Parts,
    counterweight: Counterweight = None,
    replace: Replace = False,
    shelf: ShelfFile = None,
) -> None:
    """Build a rig of parts that are on the shelf, and keep it there.

    Then skysill check, swaps and sheet know it by its name.
    """
    held = opened_shelf(shelf)
    there = rig_of_shelf(held, name)
    if there is not None and not replace:
        raise BadValueError("rig", name, "is on the shelf already; give another name or --replace")
    single, others = _slots(held, name, parts)
    named = ShelfRig(name=name, counterweight=counterweight, others=others, **single)
    kept = tuple(rig for rig in held.rigs if there is None or rig.name != there.name)
    held = held.but(rigs=(*kept, named))
    built = held.rig(named.name)
    keep_shelf(held, shelf)
    worst, total = findings(built)[0], rig_total(built, held.currency)
    sys.stdout.write(f"{name} is on the shelf: {total.words}.\n")
    sys.stdout.write(f"The worst finding, {worst.severity}: {worst.message}\n")


def _slots(shelf: Shelf, rig: str, parts: Sequence[str]) -> tuple[dict[str, str], tuple[str, ...]]:
    """Put each part into the slot of its kind; refuse two for one slot, and gaps."""
    filled: dict[str, str] = {}
    others: list[str] = []
    for part in parts:
        slot = _slot_of(shelf, part)
        if slot in filled:
            raise BadValueError("part", part, f'is a second {slot}; "{filled[slot]}" is one')
        if slot in _SINGLE:
            filled[slot] = part
        else:
            others.append(part)
    for slot in _NEEDED:
        if slot not in filled:
            raise BadValueError("rig", rig, f"has no {slot}; name one of the shelf")
    return filled, tuple(others)


def _slot_of(shelf: Shelf, name: str) -> str:
    """Find the slot that a part of this name belongs in."""
    found = [slot for slot, row in ROWS.items() if _holds(shelf, row, name)]
    if not found:
        every = [part.name for row in ROWS.values() for part in getattr(shelf, row)]
        raise BadValueError("part", name, f"is not on the shelf{near(name, every)}")
    if len(found) > 1:
        kinds = " and a ".join(_KIND_OF[ROWS[slot]] for slot in found)
        raise BadValueError("part", name, f"is a {kinds} on the shelf; rename one of them")
    return found[0]


def _holds(shelf: Shelf, row: str, name: str) -> bool:
    """Tell whether a row of the shelf has a part of this name."""
    return any(part.name == name for part in getattr(shelf, row))
