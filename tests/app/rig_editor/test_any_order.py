"""Whatever a hand does on the bench, in whatever order: nothing breaks, undo leads back."""

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.rig_editor.beam_layout import ADD
from app.rig_editor.bench import RigBench
from app.rig_editor.figure_text import text_of
from app.rig_editor.parts_page import PartsPage
from app.session import Session
from core.gear.checks import findings
from core.gear.slots import slots_of
from tests.app.rig_editor.hands import KEY, add_blank, beam_order, click, drag_to, type_figure

pytestmark = pytest.mark.gui
KINDS = ("spacer", "filter", "off-axis guider", "guide scope", "guide camera", "power", "corrector")
DEEDS = ("click", "type", "add", "replace", "delete", "drag", "push", "undo", "redo")
FIGURES = ("", "0", "12.5", "1e6", "-1", "7,5", "words")

#: The step of the history at which the rig of the fixture has been added.
START = 1
#: What is done, and two numbers that say to what.
deeds = st.lists(
    st.tuples(
        st.sampled_from(DEEDS),
        st.integers(0, 20),
        st.integers(0, 20),
    ),
    min_size=3,
    max_size=14,
)


def do(page: PartsPage, session: Session, deed: str, first: int, second: int) -> None:
    """Do one thing to the rig, of which the numbers choose the part and the rest."""
    slots = list(slots_of(session.rig.rig))
    slot = slots[first % len(slots)]
    if deed == "click":
        click(page, slot)
    elif deed == "type":
        fields = list(page.desk.form.fields)
        type_figure(page, fields[first % len(fields)], FIGURES[second % len(FIGURES)])
    elif deed == "add":
        free = [kind for kind in KINDS if kind != "corrector" or not session.rig.rig.corrector]
        add_blank(page, free[first % len(free)])
    elif deed == "replace":
        click(page, slot)
        QTest.mouseClick(page.desk.replace, Qt.MouseButton.LeftButton)
        QTest.keyClick(page.chooser.narrow, KEY.Key_Return if second % 2 else KEY.Key_Escape)
    elif deed == "delete":
        QTest.keyClick(page.beam.handle(slot), KEY.Key_Delete)
    elif deed == "drag":
        drag_to(page, slot, page.beam.width() * second / 20.0)
    elif deed == "push":
        way = KEY.Key_Left if second % 2 else KEY.Key_Right
        QTest.keyClick(page.beam.handle(slot), way, Qt.KeyboardModifier.AltModifier)
    elif deed == "undo":
        if session.history.index() > START:
            session.history.undo()
    else:
        session.history.redo()
    QApplication.processEvents()


def back_to_start(session: Session) -> None:
    """Undo everything but the adding of the rig."""
    while session.history.index() > START:
        session.history.undo()
    QApplication.processEvents()


def check_shown(bench: RigBench, session: Session) -> None:
    """Hold what the page shows against the plan."""
    page, rig = bench.parts, session.rig.rig
    parts = slots_of(rig)
    chosen = parts[page.slot]
    assert page.desk.heading.text() == chosen.name
    shown = {*page.desk.form.fields, *page.desk.form.choices}
    assert shown == set(type(chosen).model_fields)
    for field, line in page.desk.form.fields.items():
        assert line.wrong or line.text() == text_of(getattr(chosen, field)), field
    assert {tile.slot for tile in page.beam.drawing.tiles} == {*parts, ADD}
    in_beam = [tile.slot.place for tile in page.beam.drawing.row if tile.slot.place is not None]
    assert beam_order(page) == [rig.others[place].name for place in in_beam]
    assert in_beam == sorted(in_beam)
    assert bench.header.verdict.words == findings(rig, session.plan.nights)[0].message


@settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
    phases=(Phase.explicit, Phase.generate),  # to shrink takes minutes; the deeds are few
)
@given(todo=deeds)
def test_after_any_deeds_the_page_shows_the_plan_and_undo_leads_back(
    bench: RigBench, session: Session, todo: list[tuple[str, int, int]]
) -> None:
    page = bench.parts
    back_to_start(session)
    began = session.plan
    for deed, first, second in todo:
        before = page.desk.heading.text()
        do(page, session, deed, first, second)
        if page.chooser.isVisible():  # nothing on the shelf to take
            QTest.keyClick(page.chooser.narrow, KEY.Key_Escape)
        check_shown(bench, session)
        if deed != "type" and page.desk.heading.text() != before:
            wrong = [field for field, line in page.desk.form.fields.items() if line.wrong]
            assert not wrong, "what was refused for one part stands in the field of another"
    back_to_start(session)
    assert session.plan == began
