"""The history: freed in order, whoever frees it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.gui

ROOT = Path(__file__).resolve().parents[3]
SCRIPT = """
import gc
from PySide6.QtWidgets import QApplication
from app.session import Session
from core.plan.store import demo_plan

app = QApplication([])
for _ in range(10):
    session = Session(demo_plan(), None, None)
    session.ring = session if RING else None
    for step in range(20):
        session.change_view(mirrored=bool(step % 2))
    for _ in range(5):
        session.history.undo()
    session.change_view(graticule=True)
    steps = [session.history.command(place) for place in range(session.history.count())]
    assert len(steps) > 10
    del session, steps
    gc.collect()
print("freed")
"""


@pytest.mark.parametrize("ring", [True, False])
def test_a_session_that_python_frees_frees_each_step_once(ring: bool) -> None:
    """Regression: Python and Qt both freed the steps, and the process died."""
    done = subprocess.run(
        [sys.executable, "-c", f"RING = {ring}\n{SCRIPT}"],
        cwd=ROOT,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stdout) == (0, "freed\n"), done.stderr
