"""The shelf costs nothing at the start: nothing of it is imported before it is asked for."""

from pathlib import Path

import pytest

from tests.app.apart import run_apart

pytestmark = pytest.mark.gui

_PROBE = """
import sys
from app.shared.application import application
from app.window import startup
app, places = application(), startup.user_places()
shell = startup.Shell(startup.Settings(places))
opener = startup.connected(shell, startup.Opener(places, None), places)
WANTED = ("app.shelf_file", "core.gear.shelf.shelf")
def furnished():
    before = [name for name in sys.modules if name.startswith(WANTED)]
    shell.workbench.menus.shelf.fill_rigs()
    print(before, all(name in sys.modules for name in WANTED))
    app.exit(0)
shell.furnished.connect(furnished)
shell.show()
opener.start()
app.exec()
"""


def test_nothing_of_the_shelf_is_imported_before_its_rigs_are_listed(tmp_path: Path) -> None:
    assert run_apart(_PROBE, SKYSILL_HOME=str(tmp_path)).strip() == "[] True"
