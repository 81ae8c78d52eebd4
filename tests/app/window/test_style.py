"""Colours and text sizes: in every room, in menus and dialogs, remembered."""

from collections.abc import Iterator

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QCursor, QFontInfo, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu, QToolTip, QWidget
from pytestqt.qtbot import QtBot

from app.shared.theme import THEMES, palette, scaled_font
from app.window.asking import file_dialog
from app.window.places import Places
from app.window.settings import Settings
from app.window.shell import Shell
from tests.app.seeing import close_to, pixels
from tests.app.window.hands import CTRL, entries

pytestmark = pytest.mark.gui


def reddest_of(widget: QWidget) -> tuple[int, int]:
    """Give the brightest red, and the brightest of green and blue, that a widget shows."""
    seen = pixels(widget)
    return int(seen[..., 0].max()), int(seen[..., 1:].max())


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.1 defines it."""
    parts = np.array([int(colour[place : place + 2], 16) for place in (1, 3, 5)]) / 255
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    return float(linear @ [0.2126, 0.7152, 0.0722])


def contrast(one: str, other: str) -> float:
    """Contrast ratio of WCAG 2.1, success criterion 1.4.3."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
def test_words_can_be_read_on_every_ground(theme) -> None:
    """WCAG 2.1 AA asks for 4.5 to 1 for text and 3 to 1 for what is switched off."""
    for ground in (theme.ground, theme.raised, theme.field):
        for ink in (theme.text, theme.quiet, theme.good, theme.caution, theme.bad):
            assert contrast(ink, ground) >= 4.5, (ink, ground)
    assert contrast(theme.on_accent, theme.accent) >= 4.5


def test_deep_red_has_no_colour_but_red() -> None:
    theme = THEMES["deep-red"]
    for colour in [*theme.frames, *(c for c in theme if isinstance(c, str) and c[:1] == "#")]:
        red, green, blue = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
        assert max(green, blue) <= 0x4A
        assert red >= max(green, blue)


# In the window -------------------------------------------------------------------


def test_theme_and_text_size_are_remembered(open_window, places: Places) -> None:
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_3, CTRL)
    assert shell.settings.theme.key == "deep-red"
    shell.workbench.restyle(shell.settings.theme, 1.5)
    shell.close()
    assert "deep-red" in places.settings.read_text()
    again = Settings(places)
    assert (again.theme.key, again.text_scale) == ("deep-red", 1.5)
    second = open_window(settle=False)
    ticked = {
        words
        for name in ("Colours", "Text size")
        for words, action in entries(entries(second.workbench.menus.view)[name].menu()).items()
        if action.isChecked()
    }
    assert ticked == {"Deep red", "150%"}


def test_the_menus_change_one_taste_and_keep_the_other(open_window) -> None:
    shell = open_window(settle=False)
    view = entries(shell.workbench.menus.view)
    colours, sizes = (entries(view[name].menu()) for name in ("Colours", "Text size"))
    sizes["130%"].trigger()
    colours["Light"].trigger()
    assert (shell.settings.theme.key, shell.settings.text_scale) == ("light", 1.3)
    sizes["90%"].trigger()
    assert (shell.settings.theme.key, shell.settings.text_scale) == ("light", 0.9)
    assert [words for words, action in colours.items() if action.isChecked()] == ["Light"]
    assert [words for words, action in sizes.items() if action.isChecked()] == ["90%"]


@pytest.fixture(params=["changed", "from the start"])
def large(request, open_window, places: Places) -> Iterator[tuple[Shell, dict[str, int]]]:
    """A window at text size 2, and how high its rooms were at 1."""
    small = open_window(settle=False)
    heights = heights_of(small)
    if request.param == "changed":
        small.workbench.restyle(THEMES["light"], 2.0)
        yield small, heights
    else:
        small.close()
        settings = Settings(places)
        settings.theme, settings.text_scale = THEMES["light"], 2.0
        settings.flush()
        yield open_window(settle=False), heights


def heights_of(shell: Shell) -> dict[str, float]:
    bench = shell.workbench
    return {
        "strip": bench.strip.sizeHint().height(),
        "panel": bench.panel.sizeHint().width(),
        "bar": bench.bar.sizeHint().height(),
        "status": bench.status.sizeHint().height(),
        "margin": bench.sheet.sky_rect.left(),
    }


def test_text_twice_as_large_makes_every_room_larger(large) -> None:
    shell, before = large
    after = heights_of(shell)
    for room, size in before.items():
        assert after[room] >= 1.3 * size, room


def test_every_room_takes_the_colours_of_the_theme(large) -> None:
    shell, _ = large
    theme = THEMES["light"]
    bench = shell.workbench
    seen = pixels(shell)
    for room in (bench.bar, bench.panel, bench.status, bench.sheet, bench.strip):
        left, top = room.mapTo(shell, room.rect().topLeft()).toTuple()
        part = seen[top : top + room.height(), left : left + room.width()]
        assert close_to(part, theme.ground, 2) > 0.1 * part.shape[0] * part.shape[1], room
    assert QApplication.palette().color(QPalette.ColorRole.Window).name() == theme.ground
    assert QApplication.font().pixelSize() == 24
    assert QFontInfo(shell.workbench.target_box.font()).pixelSize() == 24


