"""The short block of cautions on every rig sheet: where this work can hurt.

Common practice, no advice of a profession: local rules, makers and qualified people come
before it, and it says so.
"""

from collections.abc import Iterable

from core.gear.rig import Rig

__all__ = ["cautions_for"]

_SUN = (
    "The Sun blinds and burns at once: never point a telescope, finder or camera at or near "
    "it without a filter made for that in front of the optics."
)
_LOAD = (
    "Keep to the mount maker's rating. Spread and weigh down the tripod, turn nothing loose "
    "before it is balanced: a loaded mount tips over or swings onto hands."
)
_WEIGHT = (
    "Put the counterweight on before the telescope, and take it off after it; keep toes from "
    "under it."
)
_POWER = (
    "Outdoors take mains power only through a residual-current device and kept dry; never "
    "charge lithium batteries below freezing, or damaged ones at all."
)
_LAST = "Local rules, the makers' instructions and qualified people come before this sheet."


def cautions_for(rigs: Iterable[Rig]) -> tuple[str, ...]:
    """Give the sentences that concern some rigs.

    Parameters
    ----------
    rigs : iterable of Rig
        One with a counterweight adds how to handle that.
    """
    balanced = any(rig.balanced for rig in rigs)
    return (_SUN, _LOAD, *((_WEIGHT,) if balanced else ()), _POWER, _LAST)
