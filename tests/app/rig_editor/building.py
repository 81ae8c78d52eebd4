"""Builds a whole rig on the bench, figure by figure, as somebody with data sheets does.

It begins with a rig of which nothing is known. Every figure that the rig to be built has
otherwise is typed into its field, or chosen from its list; every other part is added blank.
"""

from collections.abc import Iterator

from PySide6.QtWidgets import QApplication

from app.rig_editor.parts_page import PartsPage
from app.session import Session
from core.gear.kinds import blank_part
from core.gear.parts import Part
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of
from core.plan import edits
from tests.app.rig_editor.hands import add_blank, choose, click, type_figure

__all__ = ["begin_blank", "build", "fill_in", "spelled", "unlike"]

CAMERA = Slot("camera")
_WORDS = {None: "not known", True: "yes", False: "no"}


def begin_blank(session: Session) -> None:
    """Put a rig into the plan of which nothing is known."""
    rig = Rig(name="new", telescope=blank_part("telescope"), camera=blank_part("camera"))
    session.edit("new rig", edits.with_rig(session.plan, rig))
    QApplication.processEvents()


def build(page: PartsPage, session: Session, wanted: Rig) -> None:
    """Turn the blank rig that is chosen into another, by the widgets alone."""
    for slot, part in slots_of(wanted).items():
        if slot in (Slot("telescope"), CAMERA):
            click(page, slot)
        else:
            click(page, CAMERA)  # what is added to the beam comes before the chosen part
            add_blank(page, slot.field if slot.place is None else part.kind)
        assert page.slot == slot
        fill_in(page, session, part)


def fill_in(page: PartsPage, session: Session, wanted: Part) -> None:
    """Type the figures of a part over those of the chosen one."""
    for field, value in unlike(page, session, wanted):
        if field in page.desk.form.fields:
            type_figure(page, field, spelled(value))
            assert not page.desk.form.fields[field].wrong, field
        else:
            choose(page, field, _WORDS.get(value, value))


def unlike(page: PartsPage, session: Session, wanted: Part) -> Iterator[tuple[str, object]]:
    """Give what the chosen part has otherwise, in the order of the form."""
    form = page.desk.form
    order = [*form.fields, *form.choices]
    assert set(order) == set(type(wanted).model_fields), "a figure has no field"
    for field in order:
        part = slots_of(session.rig.rig)[page.slot]
        value = getattr(wanted, field)
        if getattr(part, field) != value:
            yield field, value


def spelled(value: object) -> str:
    """Write a figure as a hand types it."""
    return f"{value:g}" if isinstance(value, int | float) else str(value)
