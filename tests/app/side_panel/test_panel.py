"""The side panel: it reads the plan, follows the hand, does what its buttons say."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES, Theme
from app.side_panel.panel import SidePanel
from app.side_panel.target import NO_TARGET
from core.plan import edits
from core.plan.document import Plan
from tests.app.seeing import Dress, Host, close_to, pixels, point_at
from tests.app.side_panel.hands import framing

pytestmark = pytest.mark.gui
KEY, LEFT = Qt.Key, Qt.MouseButton.LeftButton


def cell(panel: SidePanel, row: int, column: int) -> str:
    return str(panel.table.model().index(row, column).data())


def words(panel: SidePanel) -> str:
    return " | ".join(label.text() for label in panel.findChildren(QLabel) if label.isVisible())


# The target --------------------------------------------------------------------


def test_the_target_is_told_with_all_its_facts(panel: SidePanel) -> None:
    told = words(panel)
    for part in ("M 31", "Andromeda Galaxy", "galaxy · 178′ × 70′ · PA 35°", "mag V", "OpenNGC"):
        assert part in told


def test_what_is_not_known_is_said_plainly(panel: SidePanel, session: Session) -> None:
    session.show_target(session.targets.find("PGC 2121"))
    assert "Its size is not known" in words(panel)
    assert cell(panel, 0, 1) == "–"
    assert "Size not known." in words(panel)
    session.show_target(session.targets.find("NGC 7000"))
    assert "Its angle is not known" in words(panel)


def test_an_approximate_target_says_so_with_its_status(panel: SidePanel, session: Session) -> None:
    target = session.targets.find("Scene Veil")
    session.show_target(target)
    assert target.approximate
    assert f"approximate: {target.status}" in words(panel)
    assert "not sure enough" in panel.numbers.along.toolTip()
    assert not panel.numbers.along.isEnabled()


def test_without_a_target_the_panel_says_what_to_do(panel: SidePanel, session: Session) -> None:
    session.open_plan(Plan(), "begin anew")
    assert words(panel) == NO_TARGET
    assert not panel.table.isVisible()
    assert not panel.numbers.centre.isVisible()


def test_without_a_chosen_rig_the_panel_says_what_to_do(panel: SidePanel, session: Session) -> None:
    session.edit("choose none", edits.with_current_rig(session.plan, None))
    assert "No rig is chosen" in words(panel)
    assert panel.table.isVisible()
    assert not panel.numbers.centre.isVisible()


# The table ---------------------------------------------------------------------


def test_the_table_has_a_row_for_every_rig(panel: SidePanel, session: Session) -> None:
    letters = [cell(panel, row, 0) for row in range(panel.table.model().rowCount())]
    assert letters == list("ABCDEFG")
    rig = session.plan.rigs[0].rig
    assert cell(panel, 0, 3) == f"{rig.scale_arcsec_px:.2f}″"
    assert cell(panel, 0, 4) == f"{rig.width_deg:.1f} × {rig.height_deg:.1f}°"
    assert cell(panel, 0, 2) == "all"


def test_the_letters_stand_in_the_colours_of_their_frames(panel: SidePanel, dark: Theme) -> None:
    for row in range(3):
        rect = panel.table.visualRect(panel.table.model().index(row, 0))
        part = pixels(panel.table.viewport())[rect.top() : rect.bottom(), : rect.right()]
        assert close_to(part, dark.frames[row]) > 5


def test_a_row_under_the_pointer_lights_its_frame(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    heard: list[str] = []
    session.rig_hovered.connect(heard.append)
    view = panel.table.viewport()
    before = pixels(view)
    point_at(view, panel.table.visualRect(panel.table.model().index(1, 3)).center())
    point_at(view, panel.table.visualRect(panel.table.model().index(2, 3)).center())
    assert heard[-1] == session.plan.rigs[2].id
    assert (pixels(view) != before).any()
    point_at(panel.window().elsewhere)
    assert heard[-1] == ""


def test_a_click_on_a_row_chooses(qtbot: QtBot, panel: SidePanel, session: Session) -> None:
    rect = panel.table.visualRect(panel.table.model().index(1, 2))
    qtbot.mouseClick(panel.table.viewport(), LEFT, pos=rect.center())
    assert session.plan.current_rig == session.plan.rigs[1].id
    assert panel.numbers.heading.text().startswith("B · ")


def test_rows_by_keyboard_choose_and_hide(qtbot: QtBot, panel: SidePanel, session: Session) -> None:
    panel.table.setFocus()
    panel.table.setCurrentIndex(panel.table.model().index(0, 0))
    qtbot.keyClick(panel.table, KEY.Key_Down)
    qtbot.keyClick(panel.table, KEY.Key_Down)
    qtbot.keyClick(panel.table, KEY.Key_Return)
    assert session.plan.current_rig == session.plan.rigs[2].id
    qtbot.keyClick(panel.table, KEY.Key_Space)
    assert not session.plan.rigs[2].shown


def test_a_hidden_row_is_dimmed(panel: SidePanel, session: Session, dark: Theme) -> None:
    rect = panel.table.visualRect(panel.table.model().index(1, 4))

    def text_pixels() -> int:
        part = pixels(panel.table.viewport())[rect.top() : rect.bottom(), rect.left() :]
        return close_to(part, dark.text, 16)

    assert text_pixels() > 10
    hidden = edits.with_rig_shown(session.plan, session.plan.rigs[1].id, shown=False)
    session.edit("hide", hidden)
    assert text_pixels() == 0


# Following the hand ------------------------------------------------------------


def test_the_numbers_follow_a_frame_in_the_hand(panel: SidePanel, session: Session) -> None:
    before = framing(session)
    cut = cell(panel, 3, 2)
    session.preview(before.but(dec_deg=before.dec_deg + 1.5, pa_deg=80.0))
    assert panel.numbers.angle.text() == "80.0° N through E"
    assert cut == "all"
    assert cell(panel, 3, 2).endswith(" %")
    assert "inside, cut at " in panel.numbers.verdict.text()
    session.preview(None)
    assert panel.numbers.angle.text() == f"{before.pa_deg:.1f}° N through E"
    assert cell(panel, 3, 2) == "all"


def test_a_throttled_panel_shows_the_first_and_the_last_place(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    panel.live.delay_ms = 20
    shown: list[str] = []
    panel.numbers.angle.textChanged.connect(shown.append)
    before = framing(session)
    for pa_deg in range(60, 80):
        session.preview(before.but(pa_deg=float(pa_deg)))
    assert shown == ["60.0° N through E"]
    qtbot.waitUntil(lambda: not panel.live.waiting)
    assert shown[-1] == "79.0° N through E"
    assert len(shown) < 10


# Buttons -----------------------------------------------------------------------


def test_turn_by_90_turns_north_through_east(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    session.edit("turn", edits.with_framing(session.plan, framing(session).but(pa_deg=300.0)))
    qtbot.mouseClick(panel.numbers.quarter, LEFT)
    assert framing(session).pa_deg == pytest.approx(30.0)


def test_along_the_target_turns_the_shorter_way_and_keeps_the_centre(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    moved = framing(session).but(pa_deg=290.0, dec_deg=41.0)
    session.edit("turn", edits.with_framing(session.plan, moved))
    qtbot.mouseClick(panel.numbers.along, LEFT)
    # the galaxy lies at PA 35; the frame is wider than high, so its up is 90 away
    assert framing(session) == moved.but(pa_deg=305.0)


def test_back_to_target_forgets_the_hand(qtbot: QtBot, panel: SidePanel, session: Session) -> None:
    suggested = framing(session)
    assert not panel.numbers.back.isEnabled()
    session.edit("move", edits.with_framing(session.plan, suggested.but(ra_deg=12.0)))
    assert panel.numbers.back.isEnabled()
    qtbot.mouseClick(panel.numbers.back, LEFT)
    assert framing(session) == suggested


def test_copied_numbers_stand_on_the_clipboard(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    with qtbot.waitSignal(session.said) as said:
        qtbot.mouseClick(panel.numbers.copy, LEFT)
    assert "clipboard" in said.args[0]
    text = QGuiApplication.clipboard().text()
    assert session.rig is not None
    assert "Centre in degrees: 10.68" in text
    assert "Camera angle: 125.00°" in text
    corners = session.footprint(session.rig.id).corners_deg()
    for ra_deg, dec_deg in corners.tolist():
        assert f"{ra_deg:.6f} {dec_deg:+.6f}" in text


# At any size -------------------------------------------------------------------


@pytest.mark.parametrize("scale", [0.8, 1.0, 1.5, 2.0])
def test_the_panel_needs_no_sideways_scrolling_at_its_own_width(
    session: Session, host: Host, dress: Dress, scale: float
) -> None:
    dress(THEMES["dark"], scale)
    panel = SidePanel(session, THEMES["dark"], scale)
    window = host(panel, width=200, height=900)
    margins = window.layout().contentsMargins()
    window.resize(panel.sizeHint().width() + margins.left() + margins.right(), 900)
    panel.table.fit()
    assert panel.horizontalScrollBar().maximum() == 0
    wanted = [panel.table.sizeHintForColumn(c) for c in range(5)]
    assert all(panel.table.columnWidth(c) >= wanted[c] for c in range(5))


def test_every_figure_has_a_name_for_a_screen_reader(panel: SidePanel) -> None:
    assert panel.numbers.centre.accessibleName() == "Centre"
    assert "Camera angle" in panel.numbers.angle.accessibleName()
    assert "arcseconds per pixel" in panel.numbers.values["Image scale"].accessibleName()
    index = panel.table.model().index(0, 0)
    said = index.data(Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith("A · ")
    assert "to spare" in said
