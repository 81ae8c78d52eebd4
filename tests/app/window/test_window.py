"""The whole window: opened as a person opens it, left and opened again, with bad weather."""

import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.picture_loader import SurveyService
from app.window.opening import open_everything
from app.window.places import Places, user_places
from app.window.settings import Settings
from app.window.shell import Shell
from core.pictures.cache import PictureCache
from core.pictures.fetch import Servers
from core.pictures.surveys import SURVEYS
from core.pictures.transfer import Limits
from core.plan.store import load_plan
from tests.core.pictures.cutout_server import serving, well_mannered

pytestmark = pytest.mark.gui

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Places:
    """Folders of a user who never ran the program."""
    monkeypatch.setenv("SKYSILL_HOME", str(tmp_path / "home"))
    return user_places()


@pytest.fixture
def open_window(
    qtbot: QtBot, places: Places, stars, targets, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Callable[..., Shell]]:
    """Open the window as the command does; it is closed at the end of the test."""
    monkeypatch.setattr("app.window.opening.StarCatalogue.open", lambda: stars)
    monkeypatch.setattr("app.window.opening.TargetTable.load", lambda: targets)
    style = QApplication.instance().styleSheet()
    shells: list[Shell] = []

    def open_one(plan_path: str | None = None, settle: bool = True) -> Shell:
        shell = Shell(Settings(places))
        shells.append(shell)
        with qtbot.waitSignal(shell.furnished, timeout=20_000):
            shell.show()
            shell.show_sky(open_everything(places, plan_path), places)
            shell.furnish()
        shell.activateWindow()
        qtbot.waitUntil(shell.isActiveWindow)
        if settle:
            session = shell.workbench.session
            qtbot.waitUntil(lambda: session.chart is not None, timeout=20_000)
            qtbot.waitUntil(lambda: not shell.workbench.loader.busy, timeout=20_000)
        return shell

    yield open_one
    for shell in shells:
        shell.close()
        shell.deleteLater()
    # Qt must be through with the widgets before it drops the style they point to.
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QApplication.instance().setStyleSheet(style)


def message(shell: Shell) -> str:
    return shell.workbench.status.text


def use_service(shell: Shell, address: str, cache: PictureCache | None = None, **limits) -> None:
    servers = Servers((address,), Limits(**limits)) if limits else Servers((address,))
    shell.workbench.loader.service = SurveyService(servers, cache)


# Opening ------------------------------------------------------------------------


def test_the_first_start_shows_the_demo_with_its_frames(open_window) -> None:
    bench = open_window().workbench
    session = bench.session
    assert session.target is not None
    assert len(session.plan.rigs) >= 5
    assert session.chart is not None
    assert "catalogues" in session.credit
    assert len(bench.sheet.layers.shapes(bench.sheet.transform)) == len(session.plan.rigs)


def test_what_was_left_is_there_at_the_next_start(open_window, places: Places) -> None:
    first = open_window()
    session = first.workbench.session
    QTest.keyClick(first.workbench.sheet, Qt.Key.Key_Left, CTRL)
    session.change_view(mirrored=True)
    left = session.plan
    first.close()
    assert load_plan(places.open_plan) == left
    assert open_window().workbench.session.plan == left


def test_a_change_is_kept_without_closing(open_window, places: Places, qtbot: QtBot) -> None:
    shell = open_window()
    QTest.keyClick(shell.workbench.sheet, Qt.Key.Key_Left, CTRL)
    changed = shell.workbench.session.plan
    qtbot.waitUntil(
        lambda: places.open_plan.exists() and load_plan(places.open_plan) == changed, timeout=5000
    )


def test_a_damaged_plan_is_set_aside_and_said_and_the_demo_opens(
    open_window, places: Places
) -> None:
    places.data.mkdir(parents=True)
    places.open_plan.write_text('{"format": "skysill-plan", "version": 1, "ri')
    shell = open_window()
    assert "damaged-1" in message(shell)
    assert (places.data / "open-plan.damaged-1.json").read_text().endswith('"ri')
    assert shell.workbench.session.plan.rigs


def test_a_plan_file_that_is_none_is_named_and_the_last_plan_opens(
    open_window, tmp_path: Path
) -> None:
    bad = tmp_path / "holiday.json"
    bad.write_text("[]")
    shell = open_window(str(bad))
    assert "holiday.json" in message(shell)
    assert shell.workbench.session.plan.rigs


