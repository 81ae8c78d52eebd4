"""The step from one rig to another: what is kept, moved, bought and sold, and its cost."""

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.rig_money.halves import Halves
from app.rig_money.marked_lines import MarkedLines
from app.rig_money.page import Page, button, heading, label
from app.rig_money.part_list import PartList
from app.rig_money.rig_choice import RigChoice, next_dearer
from app.rig_money.typed_number import typed_number
from app.session import Session
from app.shared.flow import Flow
from app.shared.theme import Theme
from app.shared.typed_field import TypedField, capital
from app.words.fit_words import Verdict
from app.words.offer_words import difference_lines
from app.words.step_words import duty_lines, step_text
from core.errors import BadValueError
from core.gear.checks.differences import finding_changes
from core.gear.money.step_up import Step, step_up

__all__ = ["StepPage"]

TOO_FEW = "A step leads from one rig to another: this plan needs two."
_HELP = (
    "What a used part brings of its price, as 50 % or 0.5. Leave it empty when you do not "
    "know: nothing is assumed."
)
_FIELD_EMS = 6.0


class StepPage(Page):
    """Two rigs to choose, and what lies between them.

    Parameters
    ----------
    session : Session
    theme : Theme
    scale : float
    """

    def __init__(self, session: Session, theme: Theme, scale: float = 1.0) -> None:
        super().__init__(session, theme, scale)
        self.setAccessibleName("Next step")
        self.step: Step | None = None
        self._resale: float | None = None
        self._followed: str | None = None
        self.start = RigChoice(session, "Step from", self._chosen)
        self.goal = RigChoice(session, "Step to", self._chosen)
        self.resale = TypedField("What a sale brings of the price", self._take_resale)
        self.resale.setToolTip(_HELP)
        self.too_few = label(TOO_FEW, quiet=True)
        self.cost = label()
        self.cost.setProperty("name", True)
        self.parts, self.effects, self.duties = PartList(), MarkedLines(), MarkedLines()
        self.copy = button("Copy as text", "The whole step, to hand on", self._copy)
        self._lay_out()
        self.setFocusProxy(self.start)
        self.set_style(theme, scale)

    def _lay_out(self) -> None:
        """Put the choice above, parts and effects beside each other below."""
        choice = self._row(QLabel("From"), self.start, QLabel("to"), self.goal)
        sale = self._row(QLabel("A sale brings"), self.resale, QLabel("of the price"), self.copy)
        told = label(_HELP, quiet=True)
        told.setProperty("small", True)
        self._above = QWidget()
        above = QVBoxLayout(self._above)
        above.setContentsMargins(0, 0, 0, 0)
        for widget in (choice, sale, self.resale.complaint, told, self.cost):
            above.addWidget(widget)
        effects = QWidget()
        column = QVBoxLayout(effects)
        column.setContentsMargins(0, 0, 0, 0)
        self._duty_heading = heading("New duties for old parts")
        for widget in (heading("What changes"), self.effects, self._duty_heading, self.duties):
            column.addWidget(widget)
        self._body = Halves(self.parts, effects, (1, 1))
        for widget in (self.too_few, self._above, self._body):
            self.column.addWidget(widget)
        self.column.addStretch(1)

    def _row(self, *widgets: QWidget) -> QWidget:
        """Put widgets into a row that breaks where it must."""
        row = QWidget()
        flow = Flow(row)
        for widget in widgets:
            widget.setMinimumHeight(self.resale.sizeHint().height())
            flow.addWidget(widget)
        return row

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self.resale.setFixedWidth(round(_FIELD_EMS * 12.0 * scale))
        self._body.set_scale(scale)
        super().set_style(theme, scale)

    def refresh(self) -> None:
        """Show the step between the two chosen rigs."""
        plan = self.session.plan
        there = len(plan.rigs) > 1
        self.too_few.setVisible(not there)
        for part in (self._above, self._body):
            part.setVisible(there)
        if not there:
            self.step = None
            return
        self._follow_choice()
        self.resale.show_value("" if self._resale is None else f"{100.0 * self._resale:.10g} %")
        start, goal = (plan.rig(choice.rig_id).rig for choice in (self.start, self.goal))
        self.step = step_up(start, goal, currency=plan.currency, resale_fraction=self._resale)
        self._show(self.step)

    def _follow_choice(self) -> None:
        """Begin at the chosen rig, and lead to the next dearer one, until told otherwise."""
        plan = self.session.plan
        ids = [planned.id for planned in plan.rigs]
        current = plan.current_rig or ids[0]
        if current != self._followed or self.start.rig_id not in ids:
            self._followed = current
            self.start.rig_id, self.goal.rig_id = current, ""
        if self.goal.rig_id not in ids or self.goal.rig_id == self.start.rig_id:
            self.goal.rig_id = next_dearer(plan, self.start.rig_id)
        for choice in (self.start, self.goal):
            choice.refresh()

    def _show(self, step: Step) -> None:
        """Write the step down."""
        self.cost.setText(f"{capital(step.cost_words)}.")
        self.parts.show_step(step, self.scale)
        found = finding_changes(step.start, step.goal, self.session.plan.nights)
        changes = [Verdict("", change.words, "") for change in step.changes]
        self.effects.show_lines([*changes, *difference_lines(found)], self.theme, self.scale)
        duties = [Verdict("note", line, line) for line in duty_lines(step)]
        self.duties.show_lines(duties, self.theme, self.scale)
        for shown in (self._duty_heading, self.duties):
            shown.setVisible(bool(duties))

    def _chosen(self) -> None:
        """Another rig was chosen at one of the two ends."""
        self.refresh()

    def _take_resale(self, text: str) -> None:
        """Take the fraction that a sale brings; nothing typed means not known."""
        fraction = None
        if text.strip():
            share = text.strip().endswith("%")
            fraction = typed_number("what a sale brings", text, ("%",)) / (100.0 if share else 1.0)
            if not 0.0 <= fraction <= 1.0:
                rule = "must lie between 0 and 100 % of the price"
                raise BadValueError("what a sale brings", text.strip(), rule)
        self._resale = fraction
        self.refresh()

    def _copy(self) -> None:
        """Put the step on the clipboard and say so."""
        if self.step is not None:
            step = self.step
            found = finding_changes(step.start, step.goal, self.session.plan.nights)
            QGuiApplication.clipboard().setText(step_text(step, found))
            self.session.say("The step is on the clipboard as text.", "good")
