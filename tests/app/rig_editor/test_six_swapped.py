"""Parts of the six classes put in place of each other on the bench, and what that is said to do.

The prices are invented. A rig and its swap differ by the difference of the two prices, to the
cent, and what the list said beforehand is what the checks say afterwards.
"""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.rig_editor.bench import RigBench
from app.rig_editor.parts_page import PartsPage
from app.session import Session
from core.gear.checks import findings
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of, with_part
from core.plan import edits
from tests.app.rig_editor.hands import KEY, click
from tests.core.gear.test_six_classes import six

pytestmark = pytest.mark.gui


def priced(rig: Rig) -> Rig:
    """Give every part a price of its own: 111.10, 222.20, and so on."""
    for number, (slot, part) in enumerate(slots_of(rig).items(), 1):
        rig = with_part(rig, slot, part.but(price=round(number * 111.10, 2)))
    return rig


def cents(price: float) -> Decimal:
    return Decimal(str(price))


def ask_for_another(page: PartsPage, slot: Slot) -> None:
    click(page, slot)
    QTest.mouseClick(page.desk.replace, Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    assert page.chooser.isVisible()


@pytest.mark.parametrize("letter", list("abcdef"))
def test_each_of_the_six_has_parts_to_swap_in_three_slots_or_more(
    letter: str, bench: RigBench, session: Session, rig_now
) -> None:
    page, rig = bench.parts, priced(six()[letter])
    session.edit("add", edits.with_rig(session.plan, rig))
    before, swapped = session.plan, []
    for slot in [Slot("telescope"), Slot("camera"), Slot("mount"), Slot("others", 0)]:
        ask_for_another(page, slot)
        offered = page.chooser.model.parts
        assert offered, slot
        new, old = offered[-1], slots_of(rig)[slot]
        effect = page.chooser.model.effect_of(new)
        for _ in offered:  # one more than it takes to the last
            QTest.keyClick(page.chooser.narrow, KEY.Key_Down)
        QTest.keyClick(page.chooser.narrow, KEY.Key_Return)
        now = rig_now()
        assert slots_of(now)[slot] == new
        assert cents(round(now.price, 2)) - cents(round(rig.price, 2)) == cents(new.price) - cents(
            old.price
        )
        assert effect.full == findings(now, session.plan.nights)[0].message
        assert effect.full == bench.header.verdict.words
        swapped.append(new.name)
        session.history.undo()
        assert session.plan == before
    assert len(set(swapped)) >= 3
