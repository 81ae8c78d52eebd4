"""The bench by the keyboard alone: arrows, Alt, Enter, Home, Tab."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.rig_editor.beam_layout import ADD
from app.rig_editor.parts_page import PartsPage
from core.gear.slots import Slot
from tests.app.rig_editor.hands import KEY, beam_order, click, take

pytestmark = pytest.mark.gui
CAMERA, SPACER, PRISM, WHEEL = Slot("camera"), *(Slot("others", n) for n in range(3))


def test_alt_and_arrows_move_a_part_and_the_keyboard_stays_with_it(
    page: PartsPage, rig_now
) -> None:
    click(page, SPACER)
    page.beam.take_focus(SPACER)
    QTest.keyClick(QApplication.focusWidget(), KEY.Key_Right, Qt.KeyboardModifier.AltModifier)
    assert beam_order(page) == ["prism", "spacer", "wheel"]
    assert QApplication.focusWidget() is page.beam.handle(PRISM)
    QTest.keyClick(QApplication.focusWidget(), KEY.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert beam_order(page) == ["spacer", "prism", "wheel"]


def test_arrows_walk_from_the_sky_to_the_last_part_and_choose(page: PartsPage) -> None:
    page.beam.take_focus(Slot("telescope"))
    seen = [page.slot]
    for _ in range(8):
        QTest.keyClick(QApplication.focusWidget(), KEY.Key_Right)
        seen.append(page.slot)
    names = ["telescope", "corrector", SPACER, PRISM, WHEEL, "camera", "mount", Slot("others", 3)]
    assert seen[:8] == [Slot(n) if isinstance(n, str) else n for n in names]
    assert QApplication.focusWidget() is page.beam.handle(ADD)
    QTest.keyClick(QApplication.focusWidget(), KEY.Key_Home)
    assert page.slot == Slot("telescope")


def test_enter_goes_from_a_part_to_its_figures(page: PartsPage) -> None:
    page.beam.take_focus(CAMERA)
    QTest.keyClick(page.beam.handle(CAMERA), KEY.Key_Return)
    assert page.desk.form.fields["name"].hasFocus()


def test_the_tab_key_goes_from_head_to_drawing_to_figures_to_findings(bench, page) -> None:
    take(page, "tripod", "steel")  # its handle is younger than all else
    bench.header.back.setFocus()
    stops = []
    for _ in range(40):
        QTest.keyClick(QApplication.focusWidget(), KEY.Key_Tab)
        stops.append(QApplication.focusWidget())
        if stops[-1] is page.desk.form.fields["note"]:
            break
    form = page.desk.form
    expected = [page.beam.handle(page.slot), page.desk.replace, page.desk.remove]
    assert stops[:3] == expected
    assert stops[3:6] == [form.fields["name"], form.choices["kind"], form.fields["length_mm"]]
    assert stops[-2:] == [form.fields["link"], form.fields["note"]]
    QTest.keyClick(QApplication.focusWidget(), KEY.Key_Tab)
    rows = [*page.about.rows, *page.rest.rows]
    assert QApplication.focusWidget() in rows


def test_whatever_the_keyboard_comes_to_has_a_name(bench, page) -> None:
    nameless = []
    for slot in (Slot("telescope"), CAMERA, Slot("mount"), WHEEL):
        click(page, slot)
        nameless += [
            (slot, widget)
            for widget in bench.findChildren(QWidget)
            if widget.isVisible()
            and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
            and not (widget.accessibleName() or getattr(widget, "text", str)())
        ]
    assert nameless == []


def test_in_a_small_window_walking_scrolls_to_the_part(bench, page) -> None:
    bench.window().resize(430, 260)
    QApplication.processEvents()
    for slot in (Slot("mount"), Slot("telescope"), Slot("mount")):
        page.beam.take_focus(slot)
        QApplication.processEvents()
        handle = page.beam.handle(slot)
        seen = handle.visibleRegion().boundingRect()
        assert seen.width() * seen.height() > 0.3 * handle.width() * handle.height(), slot
