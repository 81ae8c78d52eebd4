"""Keeps a plan in one JSON file, whole or not at all.

A file that is no plan of this version is refused in one sentence and left as it is. A
damaged autosave is set aside under another name, never written over.
"""

from pathlib import Path

from core.errors import PlanFileError
from core.paths import ASSETS
from core.plan.document import Plan
from core.record.beside import set_aside
from core.record.record_file import read_record, write_record

__all__ = ["demo_plan", "load_plan", "save_plan", "set_aside"]

_DEMO = ASSETS / "demo" / "plan.json"


def load_plan(path: Path | str) -> Plan:
    """Read a plan.

    Parameters
    ----------
    path : Path or str

    Raises
    ------
    PlanFileError
        When the file is missing, not a file, above 16 MB (then it is not read), cut off,
        not JSON, made by a later version, or has a field that breaks a rule; the message
        names the file, the place and the rule.
    StorageError
        When the disk or its rights refuse.
    """
    return read_record(Path(path), Plan, refused_as=PlanFileError)


def save_plan(plan: Plan, path: Path | str) -> None:
    """Write a plan; what was there before stays until all of the new one is on the disk.

    Parameters
    ----------
    plan : Plan
    path : Path or str
        Its folder must exist.

    Raises
    ------
    StorageError
        When the disk is full or refuses; the file is then as it was.
    PlanFileError
        When the plan is larger than what `load_plan` reads.
    """
    write_record(Path(path), plan, refused_as=PlanFileError)


def demo_plan() -> Plan:
    """Read the plan that comes with the program."""
    return load_plan(_DEMO)
