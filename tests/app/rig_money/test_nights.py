"""The nights of the plan, typed: taken, refused, undone, and followed by every rig."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.rig_money.nights import FIGURES, NightsPage
from app.session import Session
from app.shared.theme import Theme
from app.words.finding_words import findings_of
from core.gear.nights import Conditions
from core.plan.document import Plan
from tests.app.rig_money.hands import type_value
from tests.app.seeing import count_of, pixels

pytestmark = pytest.mark.gui
KEY = Qt.Key


def told(nights: NightsPage) -> list[str]:
    lines = (nights.rigs.topLevelItem(n) for n in range(nights.rigs.topLevelItemCount()))
    return [line.text(1) for line in lines]


def test_every_figure_of_the_nights_has_a_field_with_unit_and_usual_values() -> None:
    assert set(FIGURES) == set(Conditions.model_fields)
    for name, figure in FIGURES.items():
        assert figure.units[0]
        assert "Usual: " in figure.help or name == "latitude_deg"


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("seeing_arcsec", "3.5", 3.5),
        ("seeing_arcsec", "4 arcsec", 4.0),
        ("guide_rms_arcsec", "1.2″", 1.2),
        ("exposure_s", "300 s", 300.0),
        ("latitude_deg", "-33.9", -33.9),
        ("latitude_deg", "−33.9°", -33.9),
        ("polar_error_arcmin", "30′", 30.0),
    ],
)
def test_a_typed_figure_goes_into_the_plan_and_undo_takes_it_out(
    qtbot: QtBot, nights: NightsPage, session: Session, name: str, text: str, value: float
) -> None:
    before = session.plan.nights
    type_value(qtbot, nights.fields[name], text)
    assert session.plan.nights == before.but(**{name: value})
    session.history.undo()
    assert session.plan.nights == before
    assert nights.fields[name].text() == f"{getattr(before, name):g}"


@pytest.mark.parametrize(
    ("name", "text", "part"),
    [
        ("seeing_arcsec", "2,5", "write a point for the comma: 2.5"),
        ("seeing_arcsec", "0", "must be more than 0"),
        ("seeing_arcsec", "good", "must be a number"),
        ("seeing_arcsec", "", "must be a number"),
        ("seeing_arcsec", "nan", "must be a number"),
        ("guide_rms_arcsec", "-1", "at least 0"),
        ("exposure_s", "1e9", "must be a number"),
        ("exposure_s", "100000", "at most 86400"),
        ("latitude_deg", "91", "at most 90"),
        ("polar_error_arcmin", "601", "at most 600"),
    ],
)
def test_what_cannot_be_stays_with_one_sentence_and_changes_nothing(
    qtbot: QtBot, nights: NightsPage, session: Session, name: str, text: str, part: str
) -> None:
    before, field = session.plan, nights.fields[name]
    type_value(qtbot, field, text)
    assert session.plan == before
    assert field.wrong
    assert part in field.complaint.text()
    assert field.complaint.isVisible()
    assert field.text() == text


def test_leaving_the_field_takes_the_figure(
    qtbot: QtBot, nights: NightsPage, session: Session
) -> None:
    type_value(qtbot, nights.fields["seeing_arcsec"], "3.1", enter=False)
    assert session.plan.nights.seeing_arcsec != 3.1
    nights.fields["exposure_s"].setFocus()
    assert session.plan.nights.seeing_arcsec == 3.1


def test_every_rig_follows_a_longer_exposure(
    qtbot: QtBot, nights: NightsPage, session: Session, dark: Theme
) -> None:
    words = told(nights)
    assert len(words) == len(session.plan.rigs)
    assert count_of(nights.rigs, dark.caution) == 0
    type_value(qtbot, nights.fields["exposure_s"], "1800")
    assert told(nights) != words
    worst = findings_of(session.plan.rigs[0].rig, session.plan.nights)[0]
    assert (worst.severity, worst.rule) == ("caution", "polar-error")
    assert told(nights)[0] == f"polar drift {worst.value:.1f} px"
    assert worst.message in nights.rigs.topLevelItem(0).toolTip(1)
    assert count_of(nights.rigs, dark.caution) > 10


def test_what_is_being_typed_is_shown_before_it_is_taken_and_escape_gives_it_up(
    qtbot: QtBot, nights: NightsPage, session: Session
) -> None:
    before, words = session.plan, told(nights)
    field = nights.fields["exposure_s"]
    type_value(qtbot, field, "1800", enter=False)
    assert told(nights)[0].startswith("polar drift")
    assert session.plan is before
    qtbot.keyClick(field, KEY.Key_Escape)
    assert told(nights) == words
    assert session.plan is before


def test_only_rules_that_look_at_the_nights_are_told(nights: NightsPage, session: Session) -> None:
    """The fifth rig is loaded to 79 %, which no night changes."""
    assert findings_of(session.plan.rigs[4].rig, session.plan.nights)[0].rule == "load"
    assert told(nights)[4] == "fine sampling"


def test_a_page_that_is_not_seen_catches_up_when_it_is(
    nights: NightsPage, session: Session
) -> None:
    nights.hide()
    changed = session.plan.nights.but(seeing_arcsec=9.0)
    session.edit("nights", session.plan.but(nights=changed))
    assert nights.fields["seeing_arcsec"].text() == "2.5"
    nights.show()
    assert nights.fields["seeing_arcsec"].text() == "9"


def test_a_plan_without_rigs_says_so(nights: NightsPage, session: Session) -> None:
    session.open_plan(Plan(), "begin anew")
    assert not nights.rigs.isVisible()
    assert nights.no_rigs.isVisible()
    assert (pixels(nights.no_rigs) != pixels(nights.no_rigs)[0, 0]).any()


def test_tab_walks_through_the_fields_in_order(qtbot: QtBot, nights: NightsPage) -> None:
    fields = list(nights.fields.values())
    fields[0].setFocus()
    for field in fields[1:]:
        qtbot.keyClick(nights.focusWidget(), KEY.Key_Tab)
        assert field.hasFocus()