def test_the_palette_and_the_type_follow_the_theme(qapp) -> None:
    """What no style rule reaches, and what is switched off, is painted from the palette."""
    for theme in THEMES.values():
        colours = palette(theme)
        assert colours.color(QPalette.ColorRole.ToolTipBase).name() == theme.field
        off = colours.color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.ButtonText)
        assert off.name() == theme.sheet_line
    assert scaled_font(1.5).pixelSize() == 18
    assert scaled_font(0.1).pixelSize() == 6


# Menus and dialogs ---------------------------------------------------------------


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
def test_an_open_menu_is_of_the_theme(open_window, theme) -> None:
    shell = open_window(settle=False)
    shell.workbench.restyle(theme, 1.0)
    menu = shell.workbench.menus.plan
    menu.popup(shell.mapToGlobal(shell.rect().center()))
    seen = pixels(menu)
    whole = seen.shape[0] * seen.shape[1]
    assert close_to(seen, theme.raised, 6) > 0.7 * whole
    assert close_to(seen, theme.text) > 100
    assert close_to(seen, theme.sheet_line) > 20, "Undo and Redo are switched off"
    menu.close()


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
def test_a_tooltip_is_of_the_theme(open_window, theme, qtbot: QtBot) -> None:
    shell = open_window(settle=False)
    shell.workbench.restyle(theme, 1.0)
    QToolTip.showText(shell.mapToGlobal(QPoint(300, 300)), f"Said in {theme.title}", shell)
    tips = [w for w in QApplication.topLevelWidgets() if w.inherits("QTipLabel")]
    seen = pixels(tips[0])
    QToolTip.hideText()
    assert close_to(seen, theme.field, 4) > 0.5 * seen.shape[0] * seen.shape[1]
    assert close_to(seen, theme.text) > 20


# Deep red ------------------------------------------------------------------------


def test_deep_red_leaves_no_white_in_the_whole_window(open_window, qtbot: QtBot) -> None:
    """Red light spares the dark-adapted eye (common practice)."""
    shell = open_window()
    QTest.keyClick(shell, Qt.Key.Key_3, CTRL)
    qtbot.waitUntil(lambda: not shell.workbench.loader.busy)
    red, other = reddest_of(shell)
    assert other <= 0x4A
    assert red > 0xC0


def red_cursor(cursor: QCursor) -> bool:
    image = cursor.pixmap().toImage()
    if image.isNull():
        return False
    seen = [image.pixelColor(x, y) for x in range(image.width()) for y in range(image.height())]
    return all(c.green() < 0x40 and c.blue() < 0x40 for c in seen if c.alpha() > 60) and any(
        c.red() > 0xA0 for c in seen
    )


def test_deep_red_has_red_cursors_everywhere_and_gives_them_back(open_window) -> None:
    shell = open_window(settle=False)
    menus, fields = shell.findChildren(QMenu), shell.findChildren(QLineEdit)
    assert len(menus) >= 6
    assert fields
    QTest.keyClick(shell, Qt.Key.Key_3, CTRL)
    assert all(red_cursor(widget.cursor()) for widget in (shell, *menus, *fields))
    QTest.keyClick(shell, Qt.Key.Key_1, CTRL)
    assert shell.cursor().shape() == Qt.CursorShape.ArrowCursor
    assert {menu.cursor().shape() for menu in menus} == {Qt.CursorShape.ArrowCursor}
    assert {field.cursor().shape() for field in fields} == {Qt.CursorShape.IBeamCursor}


def test_a_window_that_opens_in_deep_red_has_the_cursors_at_once(
    open_window, places: Places
) -> None:
    settings = Settings(places)
    settings.theme = THEMES["deep-red"]
    settings.flush()
    assert red_cursor(open_window(settle=False).cursor())


def test_a_file_is_asked_for_in_red(open_window, places: Places, qtbot: QtBot) -> None:
    """Regression: the dialog had blue folders; the system's own would be white."""
    shell = open_window(settle=False)
    QTest.keyClick(shell, Qt.Key.Key_3, CTRL)
    places.data.mkdir(parents=True, exist_ok=True)
    (places.data / "folder").mkdir()
    shell.settings.plan_path = str(places.data / "plan.json")
    dialog = file_dialog(shell, "Save", "Pictures (*.png)", proposed="sheet.png")
    qtbot.addWidget(dialog)
    assert dialog.testOption(dialog.Option.DontUseNativeDialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    qtbot.waitUntil(lambda: dialog.directory().count() > 2)
    qtbot.wait(100)
    dialog.findChild(QLineEdit).clearFocus()  # its caret is the one thing Qt draws by itself
    red, other = reddest_of(dialog)
    assert other <= 0x4A
    assert red > 0xC0
    assert red_cursor(dialog.cursor())
    assert dialog.directory().absolutePath() == str(places.data)
