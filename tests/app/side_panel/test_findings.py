"""Findings in the side panel: the worst first, with mark and source, what is fine folded."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES, Theme
from app.side_panel.findings import FindingsList
from app.side_panel.panel import SidePanel
from core.gear.checks import findings
from core.plan import edits
from tests.app.seeing import Dress, Host, count_of

pytestmark = pytest.mark.gui
KEY, LEFT = Qt.Key, Qt.MouseButton.LeftButton


def choose(session: Session, place: int) -> None:
    plan = edits.with_current_rig(session.plan, session.plan.rigs[place].id)
    session.edit("choose", plan)


def sentences(panel: SidePanel) -> list[str]:
    return [row.sentence.text() for row in panel.findings.rows if row.isVisible()]


def lowered(text: str) -> str:
    return text[:1].lower() + text[1:]


def test_the_findings_of_the_chosen_rig_stand_worst_first_without_the_good(
    panel: SidePanel, session: Session
) -> None:
    for place in (0, 4, 5):
        choose(session, place)
        found = findings(session.plan.rigs[place].rig, session.plan.nights)
        wanted = [lowered(f.message) for f in found if f.severity != "good"]
        assert wanted
        assert [lowered(text) for text in sentences(panel)] == wanted


def test_the_good_ones_are_counted_and_open_and_close_by_a_click(
    qtbot: QtBot, panel: SidePanel, session: Session
) -> None:
    choose(session, 4)
    found = findings(session.plan.rigs[4].rig, session.plan.nights)
    good = [f for f in found if f.severity == "good"]
    assert f"and {len(good)} that are fine" in panel.findings.fold.text()
    shown = len(sentences(panel))
    qtbot.mouseClick(panel.findings.fold, LEFT)
    assert len(sentences(panel)) == len(found)
    assert lowered(sentences(panel)[-1]) == lowered(good[-1].message)
    qtbot.mouseClick(panel.findings.fold, LEFT)
    assert len(sentences(panel)) == shown


def test_the_fold_opens_by_the_keyboard(qtbot: QtBot, panel: SidePanel, session: Session) -> None:
    choose(session, 4)
    shown = len(sentences(panel))
    panel.findings.fold.setFocus()
    qtbot.keyClick(panel.findings.fold, KEY.Key_Space)
    assert len(sentences(panel)) > shown


def test_a_caution_carries_its_mark_and_a_source_in_smaller_type(
    panel: SidePanel, session: Session, dark: Theme
) -> None:
    choose(session, 4)
    row = panel.findings.rows[0]
    worst = findings(session.plan.rigs[4].rig, session.plan.nights)[0]
    assert worst.severity == "caution"
    assert count_of(row.mark, dark.caution) > 12
    assert lowered(row.source.text()) == lowered(worst.source)
    assert row.source.fontMetrics().height() < row.sentence.fontMetrics().height()
    assert row.source.y() > row.sentence.y()
    assert row.accessibleName() == f"Take care: {worst.message}"


def test_what_is_not_known_has_a_ring_and_says_what_to_give(
    panel: SidePanel, session: Session, dark: Theme
) -> None:
    planned = session.plan.rigs[4]
    unweighed = planned.rig.but(camera=planned.rig.camera.but(mass_kg=None))
    rigs = tuple(r.but(rig=unweighed) if r is planned else r for r in session.plan.rigs)
    session.edit("no mass", session.plan.but(rigs=rigs))
    choose(session, 4)
    row = next(r for r in panel.findings.rows if r.sentence.text().startswith("Load"))
    assert f"give the mass of {unweighed.camera.name}" in row.sentence.text()
    ring = count_of(row.mark, dark.quiet, reach=60)
    middle = row.mark.grab().toImage()
    at = middle.rect().center()
    centre = middle.pixelColor(at.x(), row.mark.contentsMargins().top() // 2 + at.y())
    assert ring > 8
    assert centre.name() == dark.ground


def test_hard_words_are_explained_on_the_finding(panel: SidePanel, session: Session) -> None:
    choose(session, 0)
    row = next(r for r in panel.findings.rows if "dither" in r.sentence.text())
    assert "dithering: to shift the frame" in row.toolTip()
    assert "seeing: how much the moving air" in row.toolTip()


def test_the_findings_follow_the_nights_and_undo(panel: SidePanel, session: Session) -> None:
    choose(session, 0)
    before = sentences(panel)
    long = session.plan.nights.but(exposure_s=1800.0)
    session.edit("longer", edits.with_nights(session.plan, long))
    assert "1800 s" in sentences(panel)[0]
    session.history.undo()
    assert sentences(panel) == before


def test_without_a_chosen_rig_there_are_no_findings(panel: SidePanel, session: Session) -> None:
    session.edit("choose none", edits.with_current_rig(session.plan, None))
    assert not panel.findings.isVisible()


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_no_sentence_is_cut_at_any_text_size(
    session: Session, host: Host, dress: Dress, scale: float
) -> None:
    dress(THEMES["light"], scale)
    found = FindingsList(session, THEMES["light"], scale)
    found.fold.click()
    host(found, width=round(300 * scale), height=4000)
    assert len(found.rows) > 8
    assert found.width() <= round(300 * scale)
    for row in found.rows:
        for label in (row.sentence, row.source):
            assert label.height() >= label.heightForWidth(label.width())
        assert row.source.y() >= row.sentence.y() + row.sentence.height()
