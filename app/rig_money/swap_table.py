"""The table of swaps: what several save together, then every slot and what may fill it."""

from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem

from app.shared.theme import Theme
from app.words.finding_mark import level_colour, mark_pixmap
from app.words.offer_words import passing_of, saving_level, saving_words, slot_title
from app.words.sentences import tip
from app.words.step_words import price_words
from core.gear.money.offers import Offer
from core.gear.rig import Rig
from core.gear.slots import Slot, slots_of

__all__ = ["BUNDLES", "SwapRow", "SwapTable"]

#: Rows of several swaps, by their keys.
BUNDLES = {
    "together": "All savings together",
    "cheapest": "Cheapest rig that still passes",
}
_BUNDLE_HINTS = {
    "together": "The largest saving of every slot at once, whatever the checks say",
    "cheapest": "Of all rigs that swaps can make: nothing forbids it, and nothing new is to be "
    "feared or left unknown",
}
_HEADINGS = ("Part", "Price", "Saving", "The rig then")
_HINTS = (
    "What sits in each slot, and what may take its place",
    "Price in the currency of the plan",
    "What the swap saves",
    "The worst that the checks then find",
)
_ROW, _KEY = Qt.ItemDataRole.UserRole, Qt.ItemDataRole.UserRole + 1
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LEAST_LINES = 9


@dataclass(frozen=True)
class SwapRow:
    """What a row stands for: its title, and an offer or a note in its place."""

    title: str
    offer: Offer | None = None
    note: str = ""
    slot: Slot | None = None


