"""``skysill check`` looks under the plan's nights, or under those that were typed."""

import json
from pathlib import Path

import pytest

from core.gear.nights import Conditions
from core.plan.edits import with_nights
from core.plan.store import demo_plan, save_plan
from tests.app.cli.conftest import Command
from tests.app.cli.test_refusals import assert_refused


def value_of(command: Command, rule: str, *words: str) -> float:
    ran = command("check", *words, "--json")
    assert (ran.status, ran.err) == (0, "")
    (found,) = (one for one in json.loads(ran.out)["findings"] if one["rule"] == rule)
    return float(found["value"])


def test_the_nights_of_the_plan_count(command: Command, tmp_path: Path) -> None:
    """10 arcsec a minute for 30 s are 5.0 arcsec; 9.512 arcsec/px: 0.526 px."""
    save_plan(with_nights(demo_plan(), Conditions(exposure_s=30.0)), tmp_path / "mine.json")
    words = ("Wide loan kit", "--plan", str(tmp_path / "mine.json"))
    assert value_of(command, "unguided", *words) == pytest.approx(5.0 / 9.512, rel=1e-3)
    typed = value_of(command, "unguided", *words, "--exposure", "60")
    assert typed == pytest.approx(10.0 / 9.512, rel=1e-3)


@pytest.mark.parametrize(
    ("words", "rule", "factor"),
    [
        (("--polar-error", "20"), "polar-error", 4.0),
        (("--exposure", "60,0"), "polar-error", 0.5),
        (("--exposure", "240"), "unguided", 2.0),
    ],
)
def test_an_option_goes_before_the_plan(
    command: Command, words: tuple[str, ...], rule: str, factor: float
) -> None:
    usual = value_of(command, rule, "Wide loan kit")
    assert value_of(command, rule, "Wide loan kit", *words) == pytest.approx(factor * usual)


def test_seeing_guiding_and_latitude_are_heard(command: Command) -> None:
    """Seeing 4, guiding 1: sqrt(16 + 2.3548^2 + 3.84^2) = 6.03, diffraction 3.84 of 30.4 mm."""
    ran = command("check", "A", "--seeing", "4", "--guiding", "1", "--latitude", "-33.9")
    words = " ".join(ran.out.split())
    assert "the air blurs stars to 4 arcsec" in words
    assert "about 6.0 arcsec wide" in words
    assert ran.err == ""


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--seeing", "soft"), 'seeing "soft": must be a number of arcsec'),
        (("--seeing", "0"), 'seeing "0 arcsec": must be more than 0 arcsec'),
        (("--guiding", "-1"), 'guiding error "-1 arcsec": must be at least 0 arcsec'),
        (("--exposure", "1e9"), 'exposure "1000000000 seconds": must be at most 86400 seconds'),
        (("--exposure", "nan"), 'exposure "nan seconds": must be a finite number'),
        (("--latitude", "-91"), 'latitude "-91 degrees": must be at least -90 degrees'),
        (("--latitude", ""), 'latitude "": must be a number of degrees'),
        (("--polar-error", "601"), 'polar error "601 arcmin": must be at most 600 arcmin'),
        (("--polar-error",), "Option '--polar-error' requires an argument"),
    ],
)
def test_nights_that_cannot_be_are_refused_in_one_line(
    command: Command, words: tuple[str, ...], told: str
) -> None:
    assert_refused(command("check", "A", *words), told)


def test_the_help_lists_the_nights(command: Command) -> None:
    shown = command("check", "--help").out
    for option in ("--seeing", "--guiding", "--exposure", "--latitude", "--polar-error"):
        assert option in shown
