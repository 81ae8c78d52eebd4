"""All that swaps can save together, and what stays where the picture is to stay.

Savings are exact decimals in the currency of the plan, positive when it gets cheaper.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from core.errors import InvalidRigError
from core.gear.money.swaps import Swap, saving_of, swapped
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of

__all__ = ["AllSavings", "all_savings", "largest_savings", "picture_slots"]

#: What makes the picture.
_PICTURE = ("telescope", "corrector", "camera")


@dataclass(frozen=True)
class AllSavings:
    """The largest saving of every slot, all made at once.

    `passes` tells whether the rig then passes: each swap may do by itself and all of them
    together not. False, too, when together they make no rig.
    """

    swaps: tuple[Swap, ...]
    passes: bool

    @property
    def saving(self) -> Decimal:
        """What they save together; 0 when there are none."""
        return saving_of(self.swaps) or Decimal(0)


def all_savings(rig: Rig, swaps: Sequence[Swap], passes: Callable[[Rig], bool]) -> AllSavings:
    """Take the largest saving of each slot that passes by itself.

    Parameters
    ----------
    rig : Rig
    swaps : sequence of Swap
        For this rig; those that do not pass, or save nothing that is known, are left out.
    passes : callable
        Tells whether a rig will do.
    """
    chosen = largest_savings(swaps)
    try:
        return AllSavings(chosen, passes(swapped(rig, chosen)))
    except InvalidRigError:
        return AllSavings(chosen, False)


def largest_savings(swaps: Iterable[Swap]) -> tuple[Swap, ...]:
    """Take the largest saving of each slot, of the swaps that pass by themselves."""
    best: dict[Slot, Swap] = {}
    for swap in swaps:
        if swap.passes and swap.saving is not None and swap.saving > 0:
            held = best.get(swap.slot)
            if held is None or swap.saving > (held.saving or 0):
                best[swap.slot] = swap
    return tuple(best.values())


def picture_slots(rig: Rig) -> tuple[Slot, ...]:
    """Give the slots that make the picture: telescope, corrector, camera."""
    return tuple(slot for slot in slots_of(rig) if slot.field in _PICTURE)