def test_theme_and_text_size_are_remembered(open_window, places: Places) -> None:
    shell = open_window()
    QTest.keyClick(shell, Qt.Key.Key_3, CTRL)
    assert shell.settings.theme.key == "deep-red"
    shell.workbench.restyle(shell.settings.theme, 1.5)
    shell.close()
    again = Settings(places)
    assert (again.theme.key, again.text_scale) == ("deep-red", 1.5)


# Deep red -----------------------------------------------------------------------


def test_deep_red_leaves_no_white_in_the_whole_window(open_window, qtbot: QtBot) -> None:
    """Red light spares the dark-adapted eye (common practice)."""
    shell = open_window()
    QTest.keyClick(shell, Qt.Key.Key_3, CTRL)
    qtbot.waitUntil(lambda: not shell.workbench.loader.busy)
    image = shell.grab().toImage()
    rows = np.frombuffer(image.constBits(), np.uint8)
    seen = rows.reshape(image.height(), image.bytesPerLine() // 4, 4)[:, : image.width()]
    assert int(seen[..., :2].max()) <= 0x4A
    assert int(seen[..., 2].max()) > 0xC0
    assert not shell.cursor().pixmap().isNull()


# By keyboard --------------------------------------------------------------------


def test_a_person_types_a_name_turns_and_undoes_by_keys_alone(open_window) -> None:
    shell = open_window()
    session = shell.workbench.session
    QTest.keyClick(shell, Qt.Key.Key_L, CTRL)
    field = QApplication.focusWidget()
    QTest.keyClicks(field, "ngc7000")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert session.target.id == "NGC 7000"
    assert "North America" in shell.windowTitle()
    sheet = shell.workbench.sheet
    sheet.setFocus()
    before = session.framing(session.rig.id).pa_deg
    QTest.keyClick(sheet, Qt.Key.Key_Left, CTRL)
    assert session.framing(session.rig.id).pa_deg != before
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert session.framing(session.rig.id).pa_deg == before
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert session.target.id != "NGC 7000"


@pytest.mark.parametrize(
    ("key", "field"), [(Qt.Key.Key_U, "camera_up"), (Qt.Key.Key_M, "mirrored"),
                       (Qt.Key.Key_G, "graticule")]
)  # fmt: skip
def test_a_key_switches_the_view_and_undo_switches_it_back(open_window, key, field) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    before = getattr(session.plan.view, field)
    QTest.keyClick(shell, key, CTRL)
    assert getattr(session.plan.view, field) is not before
    QTest.keyClick(shell, Qt.Key.Key_Z, CTRL)
    assert getattr(session.plan.view, field) is before


def test_names_go_and_come_by_kind(open_window) -> None:
    shell = open_window()
    session = shell.workbench.session
    QTest.keyClick(shell, Qt.Key.Key_N, CTRL)
    assert session.plan.view.labels == ()
    names = {action.text(): action for action in shell.workbench.menus.view.actions()}
    kinds = {a.text(): a for a in names["Names and outlines"].menu().actions()}
    kinds["Galaxy"].trigger()
    assert session.plan.view.labels == ("galaxy",)
    assert kinds["Galaxy"].isChecked()


# Files --------------------------------------------------------------------------


def test_save_and_open_bring_the_plan_back(open_window, tmp_path: Path) -> None:
    shell = open_window()
    session, files = shell.workbench.session, shell.workbench.menus.files
    QTest.keyClick(shell.workbench.sheet, Qt.Key.Key_Left, CTRL)
    saved = session.plan
    files.save_to(str(tmp_path / "mine.json"))
    files.open_demo()
    assert session.plan != saved
    files.open(str(tmp_path / "mine.json"))
    assert session.plan == saved
    session.history.undo()
    assert session.plan.framings != saved.framings or session.plan.rigs != saved.rigs


@pytest.mark.parametrize(
    ("content", "word"),
    [
        (b'{"format": "skysill-plan", "version": 1, "title"', "cut off"),
        (b'{"format": "skysill-plan", "version": 7}', "later version"),
        (b"GIF89a", "not JSON"),
        (b'{"format": "skysill-plan", "version": 1, "rigs": 3}', "rigs"),
    ],
)
def test_a_bad_plan_file_is_one_sentence_and_nothing_is_lost(
    open_window, tmp_path: Path, content: bytes, word: str
) -> None:
    shell = open_window(settle=False)
    before = shell.workbench.session.plan
    bad = tmp_path / "bad.json"
    bad.write_bytes(content)
    shell.workbench.menus.files.open(str(bad))
    assert word in message(shell)
    assert "bad.json" in message(shell)
    assert shell.workbench.session.plan == before


def test_saving_where_nothing_can_be_written_says_so(open_window) -> None:
    shell = open_window(settle=False)
    shell.workbench.menus.files.save_to("/nowhere/at/all/plan.json")
    assert "/nowhere/at/all" in message(shell)


def test_the_sheet_is_saved_as_a_picture_with_its_credit(open_window, tmp_path: Path) -> None:
    from PySide6.QtGui import QImage

    shell = open_window()
    shell.workbench.menus.files.save_picture(str(tmp_path / "sheet"))
    image = QImage(str(tmp_path / "sheet.png"))
    size = shell.workbench.sheet.size()
    assert (image.width(), image.height()) == (2 * size.width(), 2 * size.height())
    ground = image.pixel(4, image.height() - 4)
    written = {
        image.pixel(x, y) != ground
        for x in range(image.width() - 300, image.width() - 60)
        for y in range(image.height() - 34, image.height() - 6)
    }
    assert True in written


# The sky by network -------------------------------------------------------------


def choose_survey(shell: Shell) -> None:
    shell.workbench.session.change_view(picture=SURVEYS[0].id)


def wait_for_pictures(shell: Shell, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not shell.workbench.loader.busy, timeout=20_000)


def test_a_survey_comes_and_is_credited(open_window, qtbot: QtBot) -> None:
    shell = open_window()
    with serving() as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
    session = shell.workbench.session
    assert session.survey is not None
    assert session.credit == SURVEYS[0].credit
    assert server.questions[-1]["hips"] == SURVEYS[0].id
    assert SURVEYS[0].name in shell.workbench.bar.sky.text()


def test_a_survey_picture_lies_right_way_round_on_the_sheet(open_window, qtbot: QtBot) -> None:
    """The loopback's pattern: red grows to the east, green to the north."""
    shell = open_window()
    with serving() as (address, _):
        use_service(shell, address)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
    sheet = shell.workbench.sheet
    session = shell.workbench.session
    session.edit("bare", session.plan.but(rigs=(), framings=(), current_rig=None))
    session.change_view(labels=(), graticule=False)
    wait_for_pictures(shell, qtbot)
    image, middle = sheet.grab().toImage(), sheet.sky_rect.center()

    def at(dx: int, dy: int):
        return image.pixelColor((middle + QPointF(dx, dy)).toPoint())

    assert at(-200, 30).red() > at(200, 30).red() + 30
    assert at(30, -150).green() > at(30, 150).green() + 30


@pytest.mark.parametrize(
    ("manners", "word"),
    [
        (lambda h, q: h.answer(b'{"title":"Bad","description":"no such survey"}', 404), "no such"),
        (lambda h, q: h.answer(b"<html>oops</html>", 500, "text/html"), "500"),
        (lambda h, q: h.answer(b"\xff\xd8\xff not a picture"), ""),
        (lambda h, q: h.answer(b""), ""),
    ],
    ids=["refused", "broken", "garbage", "empty"],
)
def test_a_rude_survey_service_leaves_the_chart_and_one_line(
    open_window, qtbot: QtBot, manners, word: str
) -> None:
    shell = open_window()
    chart = shell.workbench.session.chart
    with serving(manners) as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
        qtbot.wait(700)
        assert len(server.questions) == 1, "a refusal is not asked for again by itself"
        QTest.keyClick(shell, Qt.Key.Key_F5)
        qtbot.waitUntil(lambda: len(server.questions) == 2, timeout=10_000)
        wait_for_pictures(shell, qtbot)
    session = shell.workbench.session
    assert session.survey is None
    assert session.chart is chart
    assert "catalogues" in session.credit
    assert SURVEYS[0].name in message(shell)
    assert "drawn sky" in message(shell)
    assert word in message(shell)


def test_an_absent_service_leaves_the_chart_and_one_line(open_window, qtbot: QtBot) -> None:
    shell = open_window()
    use_service(shell, "http://127.0.0.1:9/cutout")
    choose_survey(shell)
    wait_for_pictures(shell, qtbot)
    assert shell.workbench.session.survey is None
    assert "drawn sky" in message(shell)


def test_a_slow_service_can_be_stopped_and_the_window_answers_meanwhile(
    open_window, qtbot: QtBot
) -> None:
    held = threading.Event()

    def slow(handler, question) -> None:
        held.wait(10.0)
        well_mannered(handler, question)

    shell = open_window()
    bench = shell.workbench
    with serving(slow) as (address, server):
        use_service(shell, address)
        choose_survey(shell)
        qtbot.waitUntil(lambda: bool(server.questions), timeout=10_000)
        stop = next(
            b for b in bench.status.children() if getattr(b, "text", lambda: "")() == "Stop"
        )
        assert stop.isVisible()
        before = bench.session.framing(bench.session.rig.id).pa_deg
        QTest.keyClick(bench.sheet, Qt.Key.Key_Left, CTRL)
        assert bench.session.framing(bench.session.rig.id).pa_deg != before
        QTest.mouseClick(stop, Qt.MouseButton.LeftButton)
        wait_for_pictures(shell, qtbot)
        held.set()
    assert bench.session.survey is None
    assert not stop.isVisible()


def test_a_picture_brought_once_is_there_without_a_network(
    open_window, qtbot: QtBot, tmp_path: Path
) -> None:
    shell = open_window()
    cache = PictureCache(tmp_path / "pictures", limit_bytes=10**8)
    session = shell.workbench.session
    with serving() as (address, _):
        use_service(shell, address, cache)
        choose_survey(shell)
        wait_for_pictures(shell, qtbot)
    first = session.survey
    session.change_view(picture="chart")
    wait_for_pictures(shell, qtbot)
    assert session.survey is None
    use_service(shell, "http://127.0.0.1:9/cutout", cache)
    choose_survey(shell)
    wait_for_pictures(shell, qtbot)
    assert np.array_equal(session.survey.pixels, first.pixels)


def test_a_mistake_of_the_program_is_said_and_the_plan_kept(open_window) -> None:
    shell = open_window(settle=False)
    before = shell.workbench.session.plan
    shell.tell_mistake("ZeroDivisionError: division by zero")
    assert "plan is kept" in message(shell)
    assert shell.workbench.session.plan == before


# Targets of the plan ------------------------------------------------------------


def test_keys_go_round_the_targets_of_the_plan(open_window) -> None:
    shell = open_window(settle=False)
    session = shell.workbench.session
    ids = [target.id for target in session.plan.targets]
    start = ids.index(session.target.id)
    QTest.keyClick(shell, Qt.Key.Key_PageDown, CTRL)
    assert session.target.id == ids[(start + 1) % len(ids)]
    QTest.keyClick(shell, Qt.Key.Key_PageUp, CTRL)
    QTest.keyClick(shell, Qt.Key.Key_PageUp, CTRL)
    assert session.target.id == ids[start - 1]


def test_the_targets_menu_goes_there_and_takes_one_out(open_window) -> None:
    shell = open_window(settle=False)
    session, menu = shell.workbench.session, shell.workbench.menus.targets
    menu.fill()
    other = session.plan.targets[-1]
    next(a for a in menu.actions() if a.text().startswith(other.id)).trigger()
    assert session.target == other
    menu.fill()
    next(a for a in menu.actions() if a.text().startswith("Take ")).trigger()
    assert other not in session.plan.targets
    session.history.undo()
    assert other in session.plan.targets


def test_a_plan_without_targets_or_rigs_opens_and_says_so(open_window, tmp_path: Path) -> None:
    from core.plan.document import Plan
    from core.plan.store import save_plan

    save_plan(Plan(title="Empty"), tmp_path / "empty.json")
    shell = open_window(str(tmp_path / "empty.json"), settle=False)
    assert shell.workbench.session.target is None
    assert not shell.grab().isNull()


def test_a_dropped_plan_is_opened(open_window, tmp_path: Path) -> None:
    from core.plan.document import Plan
    from core.plan.store import save_plan

    save_plan(Plan(title="Dropped"), tmp_path / "dropped.json")
    shell = open_window(settle=False)
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(tmp_path / "dropped.json"))])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    entering = QDragEnterEvent(QPoint(5, 5), Qt.DropAction.CopyAction, data, left, none)
    QApplication.sendEvent(shell, entering)
    assert entering.isAccepted()
    QApplication.sendEvent(
        shell, QDropEvent(QPointF(5, 5), Qt.DropAction.CopyAction, data, left, none)
    )
    assert shell.workbench.session.plan.title == "Dropped"
