"""Takes the figures of a rig's parts from a shelf, by the names of the parts."""

from core.gear.rig import Rig
from core.gear.shelf.shelf import ROWS, Shelf
from core.gear.slots import slots_of, with_parts

__all__ = ["with_figures_of"]


def with_figures_of(shelf: Shelf, rig: Rig) -> Rig:
    """Give a rig whose parts are those of the shelf, where it has one by that name.

    Parameters
    ----------
    shelf : Shelf
    rig : Rig

    Returns
    -------
    Rig
        Parts that the shelf does not hold stay as they are.

    Raises
    ------
    InvalidRigError
        When the parts as the shelf has them make no rig.
    """
    found = {}
    for slot, part in slots_of(rig).items():
        row = getattr(shelf, ROWS[slot.field])
        found[slot] = next((one for one in row if one.name == part.name), part)
    return with_parts(rig, found)
