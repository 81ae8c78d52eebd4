"""The rig bench in the window: every way in, every way out, and nothing of it at the start."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.window.places import Places
from tests.app.apart import run_apart
from tests.app.window.hands import CTRL, OpenWindow, entries

pytestmark = pytest.mark.gui
KEY = Qt.Key

_PROBE = """
import sys
from app.shared.application import application
from app.window import startup
app, places = application(), startup.user_places()
shell = startup.Shell(startup.Settings(places))
opener = startup.connected(shell, startup.Opener(places, None), places)
def furnished():
    print([name for name in sys.modules if name.startswith("app.rig_editor")])
    app.exit(0)
shell.furnished.connect(furnished)
shell.show()
opener.start()
app.exec()
"""


def test_nothing_of_the_bench_is_imported_at_the_start(places: Places) -> None:
    assert run_apart(_PROBE).strip() == "[]"


def ways_in(shell, way: str) -> None:
    """Open the bench as a person does."""
    bench = shell.workbench
    card = bench.strip.card(bench.session.rig.id)
    if way == "Ctrl+E":
        QTest.keyClick(shell, KEY.Key_E, CTRL)
    elif way == "menu":
        entries(bench.menus.plan)["Edit rig"].trigger()
    elif way == "button":
        QTest.mouseClick(bench.panel.numbers.edit, Qt.MouseButton.LeftButton)
    elif way == "double click":
        QTest.mouseDClick(card, Qt.MouseButton.LeftButton)
    else:
        card.setFocus()
        QTest.keyClick(card, KEY.Key_Return)


@pytest.mark.parametrize("way", ["Ctrl+E", "menu", "button", "double click", "Enter"])
def test_the_bench_comes_in_every_way_and_shows_the_chosen_rig(
    open_window: OpenWindow, way: str
) -> None:
    shell = open_window(settle=False)
    bench = shell.workbench
    assert bench.centre.currentWidget() is bench.sheet
    ways_in(shell, way)
    assert bench.session.bench_open
    assert bench.centre.currentWidget() is bench.bench
    assert bench.bench.header.name.text() == bench.session.rig.rig.name


def test_it_goes_by_escape_by_its_button_and_by_the_key_that_opened_it(
    open_window: OpenWindow,
) -> None:
    shell = open_window(settle=False)
    bench = shell.workbench
    for way in ("escape", "button", "Ctrl+E"):
        QTest.keyClick(shell, KEY.Key_E, CTRL)
        assert bench.session.bench_open
        if way == "escape":
            QTest.keyClick(QApplication.focusWidget(), KEY.Key_Escape)
        elif way == "button":
            QTest.mouseClick(bench.bench.header.back, Qt.MouseButton.LeftButton)
        else:
            QTest.keyClick(shell, KEY.Key_E, CTRL)
        assert not bench.session.bench_open, way
        assert bench.centre.currentWidget() is bench.sheet
        assert bench.sheet.hasFocus()


def test_another_card_brings_another_rig_to_the_bench(open_window: OpenWindow) -> None:
    shell = open_window(settle=False)
    bench = shell.workbench
    QTest.keyClick(shell, KEY.Key_E, CTRL)
    QTest.mouseClick(bench.strip.cards[1], Qt.MouseButton.LeftButton)
    assert bench.session.bench_open
    assert bench.bench.header.flag.text() == "B"
    assert bench.bench.header.name.text() == "Rucksack kit"


def test_the_name_is_typed_and_undone_and_a_copy_is_made(open_window: OpenWindow) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    before = session.rig.rig.name
    QTest.keyClick(shell, KEY.Key_E, CTRL)
    head = shell.workbench.bench.header
    head.name.setFocus()
    head.name.selectAll()
    QTest.keyClicks(head.name, "My own")
    QTest.keyClick(head.name, KEY.Key_Return)
    assert session.rig.rig.name == "My own"
    session.history.undo()
    assert session.rig.rig.name == before == head.name.text()
    QTest.mouseClick(head.duplicate, Qt.MouseButton.LeftButton)
    assert session.rig.rig.name == f"{before} (2)" == head.name.text()
    head.name.setFocus()
    head.name.selectAll()
    QTest.keyClick(head.name, KEY.Key_Delete)
    QTest.keyClick(head.name, KEY.Key_Return)
    assert head.name.complaint.text() == 'Name "": must not be empty'
    assert session.rig.rig.name == f"{before} (2)"


def test_the_menu_makes_a_new_rig_and_it_is_on_the_bench(open_window: OpenWindow) -> None:
    shell = open_window(settle=False)
    bench = shell.workbench
    count = len(bench.session.plan.rigs)
    entries(bench.menus.plan)["New rig ..."].trigger()
    assert bench.session.bench_open
    QTest.keyClicks(bench.bench.new_rig.name, "Mine")
    QTest.keyClick(bench.bench.new_rig.name, KEY.Key_Return)
    assert len(bench.session.plan.rigs) == count + 1
    assert bench.session.rig.rig.name == "Mine"
    assert bench.strip.cards[-1].face.name == "Mine"


def test_undo_reaches_the_plan_from_a_field_whose_text_is_taken(open_window: OpenWindow) -> None:
    """Regression: a line kept the key for itself, though it had nothing to undo."""
    shell = open_window(settle=False)
    session = shell.workbench.session
    QTest.keyClick(shell, KEY.Key_E, CTRL)
    line = shell.workbench.bench.parts.desk.form.fields["aperture_mm"]
    before = session.rig.rig.aperture_mm
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "81")
    QTest.keyClick(line, KEY.Key_Return)
    assert session.rig.rig.aperture_mm == 81.0
    assert line.hasFocus()
    QTest.keyClick(line, KEY.Key_Z, CTRL)
    assert session.rig.rig.aperture_mm == before
    assert line.text() == f"{before:g}"
    QTest.keyClick(line, KEY.Key_Y, CTRL)
    assert session.rig.rig.aperture_mm == 81.0
    QTest.keyClicks(line, "7")
    typed = line.text()
    QTest.keyClick(line, KEY.Key_Z, CTRL)
    assert line.text() != typed, "what is being typed is undone first"
    assert session.rig.rig.aperture_mm == 81.0
