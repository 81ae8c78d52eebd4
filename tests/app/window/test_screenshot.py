"""The picture of the window: of the size and theme asked for, of nothing of the user's."""

import argparse
import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app import screenshot
from app.picture_loader import PictureLoader

pytestmark = pytest.mark.gui

ROOT = Path(__file__).resolve().parents[3]


def test_a_picture_is_taken_without_touching_what_is_the_user_s(tmp_path: Path) -> None:
    home, picture = tmp_path / "home", tmp_path / "below" / "window.png"
    command = [sys.executable, "-m", "app.screenshot", "-o", str(picture)]
    done = subprocess.run(
        [*command, "--size", "800x600", "--theme", "deep-red", "--ratio", "1.5"],
        cwd=ROOT,
        env={**os.environ, "SKYSILL_HOME": str(home), "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    image = QImage(str(picture))
    assert image.size() == QSize(1200, 900)
    seen = [image.pixelColor(x, y) for x in range(0, 1200, 7) for y in range(0, 900, 7)]
    assert max(colour.green() for colour in seen) <= 0x4A
    assert max(colour.red() for colour in seen) > 0xC0
    assert not home.exists()


def test_it_goes_to_the_target_and_waits_for_the_sky(
    open_window, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    picture, looks = tmp_path / "window.png", []

    def busy(_loader: PictureLoader) -> bool:
        looks.append(picture.exists())
        return len(looks) < 3

    shell, ends = open_window(), []
    monkeypatch.setattr(PictureLoader, "busy", property(busy))
    # The real exit would leave every later event loop of the test run told to end.
    monkeypatch.setattr(QApplication, "exit", staticmethod(ends.append))
    asked = {"target": "M 13", "room": "bench", "rig": "Rucksack kit", "part": ""}
    screenshot._settle(shell, argparse.Namespace(**asked, output=picture))
    qtbot.waitUntil(picture.exists, timeout=10_000)
    assert shell.workbench.session.target.id == "M 13"
    assert shell.workbench.session.bench_open
    assert shell.workbench.bench.header.name.text() == "Rucksack kit"
    assert looks == [False, False, False]
    assert not shell.isVisible()
    assert ends == [0]
