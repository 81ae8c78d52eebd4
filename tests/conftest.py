"""What every test stands on: no screen, no network for Earth orientation."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, database=None)
settings.load_profile("steady")


@pytest.fixture(autouse=True, scope="session")
def _no_earth_orientation_downloads() -> None:
    from astropy.utils import iers

    iers.conf.auto_download = False
    iers.conf.auto_max_age = None
