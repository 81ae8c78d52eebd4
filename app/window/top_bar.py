"""The bar at the top: what the sheet is about, whose picture lies on it, the menus."""

from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QToolButton, QWidget

from app.session import Session
from app.target_box.box import TargetBox
from app.window.menus import Menus
from core.pictures.surveys import survey_of

__all__ = ["TopBar"]


class TopBar(QWidget):
    """Name, target box, sky picture, menus.

    Parameters
    ----------
    session : Session
    target_box : TargetBox
    menus : Menus
    """

    def __init__(self, session: Session, target_box: TargetBox, menus: Menus) -> None:
        super().__init__()
        self._session = session
        name = QLabel("Skysill")
        name.setProperty("name", True)
        self.sky = _button("Sky", menus.sky, "What the picture of the sky is made from")
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 7, 16, 7)
        row.setSpacing(12)
        row.addWidget(name)
        row.addWidget(target_box, 2)
        row.addWidget(self.sky)
        row.addStretch(1)
        row.addWidget(_button("Targets", menus.targets, "The targets of this plan"))
        row.addWidget(_button("Plan", menus.plan, "Open, save, undo"))
        row.addWidget(_button("Shelf", menus.shelf, "Parts and rigs to choose from"))
        row.addWidget(_button("View", menus.view, "How the sheet is turned, named, coloured"))
        session.plan_changed.connect(self._update)
        self._update()

    def _update(self) -> None:
        source = self._session.plan.view.picture
        words = "drawn from catalogues" if source == "chart" else survey_of(source).name
        self.sky.setText(f"Sky: {words} ▾")


def _button(text: str, menu: QMenu, hint: str) -> QToolButton:
    """A word that opens a menu."""
    button = QToolButton()
    button.setText(f"{text} ▾")
    button.setMenu(menu)
    button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
    button.setToolTip(hint)
    button.setAccessibleName(text)
    button.setProperty("flat", True)
    return button