class SwapTable(QTreeWidget):
    """Bundles and slots, under each slot the offers for it, the largest saving first.

    `chosen` tells the `SwapRow` under the cursor, `taken` the offer that Enter or a double
    click asks for.
    """

    chosen = Signal(object)
    taken = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._theme: Theme | None = None
        self._currency = ""
        self._open: set[str] = set()
        self.setAccessibleName("Swaps")
        self.setColumnCount(len(_HEADINGS))
        self.setHeaderLabels(_HEADINGS)
        self.setUniformRowHeights(True)
        self.setAllColumnsShowFocus(True)
        self.setExpandsOnDoubleClick(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.header().setStretchLastSection(True)
        self.header().setSectionsClickable(False)
        self.header().setFocusPolicy(Qt.FocusPolicy.NoFocus)
        for column, hint in enumerate(_HINTS):
            self.headerItem().setToolTip(column, hint)
        self.headerItem().setTextAlignment(1, _RIGHT)
        self.currentItemChanged.connect(lambda now, _before: self._tell(now))
        self.itemActivated.connect(self._activate)
        self.itemExpanded.connect(self._expanded)
        self.itemCollapsed.connect(lambda item: self._open.discard(_key(item)))

    @property
    def tops(self) -> tuple[QTreeWidgetItem, ...]:
        """The bundles and the slots."""
        items = (self.topLevelItem(place) for place in range(self.topLevelItemCount()))
        return tuple(item for item in items if item is not None)

    def set_style(self, theme: Theme, scale: float) -> None:
        """Change colours or text size."""
        self._theme = theme
        side = max(8, round(10.0 * scale))
        self.setIconSize(QSize(side, side))
        self.setIndentation(round(16.0 * scale))
        self.setMinimumHeight(_LEAST_LINES * (self.fontMetrics().height() + round(6.0 * scale)))

    def show_rig(self, rig: Rig, currency: str) -> None:
        """Show the parts of a rig, with nothing found yet."""
        self._currency = currency
        here = _key(self.currentItem())
        self.blockSignals(True)
        self.clear()
        for key, words in BUNDLES.items():
            item = _item([words, "", "looking ...", ""], SwapRow(words), key)
            item.setToolTip(0, tip(_BUNDLE_HINTS[key]))
            self.addTopLevelItem(item)
        for slot, part in slots_of(rig).items():
            title = slot_title(slot, part)
            cells = [title, price_words(part, currency), "", ""]
            self.addTopLevelItem(_item(cells, SwapRow(title, slot=slot), str(slot)))
        self.blockSignals(False)
        self._settle(here)

    def show_single(self, offers: tuple[Offer, ...]) -> None:
        """Put single swaps under their slots."""
        here = _key(self.currentItem())
        self.blockSignals(True)
        for item in self.tops[len(BUNDLES) :]:
            row = _row(item)
            mine = [offer for offer in offers if offer.swaps[0].slot == row.slot]
            item.takeChildren()
            for offer in mine:
                child = _item([offer.swaps[0].new.name, "", "", ""], SwapRow("", offer), _key(item))
                child.setData(0, _KEY, f"{_key(item)}|{offer.swaps[0].new.name}")
                child.setText(1, price_words(offer.swaps[0].new, self._currency))
                self._fill(child, offer)
                item.addChild(child)
            self._show_best(item, mine)
        self.blockSignals(False)
        self._settle(here)

    def show_bundle(self, key: str, offer: Offer | None, brief: str, note: str) -> None:
        """Show what several swaps offer; a brief word and a note where there is none."""
        item = next((top for top in self.tops if _key(top) == key), None)
        if item is None:
            return
        there = offer is not None and bool(offer.swaps)
        item.setData(0, _ROW, SwapRow(BUNDLES[key], offer if there else None, note))
        if there and offer is not None:
            self._fill(item, offer)
        else:
            item.setText(2, brief)
        if item is self.currentItem():
            self._tell(item)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave Escape to the bench."""
        if event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _show_best(self, item: QTreeWidgetItem, mine: list[Offer]) -> None:
        """Say beside a slot what its swaps can save."""
        best = max((o for o in mine if o.saving is not None and o.saving > 0),
                   key=lambda offer: offer.saving or 0, default=None)  # fmt: skip
        if best is not None:
            item.setText(2, saving_words(best, self._currency).replace("saves", "up to"))
        else:
            item.setText(2, "nothing cheaper" if mine else "no alternative")
        item.setForeground(2, self._ink("good" if best is not None else ""))

    def _fill(self, item: QTreeWidgetItem, offer: Offer) -> None:
        """Write what an offer saves, and whether the rig then passes."""
        passing = passing_of(offer)
        item.setText(2, saving_words(offer, self._currency))
        item.setText(3, passing.short)
        item.setForeground(2, self._ink(saving_level(offer)))
        item.setForeground(3, self._ink(passing.level))
        ink, side = self._ink(passing.level).name(), self.iconSize().width()
        item.setIcon(3, mark_pixmap(side, passing.level, ink, self.devicePixelRatioF()))
        item.setToolTip(3, tip(passing.full, offer.found[0].message))
        said = [item.text(column) for column in range(len(_HEADINGS))]
        item.setData(0, Qt.ItemDataRole.AccessibleTextRole, "; ".join([*said, passing.full]))

    def _ink(self, level: str) -> QColor:
        """Give the colour of a level."""
        assert self._theme is not None
        return QColor(level_colour(self._theme, level))

    def _activate(self, item: QTreeWidgetItem, _column: int) -> None:
        """Take an offer; open or fold a slot."""
        offer = _row(item).offer
        if offer is not None:
            self.taken.emit(offer)
        else:
            item.setExpanded(not item.isExpanded())

    def _expanded(self, item: QTreeWidgetItem) -> None:
        """Remember that a slot is open; its rows may need wider columns."""
        self._open.add(_key(item))
        self._fit()

    def _tell(self, item: QTreeWidgetItem | None) -> None:
        """Tell which row the cursor is on; a swap has its slot's title."""
        if item is None:
            return
        above = item.parent()
        row = _row(item)
        title = row.title if above is None else _row(above).title
        self.chosen.emit(SwapRow(title, row.offer, row.note, row.slot))

    def _settle(self, here: str) -> None:
        """Open what was open, and put the cursor where it was, or on its slot."""
        rows: dict[str, QTreeWidgetItem] = {}
        for item in self.tops:
            item.setExpanded(_key(item) in self._open)
            rows[_key(item)] = item
            children = (item.child(place) for place in range(item.childCount()))
            rows.update({_key(child): child for child in children if child is not None})
        where = rows.get(here) or rows.get(here.split("|")[0]) or rows.get("cheapest")
        if where is not None:
            self.setCurrentItem(where)
        self._tell(where)
        self._fit()

    def _fit(self) -> None:
        """Give each column what its words need."""
        for column in range(len(_HEADINGS)):
            self.resizeColumnToContents(column)


def _item(cells: list[str], row: SwapRow, key: str) -> QTreeWidgetItem:
    """Make a row of the table."""
    item = QTreeWidgetItem(cells)
    item.setData(0, _ROW, row)
    item.setData(0, _KEY, key)
    item.setTextAlignment(1, _RIGHT)
    return item


def _row(item: QTreeWidgetItem) -> SwapRow:
    """Give what a row stands for."""
    row = item.data(0, _ROW)
    assert isinstance(row, SwapRow)
    return row


def _key(item: QTreeWidgetItem | None) -> str:
    """Tell a row from all others, also in a table that is built anew."""
    return str(item.data(0, _KEY)) if item is not None else ""
