"""What a card of the rig strip shows: words, frame, target, and never a cut line."""

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter

from app.rig_strip.card import RigCard
from app.rig_strip.card_paint import CardLayout, CardStyle, paint_card
from app.rig_strip.strip import RigStrip
from app.session import Session
from app.shared.theme import THEMES, Theme, scaled_font
from core.gear.checks import findings
from core.gear.rig import rig_from_numbers
from core.plan import edits
from tests.app.seeing import Dress, Host, close_to, count_of, pixels

pytestmark = pytest.mark.gui


@pytest.fixture
def strip(session: Session, host: Host, dark: Theme) -> RigStrip:
    strip = RigStrip(session, dark)
    strip.live.delay_ms = 0
    host(strip, width=2600)
    return strip


def test_there_is_a_card_for_every_rig_in_the_order_of_the_plan(
    strip: RigStrip, session: Session
) -> None:
    assert [card.rig_id for card in strip.cards] == [rig.id for rig in session.plan.rigs]
    lefts = [card.x() for card in strip.cards]
    assert lefts == sorted(lefts)
    assert [card.face.letter for card in strip.cards] == list("ABCDEFG")


def test_a_card_draws_its_frame_in_the_frames_colour(strip: RigStrip, dark: Theme) -> None:
    for card in strip.cards[:3]:
        assert count_of(card, dark.frames[card.face.colour]) > 40
        assert count_of(card, dark.frames[(card.face.colour + 3) % 8]) == 0


def picture_of(card: RigCard) -> NDArray[np.int64]:
    """Give the pixels of the small picture, without the card's own edge and words."""
    layout = CardLayout(card.face, CardStyle(THEMES["dark"], 1.0))
    right = layout.pad + layout.picture_side
    return pixels(card)[layout.pad + 6 : -layout.pad - 6, layout.pad : right]


def test_a_hidden_card_is_dimmed_and_says_so(
    strip: RigStrip, session: Session, dark: Theme
) -> None:
    card = strip.cards[1]
    colour = dark.frames[card.face.colour]
    before = close_to(picture_of(card), colour)
    session.edit("hide", edits.with_rig_shown(session.plan, card.rig_id, shown=False))
    dimmed = [
        round(0.35 * ink + 0.65 * plate)
        for ink, plate in zip(
            QColor(colour).getRgb()[:3], QColor(dark.plate).getRgb()[:3], strict=True
        )
    ]
    assert before > 20
    assert close_to(picture_of(card), colour) == 0
    assert close_to(picture_of(card), QColor(*dimmed).name(), 16) > 20
    assert "hidden" in card.accessibleName()


def fields(session: Session) -> list[float]:
    return sorted(rig.rig.diagonal_deg for rig in session.plan.rigs if rig.shown)


