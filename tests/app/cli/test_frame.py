"""What `skysill frame` answers: its fields, and its figures against WCSLIB and by hand."""

import json
import math
from pathlib import Path

import numpy as np
import pytest

from app.cli.output import print_json
from core.plan.document import Framing
from core.plan.edits import with_framing, with_target
from core.plan.store import demo_plan, save_plan
from core.sky.tangent_plane import TangentPlane
from tests.app.cli.conftest import Command
from tests.core.sky.wcslib import TOLERANCE_ARCSEC, apart_arcsec, wcs_of

NUMBERS = ("--focal-length", "400", "--aperture", "80", "--pixel", "3.76", "--pixels", "6248x4176")
TARGET_FIELDS = {
    "name": str,
    "kind": str,
    "ra_deg": float,
    "dec_deg": float,
    "major_arcmin": float | None,
    "minor_arcmin": float | None,
    "pa_deg": float | None,
}
RIG_FIELDS = {
    "name": str,
    "aperture_mm": float,
    "focal_length_mm": float,
    "focal_ratio": float,
    "scale_arcsec_px": float,
    "width_deg": float,
    "height_deg": float,
    "centre_deg": list,
    "pa_deg": float,
    "corners_deg": list,
    "fill": float | None,
    "covered": float | None,
}


def answer_of(command: Command, *words: str) -> dict:
    ran = command("frame", *words, "--json")
    assert (ran.status, ran.err) == (0, "")
    return json.loads(ran.out)


@pytest.mark.parametrize("target", ["M 31", "20 58 +44 20", "LDN 935"])
def test_json_has_every_field_that_is_promised_of_the_promised_type(
    command: Command, target: str
) -> None:
    answer = answer_of(command, target)
    for field, kind in TARGET_FIELDS.items():
        assert isinstance(answer["target"][field], kind), field
    assert len(answer["rigs"]) == len(demo_plan().rigs) >= 5
    for rig in answer["rigs"]:
        for field, kind in RIG_FIELDS.items():
            assert isinstance(rig[field], kind), field
        assert np.shape(rig["centre_deg"]) == (2,)
        assert np.shape(rig["corners_deg"]) == (4, 2)
        assert 0.0 <= rig["pa_deg"] < 360.0
        assert rig["covered"] is None or 0.0 <= rig["covered"] <= 1.0


def test_a_rig_in_numbers_has_the_figures_worked_by_hand(command: Command) -> None:
    """80/400 with 3.76 um: 1.938889 arcsec/px; width 2 atan(6248 x 3.76e-3 / 800)."""
    (rig,) = answer_of(command, "M 31", *NUMBERS)["rigs"]
    assert rig["focal_ratio"] == 5.0
    assert rig["scale_arcsec_px"] == pytest.approx(1.938889, abs=1e-6)
    assert rig["width_deg"] == pytest.approx(
        2.0 * math.degrees(math.atan(6248 * 3.76e-3 / 800.0)), rel=1e-12
    )


def test_a_factor_changes_focal_length_and_ratio_but_not_the_aperture(command: Command) -> None:
    """f_eff = m f, N_eff = m N: thin-lens algebra."""
    (rig,) = answer_of(command, "M 31", *NUMBERS, "--factor", "0.8")["rigs"]
    figures = (rig["focal_length_mm"], rig["focal_ratio"], rig["aperture_mm"])
    assert figures == pytest.approx((320.0, 4.0, 80.0))


