"""What a target says of its size and angle, and how far each is trusted."""

import pytest

from core.catalogue.target import Target, TargetKind


def _target(**fields: object) -> Target:
    return Target(**{"id": "X 1", "name": "X", "kind": TargetKind.GALAXY, "ra_deg": 1.0,
                     "dec_deg": 2.0, **fields})  # type: ignore[arg-type]  # fmt: skip


@pytest.mark.parametrize(
    ("major", "minor", "status", "words"),
    [
        (177.83, 69.66, "catalogue", "178′ × 70′"), (100.0, 100.0, "published", "100′"),
        (150.0, 75.0, "partly", "about 150′ × 75′"), (110.0, 110.0, "unverified", "about 110′"),
        (6.72, 5.59, "catalogue", "6.7′ × 5.6′"), (0.5, 0.4, "catalogue", "30″ × 24″"),
        (0.94, None, "catalogue", "56″"), (0.96, None, "catalogue", "1.0′"),
        (None, None, "published", "size not known"),
    ],
)  # fmt: skip
def test_the_size_in_words(
    major: float | None, minor: float | None, status: str, words: str
) -> None:
    target = _target(major_arcmin=major, minor_arcmin=minor, status=status)
    assert target.size_words == words
    assert target.size_known is (major is not None)


@pytest.mark.parametrize(
    ("pa", "angle_status", "trusted", "words"),
    [
        (35.0, "catalogue", True, "PA 35°"), (0.0, "published", True, "PA 0°"),
        (79.0, "computed", False, "about PA 79°"), (0.0, "described", False, "about PA 0°"),
        (0.0, "memory", False, "about PA 0°"), (90.0, "unverified", False, "about PA 90°"),
        (None, "catalogue", False, "angle not known"), (12.0, "", False, "about PA 12°"),
    ],
)  # fmt: skip
def test_the_angle_in_words_and_whether_it_may_turn_the_camera(
    pa: float | None, angle_status: str, trusted: bool, words: str
) -> None:
    target = _target(pa_deg=pa, angle_status=angle_status)
    assert target.angle_trusted is trusted
    assert target.angle_words == words
    assert target.angle_known is (pa is not None)


@pytest.mark.parametrize(
    ("status", "approximate"),
    [("published", False), ("catalogue", False), ("partly", True), ("unverified", True)],
)
def test_what_is_neither_published_nor_catalogued_is_approximate(
    status: str, approximate: bool
) -> None:
    assert _target(status=status).approximate is approximate


def test_kinds_are_words_to_show() -> None:
    assert [str(kind) for kind in TargetKind][:4] == [
        "galaxy", "open cluster", "globular cluster", "planetary nebula",
    ]  # fmt: skip
