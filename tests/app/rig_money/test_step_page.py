"""The next step: chosen, priced, told whole, and handed on as text."""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.rig_money.rig_choice import next_dearer
from app.rig_money.step import TOO_FEW, StepPage
from app.session import Session
from core.gear.money.prices import exact, rig_total
from core.gear.money.step_up import step_up
from core.plan import edits
from tests.app.rig_money.hands import choose, replace_rig, type_value

pytestmark = pytest.mark.gui
KEY, LEFT = Qt.Key, Qt.MouseButton.LeftButton


def test_the_step_leads_from_the_chosen_rig_to_the_next_dearer_one(
    step: StepPage, session: Session
) -> None:
    totals = {p.id: rig_total(p.rig, "EUR").known for p in session.plan.rigs}
    own = totals[session.plan.rigs[2].id]
    dearer = min(total for total in totals.values() if total > own)
    assert step.start.rig_id == session.plan.rigs[2].id
    assert totals[step.goal.rig_id] == dearer
    choose(session, 3)
    assert step.start.rig_id == session.plan.rigs[3].id


def test_the_dearest_rig_steps_to_its_neighbour(session: Session) -> None:
    plan = session.plan
    dearest = max(plan.rigs, key=lambda p: rig_total(p.rig, "EUR").known)
    place = plan.place_of(dearest.id)
    neighbour = plan.rigs[place + 1 if place + 1 < len(plan.rigs) else place - 1].id
    assert next_dearer(plan, dearest.id) == neighbour


def test_every_part_is_listed_once_with_its_fate_and_price(
    step: StepPage, session: Session
) -> None:
    start, goal = session.planned_rig(step.start.rig_id), session.planned_rig(step.goal.rig_id)
    made = step_up(start.rig, goal.rig, currency="EUR")
    shown = list(step.parts.texts)
    for parts, fate in ((made.kept, "Kept"), (made.bought, "Bought"), (made.sold, "Sold")):
        assert parts
        below = shown[shown.index(fate) + 1 :]
        assert [below[2 * n] for n in range(len(parts))] == [part.name for part in parts]
    assert "980\N{NO-BREAK SPACE}€" in shown


@pytest.mark.parametrize(("text", "fraction"), [("50 %", 0.5), ("0.5", 0.5), ("0", 0.0)])
def test_a_typed_fraction_gives_the_cost(
    qtbot: QtBot, step: StepPage, text: str, fraction: float
) -> None:
    assert "not known" in step.cost.text()
    type_value(qtbot, step.resale, text)
    assert step.step is not None
    buying, selling = step.step.buying.known, step.step.selling.known
    assert step.step.cost == buying - selling * exact(fraction)
    assert isinstance(step.step.cost, Decimal)
    assert "the step costs" in step.cost.text()
    type_value(qtbot, step.resale, "")
    assert "not known" in step.cost.text()


@pytest.mark.parametrize(
    ("text", "part"),
    [("150 %", "between 0 and 100 %"), ("-0.1", "between 0 and 100 %"), ("half", "a number"),
     ("0,5", "write a point for the comma: 0.5")],
)  # fmt: skip
def test_a_fraction_that_cannot_be_is_refused_in_a_sentence(
    qtbot: QtBot, step: StepPage, text: str, part: str
) -> None:
    before = step.cost.text()
    type_value(qtbot, step.resale, text)
    assert part in step.resale.complaint.text()
    assert step.resale.text() == text
    assert step.cost.text() == before


def test_another_goal_is_chosen_from_the_list_by_keyboard(
    qtbot: QtBot, step: StepPage, session: Session
) -> None:
    step.goal.setFocus()
    menu = step.goal.list
    menu.popup(step.goal.mapToGlobal(step.goal.rect().bottomLeft()))
    qtbot.waitUntil(menu.isVisible)
    QTest.keyClick(menu, KEY.Key_Down)
    QTest.keyClick(menu, KEY.Key_Return)
    assert step.goal.rig_id == session.plan.rigs[0].id
    assert session.plan.rigs[0].rig.name in step.goal.text()
    assert step.step is not None
    assert step.step.goal is session.plan.rigs[0].rig


def test_a_goal_chosen_by_hand_stays_while_the_rigs_parts_change(
    step: StepPage, session: Session
) -> None:
    step.goal.choose(session.plan.rigs[5].id)
    rig = session.plan.rigs[2].rig
    replace_rig(session, 2, rig.but(camera=rig.camera.but(price=1.0)))
    assert step.goal.rig_id == session.plan.rigs[5].id


def test_the_telescope_that_becomes_the_guide_scope_is_told_with_the_reason(
    step: StepPage, session: Session
) -> None:
    """Without a guide scope of its own, 80/480 can be guided by 60/360."""
    goal = session.plan.rigs[3].rig
    others = tuple(p for p in goal.others if p.kind not in ("guide scope", "guide camera"))
    replace_rig(session, 3, goal.but(others=others))
    step.goal.choose(session.plan.rigs[3].id)
    assert step.step is not None
    (duty,) = step.step.duties
    assert duty.suits
    assert f"{duty.parts[0].name} as guide scope: yes" in step.duties.texts[0]
    assert duty.why in step.duties.texts[0]
    assert "Moved to guiding" in step.parts.texts


def test_what_changes_is_told_and_what_gets_worse_is_marked(step: StepPage) -> None:
    assert step.step is not None
    assert step.effects.texts[: len(step.step.changes)] == tuple(
        change.words for change in step.step.changes
    )
    assert any(text.startswith(("Worse: ", "Better: ")) for text in step.effects.texts)


def test_the_whole_step_is_on_the_clipboard_as_text(
    qtbot: QtBot, step: StepPage, session: Session
) -> None:
    type_value(qtbot, step.resale, "60 %")
    with qtbot.waitSignal(session.said):
        qtbot.mouseClick(step.copy, LEFT)
    text = QGuiApplication.clipboard().text()
    assert step.step is not None
    for part in (*step.step.kept, *step.step.bought, *step.step.sold):
        assert part.name in text
    assert step.step.cost_words in text
    assert all(change.words in text for change in step.step.changes)


def test_with_one_rig_the_page_says_that_it_needs_two(step: StepPage, session: Session) -> None:
    plan = session.plan
    assert not step.too_few.isVisible()
    for planned in plan.rigs[1:]:
        plan = edits.without_rig(plan, planned.id)
    session.edit("take out", plan)
    assert step.too_few.isVisible()
    assert step.too_few.text() == TOO_FEW
    assert not step.cost.isVisible()
    session.history.undo()
    assert step.cost.isVisible()
