"""What stands on a rig sheet, in words and figures, whatever it is written to.

Words are ready for a person; a figure that is needed as a number stands beside them, None
where it is not known. Nothing here is escaped, cut or broken into lines.
"""

from dataclasses import dataclass
from decimal import Decimal

from core.gear.checks.finding import Severity
from core.gear.money.prices import Total
from core.sheets.rig_sheet.sky_drawing import SkyDrawing

__all__ = [
    "CheaperRig",
    "Figure",
    "PartLine",
    "RigPage",
    "RigSheet",
    "Said",
    "SetLine",
    "SetPage",
    "SlotSwaps",
    "StepBlock",
    "SwapLine",
]


@dataclass(frozen=True)
class Figure:
    """A derived figure: what it is called, its value, what it means."""

    label: str
    value: str
    meaning: str = ""


@dataclass(frozen=True)
class PartLine:
    """One piece of a rig."""

    slot: str
    name: str
    mass_kg: float | None
    price: float | None
    mass_words: str
    price_words: str


@dataclass(frozen=True)
class Said:
    """A finding: its severity, which rule, a sentence, where the rule comes from."""

    severity: Severity
    rule: str
    message: str
    source: str = ""


@dataclass(frozen=True)
class SwapLine:
    """One part in place of another; `passes` tells whether the rig then is no worse."""

    new: str
    saving: Decimal | None
    saving_words: str
    changes: tuple[str, ...]
    passes: bool


@dataclass(frozen=True)
class SlotSwaps:
    """What could take the place of one part: what passes first, the largest saving first."""

    slot: str
    old: str
    lines: tuple[SwapLine, ...]

    @property
    def passing(self) -> tuple[SwapLine, ...]:
        """Those with which the rig is no worse."""
        return tuple(line for line in self.lines if line.passes)


@dataclass(frozen=True)
class CheaperRig:
    """The cheapest rig under a condition: what is swapped, what that saves and changes."""

    condition: str
    sentence: str
    swaps: tuple[str, ...] = ()
    changes: tuple[str, ...] = ()
    saving: Decimal | None = None


@dataclass(frozen=True)
class RigPage:
    """Everything about one rig.

    `swaps_note` says why there are no swaps where there could be.
    """

    letter: str
    name: str
    colour: int
    dash: int
    optics: str
    view: str
    verdict: Said
    parts: tuple[PartLine, ...]
    total: Total
    mass_words: str
    figures: tuple[Figure, ...]
    findings: tuple[Said, ...]
    nights: str
    swaps: tuple[SlotSwaps, ...]
    swaps_note: str
    cheaper: tuple[CheaperRig, ...]
    drawing: SkyDrawing | None


@dataclass(frozen=True)
class SetLine:
    """One rig in the table of a set."""

    letter: str
    name: str
    colour: int
    optics: str
    field: str
    scale: str
    mass: str
    price: str
    verdict: Said


@dataclass(frozen=True)
class StepBlock:
    """The step from one rig of the set to the next, in labelled lines."""

    start: str
    goal: str
    lines: tuple[Figure, ...]


@dataclass(frozen=True)
class SetPage:
    """What a set of rigs has in common.

    `total` is None where the set has no one price; `total_note` then says why.
    """

    lines: tuple[SetLine, ...]
    total: Total | None
    total_note: str
    singly: Total
    shared: tuple[str, ...]
    steps: tuple[StepBlock, ...]
    drawing: SkyDrawing | None


@dataclass(frozen=True)
class RigSheet:
    """The whole document; a page for the set only where there are several rigs."""

    title: str
    currency: str
    set_page: SetPage | None
    pages: tuple[RigPage, ...]
    cautions: tuple[str, ...]
    note: str
