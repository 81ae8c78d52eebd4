"""What the window needs before it can be furnished: catalogues and the plan."""

from dataclasses import dataclass

from app.window import workbench as workbench  # imported here so that the window need not wait
from app.window.places import Places
from core.catalogue.stars import StarCatalogue
from core.catalogue.targets import TargetTable
from core.errors import CoreError, PlanFileError, WorldError
from core.plan.document import Plan
from core.plan.store import demo_plan, load_plan, set_aside

__all__ = ["Opened", "open_everything"]


@dataclass(frozen=True)
class Opened:
    """Catalogues, the plan to begin with, and what is to be said about it."""

    stars: StarCatalogue
    targets: TargetTable
    plan: Plan
    words: str
    level: str


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
    plan, words, level = _plan(places, plan_path)
    return Opened(stars, targets, plan, words, level)


def _plan(places: Places, plan_path: str | None) -> tuple[Plan, str, str]:
    """The plan, and a sentence about where it comes from."""
    said = ""
    if plan_path is not None:
        try:
            return load_plan(plan_path), f"Opened {plan_path}.", "good"
        except (CoreError, WorldError) as error:
            said = f"{error}. "
    if places.open_plan.exists():
        try:
            return load_plan(places.open_plan), said, "bad" if said else ""
        except PlanFileError as error:
            kept = _kept_aside(places)
            said += f"The plan as it was left cannot be read ({error}); {kept}. "
        except WorldError as error:
            said += f"The plan as it was left cannot be read ({error}). "
    return demo_plan(), said + ("Here is the demo plan." if said else ""), "bad" if said else ""


def _kept_aside(places: Places) -> str:
    """Put a damaged plan aside, never over it; say where it is."""
    try:
        return f"it is kept as {set_aside(places.open_plan)}"
    except WorldError as error:
        return str(error)
