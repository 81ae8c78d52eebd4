"""The Qt binding itself: releases that break us are kept out, and would be seen."""

import sys
import tomllib
from pathlib import Path

import PySide6
import pytest
from packaging.requirements import Requirement
from PySide6.QtWidgets import QGraphicsRectItem
from pytestqt.qtbot import QtBot

PYPROJECT = Path(__file__).parents[2] / "pyproject.toml"

pytestmark = pytest.mark.gui


def test_void_qt_calls_keep_their_references_to_none(qtbot: QtBot) -> None:
    """PySide6 6.12.0 lost one for each call on Python 3.11, and aborted after some thousand."""
    item = QGraphicsRectItem(0.0, 0.0, 10.0, 10.0)
    item.setRotation(1.0)
    before = sys.getrefcount(None)
    for angle in range(500):
        item.setRotation(angle)
    assert abs(sys.getrefcount(None) - before) < 50


@pytest.mark.parametrize("release", ["6.11.0", "6.11.1", "6.12.0"])
def test_releases_that_break_us_are_not_installed(release: str) -> None:
    """6.11.0 and 6.11.1 broke dock widgets, 6.12.0 the counting of None."""
    needs = tomllib.loads(PYPROJECT.read_text())["project"]["dependencies"]
    qt = next(need for need in map(Requirement, needs) if need.name.startswith("PySide6"))
    assert not qt.specifier.contains(release)
    assert qt.specifier.contains(PySide6.__version__)
