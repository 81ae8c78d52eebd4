"""The pages of swaps, step and nights in the window: late, dressed, and ended with it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from app.rig_money.nights import NightsPage
from app.rig_money.step import StepPage
from app.rig_money.swaps import SwapsPage
from app.shared.theme import THEMES
from app.window.late_page import LatePage
from app.window.places import Places
from app.window.red_cursors import cursor
from app.window.shell import Shell
from tests.app.apart import run_apart
from tests.app.seeing import pixels
from tests.app.window.hands import CTRL, OpenWindow

pytestmark = pytest.mark.gui
KEY = Qt.Key

_PROBE = """
import sys
from app.shared.application import application
from app.window import startup
app, places = application(), startup.user_places()
shell = startup.Shell(startup.Settings(places))
startup._SKY_FIRST_S = 60.0
opener = startup.Opener(places, None)
go_on = opener.sky_is_seen
def charted():
    late = ("app.rig_money", "app.words.finding_words", "app.words.glossary", "core.gear.checks",
            "core.gear.money.offers")
    if not go_on.__self__._seen.is_set():
        print([name for name in sys.modules if name.startswith(late)])
    go_on()
opener.sky_is_seen = charted
startup.connected(shell, opener, places)
def furnished():
    print([name for name in sys.modules if name.startswith("app.rig_money")])
    app.exit(0)
shell.furnished.connect(furnished)
shell.show()
opener.start()
app.exec()
"""


def test_no_finding_and_no_money_is_imported_before_the_first_chart(places: Places) -> None:
    assert run_apart(_PROBE).split("\n")[:2] == ["[]", "[]"]


def page(shell: Shell, title: str):
    """Open the bench on a page; give what was built for it."""
    bench = shell.workbench
    if not bench.session.bench_open:
        QTest.keyClick(shell, KEY.Key_E, CTRL)
    bench.bench.show_page(title)
    late = bench.bench.pages.currentWidget()
    assert isinstance(late, LatePage)
    return late


@pytest.mark.parametrize(
    ("title", "kind"), [("Swaps", SwapsPage), ("Next step", StepPage), ("Nights", NightsPage)]
)
def test_a_page_is_built_when_it_is_first_seen_and_kept(
    open_window: OpenWindow, title: str, kind: type
) -> None:
    shell = open_window()
    QTest.keyClick(shell, KEY.Key_E, CTRL)
    pages = shell.workbench.bench.pages
    late = [pages.widget(n) for n in range(pages.count()) if isinstance(pages.widget(n), LatePage)]
    assert [one.page for one in late] == [None, None, None]
    built = page(shell, title).page
    assert isinstance(built, kind)
    assert built.isVisible()
    shell.workbench.bench.show_page("Parts")
    assert page(shell, title).page is built


@pytest.mark.parametrize("title", ["Swaps", "Next step", "Nights"])
def test_a_page_in_deep_red_has_no_other_colour_and_red_cursors(
    open_window: OpenWindow, qtbot: QtBot, title: str
) -> None:
    shell = open_window()
    shell.workbench.restyle(THEMES["deep-red"], 1.0)
    late = page(shell, title)
    if isinstance(late.page, SwapsPage):
        qtbot.waitUntil(lambda: late.page.search.finished, timeout=30_000)
    painted = pixels(late)
    # the reds lean to orange by no more than a third; nothing is green, blue or white
    assert (painted[..., 1] <= painted[..., 0] // 2 + 8).all()
    assert (painted[..., 2] <= painted[..., 0] // 2 + 8).all()
    assert painted[..., 0].max() > 200
    shape = cursor(Qt.CursorShape.IBeamCursor, red=True).pixmap().cacheKey()
    fields = late.page.findChildren(QLineEdit)
    assert {field.cursor().pixmap().cacheKey() for field in fields} == {shape}


def test_a_page_built_late_follows_the_text_size(open_window: OpenWindow) -> None:
    shell = open_window()
    late = page(shell, "Nights")
    width = late.page.fields["seeing_arcsec"].width()
    shell.workbench.restyle(THEMES["light"], 2.0)
    assert late.page.fields["seeing_arcsec"].width() == 2 * width


def test_closing_the_window_ends_the_search(open_window: OpenWindow) -> None:
    shell = open_window()
    late = page(shell, "Swaps")
    assert late.page.search.busy
    assert shell.close()
    assert not late.page.search.busy


def test_escape_in_the_table_goes_back_to_the_sky(open_window: OpenWindow) -> None:
    shell = open_window()
    late = page(shell, "Swaps")
    late.page.table.setFocus()
    QTest.keyClick(late.page.table, KEY.Key_Escape)
    assert not shell.workbench.session.bench_open
