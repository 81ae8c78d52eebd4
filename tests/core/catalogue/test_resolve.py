"""From a typed text to a target: positions and names told apart."""

import pytest

from core.catalogue.resolve import position_target, resolve
from core.catalogue.target import TargetKind
from core.catalogue.targets import TargetTable
from core.errors import BadValueError, CoreError, UnknownTargetError

TABLE = TargetTable.load()

#: 20h58m +44d20' is 20.9667 h x 15; all spellings of one place on the North America Nebula.
PLACES = [
    ("20 58 +44 20", 314.5, 44.0 + 20 / 60), ("20h58m +44d20m", 314.5, 44.0 + 20 / 60),
    ("20:58:00 +44:20:00", 314.5, 44.0 + 20 / 60), ("314.5 44.3333", 314.5, 44.3333),
    ("10.68 41.27", 10.68, 41.27), ("10.68, 41.27", 10.68, 41.27),
    ("RA 10.68 Dec +41.27", 10.68, 41.27), ("J205847+441948", 314.695833, 44.33),
    ("05 35 17.3 -05 23 28", 83.822083, -5.391111),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "ra", "dec"), PLACES)
def test_coordinates_become_a_position(typed: str, ra: float, dec: float) -> None:
    target = resolve(typed, TABLE)
    assert target.kind is TargetKind.POSITION
    assert (target.ra_deg, target.dec_deg) == pytest.approx((ra, dec), abs=1e-5)
    assert not target.size_known
    assert not target.angle_known
    assert not target.approximate


@pytest.mark.parametrize(
    ("typed", "expected"),
    [("M 31", "M 31"), ("PN G063.1+13.9", "M 57"), ("47 Tuc", "NGC 104"), ("h Persei", "NGC 869"),
     ("37 Cyg", "γ Cyg"), ("Simeis 3-188", "Simeis 3-188"), ("m 42", "M 42"), ("d Dra", None)],
)  # fmt: skip
def test_names_with_numbers_are_names(typed: str, expected: str | None) -> None:
    if expected is None:
        with pytest.raises(UnknownTargetError):
            resolve(typed, TABLE)
    else:
        assert resolve(typed, TABLE).id == expected


@pytest.mark.parametrize("typed", ["", "  ", "\t\n"])
def test_an_empty_text_says_what_to_type(typed: str) -> None:
    with pytest.raises(BadValueError, match=r'is empty; type a name \("M 31"\)'):
        resolve(typed, TABLE)


@pytest.mark.parametrize(
    ("typed", "says"),
    [("25 00 +10 00", "right ascension"), ("10 00 +91 00", "declination"),
     ("12 60 +10 00", "60 or more"), ("400.0 10.0", "right ascension"), ("x" * 300, "longer than")],
)  # fmt: skip
def test_a_position_that_cannot_be_says_what_is_wrong(typed: str, says: str) -> None:
    with pytest.raises(BadValueError, match=says) as caught:
        resolve(typed, TABLE)
    assert "\n" not in str(caught.value)


def test_a_number_alone_is_no_place_and_no_name_but_a_hint() -> None:
    with pytest.raises(UnknownTargetError, match="did you mean M 31 or NGC 31"):
        resolve("31", TABLE)


def test_all_refusals_are_of_the_family_of_bad_input() -> None:
    for typed in ("", "31", "25 00 +10 00"):
        with pytest.raises(CoreError):
            resolve(typed, TABLE)


def test_two_positions_have_two_identifiers_and_one_has_one() -> None:
    first, second = position_target(314.5, 44.3), position_target(314.5, 44.300001)
    assert first.id != second.id
    assert first == position_target(314.5, 44.3)
    assert first.name.startswith("20h58m00.0s")
