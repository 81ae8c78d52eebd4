"""What can be chosen for a place of the rig, as rows: name, figures, price, what follows.

What a choice would do to the rig's worst finding is looked at when its row is first seen.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QPixmap

from app.shared.theme import Theme
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.part_words import key_figures
from core.gear.money.prices import money_words
from core.gear.parts import Part

__all__ = ["Candidates", "Effect"]

_TITLES = ("Part", "Figures", "Price", "Worst finding then")
Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True)
class Effect:
    """What a choice would do: the level and the words of the worst finding then."""

    level: str
    words: str
    full: str


class Candidates(QAbstractTableModel):
    """Parts to choose from.

    Parameters
    ----------
    theme : Theme
    """

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme, self.side, self.ratio = theme, 11, 1.0
        self._all: Sequence[Part] = ()
        self.parts: list[Part] = []
        self._currency = ""
        self._effect: Callable[[Part], Effect] = _nothing
        self._known: dict[int, Effect] = {}
        self._filter = ""

    def offer(self, parts: Sequence[Part], currency: str, effect: Callable[[Part], Effect]) -> None:
        """Show parts, their prices in a currency, and what each would do."""
        self.beginResetModel()
        self._all, self._currency, self._effect = parts, currency, effect
        self._known = {}
        self._pick()
        self.endResetModel()

    def narrow(self, words: str) -> None:
        """Show only parts with all the words in name or figures."""
        self.beginResetModel()
        self._filter = words
        self._pick()
        self.endResetModel()

    def effect_of(self, part: Part) -> Effect:
        """Look at what a part would do, once."""
        if id(part) not in self._known:
            self._known[id(part)] = self._effect(part)
        return self._known[id(part)]

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """One row a part."""
        return 0 if parent.isValid() else len(self.parts)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """One column a title."""
        return len(_TITLES)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        """Give the titles."""
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return _TITLES[section]
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Give what a cell shows."""
        part = self.parts[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return self._words(part, index.column())
        if role == Qt.ItemDataRole.DecorationRole and index.column() == len(_TITLES) - 1:
            return self._mark(part)
        if role == Qt.ItemDataRole.ToolTipRole:
            last = index.column() == len(_TITLES) - 1
            return self.effect_of(part).full if last else part.note or part.name
        return None

    def _words(self, part: Part, column: int) -> str:
        if column == 0:
            return part.name
        if column == 1:
            return key_figures(part)
        if column == 2:
            return "not known" if part.price is None else money_words(part.price, self._currency)
        return self.effect_of(part).words

    def _mark(self, part: Part) -> QPixmap:
        level = self.effect_of(part).level
        return mark_pixmap(self.side, level, level_colour(self.theme, level), self.ratio)

    def _pick(self) -> None:
        wanted = self._filter.casefold().split()
        self.parts = [
            part
            for part in self._all
            if all(word in f"{part.name} {key_figures(part)}".casefold() for word in wanted)
        ]


def _nothing(_part: Part) -> Effect:
    """Say nothing about a part."""
    return Effect("", "", "")
