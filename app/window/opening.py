"""What the window needs before it can be furnished: catalogues and the plan."""

from dataclasses import dataclass
from pathlib import Path

from app.window import workbench as workbench  # imported here so that the window need not wait
from app.window.places import Places
from app.words.sentences import sentence
from core.catalogue.stars import StarCatalogue
from core.catalogue.targets import TargetTable
from core.errors import CoreError, PlanFileError, WorldError
from core.plan.document import Plan
from core.plan.store import demo_plan, load_plan, set_aside

__all__ = ["Opened", "open_everything"]


@dataclass(frozen=True)
class Opened:
    """Catalogues, the plan to begin with, and what is to be said about it.

    `path` is the file the plan belongs to: empty for none, None for the one remembered.
    """

    stars: StarCatalogue
    targets: TargetTable
    plan: Plan
    words: str
    level: str
    path: str | None


def open_everything(places: Places, plan_path: str | None) -> Opened:
    """Read catalogues and plan: the file asked for, the plan as it was left, or the demo.

    Parameters
    ----------
    places : Places
    plan_path : str or None
        A plan file named by the user.

    Raises
    ------
    CatalogueError
        When an embedded catalogue is missing or damaged.
    """
    stars, targets = StarCatalogue.open(), TargetTable.load()
    return Opened(stars, targets, *_plan(places, plan_path))


def _plan(places: Places, plan_path: str | None) -> tuple[Plan, str, str, str | None]:
    """The plan, a sentence about where it comes from, and its file."""
    said = ""
    if plan_path is not None:
        try:
            path = str(Path(plan_path).absolute())
            return load_plan(path), f"Opened {plan_path}.", "good", path
        except (CoreError, WorldError) as error:
            said = f"{sentence(error)} "
    if places.open_plan.exists():
        try:
            return load_plan(places.open_plan), said, "bad" if said else "", None
        except (PlanFileError, WorldError) as error:
            kept = _kept_aside(places)
            said += f"The plan as it was left cannot be read ({error}); {kept}. "
    end = "Here is the demo plan." if said else ""
    return demo_plan(), said + end, "bad" if said else "", ""


def _kept_aside(places: Places) -> str:
    """Put a damaged plan aside, never over it; say where it is."""
    try:
        return f"it is kept as {set_aside(places.open_plan)}"
    except WorldError as error:
        return str(error)
