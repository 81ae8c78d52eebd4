"""The search for swaps beside the window: single ones first, then the cheapest rig.

A search is given up as soon as another question is asked, or nobody looks any more.
"""

from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from app.shared.jobs import Answers, Job, Lane
from core.errors import Cancelled, CoreError
from core.gear.money.offers import Offer, Question, all_savings, cheapest_offer, single_offers

__all__ = ["Offers", "SwapSearch"]

#: Rigs between two words on how far the search is.
_WORD_EVERY = 250


@dataclass(frozen=True)
class Offers:
    """Every single swap, and all savings together where there are any."""

    single: tuple[Offer, ...]
    together: Offer | None


class SwapSearch(QObject):
    """Looks for swaps in a lane of its own.

    Parameters
    ----------
    parent : QObject
    """

    found = Signal(object)
    cheapest_found = Signal(object)
    tried = Signal(int)
    failed = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._lane = Lane(self)
        self.question: Question | None = None
        self.offers: Offers | None = None
        self.cheapest: Offer | None = None
        self.failure = ""

    @property
    def busy(self) -> bool:
        """Tell whether something is still looked for."""
        return self._lane.busy

    @property
    def finished(self) -> bool:
        """Tell whether the question has its answers, or a refusal."""
        return bool(self.failure) or self.cheapest is not None

    def ask(self, question: Question) -> None:
        """Look for the swaps of a rig; the question before is given up."""
        if question == self.question and (self.finished or self.busy):
            return
        self.question, self.failure = question, ""
        self.offers = self.cheapest = None
        answers = Answers(self._single_found, self._fail)
        self._lane.start(lambda job: _look_at_each(question, job), answers)

    def give_up(self) -> None:
        """Look no further; the question may be asked again."""
        self._lane.give_up()
        if not self.finished:
            self.question = None

    def finish(self) -> None:
        """Look no further and wait for the thread, at the end of the program."""
        self.give_up()
        self._lane.finish()

    def _single_found(self, offers: Offers) -> None:
        self.offers = offers
        question = self.question
        assert question is not None
        answers = Answers(self._cheapest_found, self._fail, self._word)
        self._lane.start(lambda job: _look_for_cheapest(question, job), answers)
        self.found.emit(offers)

    def _cheapest_found(self, offer: Offer) -> None:
        self.cheapest = offer
        self.cheapest_found.emit(offer)

    def _word(self, _fraction: float | None, count: int) -> None:
        self.tried.emit(count)

    def _fail(self, error: Exception) -> None:
        if not isinstance(error, CoreError):
            raise error
        self.failure = str(error)
        self.failed.emit(self.failure)


def _look_at_each(question: Question, job: Job) -> Offers:
    """Give every single swap, and all savings together."""
    single: list[Offer] = []
    for offer in single_offers(question):
        if job.cancelled():
            raise Cancelled
        single.append(offer)
    return Offers(tuple(single), all_savings(question, single))


def _look_for_cheapest(question: Question, job: Job) -> Offer:
    """Give the cheapest rig, with a word on the way now and then."""

    def tried(count: int) -> None:
        if job.cancelled():
            raise Cancelled
        if count % _WORD_EVERY == 0:
            job.progress(None, count)

    return cheapest_offer(question, tried=tried)
