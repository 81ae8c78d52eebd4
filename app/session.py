"""What is open now: the plan, its undo history, and the only signals between panels.

Widgets ask the session for edits and repaint from its plan; they never call each
other. A hand that is still moving previews a framing; the plan changes, as one step
to undo, when it lets go.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from app.shared.plan_edit import History, PlanEdit, looking_at
from app.shared.plan_view import (
    comfortable_width_deg,
    current_target,
    view_of_target,
    with_known_picture,
)
from core.catalogue.stars import StarCatalogue
from core.catalogue.target import Target
from core.catalogue.targets import TargetTable
from core.pictures.marks import Marks
from core.pictures.picture import Picture
from core.plan import edits
from core.plan.document import Framing, Plan, PlannedRig, PlannedTarget, SheetView
from core.sky.footprint import Footprint

if TYPE_CHECKING:
    from core.gear.shelf.shelf import Shelf

__all__ = ["Session"]

#: Positions of the view to go back through.
_VIEWS_KEPT = 60
#: What the undo menu calls a change of the view.
_VIEW_WORDS = {
    "camera_up": "turn the sheet",
    "mirrored": "mirror the sheet",
    "graticule": "graticule",
    "labels": "names and outlines",
    "picture": "another sky picture",
}


class Session(QObject):
    """The open plan and what is going on with it.

    Parameters
    ----------
    plan : Plan
        What to begin with.
    stars, targets
        The embedded catalogues.
    """

    plan_changed = Signal(object, object)
    framing_previewed = Signal(object)
    view_changed = Signal()
    picture_changed = Signal()
    shelf_changed = Signal()
    bench_changed = Signal(bool)
    rig_hovered = Signal(str)
    pointed = Signal(str)
    sheet_resized = Signal()
    said = Signal(str, str)

    def __init__(self, plan: Plan, stars: StarCatalogue, targets: TargetTable) -> None:
        super().__init__()
        self._set_plan(with_known_picture(plan))
        self.stars = stars
        self.targets = targets
        self.chart: Picture | None = None
        self.survey: Picture | None = None
        self.marks: Marks | None = None
        #: Where the shelf comes from when it is first asked for; the window sets the user's.
        self.read_shelf: Callable[[], Shelf] = _own_shelf
        self._shelf: Shelf | None = None
        #: Whether the rig bench stands where the sheet is otherwise.
        self.bench_open = False
        self.history = History(self)
        self._preview: Framing | None = None
        self._views: list[SheetView] = []
        self._later_views: list[SheetView] = []

    # What is current -----------------------------------------------------------

    @property
    def plan(self) -> Plan:
        """The plan as it is now; `edit` and `set_view` change it."""
        return self._plan

    def _set_plan(self, plan: Plan) -> None:
        """Take a plan, with its rigs at hand by their ids."""
        self._plan = plan
        self._rigs = {rig.id: rig for rig in plan.rigs}
        self._fields = {r.id: (r.rig.width_deg, r.rig.height_deg) for r in plan.rigs}

    @property
    def target(self) -> PlannedTarget | None:
        """The target the plan is on, if any."""
        return current_target(self.plan)

    @property
    def rig(self) -> PlannedRig | None:
        """The chosen rig, if any."""
        return self._rigs.get(self.plan.current_rig or "")

    def planned_rig(self, rig_id: str) -> PlannedRig:
        """Give a rig of the plan by its id."""
        return self._rigs[rig_id]

    def letter(self, rig_id: str) -> str:
        """Give the letter on a rig's flag: its place in the plan."""
        return self.plan.flag(rig_id)

    def framing(self, rig_id: str) -> Framing:
        """Give where a rig points: the hand's preview, the plan's, or the suggestion."""
        if self._preview is not None and self._preview.rig == rig_id:
            return self._preview
        return edits.framing_of(self.plan, rig_id)

    def footprint(self, rig_id: str) -> Footprint:
        """Give the patch of sky a rig sees."""
        framing = self.framing(rig_id)
        width_deg, height_deg = self._fields[rig_id]
        return Footprint(framing.ra_deg, framing.dec_deg, width_deg, height_deg, framing.pa_deg)

    # Changing it ---------------------------------------------------------------

    def edit(self, words: str, plan: Plan, *, key: str = "") -> None:
        """Replace the plan, as a step that can be undone.

        Parameters
        ----------
        words : str
            What was done, for the undo menu ("turn B").
        plan : Plan
            The plan from now on.
        key : str
            Steps in a row with one key merge into one.
        """
        if plan != self.plan:
            self.history.push(PlanEdit(words, (self.plan, plan), key, self))

    def preview(self, framing: Framing | None) -> None:
        """Show where a moving hand holds a frame, without changing the plan."""
        self._preview = framing
        self.framing_previewed.emit(framing)

    @property
    def in_hand(self) -> bool:
        """Tell whether a hand is moving a frame."""
        return self._preview is not None

    def commit_preview(self, words: str) -> None:
        """Let the plan take over the previewed framing."""
        framing, self._preview = self._preview, None
        if framing is not None:
            self.edit(words, edits.with_framing(self.plan, framing))
            self.framing_previewed.emit(None)

    def show_target(self, target: Target | PlannedTarget) -> None:
        """Make a target current and bring the sheet to it."""
        plan = edits.with_target(self.plan, target)
        self.edit(f"go to {target.name}", plan)
        self.look_at_target()

    def look_at_target(self) -> None:
        """Bring the current target to the middle, with room for most frames."""
        self.set_view(view_of_target(self.plan))

    def look_at_frame(self) -> None:
        """Bring the whole of the chosen frame on the sheet, as large as it fits."""
        rig = self.rig
        if rig is None or self.target is None:
            return
        framing = self.framing(rig.id)
        place = {"ra_deg": framing.ra_deg, "dec_deg": framing.dec_deg}
        width = min(120.0, 1.5 * rig.rig.diagonal_deg)
        self.set_view(self.plan.view.model_copy(update={**place, "width_deg": width}))

    def set_view(self, view: SheetView, *, remember: bool = True) -> None:
        """Look elsewhere; no step to undo, but a view to go back to."""
        if view == self.plan.view:
            return
        if remember:
            self._views = [*self._views[-_VIEWS_KEPT:], self.plan.view]
            self._later_views = []
        self._set_plan(edits.with_view(self.plan, view))
        self.view_changed.emit()

    def change_view(self, **fields: object) -> None:
        """Change how the sheet shows the sky, as a step that can be undone.

        Parameters
        ----------
        fields
            Fields of the view: camera_up, mirrored, graticule, labels, picture.
        """
        words = ", ".join(_VIEW_WORDS[name] for name in fields)
        view = self.plan.view.model_copy(update=fields)
        self.edit(words, edits.with_view(self.plan, view))

    def step_view(self, *, back: bool) -> None:
        """Go to the place looked at before, or to the one after it again."""
        source, sink = (
            (self._views, self._later_views) if back else (self._later_views, self._views)
        )
        if source:
            now, there = self.plan.view, source.pop()
            sink.append(now)
            self.set_view(looking_at(now, there), remember=False)

    def open_plan(self, plan: Plan, words: str) -> None:
        """Go over to another plan; undo brings the one before back."""
        self.preview(None)
        plan = with_known_picture(plan)
        self.edit(words, plan)
        self.set_view(plan.view)

    @property
    def pictures(self) -> tuple[Picture, ...]:
        """What lies on the sheet, the lowest first."""
        return tuple(p for p in (self.chart, self.survey) if p is not None)

    @property
    def credit(self) -> str:
        """Whom the picture on top is owed to."""
        return self.pictures[-1].credit if self.pictures else ""

    def set_chart(self, picture: Picture, marks: Marks) -> None:
        """Put the drawn sky on the sheet, with the marks over it."""
        self.chart, self.marks = picture, marks
        self.picture_changed.emit()

    def set_survey(self, picture: Picture | None) -> None:
        """Lay a survey's cutout over the drawn sky, or take it away."""
        if picture is not self.survey:
            self.survey = picture
            self.picture_changed.emit()

    @property
    def shelf(self) -> "Shelf":
        """The parts and rigs to choose from; read when it is first asked for."""
        if self._shelf is None:
            self._shelf = self.read_shelf()
        return self._shelf

    def set_shelf(self, shelf: "Shelf") -> None:
        """Put another shelf in place of the one before, and tell everybody."""
        if shelf != self.shelf:
            self._shelf = shelf
            self.shelf_changed.emit()

    def open_bench(self) -> None:
        """Bring the bench to the front, where the chosen rig is edited."""
        self._set_bench(True)

    def close_bench(self) -> None:
        """Bring the sky back to the front."""
        self._set_bench(False)

    def _set_bench(self, is_open: bool) -> None:
        if is_open != self.bench_open:
            self.bench_open = is_open
            self.bench_changed.emit(is_open)

    def say(self, text: str, level: str = "") -> None:
        """Tell the person something: level "", "good", "caution" or "bad"."""
        self.said.emit(text, level)

    def replace_plan(self, plan: Plan) -> None:
        """Swap the plan and tell everybody; for the history, all else uses `edit`."""
        before = self.plan
        self._set_plan(plan)
        self.plan_changed.emit(before, plan)
        if before.view != plan.view:
            self.view_changed.emit()

    def comfortable_width_deg(self) -> float:
        """Give a width of the sheet that holds the target and most frames."""
        return comfortable_width_deg(self.plan)


def _own_shelf() -> "Shelf":
    """Read the shelf that comes with the program; its parts are not imported before."""
    from core.gear.shelf.shelf import Shelf

    return Shelf.load()