@pytest.mark.parametrize("pa", ["0", "33.5", "90", "-30", "271"])
@pytest.mark.parametrize("centre", ["10.68 41.27", "0.001 -0.5", "123 89.99", "359.999 -90"])
def test_corners_are_where_wcslib_puts_them(command: Command, centre: str, pa: str) -> None:
    """A header written by hand from the field, the angle and the pixels."""
    (rig,) = answer_of(command, "M 31", *NUMBERS, "--centre", centre, "--pa", pa)["rigs"]
    step_x = math.degrees(2.0 * math.tan(math.radians(rig["width_deg"] / 2.0))) / 6248
    step_y = math.degrees(2.0 * math.tan(math.radians(rig["height_deg"] / 2.0))) / 4176
    sin, cos = math.sin(math.radians(float(pa))), math.cos(math.radians(float(pa)))
    ra_deg, dec_deg = map(float, centre.split())
    header = {
        **{"CTYPE1": "RA---TAN", "CTYPE2": "DEC--TAN", "CRVAL1": ra_deg, "CRVAL2": dec_deg},
        **{"CRPIX1": 3124.5, "CRPIX2": 2088.5, "LONPOLE": 180.0},
        **{"CD1_1": -cos * step_x, "CD1_2": sin * step_y},
        **{"CD2_1": sin * step_x, "CD2_2": cos * step_y},
    }
    pixels = [[0.5, 4176.5], [6248.5, 4176.5], [6248.5, 0.5], [0.5, 0.5]]
    theirs = wcs_of(header).wcs_pix2world(pixels, 1)
    assert apart_arcsec(rig["corners_deg"], theirs).max() < TOLERANCE_ARCSEC
    assert rig["centre_deg"] == pytest.approx([ra_deg, dec_deg], abs=1e-12)
    assert rig["pa_deg"] == pytest.approx(float(pa) % 360.0, abs=1e-12)


def test_m31_fits_a_frame_turned_along_it_and_not_one_turned_across(command: Command) -> None:
    """178 x 70 arcmin at PA 35 in 3.36 x 2.25 degrees: the long side needs PA 125."""
    (along,) = answer_of(command, "M 31", *NUMBERS, "--pa", "125")["rigs"]
    (across,) = answer_of(command, "M 31", *NUMBERS, "--pa", "35")["rigs"]
    assert along["fill"] < 1.0 == along["covered"]
    assert across["fill"] > 1.0 > across["covered"]
    assert along["fill"] == pytest.approx(177.83 / 60.0 / along["width_deg"], rel=2e-3)
    (suggested,) = answer_of(command, "M 31", *NUMBERS)["rigs"]
    assert suggested["pa_deg"] % 180.0 == pytest.approx(125.0)


def test_what_is_not_known_is_null(command: Command) -> None:
    answer = answer_of(command, "20 58 +44 20", *NUMBERS)
    assert answer["target"]["kind"] == "position"
    assert answer["target"]["major_arcmin"] is None
    assert (answer["rigs"][0]["fill"], answer["rigs"][0]["covered"]) == (None, None)


@pytest.mark.parametrize(
    ("words", "ra_deg", "dec_deg"),
    [
        (("20", "58", "-44", "20"), 314.5, -44.0 - 1.0 / 3.0),
        (("20:58:00", "-44:20:00"), 314.5, -44.0 - 1.0 / 3.0),
        (("83.8", "-5.4"), 83.8, -5.4),
        (("20h58m +44°20′",), 314.5, 44.0 + 1.0 / 3.0),
    ],
)
def test_a_position_may_be_typed_with_or_without_quotes(
    command: Command, words: tuple[str, ...], ra_deg: float, dec_deg: float
) -> None:
    target = answer_of(command, *words, *NUMBERS)["target"]
    assert (target["ra_deg"], target["dec_deg"]) == pytest.approx((ra_deg, dec_deg), abs=1e-9)


def test_rigs_are_chosen_by_name_or_letter_in_any_case(command: Command) -> None:
    names = [planned.rig.name for planned in demo_plan().rigs]
    answer = answer_of(command, "M", "31", "--rig", names[2].upper(), "--rig", "b", "--rig", "B")
    assert [rig["name"] for rig in answer["rigs"]] == [names[2], names[1]]


def test_named_rigs_and_one_in_numbers_stand_side_by_side(command: Command) -> None:
    answer = answer_of(command, "M 31", "--rig", "A", *NUMBERS)
    assert len(answer["rigs"]) == 2
    assert answer["rigs"][1]["name"] == "80/400 with 6248 × 4176 px"


def test_a_stored_framing_of_the_plan_is_kept_and_an_angle_given_goes_before_it(
    command: Command, tmp_path: Path
) -> None:
    plan = demo_plan()
    plan = with_target(plan, plan.targets[0])
    rig, target = plan.rigs[0].id, plan.targets[0].id
    framing = Framing(target=target, rig=rig, ra_deg=314.0, dec_deg=44.0, pa_deg=77.0)
    save_plan(with_framing(plan, framing), tmp_path / "mine.json")
    words = (target, "--plan", str(tmp_path / "mine.json"), "--rig", "A")
    (kept,) = answer_of(command, *words)["rigs"]
    assert (kept["centre_deg"], kept["pa_deg"]) == ([314.0, 44.0], 77.0)
    (turned,) = answer_of(command, *words, "--pa", "10")["rigs"]
    assert (turned["centre_deg"], turned["pa_deg"]) == ([314.0, 44.0], 10.0)


