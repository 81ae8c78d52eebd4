"""One offer whole: what it swaps, saves and changes, with the buttons that take it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.rig_money.marked_lines import MarkedLines
from app.rig_money.page import button, heading, label, set_level
from app.rig_money.swap_table import SwapRow
from app.shared.flow import Flow
from app.shared.theme import Theme
from app.shared.typed_field import capital
from app.words.offer_words import effect_lines, passing_of, saving_level, saving_words
from core.gear.money.offers import Offer

__all__ = ["OfferView"]

_LOOKING = "Looking for it ..."
_CHOOSE = "Open the slot (right arrow or Enter) to see what may take this part's place."


class OfferView(QWidget):
    """The offer of a row in words, or why there is none."""

    taken = Signal(object)
    copied = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.offer: Offer | None = None
        self._theme: Theme | None = None
        self._scale = 1.0
        self.title = heading("")
        self.swaps, self.saving, self.note = label(), label(), label(quiet=True)
        self.verdict = label()
        self.take = button("Take it", "Swap it into this rig (Enter in the table)", self._take)
        self.copy = button("Take it as a copy", "A second rig with it; this one stays", self._copy)
        self.effects = MarkedLines()
        buttons = QWidget()
        flow = Flow(buttons)
        for pressed in (self.take, self.copy):
            flow.addWidget(pressed)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        for shown in (self.title, self.note, self.swaps, self.saving, self.verdict):
            column.addWidget(shown)
        for below in (buttons, self.effects):
            column.addWidget(below)
        self._column = column
        self._show_there(False)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._theme, self._scale = theme, scale
        self._column.setSpacing(round(6.0 * scale))

    def show_row(self, row: SwapRow, currency: str) -> None:
        """Show the offer of a row of the table, or its note."""
        offer = self.offer = row.offer
        self.title.setText(row.title)
        self._show_there(offer is not None)
        self.note.setText(row.note or (_CHOOSE if row.slot is not None else _LOOKING))
        self.effects.setVisible(offer is not None)
        if offer is None or self._theme is None:
            return
        told = [f"{swap.new.name} instead of {swap.old.name}" for swap in offer.swaps]
        self.swaps.setText("\n".join(told if len(told) == 1 else [f"• {one}" for one in told]))
        told_saving = saving_words(offer, currency)
        if offer.saving is None:
            told_saving = "What it saves is not known: a price is missing"
        self.saving.setText(f"{capital(told_saving)}.")
        set_level(self.saving, saving_level(offer))
        passing = passing_of(offer)
        self.verdict.setText(passing.full)
        set_level(self.verdict, passing.level)
        self.effects.show_lines(effect_lines(offer), self._theme, self._scale)

    def _show_there(self, there: bool) -> None:
        """Show the parts of an offer, or the note in its place."""
        for shown in (self.swaps, self.saving, self.verdict, self.take, self.copy):
            shown.setVisible(there)
        self.note.setVisible(not there)

    def _take(self) -> None:
        self.taken.emit(self.offer)

    def _copy(self) -> None:
        self.copied.emit(self.offer)
