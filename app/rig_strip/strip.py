"""The rig strip: one card a rig, in the plan's order, all frames at one scale.

Cards are moved along the strip by hand or by key; the letters follow the order. The
strip is one stop of the tab key, at the card that was last in hand; left and right
walk from there.
"""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

from app.rig_strip.card import RigCard
from app.rig_strip.card_face import common_width_deg, face_of
from app.rig_strip.card_paint import CardStyle
from app.session import Session
from app.shared.theme import Theme
from app.shared.throttle import Throttle
from app.words import rig_actions
from core.plan.document import Framing

__all__ = ["RigStrip"]

EMPTY = "No rigs in this plan yet."
_LIVE_MS = 30
_SCROLL_BAR_PX = 10


class CardRow(QWidget):
    """The cards side by side, or one line where there are none."""

    def __init__(self) -> None:
        super().__init__()
        self.cards: list[RigCard] = []
        self.gap = 8
        self._style: CardStyle | None = None

    def restyle(self, style: CardStyle) -> None:
        """Change colours or text size."""
        self._style = style
        self.gap = round(8.0 * style.scale)

    def arrange(self, *, but: RigCard | None = None) -> None:
        """Put the cards in their places, all but one that the hand carries."""
        left = self.gap
        for card in self.cards:
            if card is not but:
                card.move(left, 0)
            left += card.width() + self.gap
        height = max((card.height() for card in self.cards), default=self._empty_height())
        self.setFixedSize(max(left, 1) if self.cards else self._empty_width(), height)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Say with care that there is nothing here."""
        if self.cards or self._style is None:
            return
        style, painter = self._style, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = QPen(QColor(style.theme.sheet_line), 1.0)
        pen.setDashPattern([6.0, 4.0])
        painter.setPen(pen)
        side = self.height() * 0.5
        frame = QRectF(2.0 * self.gap, side / 2.0, side * 1.5, side)
        painter.drawRect(frame)
        painter.setPen(QColor(style.theme.quiet))
        painter.setFont(style.name_font)
        words = QRectF(self.rect())
        words.setLeft(frame.right() + 2.0 * self.gap)
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, EMPTY)
        painter.end()

    def _empty_height(self) -> int:
        """Be as high as a card."""
        return round(100.0 * self._style.scale) if self._style else 100

    def _empty_width(self) -> int:
        """Be wide enough for the frame and the words."""
        return round(360.0 * self._style.scale) if self._style else 360


class RigStrip(QScrollArea):
    """All rigs of the plan as cards.

    Parameters
    ----------
    session : Session
    theme : Theme
    text_scale : float
        The user's text size, 1 for 12 px.
    """

    def __init__(self, session: Session, theme: Theme, text_scale: float = 1.0) -> None:
        super().__init__()
        self._session = session
        self._style = CardStyle(theme, text_scale)
        self._row = CardRow()
        self._row.restyle(self._style)
        self._order: list[str] | None = None
        self._moving: str | None = None
        self.live = Throttle(self._refresh_moving, _LIVE_MS, self)
        self.setWidget(self._row)
        self.setAccessibleName("Rigs of this plan")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        session.plan_changed.connect(self._plan_changed)
        session.framing_previewed.connect(self._frame_moved)
        session.view_changed.connect(self._view_changed)
        session.rig_hovered.connect(self._hovered)
        self._mirrored = session.plan.view.mirrored
        self.refresh()

    @property
    def cards(self) -> tuple[RigCard, ...]:
        """The cards from left to right."""
        return tuple(self._row.cards)

    def card(self, rig_id: str) -> RigCard:
        """Give the card of a rig."""
        return next(card for card in self._row.cards if card.rig_id == rig_id)

    def set_style(self, theme: Theme, text_scale: float) -> None:
        """Change colours or text size."""
        self._style = CardStyle(theme, text_scale)
        self._row.restyle(self._style)
        self.refresh()

    def sizeHint(self) -> QSize:
        """Be as high as the cards and their scroll bar."""
        return QSize(600, self.height())

    def refresh(self) -> None:
        """Bring every card in step with the plan."""
        plan = self._session.plan
        width_deg = common_width_deg(plan.rigs, self._session.target)
        known = {card.rig_id: card for card in self._row.cards}
        had_focus = self._focused_place()
        self._row.cards = []
        for planned in plan.rigs:
            face = face_of(self._session, planned.id, width_deg)
            card = known.pop(planned.id, None)
            if card is None:
                card = RigCard(self._session, planned.id, self._style, face, self._row)
                self._listen(card)
                card.show()
            else:
                card.show_face(face, self._style)
            self._row.cards.append(card)
        lost = any(gone.hasFocus() for gone in known.values())
        for gone in known.values():
            gone.hide()
            gone.deleteLater()
        self._settle(had_focus if lost else None)

    def _settle(self, lost_at: int | None) -> None:
        """Lay the row out, and give a focus that was lost with its card to the next."""
        self._row.arrange()
        self.setFixedHeight(self._row.height() + _SCROLL_BAR_PX + 4)
        self._choose_tab_stop()
        if lost_at is not None and self._row.cards:
            last = len(self._row.cards) - 1
            self._row.cards[min(lost_at, last)].setFocus(Qt.FocusReason.OtherFocusReason)
            self._choose_tab_stop()

    def _listen(self, card: RigCard) -> None:
        """Hear what a card wants of its neighbours."""
        card.walked.connect(lambda step: self._walk(card, step))
        card.dragged.connect(lambda left: self._drag(card, left))
        card.dropped.connect(lambda kept: self._drop(card, kept))

    # Following the session -----------------------------------------------------

    def _plan_changed(self) -> None:
        self._order = None
        self.live.drop()
        self.refresh()
        current = self._session.plan.current_rig
        for card in self._row.cards:
            if card.rig_id == current:
                self.ensureWidgetVisible(card, self._row.gap, 0)

    def _frame_moved(self, framing: Framing | None) -> None:
        self._moving = framing.rig if framing is not None else None
        self.live.ask()

    def _refresh_moving(self) -> None:
        """Bring the card of the moving frame in step, or all when the hand let go."""
        plan = self._session.plan
        width_deg = common_width_deg(plan.rigs, self._session.target)
        for card in self._row.cards:
            if self._moving in (None, card.rig_id):
                card.show_face(face_of(self._session, card.rig_id, width_deg), self._style)
        self._row.arrange()

    def _view_changed(self) -> None:
        """Follow a mirrored view; where the sheet looks is no matter here."""
        mirrored = self._session.plan.view.mirrored
        if mirrored != self._mirrored:
            self._mirrored = mirrored
            self.refresh()

    def _hovered(self, rig_id: str) -> None:
        for card in self._row.cards:
            card.set_lit(card.rig_id == rig_id)

    # Walking and moving --------------------------------------------------------

    def _walk(self, card: RigCard, step: int) -> None:
        """Take the keyboard to another card."""
        cards = self._row.cards
        place = min(len(cards) - 1, max(0, cards.index(card) + step))
        cards[place].setFocus(Qt.FocusReason.OtherFocusReason)
        self.ensureWidgetVisible(cards[place], self._row.gap, 0)
        self._choose_tab_stop()

    def _choose_tab_stop(self) -> None:
        """Let the tab key stop at one card only."""
        cards = self._row.cards
        place = self._focused_place()
        current = self._session.plan.current_rig
        chosen = (card for card in cards if card.rig_id == current)
        first = cards[0] if cards else None
        stop = cards[place] if place is not None else next(chosen, first)
        for card in cards:
            here = card is stop
            card.setFocusPolicy(Qt.FocusPolicy.StrongFocus if here else Qt.FocusPolicy.ClickFocus)

    def _focused_place(self) -> int | None:
        """Tell which card has the keyboard."""
        return next((n for n, card in enumerate(self._row.cards) if card.hasFocus()), None)

    def _drag(self, card: RigCard, left: float) -> None:
        """Carry a card; the others make room."""
        row = self._row
        if self._order is None:
            self._order = [c.rig_id for c in row.cards]
        card.raise_()
        card.move(round(min(max(left, 0.0), row.width() - card.width())), 0)
        middle = card.x() + card.width() / 2.0
        others = [c for c in row.cards if c is not card]
        place = sum(1 for c in others if c.x() + c.width() / 2.0 < middle)
        row.cards = [*others[:place], card, *others[place:]]
        row.arrange(but=card)
        self.ensureVisible(round(middle), 0, card.width() // 2, 0)

    def _drop(self, card: RigCard, kept: bool) -> None:
        """Keep the order the hand made, or put everything back."""
        order, self._order = self._order, None
        if order is None:
            return
        place = self._row.cards.index(card)
        self._row.cards.sort(key=lambda c: order.index(c.rig_id))
        self._row.arrange()
        if kept:
            rig_actions.move_to(self._session, card.rig_id, place)
