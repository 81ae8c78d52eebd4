"""The pull about the axis of a mount without counterweight, and what a tripod carries."""

import pytest

from core.gear.accessories import Tripod
from core.gear.checks import findings, passes
from core.gear.checks.torque import counterweight_kg, torque_n_m
from core.gear.parts import Mount
from core.gear.rig import Rig
from tests.core.gear.check_kits import equatorial, finding, kit, sensor, spacer, tube

STRAIN = Mount(
    name="strain",
    kind="strain wave",
    load_bare_kg=9.0,
    load_balanced_kg=14.0,
    rated_torque_n_m=18.0,
    axis_to_saddle_mm=110.0,
    mass_kg=3.4,
)
LEGS = Tripod(name="legs", rated_load_kg=20.0, mass_kg=5.0)


def rules_of(rig: Rig) -> set[str]:
    return {one.rule for one in findings(rig)}


def weighing(kg: float, **changes: object) -> Rig:
    """Build a rig of so many kg on the mount (0.3 reducer, 0.7 camera, 0.1 spacer)."""
    return kit(spacer(), telescope=tube(mass_kg=kg - 1.1), **{"mount": STRAIN, **changes})


def test_8_kg_at_200_mm_pull_with_15_69_newton_metres() -> None:
    """M g r with g = 9.80665 (statics)."""
    assert torque_n_m(8.0, 200.0) == pytest.approx(15.69064)


def test_10_kg_at_20_cm_are_balanced_by_5_714_kg_at_35_cm() -> None:
    """Mass times arm on both sides (statics)."""
    assert counterweight_kg(10.0, 200.0, 350.0) == pytest.approx(5.7143, abs=1e-4)


@pytest.mark.parametrize(
    ("kg", "severity"), [(8.1, "good"), (8.2, "caution"), (12.2, "caution"), (12.3, "stop")]
)
def test_the_pull_is_graded_at_two_thirds_and_all_of_the_rating(kg: float, severity: str) -> None:
    """110 mm and half of 80 mm: 1.471 N m a kg; 12 N m at 8.158 kg, 18 N m at 12.236 kg."""
    found = finding("torque", weighing(kg))
    assert (found.severity, found.part) == (severity, "strain")
    assert found.value == pytest.approx(kg * 9.80665 * 0.150)
    assert ("300 mm down a counterweight bar" in found.message) == (severity != "good")


def test_the_counterweight_that_is_told_balances_the_load() -> None:
    """12.4 kg at 150 mm against 300 mm: 6.2 kg."""
    assert "about 6.2 kg" in finding("torque", weighing(12.4)).message


def test_a_counterweight_or_a_mount_without_a_rated_torque_raises_no_question() -> None:
    assert "torque" not in rules_of(weighing(8.0, counterweight=True))
    assert "torque" not in rules_of(weighing(8.0, mount=STRAIN.but(rated_torque_n_m=None)))
    assert "torque" not in rules_of(kit(mount=None))


def test_what_the_torque_still_needs_is_asked_for() -> None:
    rig = weighing(8.0, mount=STRAIN.but(axis_to_saddle_mm=None), camera=sensor(mass_kg=None))
    assert finding("torque", rig).message == (
        "Pull on the mount not known: give the mass of sensor and how far the saddle of strain "
        "is from its axis."
    )


@pytest.mark.parametrize(("rated", "severity"), [(22.0, "good"), (21.0, "note"), (13.0, "stop")])
def test_a_tripod_carries_the_mount_and_all_on_it(rated: float, severity: str) -> None:
    """9 kg mount and 3 + 0.3 + 0.7 + 0.1 kg: 13.1 kg; 60 % of 22 is 13.2, of 21 12.6."""
    rig = kit(spacer(), LEGS.but(rated_load_kg=rated))
    found = finding("tripod", rig)
    assert (found.severity, found.part) == (severity, "legs")
    assert found.value == pytest.approx(13.1)
    assert "and the counterweights" in found.message
    assert passes(rig) == (severity != "stop")


def test_a_tripod_without_a_mount_carries_the_camera_and_no_mount_is_asked_for() -> None:
    alone = kit(spacer(), LEGS, mount=None)
    assert finding("tripod", alone).value == pytest.approx(4.1)
    assert "counterweights" not in finding("tripod", alone).message
    assert "load" not in rules_of(alone)
    assert "load" in rules_of(kit(mount=None))


def test_a_tripod_is_not_carried_by_the_mount_and_its_rating_is_asked_for() -> None:
    rig = kit(spacer(), LEGS.but(rated_load_kg=None), mount=equatorial(mass_kg=None))
    assert rig.mass_kg == pytest.approx(4.1)
    assert finding("tripod", rig).message == (
        "Load on the tripod not known: give the mass of mount and the rated load of legs."
    )
