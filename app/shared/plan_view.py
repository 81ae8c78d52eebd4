"""Where a plan is best looked at, and with which picture. Degrees, ICRS."""

from core.plan import edits
from core.plan.document import Plan, PlannedTarget, SheetView

__all__ = ["comfortable_width_deg", "current_target", "view_of_target", "with_known_picture"]


def current_target(plan: Plan) -> PlannedTarget | None:
    """Give the target a plan is on, if any."""
    return next((t for t in plan.targets if t.id == plan.current_target), None)


def comfortable_width_deg(plan: Plan) -> float:
    """Give a width of the sheet that holds the target and most frames."""
    target = current_target(plan)
    size = (target.major_arcmin or 0.0) / 60.0 if target else 0.0
    fields = sorted(r.rig.width_deg for r in plan.rigs if r.shown)
    middle = fields[len(fields) // 2] if fields else 2.0
    return min(120.0, max(1.7 * size, 1.6 * middle, 0.2))


def view_of_target(plan: Plan) -> SheetView:
    """Frame the current target and the shown rigs' fields on the sheet."""
    target = current_target(plan)
    if target is None:
        return plan.view
    place = {"ra_deg": target.ra_deg, "dec_deg": target.dec_deg}
    return plan.view.model_copy(update={**place, "width_deg": comfortable_width_deg(plan)})


def with_known_picture(plan: Plan) -> Plan:
    """Fall back to the drawn sky where a plan asks for a survey that we do not know."""
    source = plan.view.picture
    if source == "chart":
        return plan
    from core.pictures.surveys import SURVEYS

    if any(survey.id == source for survey in SURVEYS):
        return plan
    return edits.with_view(plan, plan.view.model_copy(update={"picture": "chart"}))
