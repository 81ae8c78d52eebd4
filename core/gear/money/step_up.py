"""The step from one rig to the next: what is kept, moved, bought and sold, at what cost.

Prices are in the currency of the plan. What a part brings when it is sold is a fraction
of its price, and that fraction is the owner's to say: until it is given, the cost is not
known unless nothing is sold. Parts are the same in both rigs by class and name.
"""

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal

from core.errors import BadValueError
from core.gear.money.duties import Duty, guiding_duty
from core.gear.money.prices import Total, exact, money_words, total_of
from core.gear.money.swaps import Change, changes_between
from core.gear.parts import Camera, Part, Telescope, identity
from core.gear.rig import Rig

__all__ = ["Step", "step_up"]

Parts = tuple[Part, ...]


@dataclass(frozen=True)
class Step:
    """What it takes to come from `start` to `goal`.

    Every part of the goal is kept, bought or spared; every part of the start is kept,
    moved to another duty or sold. `duties` tells what was thought of, also what does not
    suit, and why.
    """

    start: Rig
    goal: Rig
    currency: str
    kept: Parts
    moved: Parts
    bought: Parts
    spared: Parts
    sold: Parts
    duties: tuple[Duty, ...]
    resale_fraction: float | None

    @property
    def buying(self) -> Total:
        """Price of what is bought."""
        return total_of(self.bought, self.currency)

    @property
    def selling(self) -> Total:
        """Price, as in the plan, of what is sold."""
        return total_of(self.sold, self.currency)

    @property
    def proceeds(self) -> Decimal | None:
        """What the sale brings; None when the fraction or a price is not known."""
        if not self.sold:
            return Decimal(0)
        if self.resale_fraction is None or self.selling.amount is None:
            return None
        return self.selling.amount * exact(self.resale_fraction)

    @property
    def cost(self) -> Decimal | None:
        """What is paid after the sale, negative when it brings more; None: not known."""
        paid, back = self.buying.amount, self.proceeds
        return None if paid is None or back is None else paid - back

    @property
    def changes(self) -> tuple[Change, ...]:
        """What becomes of field, scale, focal length and ratio, mass and load."""
        return changes_between(self.start, self.goal)

    @property
    def cost_words(self) -> str:
        """The cost for a person, with what is missing."""
        said = f"buying: {self.buying.words}"
        if not self.sold:
            return f"{said}; nothing is sold"
        if self.resale_fraction is None:
            return f"{said}; selling: not known, say what fraction of its price a sale brings"
        if self.proceeds is None:
            return f"{said}; selling: a fraction of {self.selling.words}; the cost is not known"
        said += f"; selling: {money_words(self.proceeds, self.currency)}"
        if self.cost is None:
            return f"{said}; the cost is not known"
        word = "costs" if self.cost >= 0 else "brings"
        return f"{said}; the step {word} {money_words(abs(self.cost), self.currency)}"


def step_up(start: Rig, goal: Rig, *, currency: str, resale_fraction: float | None = None) -> Step:
    """Plan the step from one rig to the next.

    Parameters
    ----------
    start, goal : Rig
    currency : str
        That of both rigs' prices.
    resale_fraction : float, optional
        What a part brings when it is sold, of its price, 0 to 1. Not known when left out.

    Returns
    -------
    Step
        A telescope that is left over moves to guide the goal when it suits.

    Raises
    ------
    BadValueError
        When the fraction is outside 0 to 1, or the currency is none.
    """
    if resale_fraction is not None and not 0.0 <= resale_fraction <= 1.0:
        raise BadValueError("resale fraction", f"{resale_fraction:g}", "must lie between 0 and 1")
    kept, bought = _parted(goal.parts, start.parts)
    _, left = _parted(start.parts, goal.parts)
    duties = _duties(left, goal, bought)
    moving = [part for duty in duties if duty.suits for part in duty.parts]
    sparing = [part for duty in duties if duty.suits for part in duty.spares]
    moved, sold = _parted(left, tuple(moving))
    spared, bought = _parted(bought, tuple(sparing))
    step = Step(
        *(start, goal, currency, kept, moved, bought, spared, sold, duties, resale_fraction)
    )
    _ = step.buying  # refuses what is no currency
    return step


def _parted(parts: Parts, others: Parts) -> tuple[Parts, Parts]:
    """Part what is among others too, piece by piece, from what is not."""
    there = Counter(identity(part) for part in others)
    common: list[Part] = []
    rest: list[Part] = []
    for part in parts:
        if there[identity(part)] > 0:
            there[identity(part)] -= 1
            common.append(part)
        else:
            rest.append(part)
    return tuple(common), tuple(rest)


def _duties(left: Parts, goal: Rig, bought: Parts) -> tuple[Duty, ...]:
    """Look for another duty for what is left over."""
    cameras = [part for part in left if isinstance(part, Camera)]
    scopes = [part for part in left if isinstance(part, Telescope)]
    camera = cameras[0] if cameras else None
    return tuple(guiding_duty(scope, camera, goal, bought=bought) for scope in scopes)