def test_without_a_plan_named_the_one_as_it_was_left_is_used(command: Command, home: Path) -> None:
    plan = demo_plan()
    (home / "data").mkdir(parents=True)
    save_plan(
        plan.but(rigs=plan.rigs[:1], framings=(), current_rig=None), home / "data/open-plan.json"
    )
    assert len(answer_of(command, "M 31")["rigs"]) == 1


def test_a_target_only_the_plan_knows_is_found_by_its_name(
    command: Command, tmp_path: Path
) -> None:
    plan = demo_plan()
    own = plan.targets[0].but(id="own-1", name="The dark lane behind the barn")
    save_plan(plan.but(targets=(*plan.targets, own)), tmp_path / "mine.json")
    words = ("the DARK lane behind the barn", "--plan", str(tmp_path / "mine.json"))
    assert answer_of(command, *words)["target"]["id"] == "own-1"


def test_the_table_for_people_names_target_rigs_and_verdict(command: Command) -> None:
    ran = command("frame", "M 31")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("M 31, Andromeda Galaxy · galaxy · 0h42m44.4s +41°16′09″ · 177.8′")
    for planned in demo_plan().rigs:
        assert planned.rig.name in ran.out
    assert "fits, " in ran.out
    assert "cut at " in ran.out
    assert "size not known" in command("frame", "20 58 +44 20").out


def test_brackets_in_a_name_are_letters_and_no_markup(command: Command, tmp_path: Path) -> None:
    plan = demo_plan()
    rig = plan.rigs[0].rig.but(name="kit [red]one[/red]")
    first = plan.rigs[0].but(rig=rig)
    save_plan(plan.but(rigs=(first, *plan.rigs[1:])), tmp_path / "mine.json")
    assert (
        "kit [red]one[/red]" in command("frame", "M 31", "--plan", str(tmp_path / "mine.json")).out
    )


def test_a_figure_that_is_no_number_is_null(capsys: pytest.CaptureFixture[str]) -> None:
    """JSON (RFC 8259) has neither NaN nor infinity."""
    print_json({"a": math.nan, "b": [math.inf, {"c": -math.inf}], "d": 1.5})
    assert json.loads(capsys.readouterr().out) == {"a": None, "b": [None, {"c": None}], "d": 1.5}


def test_the_picture_shows_the_asked_rigs_only_and_holds_their_frames(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet_image = pytest.importorskip("app.sky_sheet.image")
    drawn = []
    monkeypatch.setattr(sheet_image, "save_sheet_image", lambda *given: drawn.append(given))
    words = ("--rig", "A", "--rig", "D", "--picture", str(tmp_path / "x.png"), "--json")
    ran = command("frame", "M 31", *words)
    ((plan, path, size),) = drawn
    assert path == tmp_path / "x.png"
    assert [plan.flag(rig.id) for rig in plan.rigs if rig.shown] == ["A", "D"]
    plane = TangentPlane(plan.view.ra_deg, plan.view.dec_deg)
    half = math.tan(math.radians(plan.view.width_deg / 2.0))
    corners = np.radians([rig["corners_deg"] for rig in json.loads(ran.out)["rigs"]])
    xi, eta = np.abs(plane.forward(corners[..., 0], corners[..., 1]))
    assert 0.5 < max(xi.max() / half, eta.max() * size[0] / size[1] / half) < 0.95


@pytest.mark.gui
def test_a_picture_is_drawn_with_every_frame_inside(command: Command, tmp_path: Path) -> None:
    from PIL import Image

    path = tmp_path / "sheet.png"
    assert command("frame", "M 31", "--rig", "A", "--picture", str(path), "--json").status == 0
    with Image.open(path) as image:
        assert image.format == "PNG"
        assert image.size == (1280, 800)
        assert len(image.convert("RGB").getcolors(1 << 24) or ()) > 1000, "a sky, not a blank"
