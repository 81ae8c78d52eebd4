"""Checks every combination of optics, cameras and mounts at once.

The answer is that of `core.gear.checks.findings` for each rig, without its sentences: one
severity a check and rig. A rig's sentences are made when somebody looks at it (`rig_at`).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, reduce

import numpy as np
from numpy.typing import NDArray

from core.errors import BadValueError
from core.gear.checks import CHECKS, Conditions
from core.gear.checks.finding import Check
from core.gear.grid.axes import Axes, Optics
from core.gear.grid.rules import rule_for
from core.gear.grid.severity import NOTHING, Codes, Floats, code_of
from core.gear.parts import Camera, Mount, OtherPart
from core.gear.rig import Rig

__all__ = ["NOTHING", "Grid", "Optics", "check_grid", "code_of"]


@dataclass(frozen=True)
class Grid:
    """The answers for all combinations; axes run (optics, cameras, mounts).

    `codes` holds for each check the worst severity it finds, as its place in `SEVERITIES`
    (0 is the worst, `NOTHING` where it has nothing to look at), in any shape that
    broadcasts to that of the grid.
    """

    axes: Axes
    codes: dict[Check, Codes]

    @property
    def shape(self) -> tuple[int, int, int]:
        """Number of optics, cameras and mounts."""
        return len(self.axes.optics), len(self.axes.cameras), len(self.axes.mounts)

    @cached_property
    def worst(self) -> Codes:
        """The worst code of each rig; shape (I, J, K)."""
        least = reduce(np.minimum, self.codes.values())
        return np.broadcast_to(least, self.shape)

    @property
    def passes(self) -> NDArray[np.bool_]:
        """Whether no check forbids a rig; shape (I, J, K)."""
        return self.worst > code_of("stop")

    @cached_property
    def price(self) -> Floats:
        """Price of all parts, NaN where one is not known; shape (I, J, K)."""
        return self.axes.price

    def rig_at(self, i: int, j: int, k: int) -> Rig:
        """Build the rig of one combination.

        Parameters
        ----------
        i, j, k : int
            Its places along the axes, counted from 0.
        """
        return self.axes.rig(i, j, k)


def check_grid(
    optics: Sequence[Optics],
    cameras: Sequence[Camera],
    mounts: Sequence[Mount],
    *,
    others: tuple[OtherPart, ...] = (),
    nights: Conditions | None = None,
) -> Grid:
    """Check every combination by every rule.

    Parameters
    ----------
    optics, cameras, mounts : sequences
        At least one of each.
    others : tuple of OtherPart
        What every rig has besides, in the order of the light as in a `Rig`.
    nights : Conditions, optional
        What the rigs are for; left out, usual nights.

    Returns
    -------
    Grid

    Raises
    ------
    BadValueError
        When there is no part of one kind.
    InvalidRigError
        When optics cannot be (`Rig` tells why).
    """
    for name, parts in {"optics": optics, "cameras": cameras, "mounts": mounts}.items():
        if not parts:
            raise BadValueError(name, "none", "must be at least one")
    axes = Axes(optics, cameras, mounts, others, nights or Conditions())
    return Grid(axes, {check: rule_for(check)(axes) for check in CHECKS})
