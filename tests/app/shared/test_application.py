"""Qt's application object: one, with its name and its type."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.shared.application import application

pytestmark = pytest.mark.gui

ROOT = Path(__file__).resolve().parents[3]
SCRIPT = """
from PySide6.QtGui import QFontDatabase
from app.shared.application import application
made = application()
print(made.applicationName(), made.applicationDisplayName(), "B612" in QFontDatabase.families())
"""


def test_there_is_one_application(qapp: QApplication) -> None:
    assert application() is qapp


def test_the_application_has_its_name_and_its_type() -> None:
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT],
        cwd=ROOT,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stdout) == (0, "skysill Skysill True\n"), done.stderr
