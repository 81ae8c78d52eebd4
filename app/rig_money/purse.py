"""What the rig and the whole set cost, and the currency of the plan."""

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.rig_money.page import label
from app.session import Session
from app.shared.flow import Flow
from app.shared.typed_field import TypedField
from app.words.sentences import sentence
from core.errors import BadValueError
from core.gear.money.prices import rig_total, set_total

__all__ = ["Purse"]

_FIELD_EMS = 5.0
_HELP = "Three letters, such as EUR or USD. Prices are not converted: no rates are known here."


class Purse(QWidget):
    """Totals to read and the currency to type.

    Parameters
    ----------
    session : Session
    """

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self.rig, self.all = label(), label()
        self.currency = TypedField("Currency of the plan", self._take)
        self.currency.setToolTip(_HELP)
        self._words = QLabel("Currency")
        self._words.setBuddy(self.currency)
        self.help = label(_HELP, quiet=True)
        self.help.setProperty("small", True)
        row = QWidget()
        flow = Flow(row)
        for shown in (self._words, self.currency, self.rig):
            flow.addWidget(shown)
        self.rig.setWordWrap(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        for part in (row, self.currency.complaint, self.help, self.all):
            column.addWidget(part)

    def refresh(self) -> None:
        """Show the totals of the plan as it is now."""
        plan, planned = self._session.plan, self._session.rig
        width = self.fontMetrics().horizontalAdvance("M") * _FIELD_EMS
        self.currency.setFixedWidth(round(width))
        for words in (self._words, self.rig):
            words.setMinimumHeight(self.currency.sizeHint().height())
        self.currency.show_value(plan.currency)
        self.rig.setVisible(planned is not None)
        if planned is not None:
            total = rig_total(planned.rig, plan.currency)
            letter = self._session.letter(planned.id)
            self.rig.setText(f"{letter} · {planned.rig.name}: {total.words}")
        self.all.setText(self._set_words())

    def _set_words(self) -> str:
        """Say what all shown rigs cost together."""
        plan = self._session.plan
        shown = [planned.rig for planned in plan.rigs if planned.shown]
        if len(shown) < 2:
            return "Show two rigs or more to see what they cost as a set."
        try:
            total = set_total(shown, plan.currency)
        except BadValueError as error:
            return f"The shown rigs have no common price: {sentence(error)}"
        count = "Both" if len(shown) == 2 else f"All {len(shown)}"
        return f"{count} shown rigs as a set, shared parts counted once: {total.words}"

    def _take(self, text: str) -> None:
        """Give the plan another currency; the prices stay as they are."""
        code = text.strip().upper()
        plan = self._session.plan
        self._session.edit(f"prices in {code}", plan.but(currency=code))
        if plan.currency != code:
            self._session.say(f"Prices now count as {code}; none was converted.")
