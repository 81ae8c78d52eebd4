"""The nights a rig is for: bounds, and the sentence when one is passed."""

import pytest

from core.errors import BadValueError
from core.gear.nights import Conditions


@pytest.mark.parametrize(
    ("field", "value", "message"),
    [
        ("seeing_arcsec", 0.0, 'seeing "0 arcsec": must be more than 0 arcsec'),
        ("seeing_arcsec", 61.0, 'seeing "61 arcsec": must be at most 60 arcsec'),
        ("guide_rms_arcsec", -1.0, 'guiding error "-1 arcsec": must be at least 0 arcsec'),
        ("exposure_s", 0.0, 'exposure "0 seconds": must be more than 0 seconds'),
        ("exposure_s", 86_401.0, 'exposure "86401 seconds": must be at most 86400 seconds'),
        ("latitude_deg", 91.0, 'latitude "91 degrees": must be at most 90 degrees'),
        ("polar_error_arcmin", -0.1, 'polar error "-0.1 arcmin": must be at least 0 arcmin'),
        ("polar_error_arcmin", 601.0, 'polar error "601 arcmin": must be at most 600 arcmin'),
    ],
)
def test_nights_that_cannot_be_are_refused_in_a_sentence(
    field: str, value: float, message: str
) -> None:
    with pytest.raises(BadValueError, match=message):
        Conditions(**{field: value})
