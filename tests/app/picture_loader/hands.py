"""What a person does while pictures are on their way."""

from pytestqt.qtbot import QtBot

from app.picture_loader import PictureLoader
from app.session import Session

__all__ = ["look", "settle"]


def settle(loader: PictureLoader, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not loader.busy, timeout=20_000)


def look(session: Session, **fields: object) -> None:
    session.set_view(session.plan.view.model_copy(update=fields))