def test_frames_on_the_cards_are_drawn_to_one_scale(strip: RigStrip, session: Session) -> None:
    widths = {card.face.view.width_deg for card in strip.cards}
    assert len(widths) == 1
    assert widths.pop() >= 2.0 * fields(session)[len(fields(session)) // 2]


def test_the_widest_frame_sets_the_scale_when_the_others_come_near(
    strip: RigStrip, session: Session
) -> None:
    lens = max(session.plan.rigs, key=lambda rig: rig.rig.diagonal_deg)
    assert strip.card(lens.id).face.wider
    session.edit("hide", edits.with_rig_shown(session.plan, lens.id, shown=False))
    widest = fields(session)[-1]
    assert widest <= strip.cards[1].face.view.width_deg <= 1.1 * widest
    assert not strip.cards[1].face.wider


def test_a_frame_beyond_the_picture_says_so_in_its_colour(
    strip: RigStrip, session: Session, dark: Theme
) -> None:
    numbers = {"pixel_um": 3.92, "columns": 6000, "rows": 4000}
    lens = rig_from_numbers("lens", focal_length_mm=24.0, aperture_mm=8.6, **numbers)
    session.edit("add", edits.with_rig(session.plan, lens))
    card = strip.cards[-1]
    inside = picture_of(card)
    assert card.face.wider
    assert close_to(inside[:-24], dark.frames[card.face.colour], 70) > 15
    assert close_to(inside[-24:], dark.quiet) > 8
    assert close_to(picture_of(strip.cards[1])[-24:], dark.quiet) == 0


def test_a_target_without_a_size_has_no_outline(strip: RigStrip, session: Session) -> None:
    card = strip.cards[1]
    tint = "#4a4742"  # a quarter of the marks' colour over the plate
    assert close_to(picture_of(card), tint, 14) > 30
    session.show_target(session.targets.find("PGC 2121"))
    assert session.target is not None
    assert session.target.major_arcmin is None
    assert card.face.verdict is not None
    assert card.face.verdict.short == "size not known"
    assert close_to(picture_of(card), tint, 14) == 0


def test_a_card_names_every_figure_for_a_screen_reader(strip: RigStrip, session: Session) -> None:
    rig = session.plan.rigs[0].rig
    words = strip.cards[0].accessibleName()
    assert words.startswith(f"A, {rig.name}; ")
    for part in (
        f"f/{rig.focal_ratio:.1f}",
        f"{rig.scale_arcsec_px:.2f} arcseconds per pixel",
        f"{rig.width_deg:.1f} by {rig.height_deg:.1f} degrees",
        f"{rig.mass_kg:.1f} kg",
        "camera angle 125.0 degrees",
    ):
        assert part in words


def worst_line(card: RigCard) -> NDArray[np.int64]:
    """Give the pixels of the card's last line."""
    layout = CardLayout(card.face, CardStyle(THEMES["dark"], 1.0))
    bottom = round(layout.top(chosen=card.face.chosen)) + layout.picture_side
    return pixels(card)[bottom - layout.line : bottom, round(layout.text_left) :]


def test_the_worst_finding_stands_on_the_last_line_and_is_told_in_whole(
    strip: RigStrip, session: Session, dark: Theme
) -> None:
    card, rig = strip.cards[1], session.plan.rigs[1].rig
    assert close_to(worst_line(card), dark.bad) == 0
    heavy = rig.but(camera=rig.camera.but(mass_kg=9.0))
    planned = session.plan.rigs[1].but(rig=heavy)
    rigs = (session.plan.rigs[0], planned, *session.plan.rigs[2:])
    session.edit("a heavier camera", session.plan.but(rigs=rigs))
    assert close_to(worst_line(card), dark.bad) > 30
    worst = findings(heavy)[0]
    assert worst.rule == "load"
    assert card.face.worst is not None
    assert card.face.worst.short == f"load {100 * worst.value:.0f} %"
    assert worst.message in card.toolTip()
    assert worst.message in card.accessibleName()
    session.history.undo()
    assert close_to(worst_line(card), dark.bad) == 0


def test_a_finding_of_the_nights_follows_the_nights(strip: RigStrip, session: Session) -> None:
    card = strip.cards[0]
    long = session.plan.nights.but(exposure_s=1800.0)
    session.edit("longer exposures", edits.with_nights(session.plan, long))
    assert card.face.worst is not None
    # 0.276 px of drift in 120 s, 15 times as much in 1800 s
    assert (card.face.worst.level, card.face.worst.short) == ("caution", "polar drift 4.1 px")


def test_a_frame_turned_by_hand_turns_on_its_card(strip: RigStrip, session: Session) -> None:
    card = strip.cards[3]
    before = pixels(card)
    framing = session.framing(card.rig_id)
    session.preview(framing.but(pa_deg=80.0))
    assert card.face.footprint.pa_deg == 80.0
    assert (pixels(card) != before).any()
    session.preview(None)
    assert (pixels(card) == before).all()


@pytest.mark.parametrize("scale", [0.8, 1.0, 1.5, 2.0])
def test_no_words_are_cut_at_any_text_size(
    session: Session, host: Host, dress: Dress, scale: float
) -> None:
    dress(THEMES["dark"], scale)
    strip = RigStrip(session, THEMES["dark"], scale)
    host(strip)
    plain = QFontMetricsF(scaled_font(scale))
    for card in strip.cards:
        layout = CardLayout(card.face, CardStyle(THEMES["dark"], scale))
        room = card.width() - layout.text_left - layout.pad / 2
        assert all(plain.horizontalAdvance(line) <= room for line in card.face.lines)
        assert card.height() >= layout.heading + 4 * plain.height() + 2 * layout.pad
        assert card.box.geometry().right() <= card.width()
    assert strip.viewport().height() >= strip.cards[0].height()


def test_the_paint_of_a_card_stays_on_the_card(session: Session, strip: RigStrip) -> None:
    card = strip.cards[0]
    style = CardStyle(THEMES["dark"], 1.0)
    larger = QImage(card.width() + 200, card.height() + 200, QImage.Format.Format_RGB32)
    larger.fill(0)
    painter = QPainter(larger)
    painter.translate(100, 100)
    paint_card(painter, card.face, style, lit=False)
    painter.end()
    for x in range(0, larger.width(), 3):
        for y in (*range(0, 99, 3), *range(card.height() + 101, larger.height(), 3)):
            assert larger.pixelColor(x, y).value() == 0


def test_without_a_target_cards_show_the_frames_alone(
    session: Session, host: Host, dark: Theme
) -> None:
    session.open_plan(
        session.plan.but(targets=(), framings=(), current_target=None), "without a target"
    )
    strip = RigStrip(session, dark)
    host(strip)
    assert all(card.face.verdict is None for card in strip.cards)
    assert count_of(strip.cards[0], dark.frames[strip.cards[0].face.colour]) > 40


@pytest.mark.parametrize("theme", ["light", "deep-red"])
def test_another_theme_and_size_restyle_every_card(strip: RigStrip, theme: str) -> None:
    height = strip.cards[0].height()
    strip.set_style(THEMES[theme], 1.5)
    assert strip.cards[0].height() > 1.3 * height
    assert count_of(strip.cards[0], THEMES[theme].raised, reach=3) > 500
    if theme == "deep-red":
        assert pixels(strip.cards[0])[..., 1:].max() < 100
