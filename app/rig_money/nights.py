"""The nights that the rigs are for: figures to type, and what they make of every rig.

Beside each rig stands the worst finding of those rules that look at the nights.
"""

from functools import partial
from typing import NamedTuple

from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.rig_money.page import Page, heading, label, set_level
from app.rig_money.typed_number import typed_number
from app.session import Session
from app.shared.flow import Flow
from app.shared.frame_ink import frame_ink
from app.shared.theme import Theme
from app.shared.typed_field import TypedField
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.finding_words import findings_of, level_of, short_words
from app.words.sentences import tip
from core.gear.checks import Finding
from core.plan import edits

__all__ = ["NightsPage"]


class _Figure(NamedTuple):
    """A field of the nights in words; `units` may be typed behind the number."""

    words: str
    units: tuple[str, ...]
    help: str


#: Usual values are common practice.
FIGURES: dict[str, _Figure] = {
    "seeing_arcsec": _Figure(
        "Seeing",
        ("arcsec", "″"),
        "How wide the moving air makes a star. Usual: 2 to 4. From a weather forecast for "
        "astronomers, or measured as the width of stars (FWHM) on sharp pictures of your own.",
    ),
    "guide_rms_arcsec": _Figure(
        "Guiding error",
        ("arcsec", "″"),
        "How far the mount strays while it is guided, as the guiding program's log tells it "
        "(RMS of each axis). Usual: 0.5 to 1. Without a guider it does not count.",
    ),
    "exposure_s": _Figure(
        "Sub-exposure",
        ("seconds", "s"),
        "How long one picture gathers light; many are added up. Usual: 30 to 300.",
    ),
    "latitude_deg": _Figure(
        "Latitude",
        ("degrees", "°"),
        "Where the rigs stand, from any map; with a minus when south of the equator.",
    ),
    "polar_error_arcmin": _Figure(
        "Polar alignment error",
        ("arcmin", "′"),
        "How far the mount's axis points past the pole of the sky. Usual: 1 to 5 with a polar "
        "finder or the camera's help, 30 and more by eye. The tool that you align with tells it.",
    ),
}
#: The rules whose answer depends on the nights.
RULES = ("sampling", "field-rotation", "polar-error", "unguided", "star-trails")
_NAME_EMS, _FIELD_EMS, _RIG_EMS = 11.0, 8.0, 9.0


class RigRow(QWidget):
    """A rig's name, and the worst that the nights do to it."""

    def __init__(self) -> None:
        super().__init__()
        self.mark, self.name, self.words = QLabel(), label(), label()
        flow = Flow(self)
        for shown in (self.mark, self.name, self.words):
            shown.setWordWrap(False)
            flow.addWidget(shown)

    def show_worst(self, worst: Finding | None, theme: Theme, scale: float) -> None:
        """Show a finding, or that there is none."""
        level = level_of(worst) if worst is not None else ""
        side, ink = max(8, round(10.0 * scale)), level_colour(theme, level)
        self.mark.setPixmap(mark_pixmap(side, level, ink, self.devicePixelRatioF()))
        self.mark.setMinimumHeight(self.name.sizeHint().height())
        self.name.setMinimumWidth(round(_RIG_EMS * 12.0 * scale))
        self.words.setText(short_words(worst) if worst is not None else "nothing to say")
        set_level(self.words, level)
        for shown in (self.name, self.words):
            shown.setToolTip(tip(worst.message) if worst is not None else "")
        self.words.setAccessibleDescription(worst.message if worst is not None else "")


class NightsPage(Page):
    """Typed figures of the nights, and the worst finding about every rig for them.

    Parameters
    ----------
    session : Session
    theme : Theme
    scale : float
    """

    def __init__(self, session: Session, theme: Theme, scale: float = 1.0) -> None:
        super().__init__(session, theme, scale)
        self.setAccessibleName("Nights")
        self.fields: dict[str, TypedField] = {}
        self._names: list[QLabel] = []
        self._units: list[QLabel] = []
        self.rigs: list[RigRow] = []
        self.column.addWidget(
            label("The nights that this plan is for. All rigs are checked against them.")
        )
        self.column.addWidget(self._form())
        self.column.addWidget(heading("What these nights do to each rig"))
        self._rows = QVBoxLayout()
        self._rows.setSpacing(4)
        self.column.addLayout(self._rows)
        self.no_rigs = label("There are no rigs in this plan yet.", quiet=True)
        self.column.addWidget(self.no_rigs)
        self.column.addStretch(1)
        self.setFocusProxy(next(iter(self.fields.values())))
        self.set_style(theme, scale)

    def _form(self) -> QWidget:
        """Put a field, its unit and where its value comes from under each other."""
        form = QWidget()
        lines = QVBoxLayout(form)
        lines.setContentsMargins(0, 0, 0, 0)
        lines.setSpacing(3)
        for name, figure in FIGURES.items():
            field = self.fields[name] = TypedField(
                f"{figure.words}, {figure.units[0]}", partial(self._take, name)
            )
            field.setToolTip(figure.help)
            words = QLabel(figure.words)
            words.setBuddy(field)
            unit = label(figure.units[0], quiet=True)
            unit.setWordWrap(False)
            self._names.append(words)
            self._units.append(unit)
            told = label(figure.help, quiet=True)
            told.setProperty("small", True)
            told.setContentsMargins(0, 0, 0, 6)
            typed = QWidget()
            together = QHBoxLayout(typed)
            together.setContentsMargins(0, 0, 0, 0)
            together.addWidget(field)
            together.addWidget(unit)
            row = QWidget()
            flow = Flow(row)
            for beside in (words, typed):
                flow.addWidget(beside)
            for below in (row, field.complaint, told):
                lines.addWidget(below)
        return form

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        for field in self.fields.values():
            field.setFixedWidth(round(_FIELD_EMS * 12.0 * scale))
        for words in self._names:
            words.setMinimumWidth(round(_NAME_EMS * 12.0 * scale))
        for shown in (*self._names, *self._units):
            shown.setMinimumHeight(round(28.0 * scale))
        super().set_style(theme, scale)

    def refresh(self) -> None:
        """Show the plan's nights, and the worst finding about each rig."""
        for name, field in self.fields.items():
            field.show_value(f"{getattr(self.session.plan.nights, name):.10g}".replace("-", "−"))
        plan = self.session.plan
        self.no_rigs.setVisible(not plan.rigs)
        self._keep_rows(len(plan.rigs))
        for row, planned in zip(self.rigs, plan.rigs, strict=True):
            row.name.setText(f"{self.session.letter(planned.id)} · {planned.rig.name}")
            row.name.setStyleSheet(f"color: {frame_ink(self.theme, planned.colour)};")
            found = findings_of(planned.rig, plan.nights)
            worst = next((one for one in found if one.rule in RULES), None)
            row.show_worst(worst, self.theme, self.scale)

    def _keep_rows(self, count: int) -> None:
        """Have a row for each rig."""
        while len(self.rigs) > count:
            row = self.rigs.pop()
            row.hide()
            row.deleteLater()
        while len(self.rigs) < count:
            row = RigRow()
            self._rows.addWidget(row)
            row.show()
            self.rigs.append(row)

    def _take(self, name: str, text: str) -> None:
        """Put a typed figure into the plan."""
        figure = FIGURES[name]
        value = typed_number(figure.words.lower(), text, figure.units)
        plan = self.session.plan
        nights = edits.with_nights(plan, plan.nights.but(**{name: value}))
        self.session.edit(f"{figure.words.lower()} of the nights", nights)
