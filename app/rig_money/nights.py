"""The nights that the rigs are for: figures to type, and what they make of every rig.

Beside each rig stands the worst finding of those rules that look at the nights.
"""

import contextlib
from functools import partial
from typing import NamedTuple

from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.rig_money.page import Page, heading, label
from app.rig_money.rig_lines import RigLines
from app.rig_money.typed_number import typed_number
from app.session import Session
from app.shared.flow import Flow
from app.shared.theme import Theme
from app.shared.typed_field import TypedField
from core.errors import BadValueError
from core.gear.nights import Conditions
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
_NAME_EMS, _FIELD_EMS = 11.0, 8.0


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
        self.column.addWidget(
            label("The nights that this plan is for. All rigs are checked against them.")
        )
        self.column.addWidget(self._form())
        self.column.addWidget(heading("What these nights do to each rig"))
        self.rigs = RigLines(session)
        self.column.addWidget(self.rigs)
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
            field.textChanged.connect(partial(self._preview, name))
            told = label(figure.help, quiet=True)
            told.setProperty("small", True)
            told.setContentsMargins(0, 0, 0, 6)
            for below in (self._row(figure, field), field.complaint, told):
                lines.addWidget(below)
        return form

    def _row(self, figure: _Figure, field: TypedField) -> QWidget:
        """Put name, field and unit beside each other; field and unit stay together."""
        words = QLabel(figure.words)
        words.setBuddy(field)
        unit = label(figure.units[0], quiet=True)
        unit.setWordWrap(False)
        self._names.append(words)
        self._units.append(unit)
        typed = QWidget()
        together = QHBoxLayout(typed)
        together.setContentsMargins(0, 0, 0, 0)
        together.addWidget(field)
        together.addWidget(unit)
        row = QWidget()
        flow = Flow(row)
        for beside in (words, typed):
            flow.addWidget(beside)
        return row

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
        self.rigs.setVisible(bool(plan.rigs))
        self.rigs.refresh(self.theme, self.scale)

    def _take(self, name: str, text: str) -> None:
        """Put a typed figure into the plan."""
        nights = edits.with_nights(self.session.plan, self._typed(name, text))
        self.session.edit(f"{FIGURES[name].words.lower()} of the nights", nights)

    def _preview(self, name: str, text: str) -> None:
        """Show what a figure does while it is typed; what is none changes nothing."""
        if self.fields[name].hasFocus():
            with contextlib.suppress(BadValueError):
                self.rigs.refresh(self.theme, self.scale, self._typed(name, text))

    def _typed(self, name: str, text: str) -> Conditions:
        """Give the plan's nights with one figure as it is typed; BadValueError if it is none."""
        figure = FIGURES[name]
        value = typed_number(figure.words.lower(), text, figure.units)
        return self.session.plan.nights.but(**{name: value})
