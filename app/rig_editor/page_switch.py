"""The words that bring a page of the bench to the front: one of them pressed, walked by key."""

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QToolButton

__all__ = ["PageButton", "PageSwitch"]

_STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}


class PageButton(QToolButton):
    """A page's title."""

    walked = Signal(int)

    def __init__(self, title: str) -> None:
        super().__init__()
        self.setText(title)
        self.setCheckable(True)
        self.setProperty("page", True)
        self.setAccessibleName(f"Page {title}")
        self.setToolTip("Left and right, or Ctrl with page up and page down")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk to the neighbouring page with the arrows."""
        step = _STEPS.get(Qt.Key(event.key()))
        if step is not None:
            self.walked.emit(step)
        else:
            super().keyPressEvent(event)


class PageSwitch(QObject):
    """The buttons of all pages, of which one is down; the tab key stops at that one."""

    changed = Signal(int)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.buttons: list[PageButton] = []
        self.current = -1

    @property
    def titles(self) -> tuple[str, ...]:
        """The pages' titles in their order."""
        return tuple(button.text() for button in self.buttons)

    def add(self, title: str) -> PageButton:
        """Make the button of one more page; the first page comes to the front."""
        button, place = PageButton(title), len(self.buttons)
        button.clicked.connect(lambda: self.show(place))
        button.walked.connect(lambda step: self.walk(step))
        self.buttons.append(button)
        self.show(max(self.current, 0))
        return button

    def show(self, place: int) -> None:
        """Bring a page to the front."""
        for number, button in enumerate(self.buttons):
            button.setChecked(number == place)
            here = number == place
            focus = Qt.FocusPolicy
            button.setFocusPolicy(focus.StrongFocus if here else focus.ClickFocus)
        if place != self.current:
            self.current = place
            self.changed.emit(place)

    def walk(self, step: int) -> None:
        """Go to a neighbour, taking the keyboard along where it is on the switch."""
        place = self.current + step
        if 0 <= place < len(self.buttons):
            along = any(button.hasFocus() for button in self.buttons)
            self.show(place)
            if along:
                self.buttons[place].setFocus(Qt.FocusReason.TabFocusReason)
