"""Centre and angle typed into the side panel: taken, refused, kept while a hand types."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import Theme
from app.side_panel.panel import SidePanel
from core.plan import edits
from tests.app.seeing import count_of
from tests.app.side_panel.hands import framing, type_value

pytestmark = pytest.mark.gui
KEY = Qt.Key


@pytest.mark.parametrize("text", ["0 42 00 +41 00 00", "0h42m +41d", "10.5 41.0"])
def test_a_typed_centre_in_any_spelling_moves_the_frame(
    qtbot: QtBot, panel: SidePanel, session: Session, text: str
) -> None:
    before = framing(session)
    type_value(qtbot, panel.numbers.centre, text)
    # 42 minutes of right ascension are 10.5 degrees: 15 arcminutes a minute
    assert framing(session) == before.but(ra_deg=10.5, dec_deg=41.0)
    assert panel.numbers.centre.text() == "0h42m00.0s +41°00′00″"
    assert session.history.undoText() == "move D"
    session.history.undo()
    assert framing(session) == before


@pytest.mark.parametrize(
    ("text", "pa_deg"), [("80", 80.0), ("-30", 330.0), ("35 30", 35.5), ("12.5° N through E", 12.5)]
)
def test_a_typed_angle_turns_the_frame(
    qtbot: QtBot, panel: SidePanel, session: Session, text: str, pa_deg: float
) -> None:
    type_value(qtbot, panel.numbers.angle, text)
    assert framing(session).pa_deg == pytest.approx(pa_deg)
    assert panel.numbers.angle.text() == f"{pa_deg:.1f}° N through E"
    assert session.history.undoText() == "turn D"


def test_leaving_the_field_takes_the_value(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    type_value(qtbot, panel.numbers.angle, "77", enter=False)
    assert framing(session).pa_deg != 77.0
    panel.window().elsewhere.setFocus()
    assert framing(session).pa_deg == 77.0


def test_a_visit_without_typing_changes_nothing(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    exact = framing(session).but(ra_deg=10.68470123, pa_deg=12.3456)
    session.edit("move", edits.with_framing(session.plan, exact))
    panel.numbers.centre.setFocus()
    qtbot.keyClick(panel.numbers.centre, KEY.Key_Return)
    panel.numbers.angle.setFocus()
    panel.window().elsewhere.setFocus()
    assert framing(session) == exact


@pytest.mark.parametrize(
    ("field", "text", "part"),
    [
        ("centre", "25h +41", "between 0h and 24h"),
        ("centre", "0 42 +91", "between -90 and +90"),
        ("centre", "somewhere", "somewhere"),
        ("angle", "north", "north"),
        ("angle", "99999", "between -3600 and 3600"),
    ],
)
def test_wrong_input_stays_with_a_sentence_under_it(
    qtbot: QtBot, panel: SidePanel, session: Session, field: str, text: str, part: str
) -> None:
    before = session.plan
    line = getattr(panel.numbers, field)
    type_value(qtbot, line, text)
    panel.window().elsewhere.setFocus()
    assert session.plan == before
    assert line.text() == text
    assert line.wrong
    assert line.property("wrong") is True
    assert part in line.complaint.text()
    assert line.complaint.isVisible()
    assert line.complaint.y() > line.y()


def test_the_mark_of_wrong_input_is_seen_and_goes_with_escape(
    qtbot: QtBot, panel: SidePanel, dark: Theme
) -> None:
    angle = panel.numbers.angle
    shown = angle.text()
    assert count_of(angle, dark.bad) == 0
    type_value(qtbot, angle, "north")
    assert count_of(angle, dark.bad) > angle.width()
    qtbot.keyClick(angle, KEY.Key_Escape)
    assert angle.text() == shown
    assert not angle.complaint.isVisible()
    assert count_of(angle, dark.bad) == 0


def test_a_text_being_typed_survives_a_change_elsewhere(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    type_value(qtbot, panel.numbers.angle, "12", enter=False)
    session.preview(framing(session).but(pa_deg=200.0))
    assert panel.numbers.angle.text() == "12"
    session.preview(None)
    qtbot.keyClicks(panel.numbers.angle, "3")
    qtbot.keyClick(panel.numbers.angle, KEY.Key_Return)
    assert framing(session).pa_deg == 123.0


def test_another_rig_forgets_what_was_typed_for_the_one_before(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    type_value(qtbot, panel.numbers.angle, "north")
    other = session.plan.rigs[0].id
    session.edit("choose", edits.with_current_rig(session.plan, other))
    assert not panel.numbers.angle.wrong
    assert panel.numbers.angle.text().endswith("N through E")
