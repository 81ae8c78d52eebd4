"""The words for rigs, fits and targets: right figures, right units, doubts said."""

import pytest
from PySide6.QtGui import QColor

from app.session import Session
from app.shared.frame_ink import contrast, frame_ink
from app.shared.theme import THEMES
from app.side_panel.frame_actions import shown_angle
from app.words.fit_words import fill_words, inside_words, room_words, verdict_of
from app.words.rig_words import (
    area_words,
    field_words,
    load_words,
    money_words,
    optics_words,
    scale_words,
    spoken,
)
from app.words.target_words import angle_words, box_words, doubt_words, row_words, title_of
from core.catalogue.target import Target, TargetKind
from core.catalogue.targets import TargetTable
from core.framing.fit import Fit, fill_and_cover
from core.gear.rig import Rig, rig_from_numbers
from core.plan.document import planned_target
from core.sky.footprint import Footprint


def rig(focal_length_mm: float, aperture_mm: float, **more: float) -> Rig:
    return rig_from_numbers(
        "one",
        focal_length_mm=focal_length_mm,
        aperture_mm=aperture_mm,
        pixel_um=3.76,
        columns=6248,
        rows=4176,
        **more,
    )


def test_optics_give_aperture_effective_focal_length_and_ratio() -> None:
    assert optics_words(rig(480, 80)) == "80/480 f/6"
    assert optics_words(rig(480, 80, factor=0.8)) == "80/384 f/4.8"
    assert optics_words(rig(85, 30.4)) == "30.4/85 f/2.8"


def test_scale_and_field_are_the_textbook_ones() -> None:
    # 206264.8 * 0.00376 / 480 = 1.6157 arcsec; 2 atan(23.492 / 960) = 2.8036 degrees,
    # 2 atan(15.702 / 960) = 1.8742 degrees: textbook geometry, worked by hand
    assert scale_words(rig(480, 80)) == "1.62″/px"
    assert field_words(rig(480, 80)) == "2.80 × 1.87°"


def test_fields_change_unit_with_their_size() -> None:
    assert field_words(rig(2000, 200)) == "40.4 × 27.0′"
    assert field_words(rig(1000, 200)) == "1.35° × 54.0′"
    assert field_words(rig(85, 30)) == "15.7 × 10.6°"


def test_area_changes_unit_with_its_size() -> None:
    assert area_words(5.2341) == "5.23 square degrees"
    assert area_words(0.05) == "180 square arcmin"


def test_unknown_mass_and_price_say_so() -> None:
    assert load_words(rig(480, 80), "EUR") == "mass and price not known"


def test_money_carries_its_sign_and_never_breaks() -> None:
    assert money_words(1940.0, "EUR") == "1\N{NO-BREAK SPACE}940\N{NO-BREAK SPACE}€"
    assert money_words(25.4, "CHF") == "25\N{NO-BREAK SPACE}CHF"


def test_spoken_words_hold_no_sign_that_readers_skip() -> None:
    said = spoken("80/480 f/6 · 1.62″/px, −5′ of 2.80 × 1.87°")
    assert not set("″′°×−·") & set(said)
    assert "minus 5 arcminutes" in said


def m31(**changes: object) -> Target:
    figures = {"major_arcmin": 178.0, "minor_arcmin": 70.0, "pa_deg": 35.0, **changes}
    return Target("M 31", "Andromeda Galaxy", TargetKind.GALAXY, 10.68, 41.27, **figures)


def fit(width_deg: float, height_deg: float, **changes: object) -> Fit:
    return fill_and_cover(m31(**changes), Footprint(10.68, 41.27, width_deg, height_deg, 125.0))


def test_a_fit_is_told_with_the_room_it_leaves() -> None:
    # half of 4 degrees less half of 178 arcmin is 31 arcmin
    verdict = verdict_of(fit(4.0, 3.0))
    assert verdict is not None
    assert (verdict.level, verdict.short) == ("good", "fits, 31′ to spare")
    assert inside_words(fit(4.0, 3.0)) == "all"
    assert room_words(fit(4.0, 3.0)) == "top 55′ · right 31′\nbottom 55′ · left 31′"


def test_a_cut_is_told_with_the_part_inside_and_a_negative_room() -> None:
    cut = fit(2.8, 1.9)
    verdict = verdict_of(cut)
    assert verdict is not None
    assert cut.covered is not None
    assert verdict.level == "caution"
    assert verdict.short == f"cut: {int(cut.covered * 100)} % in"
    assert "right −5.0′" in room_words(cut)
    assert fill_words(cut) == "106 %"


def test_nearly_all_is_never_told_as_all() -> None:
    nearly = Fit(fill=1.001, covered=0.99999, room_arcmin=(1.0, -0.1, 1.0, 1.0))
    assert inside_words(nearly) == "99 %"
    hardly = Fit(fill=0.5, covered=0.0004, room_arcmin=(1.0, -90.0, 1.0, 1.0))
    assert inside_words(hardly) == "< 1 %"


def test_an_assumed_circle_is_told_as_such() -> None:
    verdict = verdict_of(fit(4.0, 3.0, pa_deg=None))
    assert verdict is not None
    assert verdict.short == "fits, 1.0′ to spare if round"
    assert verdict.full.endswith("taken as round")


def test_without_a_size_nothing_is_said_to_fit() -> None:
    unknown = fit(40.0, 30.0, major_arcmin=None, minor_arcmin=None, pa_deg=None)
    verdict = verdict_of(unknown)
    assert verdict is not None
    assert (verdict.level, verdict.short) == ("", "size not known")
    assert (fill_words(unknown), inside_words(unknown)) == ("–", "–")
    assert verdict_of(None) is None


def test_a_target_outside_is_bad() -> None:
    away = fill_and_cover(m31(), Footprint(30.0, 41.27, 2.0, 2.0, 0.0))
    verdict = verdict_of(away)
    assert verdict is not None
    assert (verdict.level, verdict.short) == ("bad", "outside the frame")


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
def test_every_frame_colour_can_be_read_on_the_ground(theme: object) -> None:
    for colour in range(8):
        ink = QColor(frame_ink(theme, colour))
        # least contrast of text: W3C, WCAG 2.1, criterion 1.4.3
        assert contrast(ink, QColor(theme.raised)) >= 4.5


def test_contrast_of_black_and_white_is_21() -> None:
    # W3C, WCAG 2.1, definition of contrast ratio: from 1 to 21
    assert contrast(QColor("black"), QColor("white")) == pytest.approx(21.0)
    assert contrast(QColor("#777777"), QColor("#777777")) == 1.0


def test_a_scene_stands_under_its_name_and_an_object_under_its_designation(
    targets: TargetTable,
) -> None:
    veil, galaxy = targets.find("Scene Veil"), targets.find("M 31")
    assert title_of(veil) == "Veil Nebula"
    assert title_of(galaxy) == "M 31"
    assert row_words(veil).endswith("approximate")
    assert box_words(planned_target(galaxy)) == "Andromeda Galaxy · 178′ × 70′"


def test_round_is_told_from_unknown() -> None:
    assert angle_words(m31(minor_arcmin=178.0, pa_deg=None)) == "round"
    assert angle_words(m31(pa_deg=None)) == "angle not known"


def test_a_bare_position_has_nothing_to_doubt(session: Session) -> None:
    from core.catalogue.resolve import position_target

    assert doubt_words(planned_target(position_target(10.0, 20.0)), None) == []


def test_a_shown_angle_never_says_360() -> None:
    assert shown_angle(359.97) == "0.0° N through E"
