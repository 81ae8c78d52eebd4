"""Two parts beside each other where there is room, under each other where there is not."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout, QWidget

__all__ = ["Halves"]

#: Ems of width from which the two stand side by side.
_BESIDE_EMS = 56.0


class Halves(QWidget):
    """Two widgets that share the width, or the height.

    Parameters
    ----------
    first, second : QWidget
        The second keeps to its own height.
    shares : (int, int)
        How the width is shared.
    """

    def __init__(self, first: QWidget, second: QWidget, shares: tuple[int, int]) -> None:
        super().__init__()
        self._scale = 1.0
        self._box = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.addWidget(first, shares[0])
        beside = QVBoxLayout()
        beside.addWidget(second)
        beside.addStretch(1)
        self._box.addLayout(beside, shares[1])

    @property
    def side_by_side(self) -> bool:
        """Tell how the two stand."""
        return self._box.direction() == QBoxLayout.Direction.LeftToRight

    def set_scale(self, scale: float) -> None:
        """Change the text size."""
        self._scale = scale
        self._box.setSpacing(round(16.0 * scale))
        self._turn()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Turn where the room asks for it."""
        super().resizeEvent(event)
        self._turn()

    def _turn(self) -> None:
        beside = self.width() >= _BESIDE_EMS * 12.0 * self._scale
        way = QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom
        if way != self._box.direction():
            self._box.setDirection(way)
