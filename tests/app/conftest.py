"""What the tests of the window share: the real catalogues, a fresh plan, a real window."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.session import Session
from app.shared.theme import THEMES, Theme, load_fonts, palette, scaled_font, style_sheet
from core.catalogue.stars import StarCatalogue
from core.catalogue.targets import TargetTable
from core.plan.store import demo_plan
from tests.app.seeing import Dress, Host


@pytest.fixture(scope="session")
def stars() -> StarCatalogue:
    return StarCatalogue.open()


@pytest.fixture(scope="session")
def targets() -> TargetTable:
    """The deep-sky table, its index of names already built."""
    table = TargetTable.load()
    table.suggest("m 31")
    return table


@pytest.fixture(scope="session")
def fonts(qapp: QApplication) -> None:
    """The bundled typeface, known to Qt."""
    load_fonts()


@pytest.fixture
def dress(qapp: QApplication, fonts: None) -> Iterator[Dress]:
    """Give the application a theme and a text size, as the window does."""
    font, colours = qapp.font(), qapp.palette()

    def put_on(theme: Theme, scale: float) -> None:
        qapp.setFont(scaled_font(scale))
        qapp.setPalette(palette(theme))
        qapp.setStyleSheet(style_sheet(theme, scale))

    yield put_on
    qapp.setStyleSheet("")
    qapp.setPalette(colours)
    qapp.setFont(font)


@pytest.fixture
def dark(dress: Dress) -> Theme:
    """The dark theme at text size 1, put on the application."""
    dress(THEMES["dark"], 1.0)
    return THEMES["dark"]


@pytest.fixture
def session(qapp: QApplication, stars: StarCatalogue, targets: TargetTable) -> Session:
    """A session on a fresh demo plan."""
    return Session(demo_plan(), stars, targets)


@pytest.fixture
def host(qtbot: QtBot) -> Host:
    """Put widgets into a real window, with a button beside them to leave to."""
    kept = []

    def make(*widgets: QWidget, width: int = 1000, height: int = 600) -> QWidget:
        window = QWidget()
        window.resize(width, height)
        column = QVBoxLayout(window)
        for widget in widgets:
            column.addWidget(widget)
        window.elsewhere = QPushButton("elsewhere")
        column.addWidget(window.elsewhere)
        qtbot.addWidget(window)
        kept.append(window)
        window.show()
        qtbot.waitExposed(window)
        window.activateWindow()
        window.elsewhere.setFocus()
        qtbot.waitUntil(window.elsewhere.hasFocus)
        return window

    return make
