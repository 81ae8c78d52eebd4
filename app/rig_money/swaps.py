"""The swaps of the chosen rig: what each part costs, what may take its place, what that saves.

All are looked for beside the window, anew when the rig, its nights, the currency or the
shelf changes; what the row under the cursor offers stands whole beside the table.
"""

from functools import partial

from PySide6.QtGui import QHideEvent

from app.rig_money.halves import Halves
from app.rig_money.offer_view import OfferView
from app.rig_money.page import NO_RIG, Page, label
from app.rig_money.purse import Purse
from app.rig_money.search import Offers, SwapSearch
from app.rig_money.swap_table import BUNDLES, SwapRow, SwapTable
from app.rig_money.taking import take, take_as_copy
from app.session import Session
from app.shared.theme import Theme
from app.shared.typed_field import capital
from app.words.sentences import sentence
from core.gear.money.offers import Offer, Question

__all__ = ["SwapsPage"]


class SwapsPage(Page):
    """A table of swaps, and whole offers beside it.

    Parameters
    ----------
    session : Session
    theme : Theme
    scale : float
    """

    def __init__(self, session: Session, theme: Theme, scale: float = 1.0) -> None:
        super().__init__(session, theme, scale)
        self.setAccessibleName("Swaps")
        self.search = SwapSearch(self)
        self.purse = Purse(session)
        self.table = SwapTable()
        self.no_rig = label(NO_RIG, quiet=True)
        self.trouble = label(level="bad")
        self.view = OfferView()
        self._lay_out()
        self._listen()
        self.setFocusProxy(self.table)
        session.shelf_changed.connect(self.follow)
        self.set_style(theme, scale)

    def _lay_out(self) -> None:
        """Put the whole offer beside the table, or under it."""
        self._body = Halves(self.table, self.view, (2, 1))
        for widget in (self.no_rig, self.purse, self.trouble):
            self.column.addWidget(widget)
        self.column.addWidget(self._body, 1)

    def _listen(self) -> None:
        """Connect table, offers and search."""
        self.table.chosen.connect(self._show_row)
        self.table.taken.connect(partial(take, self.session))
        self.view.taken.connect(partial(take, self.session))
        self.view.copied.connect(partial(take_as_copy, self.session))
        self.search.found.connect(self._show_found)
        self.search.cheapest_found.connect(self._show_least)
        self.search.tried.connect(self._show_tried)
        self.search.failed.connect(self._show_trouble)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        for part in (self.table, self.view):
            part.set_style(theme, scale)
        self._body.set_scale(scale)
        self._question: Question | None = None
        super().set_style(theme, scale)

    def refresh(self) -> None:
        """Show the chosen rig's parts, and ask for what may take their places."""
        planned, plan = self.session.rig, self.session.plan
        self.purse.refresh()
        self.no_rig.setVisible(planned is None)
        self._body.setVisible(planned is not None)
        self.trouble.setVisible(False)
        if planned is None:
            self.search.give_up()
            return
        question = Question(planned.rig, self.session.shelf, plan.currency, plan.nights)
        if question == self._question and self.search.question is not None:
            return
        self._question = question
        self.table.show_rig(planned.rig, plan.currency)
        self.search.ask(question)
        self._show_known()

    def hideEvent(self, event: QHideEvent) -> None:
        """Look no further while nobody sees it."""
        super().hideEvent(event)
        self.search.give_up()
        self.follow()

    def finish(self) -> None:
        """End what runs beside the window."""
        self.search.finish()

    # What was found ---------------------------------------------------------------

    def _show_known(self) -> None:
        """Show the answers that are there already."""
        if self.search.offers is not None:
            self._show_found(self.search.offers)
        if self.search.cheapest is not None:
            self._show_least(self.search.cheapest)
        if self.search.failure:
            self._show_trouble(self.search.failure)

    def _show_found(self, offers: Offers) -> None:
        self.table.show_single(offers.single)
        note = "nothing cheaper", "Nothing on the shelf is cheaper than a part of this rig."
        self.table.show_bundle("together", offers.together, *note)

    def _show_tried(self, count: int) -> None:
        figure = f"{count:,}".replace(",", "\N{NO-BREAK SPACE}")
        self.table.show_bundle("cheapest", None, "looking ...", f"{figure} rigs tried so far.")

    def _show_least(self, offer: Offer) -> None:
        note = "nothing cheaper", "No cheaper rig of parts on the shelf passes its checks."
        if not offer.passes:
            note = "nothing passes", "No rig of parts on the shelf passes its checks."
        self.table.show_bundle("cheapest", offer, *note)

    def _show_trouble(self, words: str) -> None:
        told = sentence(capital(words))
        self.trouble.setText(told)
        self.trouble.setVisible(True)
        for key in BUNDLES:
            self.table.show_bundle(key, None, "not known", told)

    def _show_row(self, row: SwapRow) -> None:
        self.view.show_row(row, self._currency)

    @property
    def _currency(self) -> str:
        return self.session.plan.currency
